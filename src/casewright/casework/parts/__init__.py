"""A part is what the saw sees: a blank with features, each located from a named reference edge."""
