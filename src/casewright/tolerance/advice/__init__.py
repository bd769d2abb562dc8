"""Advice: changes to the way of working, and the measurements worth taking."""
