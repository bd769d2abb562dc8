"""Rows of holes: with a jig and its spacers, or from a story stick."""
