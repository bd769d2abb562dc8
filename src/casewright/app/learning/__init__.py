"""What the shop's readings and dry fits teach of it, as pages and commands print it."""
