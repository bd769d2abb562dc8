"""What is said of hanging wherever it is said: cautions, the order of the work, what figures hold for.

All of it is common practice without a source where none is named.
"""

from __future__ import annotations

WIRES = (
    "Look for wires and pipes before you drill or screw into a wall: they run up studs and along them, "
    "above and below every switch, socket and tap. Switch the circuit off."
)
HELD_UP = (
    "A case is lifted and held by two people, or on a prop or a cabinet lift, until it has a screw in "
    "two studs. Nobody stands under it."
)
RULES = (
    "Local building rules and people licensed for building, wiring and plumbing come before this page. "
    "Where a stud, a strip or the wall is in doubt, fasten nothing and ask."
)
FIGURES = (
    "The figures for screws say which published values are met and under which assumptions, and no more."
)
CAUTIONS = (WIRES, HELD_UP, RULES, FIGURES)
"""What can hurt somebody, once, where the work begins."""

CAUTIONS_STANDING = (WIRES, RULES)
"""The same where no case hangs and some are fixed to the wall."""

METHOD = (
    "On a wall of wood studs: find both edges of each stud with a fine nail where a strip will cover the "
    "holes, and mark its middle above and below the cases. The figures here are worth no more than the "
    "studs that are found.",
    "Strike the level line all along the wall, with a laser or a long level, not from the floor at each end.",
    "Screw a straight ledger, 1 by 3 or so, to the studs with its upper edge on the line. It takes the "
    "weight while the cases are screwed, and comes off at the end.",
    "Take out doors, drawers and loose shelves. Mark the places for screws on each strip, from the "
    "case’s own left side, and drill the clearance holes before you lift.",
    "With the case on the ledger put a screw through the highest strip into each of two studs, not yet "
    "tight. Plumb its side and its front, slip shims behind the strips beside the screws, then drive "
    "the rest. A strip that is drawn into a hollow twists its case.",
    "Clamp each case to the one before, front edges flush and lower edges in line, before its screws "
    "are tight. Then join the two, with two screws near the front and two near the back, drilled first.",
    "When all are screwed and joined, check the level line once more. Take the ledger off, scribe and "
    "fit the fillers, hang the doors, load last.",
)
"""How hanging goes, a sentence or two for each step."""

NOT_READ = (
    "With the cases level and fixed, measure the gap to the wall at the top, middle and bottom of {}, "
    "scribe, cut close and plane to the line. Entered at the run (left_gaps, right_gaps), the readings give "
    "the cut line here."
)
"""What is said of fillers whose wall nobody has read."""
