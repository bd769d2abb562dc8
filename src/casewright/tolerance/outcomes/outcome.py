"""What happens when joints are put together dry: the five shares that every answer is told in."""

from __future__ import annotations

from dataclasses import dataclass, fields


@dataclass(frozen=True, slots=True)
class Outcome:
    """Chances, or shares of many builds. `by_hand`, `clamp`, `ease` and `recut` make one together: goes
    together by hand; with a clamp or mallet; an end is to be eased or trimmed; a part is to be cut again.
    `shown` is the chance that a gap or step shows that the grade does not allow, however it went together.
    """

    by_hand: float
    clamp: float
    shown: float
    ease: float
    recut: float


def mean_outcome(outcomes: list[Outcome]) -> Outcome:
    """The shares over several cases; all by hand where there is none."""
    if not outcomes:
        return Outcome(1.0, 0.0, 0.0, 0.0, 0.0)
    names = [one.name for one in fields(Outcome)]
    return Outcome(**{name: sum(getattr(one, name) for one in outcomes) / len(outcomes) for name in names})
