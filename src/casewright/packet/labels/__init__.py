"""Labels: one for each part, on paper or on a roll."""
