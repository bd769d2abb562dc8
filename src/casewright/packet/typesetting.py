"""Typesetting: a template of this package, filled with data, as PDF."""

from __future__ import annotations

import json
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from pathlib import Path

import typst

from ..errors import LibraryError, library_call

TEMPLATES = Path(str(files("casewright.packet") / "templates"))


@cache
def _fonts() -> typst.Fonts:
    """The packet's typeface, read once. No font of the system is used."""
    typeface = Path(str(files("font_source_sans_pro") / "files"))
    return typst.Fonts(font_paths=[typeface], include_system_fonts=False)


def typeset(template: str, data: Mapping[str, object]) -> bytes:
    """The template (a file name in `templates`) filled with `data`, plain JSON values, as PDF.

    The file has no date in it, so the same data give the same bytes. Raises LibraryError when the
    typesetter fails.
    """
    task = f"typesetting {template}"
    with library_call("Typst", task):
        # Each document gets its own compiler, since a busy one refuses a second thread. With the fonts
        # already read that costs 0.4 ms, against 270 ms for a packet of forty pages.
        compiler = typst.Compiler(root=TEMPLATES, font_paths=_fonts())
        document = compiler.compile(
            input=TEMPLATES / template,
            format="pdf",
            sys_inputs={"data": json.dumps(data, ensure_ascii=False)},
            timestamp=0,
            pdf_tags=False,
        )
    if not isinstance(document, bytes):
        raise LibraryError("Typst", task, f"it returned {type(document).__name__}, not one file")
    return document
