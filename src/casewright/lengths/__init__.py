"""Lengths: read as makers write them, kept exact, and printed on the shop's own rule.

Use from outside: `length` (`parse_length`, `show`, `Mark`, `Unit`), `quantities` for calipers, weights and
areas, `rounding` for sizes set on a rule's marks.
"""
