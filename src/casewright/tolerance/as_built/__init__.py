"""The job as built: readings, gaps they put out of range and their cures, and whether a case is square."""
