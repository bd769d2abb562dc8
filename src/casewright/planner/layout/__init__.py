"""Layouts: what is cut from what, in whole units; exact cuts made of them; and what they are worth."""
