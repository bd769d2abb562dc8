"""Sizes: exact lengths, how they are written and read, and how they are rounded to a rule."""

from .lengths import MM, Length, Mark, Shown, Unit, apportion, nearest, parse_length, show

__all__ = ["MM", "Length", "Mark", "Shown", "Unit", "apportion", "nearest", "parse_length", "show"]
