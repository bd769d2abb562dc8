"""Jobs read, drawn up, checked, and kept in the shop's file."""
