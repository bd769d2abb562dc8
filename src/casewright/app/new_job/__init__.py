"""A new job: from an opening, from a form, or from a finished example."""
