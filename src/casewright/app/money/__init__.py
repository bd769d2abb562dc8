"""Money and hours: a job's costs as plain values, and other ways to build it beside it."""
