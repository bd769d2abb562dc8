"""The first phase: the least money for sheets, with whatever hand cuts carrying them takes."""
