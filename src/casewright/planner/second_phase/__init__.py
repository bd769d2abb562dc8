"""The second phase: for no more money, a plan with better leftovers and fewer settings, cuts and turns."""
