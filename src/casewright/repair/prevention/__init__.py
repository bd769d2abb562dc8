"""Before the mistake: sizes easily confused, a check at the saw, and what leftovers would cover."""
