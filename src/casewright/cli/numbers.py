"""Numbers on the command line, refused in one sentence."""

from __future__ import annotations

import argparse


def seconds(text: str) -> float:
    """From nothing to a day."""
    try:
        value = float(text)
    except ValueError:
        value = -1.0
    if not 0 <= value <= 86_400:
        raise argparse.ArgumentTypeError(f"{text!r} is no number of seconds from 0 to 86400")
    return value


def count(text: str) -> int:
    """From 1 to 64."""
    if not (text.isascii() and text.isdigit() and len(text) < 3 and 1 <= int(text) <= 64):
        raise argparse.ArgumentTypeError(f"{text!r} is no whole number from 1 to 64")
    return int(text)
