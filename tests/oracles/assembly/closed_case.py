"""What a maker spends on closing a case, and how builds of it went together."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from .made_parts import Builds


@dataclass(frozen=True, slots=True)
class Effort:
    """The most force at each joint, in pounds: of a pull, and of an end that is too long for its place.

    `hair` is how far a placing joint may stay open; `draws` pulls short ends home too.
    """

    force: float
    hair: float
    draws: bool = False


@dataclass(frozen=True)
class Closed:
    """How builds of a case went together. A row a build.

    `unplaced` is by how much the worst of the placing joints stays open beyond a hair; `gap` the opening at
    each end, `push` and `pull` the pounds there, by bar and the side it is on; `lean` how far a bar's ends
    are out of line; `ends` how far each end has moved across its bar, in inches from nominal.
    """

    values: NDArray[np.float64]
    unplaced: Builds
    gap: Mapping[tuple[str, int], Builds]
    lean: Mapping[str, Builds]
    push: Mapping[tuple[str, int], Builds]
    pull: Mapping[tuple[str, int], Builds]
    ends: Mapping[tuple[str, int], Builds]

    def with_others(self, builds: NDArray[np.intp], other: Closed) -> Closed:
        """The same with these builds as another effort left them."""
        return Closed(
            _put(self.values, builds, other.values),
            _put(self.unplaced, builds, other.unplaced),
            {end: _put(gap, builds, other.gap[end]) for end, gap in self.gap.items()},
            {bar: _put(lean, builds, other.lean[bar]) for bar, lean in self.lean.items()},
            {end: _put(push, builds, other.push[end]) for end, push in self.push.items()},
            {end: _put(pull, builds, other.pull[end]) for end, pull in self.pull.items()},
            {end: _put(moved, builds, other.ends[end]) for end, moved in self.ends.items()},
        )


def _put(
    all_of_it: NDArray[np.float64], builds: NDArray[np.intp], new: NDArray[np.float64]
) -> NDArray[np.float64]:
    found = all_of_it.copy()
    found[builds] = new
    return found
