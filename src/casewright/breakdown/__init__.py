"""Breaking sheets down into parts: rectangles, stock, kerf, trim and grain, and nothing of cabinets.

`solve.solve` is the one door in, `plan.Plan` what comes out, `verify.verify` the judge that
shares no code with the planner.
"""
