"""The recommended weight limit for a lift, by the revised NIOSH lifting equation.

T. R. Waters, V. Putz-Anderson and A. Garg, "Applications Manual for the Revised NIOSH Lifting
Equation", DHHS (NIOSH) Publication 94-110 (1994, revised 2021), section 1.3; inches and pounds.
"""

from __future__ import annotations

from dataclasses import dataclass

LOAD_CONSTANT = 51.0


@dataclass(frozen=True, slots=True)
class Lift:
    """How something is lifted, for a few lifts an hour.

    `out` is how far the hands are in front of the ankles, `height` how high they are at the start,
    `travel` how far it goes up or down (inches), `turn` how far the body twists (degrees).
    `good_grip` is False for sheet goods, which have no handles.
    """

    out: float = 15.0
    height: float = 30.0
    travel: float = 15.0
    turn: float = 0.0
    good_grip: bool = False


def weight_limit(lift: Lift) -> float:
    """The recommended weight limit in pounds; nothing for a lift out of reach."""
    if lift.out > 25 or not 0 <= lift.height <= 70 or lift.travel > 70 or lift.turn > 135:
        return 0.0
    horizontal = 10 / max(lift.out, 10.0)
    vertical = 1 - 0.0075 * abs(lift.height - 30)
    distance = 0.82 + 1.8 / max(lift.travel, 10.0)
    asymmetry = 1 - 0.0032 * lift.turn
    # Coupling: fair is 0.95 below 30 in and 1 above (the table's values from memory).
    coupling = 1.0 if lift.good_grip or lift.height >= 30 else 0.95
    return LOAD_CONSTANT * horizontal * vertical * distance * asymmetry * coupling
