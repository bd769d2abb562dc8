"""Job files: what a maker writes in TOML, read into a `casework.job.Job` and written back."""
