"""The gaps of a job as chains over the sizes made in the shop, and the range each may lie in."""
