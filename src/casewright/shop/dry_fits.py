"""How a shop's dry fits went beside what was predicted of them: what its predictions are set right by."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class DryFitTally:
    """The joints of one kind that were tried dry: how many were predicted to go together by hand, with a
    clamp, after easing, and not without a part cut again; and how many did, in the same order.

    `worth` is how many joints, each cut on settings and sheets of its own, would tell as much.
    """

    predicted: tuple[float, float, float, float]
    happened: tuple[int, int, int, int]
    worth: float

    @property
    def joints(self) -> int:
        """How many were tried."""
        return sum(self.happened)


@dataclass(frozen=True)
class DryFits:
    """A shop's tallies: of panels in their own dado, of ends against what they stop at, of parts that a
    second joint holds, and of backs in their channels; None where none was written down."""

    dado: DryFitTally | None = None
    end: DryFitTally | None = None
    second_joint: DryFitTally | None = None
    back: DryFitTally | None = None


NO_DRY_FITS = DryFits()
