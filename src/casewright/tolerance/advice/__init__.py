"""What would help: other ways of working, and the measurements worth taking."""
