"""The judge of plans. It reads only the problem and the plan, and shares no code with the solvers."""
