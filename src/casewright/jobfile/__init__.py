"""Job files: what a maker writes in TOML, read into a `casework.job.Job` and written back.

Use from outside: `read.read_job`, `write.write_job`, and `job_schema` for the published schema.
"""
