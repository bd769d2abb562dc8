"""An edge of a part that is covered with edging."""

from __future__ import annotations

from dataclasses import dataclass

from ...shop.edging import PutOn
from ...sizes.affine import Affine
from ..directions import Way


@dataclass(frozen=True, slots=True)
class CoveredEdge:
    """The side of a part that faces `way`, covered with the job's edging of that key.

    `taken_off` is what the panel is cut short by for it: the thickness of the strip, or nothing. Put on after
    the glue-up, the strip goes over the bare front of the case, and the case is built that much shallower;
    otherwise it is part of the wood from before its joints are cut.
    """

    way: Way
    edging: str
    taken_off: Affine
    put_on: PutOn

    @property
    def first(self) -> bool:
        """Whether the strip is on before anything is cut into the part."""
        return self.put_on is PutOn.BEFORE_JOINTS
