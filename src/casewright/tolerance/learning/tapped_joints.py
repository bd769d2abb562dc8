"""Which joint of a job each tap at the dry fit is of, however the joint was called when it was tapped.

A tap names its joint by the gap's key, which hangs on no words. Older records hold the name that a maker read
then; names change, and a tap must not be lost with them.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from ..outcomes.gap_spread import Fit, GapSpread

FORMERLY = {
    "on the floor of the dado in": "home in",
    "on the floor of the groove in": "home in",
    "on the floor of the rabbet in": "home in",
    "against the wall of the dado in": "on its wall in",
    "against the wall of the groove in": "on its wall in",
    "against the front wall of the groove in": "against the front wall in",
    "before the rear wall of the groove in": "before the rear wall in",
}
"""What joints are called, and what they were called while records named them by their words. A name that is
changed once more is written here anew, never taken out: a test holds the names of an old record."""


@dataclass(frozen=True)
class TappedJoints:
    """How each joint went, by its gap's name, the last tap of a joint; `gone` are taps of no joint of this
    job."""

    how: Mapping[str, str]
    gone: tuple[str, ...]


def tapped_joints(fit: Fit, taps: Mapping[str, str]) -> TappedJoints:
    """The joints of `fit` that were tapped. `taps` are as the record holds them, the last one last."""
    known = {called: name for name, spread in fit.spreads.items() for called in _called(spread)}
    how: dict[str, str] = {}
    gone: list[str] = []
    for joint, went in taps.items():
        if joint in known:
            how[known[joint]] = went
        else:
            gone.append(joint)
    return TappedJoints(how, tuple(gone))


def _called(spread: GapSpread) -> Iterator[str]:
    """All that a record may call a joint by."""
    yield spread.gap.key
    yield spread.gap.name
    for now, formerly in FORMERLY.items():
        if f" {now} " in spread.gap.name:
            yield spread.gap.name.replace(f" {now} ", f" {formerly} ")
