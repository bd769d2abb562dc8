"""Changing a job: edits of its text, forms drawn from its schema, cases added and moved."""
