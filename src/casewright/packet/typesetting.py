"""Typesetting: a template of this package and data for it, set in its own typeface, as PDF."""

from __future__ import annotations

import json
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from pathlib import Path

import typst

TEMPLATES = Path(str(files("casewright.packet") / "templates"))


@cache
def _compiler() -> typst.Compiler:
    """Fonts are read once: the typeface the packet is set in, and none of this machine's own."""
    typeface = Path(str(files("font_source_sans_pro") / "files"))
    fonts = typst.Fonts(font_paths=[typeface], include_system_fonts=False)
    return typst.Compiler(root=TEMPLATES, font_paths=fonts)


def typeset(template: str, data: Mapping[str, object]) -> bytes:
    """The template (a file name in `templates`) set with `data`, which must be plain JSON values.

    No date goes into the file: the same data give the same bytes.
    """
    set_ = _compiler().compile(
        input=TEMPLATES / template,
        format="pdf",
        sys_inputs={"data": json.dumps(data, ensure_ascii=False)},
        timestamp=0,
        pdf_tags=False,
    )
    assert isinstance(set_, bytes)
    return set_
