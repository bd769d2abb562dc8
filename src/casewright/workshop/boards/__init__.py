"""Solid wood at the bench: what to cut from boards, the steps from rough board to part, and what to buy."""
