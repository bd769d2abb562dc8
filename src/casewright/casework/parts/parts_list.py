"""The parts list: parts that are cut alike on one line."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ..project import Project
from .part import Part, Role

# Parts that differ in hand or place but are cut to one size are one line of the list.
_ALIKE = {
    Role.LEFT_SIDE: "side",
    Role.RIGHT_SIDE: "side",
    Role.FRONT_STRETCHER: "stretcher",
    Role.BACK_STRETCHER: "stretcher",
    Role.PLINTH_FRONT: "plinth board",
    Role.PLINTH_BACK: "plinth board",
}


@dataclass(frozen=True)
class Line:
    """One line of the parts list. Sizes in inches; `marks` are those of its parts, in order."""

    material: str
    words: str
    length: Fraction
    width: Fraction
    thickness: Fraction
    marks: tuple[str, ...]

    @property
    def count(self) -> int:
        return len(self.marks)


def parts_list(project: Project) -> tuple[Line, ...]:
    """Every part once: by material in order of first use, then the longest and widest first."""
    alike: dict[tuple[str, str, Fraction, Fraction, Fraction], list[Part]] = {}
    for part in project:
        key = (part.material, _ALIKE.get(part.role, part.role.value), *project.dimensions(part))
        alike.setdefault(key, []).append(part)
    lines = [Line(*key, tuple(part.mark for part in parts)) for key, parts in alike.items()]
    materials = list(dict.fromkeys(line.material for line in lines))
    return tuple(sorted(lines, key=lambda line: (materials.index(line.material), -line.length, -line.width)))
