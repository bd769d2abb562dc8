"""Numbers on the command line; a wrong one is refused in one sentence."""

from __future__ import annotations

import argparse


def seconds(text: str) -> float:
    """A time in seconds, from zero to one day."""
    try:
        value = float(text)
    except ValueError:
        value = -1.0
    if not 0 <= value <= 86_400:
        raise argparse.ArgumentTypeError(f"{text!r} is not a number of seconds from 0 to 86400")
    return value


def count(text: str) -> int:
    """A whole number from 1 to 64."""
    if not (text.isascii() and text.isdigit() and len(text) < 3 and 1 <= int(text) <= 64):
        raise argparse.ArgumentTypeError(f"{text!r} is not a whole number from 1 to 64")
    return int(text)


def seed(text: str) -> int:
    """A whole number from zero up."""
    if not (text.isascii() and text.isdigit() and len(text) < 10):
        raise argparse.ArgumentTypeError(f"{text!r} is not a whole number from 0 to 999999999")
    return int(text)


def percentage(text: str) -> float:
    """A percentage greater than 0 and less than 100, as a fraction of one."""
    try:
        value = float(text.removesuffix("%")) / 100
    except ValueError:
        value = 0.0
    if not 0.0 < value < 1.0:
        raise argparse.ArgumentTypeError(
            f"{text!r} is not a chance; enter a percentage greater than 0 and less than 100, such as 1"
        )
    return value
