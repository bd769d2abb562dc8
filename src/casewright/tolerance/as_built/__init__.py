"""The job as built: readings, what they break, what mends it, and whether a case is square."""
