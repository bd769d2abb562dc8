"""The sheet planner: rectangles, stock, kerf, trim and grain, and nothing of cabinets.

In front, for everyone: `problem`, `plan`, `solve`, `verify.verify`, and the JSON forms `problem_json` and
`answer_json`. Behind: `first_phase` finds the fewest sheets, `second_phase` better plans of the same sheets,
`layout` is what both work on, `engine` the rectangle solver.
"""
