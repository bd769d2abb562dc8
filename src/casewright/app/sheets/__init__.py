"""Sheet plans of a job, and what the pages show of them."""
