"""Where errors come from, and how each made size comes out in one way of working."""
