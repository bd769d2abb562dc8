"""Cautions for each step, and how much one person should lift."""
