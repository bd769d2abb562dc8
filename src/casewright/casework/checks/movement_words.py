"""What findings say of solid wood that moves."""

from __future__ import annotations

from fractions import Fraction
from math import ceil

from ..job import Job
from ..movement import Movement, climate_text, movement_text, moves_words
from ..parts.part import Part
from .pin_checks import printed_length


def told_movement(job: Job, moves: Movement) -> str:
    """How much something shrinks and swells, and from what moisture to what."""
    shrinks, swells = (movement_text(job, one) for one in (moves.shrinks, moves.swells))
    return f"That {moves_words(shrinks, swells)} ({climate_text(job.climate)})."


def at_least(job: Job, length: Fraction) -> str:
    """The length on the first of the rule's marks that is not below it."""
    return printed_length(job, ceil(length / job.mark.step) * job.mark.step)


def name_of_wood(job: Job, part: Part) -> str:
    """The wood of a part that is of solid wood."""
    wood = job.sheets[part.material].wood
    assert wood is not None
    return wood.name
