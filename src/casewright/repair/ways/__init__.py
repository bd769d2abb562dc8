"""The ways of finishing after a mishap, a kind a file."""
