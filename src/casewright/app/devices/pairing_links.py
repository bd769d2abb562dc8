"""The address that pairs a device, as a square code on the page and in the terminal."""

from __future__ import annotations

from ...packet.labels.square_code import code_svg, code_text


def code_for_page(address: str) -> str:
    """The code as SVG."""
    return code_svg(address).decode("utf-8")


def code_for_terminal(address: str) -> str:
    """The code as lines of text."""
    return code_text(address)
