"""A job whose doors have solid panels, too wide for any board: they are glued up from strips."""

PARLOR = """
job = "Parlor"
unit = "in"
money = "$"

[materials.ply]
sheet = "hardwood ply 3/4"
price = 82

[materials.maple]
name = "hard maple"
usual = "3/4"

[materials.maple.boards]
rough = "4/4"
price = 9.5
size = [120, 7]

[materials.panel]
name = "hard maple, panels"
usual = "1/4"
wood = "hard maple"

[materials.panel.boards]
rough = "4/4"
price = 9.5
size = [120, 7]

[made_of]
case = "ply"
back = "ply"
front = "maple"
panel = "panel"

[construction]
door = "frame and panel"

[[runs]]
name = "wall"
opening = 60

[[runs.cases]]
mark = "B1"
kind = "base"
width = 18

[[runs.cases.bays]]
fronts = [{ kind = "door" }]

[[runs.cases]]
mark = "B2"
kind = "base"

[[runs.cases.bays]]
fronts = [{ kind = "two doors" }]
"""
