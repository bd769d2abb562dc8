"""The sheet planner: rectangles, stock, kerf, trim and grain, but nothing of cabinets.

For use from outside: `problem`, `plan`, `solve`, `parameters`, `plan_wording`, `verify.verify`, and the JSON
forms `problem_json` and `answer_json`. Behind them: `first_phase` finds the fewest sheets, `second_phase`
better plans of the same sheets, `layout` is what both work on, `engine` the rectangle solver.
"""
