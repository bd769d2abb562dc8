"""Cases that cannot be built, refused by name, before and after they are drawn up."""
