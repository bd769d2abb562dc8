"""Is the program's first way the one that the catalogue gives?"""

from __future__ import annotations

from dataclasses import dataclass

from repair.catalogue.mishap import Cure, Mishap


@dataclass(frozen=True)
class Answer:
    """What the program said: the cures it offers, best first (None for one that the catalogue has no word
    for), whether its first buys something, and the seconds of processor time until the first way was known
    and until all were."""

    cures: tuple[Cure | None, ...] = ()
    first_buys: bool = False
    first: float = 0.0
    every: float = 0.0


def verdict(mishap: Mishap, answer: Answer) -> str:
    """`first` where the first way is the catalogue's, `accepted` where it is one of the second answers."""
    if not answer.cures:
        return "no way"
    if answer.cures[0] is mishap.answer:
        return "first"
    return "accepted" if answer.cures[0] in mishap.acceptable else "no"


def bought_needlessly(mishap: Mishap, answer: Answer) -> bool:
    """Whether the first way spends money where none is needed."""
    return answer.first_buys and not mishap.buys
