"""Which edges of a part are covered with edging, and when."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields

from ...shop.edging import Edging, PutOn
from ...sizes.affine import NOTHING, Affine
from ..directions import Way
from ..job import Edged, EdgesOf, Job
from ..parts.covered_edge import CoveredEdge
from ..parts.part import SLABS, Role
from ..size_names import EdgingSizes

CASE_FRONTS = frozenset(
    {Role.LEFT_SIDE, Role.RIGHT_SIDE, Role.BOTTOM, Role.TOP, Role.FRONT_STRETCHER, Role.DIVIDER}
)
SHELVES = frozenset({Role.FIXED_SHELF, Role.ADJUSTABLE_SHELF})
WAYS = {
    "front": Way.FRONT,
    "back": Way.BACK,
    "left": Way.LEFT,
    "right": Way.RIGHT,
    "lower": Way.DOWN,
    "upper": Way.UP,
}
"""The edges of a part as a job file names them."""

EDGE_NAMES = {way: name for name, way in WAYS.items()}


@dataclass(frozen=True)
class EdgingChoice:
    """The edging that a job knows, and the parts that choose for themselves."""

    known: Mapping[str, Edging]
    single: Mapping[str, EdgesOf]

    @classmethod
    def of(cls, job: Job) -> EdgingChoice:
        return cls(job.edging, job.edging_of)

    def front_strip(self, edged: Edged) -> Affine:
        """What is glued over the bare front of a case after it is put together; nothing if none is."""
        key = edged.case
        if key is None or self.known[key].put_on is not PutOn.AFTER_GLUE_UP:
            return NOTHING
        return self._taken_off(key)

    def edges(self, edged: Edged, mark: str, role: Role) -> tuple[CoveredEdge, ...]:
        """The edged edges of a part: those of its kind, or its own."""
        return tuple(
            CoveredEdge(way, key, self._taken_off(key), self._when(edged, key, way, role))
            for way, key in self._chosen(edged, mark, role)
        )

    def _chosen(self, edged: Edged, mark: str, role: Role) -> Iterator[tuple[Way, str]]:
        if own := self.single.get(mark):
            for entry in fields(own):
                if key := getattr(own, entry.name):
                    yield WAYS[entry.name], key
        elif role in CASE_FRONTS and edged.case:
            yield Way.FRONT, edged.case
        elif role in SHELVES and edged.shelf:
            yield Way.FRONT, edged.shelf
        elif role in SLABS and edged.front:
            yield from dict.fromkeys((Way.LEFT, Way.RIGHT, Way.DOWN, Way.UP), edged.front).items()

    def _when(self, edged: Edged, key: str, way: Way, role: Role) -> PutOn:
        """A strip goes over the front of a finished case only with that of the case itself."""
        covers_the_case = way is Way.FRONT and key == edged.case and role is not Role.ADJUSTABLE_SHELF
        return self.known[key].put_on if covers_the_case else PutOn.BEFORE_JOINTS

    def _taken_off(self, key: str) -> Affine:
        return EdgingSizes(key).thickness if self.known[key].taken_off else NOTHING
