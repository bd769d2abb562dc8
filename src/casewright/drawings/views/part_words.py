"""The words on a part's drawing: edges, the face that is up, the mark and grain, names at what is cut."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import pairwise

from ...casework.directions import Way
from ...casework.parts.features.feature import Feature
from ...casework.parts.features.hinge_holes import HingePlate
from ...casework.parts.part import Hand
from ...casework.project import Project
from ...lengths.length import Rule
from ...workshop.side_names import side_words
from ..kit.lettering import dimension_text, writers
from ..kit.pens import SOFT, Tint
from ..kit.scene import Anchor, Arrow, Item, Leader, Point, Words
from .part_view import FaceView, crosses, in_end_or_edge, lap_at_end, reference_edges

PENCIL = "#a9824c"

EDGE, FIRST_LANE, LANE = 8.0, 19.0, 11.0
"""Points from an edge to its name, from the edge to the first line of words, and between lines."""

Names = Callable[[Feature], str]
"""What is written at a feature; empty where nothing is."""


def names_in_full(project: Project) -> Names:
    """Kind and sizes, for a drawing that stands alone; of a frame's joints the kind, as their sizes would run
    into each other along a narrow rail."""

    def name(feature: Feature) -> str:
        lap = feature.channel is not None and feature.channel.kind.on_sled
        if feature.bench_joint or lap:
            return feature.called(project.sizes, "")
        return feature.callout(project.sizes, *writers(project.rule), "")

    return name


def edge_names(view: FaceView, names: Names) -> Iterator[Item]:
    """The name of every edge and end, those that are measured from in capitals.

    With the name of an end stands what is cut at that very end, which has no distance from it.
    """
    long, wide = float(view.long), float(view.wide)
    heavy = reference_edges(view.part)

    def words(edge: Way, at: Point, turn: float, shift: Point) -> Words:
        name = side_words(view.part, edge)
        reference = edge in heavy
        covered = view.part.edge(edge)
        edging = (f"edging {covered.edging}",) if covered else ()
        text = ", ".join((name.upper() if reference else name, *edging, *_cut_at(view, edge, names)))
        anchor = Anchor.MIDDLE if turn else Anchor.START
        return Words(at, text, 8.0, anchor, turn, reference, SOFT, Tint.PAPER, shift=shift)

    foot, head = view.edges()
    start, end = view.ends()
    yield words(foot, (0.0, 0.0), 0.0, (1.0, -EDGE))
    yield words(head, (0.0, wide), 0.0, (1.0, EDGE))
    yield words(start, (0.0, wide / 2), 90.0, (-EDGE, 0.0))
    yield words(end, (long, wide / 2), 90.0, (EDGE + 0.5, 0.0))


def _cut_at(view: FaceView, end: Way, names: Names) -> Iterator[str]:
    for feature in view.features():
        apart = lap_at_end(view, feature) or any(
            size.edge is end and view.sizes.of(size.form) for size in feature.sizes
        )
        if crosses(view, feature) and feature.edges[0] is end and names(feature) and not apart:
            yield names(feature)


def caption(view: FaceView, lanes: int, *, other_face: bool) -> Words:
    """Above `lanes` lines of words: which hand the part is of, and which of its faces is up."""
    part = view.part
    face_up = f"{side_words(part, view.face)} up"
    if other_face:
        face_up = f"turned over: {face_up}"
    text = face_up if part.hand is Hand.NONE else f"{part.hand.value.upper()} hand, {face_up}"
    level = FIRST_LANE + LANE * lanes + 1.0
    return Words((0.0, float(view.wide)), text, 10.0, Anchor.START, bold=True, shift=(1.0, level))


def middle(view: FaceView, title: str) -> Iterator[Item]:
    """The mark as it is pencilled on the part and the grain, where nothing is cut: one below the other, or
    side by side on a strip."""
    left, low, right, high = _clear_field(view)
    long, wide = right - left, high - low
    if wide * 3 > long:
        x, y = (left + right) / 2, low + 0.62 * wide
        room, grain, most = (0.96 * long, 0.56 * wide), (x, low + 0.18 * wide), 0.7 * long
    else:
        x, y = left + 0.3 * long, (low + high) / 2
        room, grain, most = (0.56 * long, wide), (left + 0.8 * long, y), 0.3 * long
    yield Words((x, y), title, 20.0, bold=True, colour=PENCIL, within=room)
    yield Arrow(grain, 64.0, most=most)
    yield Words(grain, "grain", 8.0, backing=Tint.FACE, colour=SOFT, within=(0.55 * most, 0.36 * wide))


def _clear_field(view: FaceView) -> tuple[float, float, float, float]:
    """Left, low, right and high of a field without channels and holes: the widest stretch of the length that
    no channel and no line of holes crosses, and in it the widest between what runs along the part. Where
    holes along it take half of the width, as the cups do of a door's stile, it is the widest stretch between
    them."""
    beside = _field(view, between_holes=False)
    return beside if 2 * (beside[3] - beside[1]) >= float(view.wide) else _field(view, between_holes=True)


def _field(view: FaceView, *, between_holes: bool) -> tuple[float, float, float, float]:
    cuts = [(feature, cut) for feature in view.features() for cut in view.cuts(feature)]
    across = [(low[0], high[0]) for feature, (low, high) in cuts if crosses(view, feature)]
    holes = []
    for feature in view.features():
        seen = [(view.seen(bore.mouth), float(bore.radius)) for bore in feature.bores(view.part, view.sizes)]
        if between_holes or crosses(view, feature):
            across += [(x - radius, x + radius) for (x, _), radius in seen]
        holes += seen
    left, right = _widest_gap(across, float(view.long))
    along = [
        (low[1], high[1]) for feature, (low, high) in cuts if feature.face and not crosses(view, feature)
    ]
    along += [(y - radius, y + radius) for (x, y), radius in holes if left < x < right]
    low, high = _widest_gap(along, float(view.wide))
    return left, low, right, high


def _widest_gap(taken: list[tuple[float, float]], whole: float) -> tuple[float, float]:
    ends = [(0.0, 0.0), *sorted(taken), (whole, whole)]
    gaps = [(one[1], other[0]) for one, other in pairwise(ends)]
    return max(gaps, key=lambda gap: gap[1] - gap[0])


def callouts(view: FaceView, mark: Rule, names: Names) -> dict[bool, list[Item]]:
    """Names beside the long edges, each led to what it names: True above the part, False below.

    They stand in lines, that of the leftmost nearest the part, and end at their leader: so no leader passes
    through another name. With a groove in an edge stands how far from the face it is, which no line on the
    face can show. Hinge plates are alike: the last along an edge is named for them all, clear of the name of
    the end that the first is near.
    """
    wide = float(view.wide)
    wanted: dict[tuple[bool, Point], str] = {}
    plates: dict[bool, Point] = {}
    for feature in view.features():
        text = names(feature)
        if text and feature.face is not None and not feature.bench_joint and not crosses(view, feature):
            beside = in_end_or_edge(view.part, feature)
            edge = feature.face if beside else feature.edges[0]
            above, tip = float(view.at_edge(edge)) > wide / 2, _tip(view, feature)
            if beside:
                text = f"{text}, {_from_face(view, mark, feature)}"
            if feature.kind_words == HingePlate.called_so:
                wanted.pop((above, plates.get(above, tip)), None)
                tip = plates[above] = max(plates.get(above, tip), tip)
            wanted.setdefault((above, tip), text)
    found: dict[bool, list[Item]] = {True: [], False: []}
    for (above, tip), text in sorted(wanted.items(), key=lambda one: one[0][1]):
        level = FIRST_LANE + LANE * (len(found[above]) // 2)
        away = 1.0 if above else -1.0
        at = (tip[0], wide if above else 0.0)
        found[above] += [
            Leader(at, tip, (0.0, away * (level + 2.0))),
            Words(at, text, 8.5, Anchor.END, shift=(-3.0, away * level), backing=Tint.PAPER),
        ]
    return found


def _from_face(view: FaceView, mark: Rule, feature: Feature) -> str:
    """`~1/4 from the front face`: where something lies in the edge that it is cut into."""
    (face,) = feature.edges
    at = next(size.form for size in feature.sizes if size.edge is face)
    return f"{dimension_text(view.sizes.of(at), mark)} from the {side_words(view.part, face)}"


def _tip(view: FaceView, feature: Feature) -> Point:
    """Where a name beside the part points: to the end of what is cut along it, or to the last hole."""
    for (_, low), (_, high) in view.cuts(feature):
        return 0.97 * float(view.long), (low + high) / 2
    return max(view.holes(feature))
