"""Lifts that every shop does, as the lifting equation sees them: a sheet on edge, and one off trestles."""

from __future__ import annotations

from fractions import Fraction

from .lift_limit import HandLift, LiftLimit, limit_of_lift

SHEET_ON_EDGE = HandLift(out=Fraction(10), high=Fraction(15))
"""A sheet that stands on edge on the floor, held close: one hand under its lower edge, one at its upper, so
that the hands are on the mean 15 in above the floor. Common practice, no source."""

SHEET_OFF_TRESTLES = HandLift(out=Fraction(15), high=Fraction(30))
"""A sheet that lies on trestles, held in front of the body. Common practice, no source."""

RAISED = Fraction(15)
"""Inches by which either goes up or down."""


def limit_on_edge() -> LiftLimit:
    """What the equation recommends for raising a sheet on edge off the floor, pounds."""
    return limit_of_lift(SHEET_ON_EDGE, RAISED)


def limit_off_trestles() -> LiftLimit:
    """What it recommends for setting a sheet down from trestles, pounds."""
    return limit_of_lift(SHEET_OFF_TRESTLES, -RAISED)
