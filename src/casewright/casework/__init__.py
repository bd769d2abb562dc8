"""Openings, cases, joints, parts and features: from a job as decided to parts as cut.

Use from outside: `job` (what the maker decides), `project.draw_up` (what follows from it),
`parts`, `build.meetings` for how parts meet, and `movement` for how solid wood moves.
"""
