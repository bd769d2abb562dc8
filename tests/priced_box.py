"""An open box of four panels with prices, small enough to reckon by hand: inches and dollars."""

from __future__ import annotations

BOX = """\
job = "Box"
unit = "in"
money = "$"

[materials.ply]
sheet = "hardwood ply 3/4"
readings = [0.75]
price = 96

[made_of]
case = "ply"
back = "ply"

[construction]
bottom = "butt"
back = "none"
toe = "none"
strips = 0

[shop]
hourly = 50

[[runs]]
name = "shelf"
opening = 24

[[runs.cases]]
mark = "O1"
kind = "open"
width = 24
height = 24
depth = 12
"""

PRICES = """
[costs]
screw = 0.1
markup = 50
other_hours = 1.5

[costs.glue]
price = 10
covers = "1 ft2"

[costs.finish]
price = 20
covers = "10 ft2"
coats = 3
per_hour = "20 ft2"

[costs.blade]
price = 30
lasts = "100 ft"

[costs.dado_stack]
price = 50
lasts = "100 ft"
"""
