"""Lengths: read as makers write them, kept exact, and printed to the marks of the shop's rule.

Use from outside: `length` (`parse_length`, `show`, `Mark`, `Unit`), `quantities` for calipers, weights and
areas, `rounding` for rounding sizes to the marks of a rule.
"""
