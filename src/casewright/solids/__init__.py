"""Parts and joints as solids of a geometry kernel: whether they fit, and files that show them."""
