"""A part is spoiled: what the maker says, the ways to finish, the one chosen."""
