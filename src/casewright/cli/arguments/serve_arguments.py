"""The arguments of `casewright serve [FILE]`."""

from __future__ import annotations

import argparse

from ...web.address import PORT

FILE = "shop.casewright"

EXAMPLE = f"""\
for example:
  casewright serve                        the jobs kept in {FILE}, here, in your browser
  casewright serve barn.casewright --no-browser
  casewright serve --network              also for the phones and tablets that you pair with it
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "file", nargs="?", default=FILE, help=f"the file that holds the jobs, created if missing ({FILE})"
    )
    add_address(parser)


def add_address(parser: argparse.ArgumentParser) -> None:
    """Where the pages are to be found, and whether to open them."""
    parser.add_argument(
        "--network",
        action="store_true",
        help="also serve phones and tablets on the shop's network, once each is paired (this machine only)",
    )
    parser.add_argument("--port", type=_port, default=PORT, metavar="N", help=f"the port ({PORT})")
    parser.add_argument("--no-browser", action="store_true", help="do not open the browser")


def _port(text: str) -> int:
    if not (text.isascii() and text.isdigit() and len(text) < 6 and int(text) < 65536):
        raise argparse.ArgumentTypeError(f"{text!r} is not a port; enter a number from 0 to 65535")
    return int(text)
