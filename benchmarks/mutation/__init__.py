"""Faults planted one at a time, and the tests that should notice them."""
