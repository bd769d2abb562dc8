"""Places to tap on a part's drawing: each feature, and the ends and edges of the part.

They are laid over the finished drawing, clear to look through and larger than what they stand for, so that a
finger meets a row of pin holes or an edge. A script gives them to the keyboard too; without one the drawing
is only looked at.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from xml.etree import ElementTree as ET

from ...drawings.kit.svg import NAMESPACE

FINGER = 26.0
"""How wide a place along a side is, in points of the drawing."""

AROUND = 5.0
"""How far a feature's place reaches beyond it, in points of the drawing."""

Box = tuple[float, float, float, float]


@dataclass(frozen=True)
class SideBox:
    """The sides around one drawn face: how the form takes each, then how each is called."""

    left: str
    right: str
    foot: str
    head: str
    left_words: str
    right_words: str
    foot_words: str
    head_words: str

    def places(self, box: Box) -> Iterator[tuple[str, str, Box]]:
        """The value, the words and the room of each side of a face that is drawn in `box`."""
        x, y, right, low = box
        wide, tall = right - x, low - y
        yield self.left, self.left_words, (x - FINGER, y, x + FINGER / 4, y + tall)
        yield self.right, self.right_words, (right - FINGER / 4, y, right + FINGER, y + tall)
        yield self.foot, self.foot_words, (x, low - FINGER / 4, x + wide, low + FINGER)
        yield self.head, self.head_words, (x, y - FINGER, x + wide, y + FINGER / 4)


def with_tap_places(text: str, mark: str, features: Mapping[str, str], faces: Sequence[SideBox]) -> str:
    """The drawing with places over it. A blank is drawn under the part's mark, once for each of `faces`, the
    first one first; `features` are the words of each feature by its name."""
    # Within a page the drawing needs no name space, and without one its tags are written as they were.
    root = ET.fromstring(text.replace(f' xmlns="{NAMESPACE}"', "", 1))
    blanks: list[Box] = []
    cut: list[tuple[str, Box]] = []
    holes: dict[str, list[Box]] = defaultdict(list)
    for one in root.iter():
        name = one.attrib.pop("data-name", "")
        room = _room(one)
        if name and room is None:
            continue
        if name == mark and room:
            blanks.append(room)
        elif name in features and room:
            if one.tag.endswith("circle"):
                holes[name].append(room)
            else:
                cut.append((name, room))
    for face, box in zip(faces, blanks, strict=True):
        for value, words, room in face.places(box):
            _add(root, "side", value, f"damage at the {words}", room)
    wholes = [*cut, *((name, _around(rooms)) for name, rooms in holes.items())]
    # The smallest last: what lies within another can be tapped too.
    for name, room in sorted(wholes, key=lambda one: -_area(one[1])):
        x, y, right, low = room
        grown = (x - AROUND, y - AROUND, right + AROUND, low + AROUND)
        _add(root, "feature", name, f"{features[name]} ({name})", grown)
    return ET.tostring(root, encoding="unicode")


def _add(root: ET.Element, kind: str, value: str, words: str, room: Box) -> None:
    x, y, right, low = room
    place = ET.SubElement(
        root,
        "rect",
        {
            "class": "tap-place",
            "data-tap": kind,
            "data-value": value,
            "x": f"{x:.2f}",
            "y": f"{y:.2f}",
            "width": f"{right - x:.2f}",
            "height": f"{low - y:.2f}",
        },
    )
    ET.SubElement(place, "title").text = words


def _room(one: ET.Element) -> Box | None:
    """The room that a shape or a hole takes; None for anything else."""
    if one.tag.endswith("circle"):
        x, y, r = (float(one.attrib[name]) for name in ("cx", "cy", "r"))
        return x - r, y - r, x + r, y + r
    if not one.tag.endswith("polygon"):
        return None
    points = [tuple(map(float, pair.split(","))) for pair in one.attrib["points"].split()]
    return (
        min(at[0] for at in points),
        min(at[1] for at in points),
        max(at[0] for at in points),
        max(at[1] for at in points),
    )


def _around(rooms: Iterable[Box]) -> Box:
    left, top, right, low = zip(*rooms, strict=True)
    return min(left), min(top), max(right), max(low)


def _area(room: Box) -> float:
    return (room[2] - room[0]) * (room[3] - room[1])
