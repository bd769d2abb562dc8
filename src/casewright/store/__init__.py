"""The one file that keeps the work: every job, every revision of it, every event of the shop."""
