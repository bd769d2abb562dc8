"""What changed between two texts of a job."""
