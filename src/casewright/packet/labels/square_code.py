"""The square code on a label, as a small SVG. It holds the address at which the part is found."""

from __future__ import annotations

from xml.etree import ElementTree as ET

import segno

from ...errors import library_call

QUIET = 2
"""Modules of white round the code; the label's own paper adds to it."""


def code_svg(content: str) -> bytes:
    """`content` as a QR code (ISO/IEC 18004) that bears a dusty corner: error correction level M.

    Raises LibraryError for more than a code holds (2,331 bytes).
    """
    with library_call("segno", "drawing the square code of a label"):
        code = segno.make(content, error="m", micro=False, boost_error=False)
        modules = [list(row) for row in code.matrix_iter(scale=1, border=QUIET)]
    side = str(len(modules))
    root = ET.Element("svg", {"xmlns": "http://www.w3.org/2000/svg", "viewBox": f"0 0 {side} {side}"})
    path = "".join(
        f"M{x} {y}h{length}v1h-{length}z"
        for y, row in enumerate(modules)
        for x, length in _dark_stretches(row)
    )
    ET.SubElement(root, "path", {"d": path, "shape-rendering": "crispEdges"})
    return ET.tostring(root)


def _dark_stretches(row: list[int]) -> list[tuple[int, int]]:
    """Where the dark modules of a row begin and how many lie together."""
    found: list[tuple[int, int]] = []
    for x, dark in enumerate(row):
        if not dark:
            continue
        if found and sum(found[-1]) == x:
            found[-1] = (found[-1][0], found[-1][1] + 1)
        else:
            found.append((x, 1))
    return found
