"""Layouts: how parts lie together, from integers on a grid to exact cuts, and what they are worth."""
