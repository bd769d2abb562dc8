"""The gaps of a job as chains over the sizes that somebody makes, and how big each may come out."""
