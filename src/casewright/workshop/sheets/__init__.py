"""Sheets: the problems they are planned from, the cuts as work, and what to buy."""
