"""Lifts that every shop does, as the lifting equation sees them: sheets, their pieces, cases.

How each is held is common practice, no source.
"""

from __future__ import annotations

from fractions import Fraction

from .lift_limit import Grip, HandLift, LiftLimit, hands_out, limit_of_lift

SHEET_ON_EDGE = HandLift(out=Fraction(10), high=Fraction(15))
"""A sheet that stands on edge on the floor, held close: one hand under its lower edge, one at its upper, so
that the hands are on the mean 15 in above the floor."""

SHEET_OFF_TRESTLES = HandLift(out=Fraction(15), high=Fraction(30))
"""A sheet that lies flat on trestles, held in front of the body."""

PIECE_ON_EDGE = HandLift(out=Fraction(10), high=Fraction(30), grip=Grip.FAIR)
"""A piece tipped on edge on trestles about as high as the saw's table, held close, the fingers round its
edge: it is neither raised nor lowered by more than 10 in."""

CASE_HANDS, CASE_RAISED = Fraction(18), Fraction(6)
"""Inches above the floor, on the mean, of one hand under a case's lower edge and one at its upper, and how
far they raise it to walk with it."""

BENCH = Fraction(30)
"""Inches above the floor at which the hands take up a case that is hung, from a bench or trestles: the height
at which the lifting equation allows most."""

RAISED = Fraction(15)
"""Inches by which a sheet goes up or down."""


def limit_on_edge() -> LiftLimit:
    """What the equation recommends for raising a sheet on edge off the floor, pounds."""
    return limit_of_lift(SHEET_ON_EDGE, RAISED)


def limit_off_trestles() -> LiftLimit:
    """What it recommends for setting a sheet down from trestles, pounds."""
    return limit_of_lift(SHEET_OFF_TRESTLES, -RAISED)


def limit_of_piece() -> LiftLimit:
    """What it recommends for a piece that goes from the trestles to the table saw, pounds."""
    return limit_of_lift(PIECE_ON_EDGE, Fraction(0))


def limit_of_standing_case(narrow: Fraction) -> LiftLimit:
    """What it recommends for carrying a case to its place on the floor, pounds: for one with the arms round
    its narrower way, `narrow` inches, for two with one at each end, close to it."""

    def lift(out: Fraction) -> LiftLimit:
        return limit_of_lift(HandLift(out, CASE_HANDS, Grip.FAIR), CASE_RAISED)

    return LiftLimit(lift(hands_out(narrow, CASE_HANDS)).one, lift(Fraction(10)).two)


def limit_of_hung_case(deep: Fraction, low: Fraction) -> LiftLimit:
    """What it recommends for raising a case so deep from a bench to `low` inches above the floor, its lower
    edge in the hands of those who stand before it, pounds."""
    lift = HandLift(hands_out(deep, BENCH), BENCH, Grip.FAIR)
    return limit_of_lift(lift, low - BENCH)
