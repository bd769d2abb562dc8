"""What is cut into parts: one file a kind of feature, and what each of them says of itself."""
