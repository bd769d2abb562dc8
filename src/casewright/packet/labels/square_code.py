"""QR codes: on a label, where it holds the address of the part's page, and to pair a phone."""

from __future__ import annotations

from functools import lru_cache
from io import BytesIO, StringIO

import segno

from ...errors import library_call

QUIET = 2
"""White modules around the code; the label's own margin adds to them."""


@lru_cache(maxsize=2048)
def code_svg(content: str) -> bytes:
    """`content` as a QR code (ISO/IEC 18004), readable with a dusty corner: error correction level M.

    Raises LibraryError for more than a code holds (2,331 bytes).
    """
    svg = BytesIO()
    with library_call("segno", "drawing the QR code of a label"):
        code = segno.make(content, error="m", micro=False, boost_error=False)
        code.save(svg, kind="svg", border=QUIET, xmldecl=False, omitsize=True, svgclass=None, lineclass=None)
    return svg.getvalue()


def code_text(content: str) -> str:
    """The same as lines of half blocks, to be read off a terminal, dark or light."""
    text = StringIO()
    with library_call("segno", "writing a QR code into the terminal"):
        segno.make(content, error="m", micro=False).terminal(text, border=QUIET, compact=True)
    return text.getvalue().rstrip("\n")
