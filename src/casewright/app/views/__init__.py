"""What the pages show of a project: sizes, parts, cases, pictures, the model."""
