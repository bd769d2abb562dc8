"""The first phase: the least money for sheets, allowing for the hand cuts it takes to carry them."""
