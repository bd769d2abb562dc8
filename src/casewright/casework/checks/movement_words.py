"""What findings say of solid wood that moves."""

from __future__ import annotations

from ..job import Job
from ..movement import Movement, climate_text, movement_text, moves_words
from ..parts.part import Part


def told_movement(job: Job, moves: Movement) -> str:
    """How much something shrinks and swells, and from what moisture to what."""
    shrinks, swells = (movement_text(job, one) for one in (moves.shrinks, moves.swells))
    return f"That {moves_words(shrinks, swells)} ({climate_text(job.climate)})."


def name_of_wood(job: Job, part: Part) -> str:
    """The wood of a part that is of solid wood."""
    wood = job.sheets[part.material].wood
    assert wood is not None
    return wood.name
