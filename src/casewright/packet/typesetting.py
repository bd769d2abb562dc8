"""Typesetting: a template of this package and data for it, set in its own typeface, as PDF."""

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
    """Read once: the typeface the packet is set in, and none of this machine's own."""
    typeface = Path(str(files("font_source_sans_pro") / "files"))
    return typst.Fonts(font_paths=[typeface], include_system_fonts=False)


def typeset(template: str, data: Mapping[str, object]) -> bytes:
    """The template (a file name in `templates`) set with `data`, which must be plain JSON values.

    No date goes into the file: the same data give the same bytes. Raises LibraryError when the
    typesetter fails.
    """
    task = f"typesetting {template}"
    with library_call("Typst", task):
        # A compiler of its own for each document, since one refuses a second thread while it is busy.
        # On fonts already read it costs 0.4 ms, and a packet of forty pages 270 ms.
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


def query_value(template: str, data: Mapping[str, object], label: str) -> object:
    """The one value that the template, set with `data`, has put under `label`: a measure, say.

    Raises LibraryError when the typesetter fails.
    """
    with library_call("Typst", f"measuring {template}"):
        told = typst.query(
            TEMPLATES / template,
            f"<{label}>",
            field="value",
            one=True,
            root=TEMPLATES,
            font_paths=_fonts(),
            sys_inputs={"data": json.dumps(data, ensure_ascii=False)},
        )
    return json.loads(told)
