"""A part is spoiled: what can be done with what is there, and what each way costs.

Use from outside: `find_ways.ways`, `facts`, `recorded_facts`, `way_wording`, `plans_after`, and `prevention`.
"""
