"""What happened in the shop: an append-only list of events, and the state that follows from it."""
