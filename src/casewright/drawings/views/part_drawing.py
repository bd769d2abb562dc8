"""A part's working drawing: worked face up, features located from its named reference edges."""

from __future__ import annotations

from collections.abc import Iterator

from ...casework.parts.features.channel import ChannelKind
from ...casework.parts.features.feature import Feature
from ...casework.parts.part import Part
from ...casework.project import Project
from ...lengths.length import Rule
from ..kit.pens import BOLD, FINE, FIRM, HEAVY, HIDDEN, Layer, Tint
from ..kit.scene import Disc, Item, Point, Scene, Shape, Words, rectangle
from .part_dimensions import crosswise, lengthwise
from .part_view import FaceView, faces, reference_edges
from .part_words import Names, callouts, caption, edge_names, middle, names_in_full

LAYER_OF: dict[ChannelKind | None, Layer] = {
    ChannelKind.DADO: Layer.DADO,
    ChannelKind.GROOVE: Layer.GROOVE,
    ChannelKind.RABBET: Layer.RABBET,
}


def part_scenes(project: Project, part: Part, names: Names | None = None) -> tuple[Scene, ...]:
    """The part's drawing: its worked face, and below it the other face if that is cut as well.

    `names` is what stands at each feature; without it, kind and sizes in full.
    """
    views = [FaceView(part, face, project.sizes) for face in faces(part)]
    written = names or names_in_full(project)
    return tuple(
        face_scene(view, project.rule, written, other_face=number > 0) for number, view in enumerate(views)
    )


def pair_scenes(project: Project, left: Part, right: Part, names: Names | None = None) -> tuple[Scene, Scene]:
    """A left and right pair, front edges together on the bench: the right part above the left."""
    written = names or names_in_full(project)
    upper, lower = (FaceView(part, part.lie.worked, project.sizes) for part in (right, left))
    return (
        face_scene(upper, project.rule, written, with_lengths=False),
        face_scene(lower, project.rule, written),
    )


def face_scene(
    view: FaceView, mark: Rule, names: Names, *, with_lengths: bool = True, other_face: bool = False
) -> Scene:
    """One face with all that is cut into it. `with_lengths=False` leaves lengths to the face below."""
    items: list[Item] = list(_blank(view))
    items.extend(_edging(view))
    for feature in view.features():
        items.extend(feature_items(feature, view))
    items.extend(middle(view, view.part.mark))
    lanes = callouts(view, names)
    lines = {above: sum(isinstance(item, Words) for item in lane) for above, lane in lanes.items()}
    if with_lengths:
        items.extend(lengthwise(view, mark, names, lines[False]))
    items.extend(crosswise(view, mark))
    # Words come after dimension lines, so that no line is drawn through them.
    items.extend(_reference_lines(view))
    items.extend(item for lane in lanes.values() for item in lane if not isinstance(item, Words))
    if view.part.features or view.part.edges:
        items.extend(edge_names(view, names))
    if view.part.features:
        items.append(caption(view, lines[True], other_face=other_face))
    items.extend(item for lane in lanes.values() for item in lane if isinstance(item, Words))
    return Scene(tuple(items), view.part.mark)


def _blank(view: FaceView) -> Iterator[Item]:
    """The blank, and its outline once the notches are cut."""
    long, wide = float(view.long), float(view.wide)
    whole = rectangle(0.0, 0.0, long, wide)
    notches = [cut for feature in view.features() if feature.face is None for cut in view.cuts(feature)]
    outline = tuple(point for corner in whole for point in _corner(corner, notches, long, wide))
    yield Shape(outline, Layer.OUTLINE, None, Tint.FACE)
    # Under the outline, or dashed where a notch is cut: in a file for other programs it is a layer by itself.
    yield Shape(whole, Layer.BLANK, HIDDEN if notches else FINE, name=view.part.mark)
    yield Shape(outline, Layer.OUTLINE, BOLD)


def _edging(view: FaceView) -> Iterator[Item]:
    """The strips that are on the part before anything is cut into it."""
    for way, ((left, low), (right, high)) in view.strips():
        strip = rectangle(left, low, right - left, high - low)
        yield Shape(strip, Layer.EDGING, FINE, Tint.EDGE, name=f"edging {way.word}")


def _corner(corner: Point, notches: list[tuple[Point, Point]], long: float, wide: float) -> tuple[Point, ...]:
    """The outline's points at a corner: the corner itself, or three around the notch there."""
    x, y = corner
    for (left, low), (right, high) in notches:
        if left <= x <= right and low <= y <= high:
            in_x = right if x == left else left
            in_y = high if y == low else low
            through_x, inner, through_y = (in_x, y), (in_x, in_y), (x, in_y)
            # Counter-clockwise: the lower right and upper left corners are entered along x.
            rightwards = (y == low) == (x == left)
            return (through_y, inner, through_x) if rightwards else (through_x, inner, through_y)
    return (corner,)


def feature_items(feature: Feature, view: FaceView) -> Iterator[Item]:
    """A feature as drawn on a face: what is cut away, and its holes."""
    if feature.bench_joint:
        for (left, low), (right, high) in (*view.cuts(feature), *view.bored(feature)):
            box = rectangle(left, low, right - left, high - low)
            yield Shape(box, Layer.BORES, HIDDEN, name=feature.name)
        return
    through = feature.face is None
    for (left, low), (right, high) in view.cuts(feature):
        box = rectangle(left, low, right - left, high - low)
        if through:
            yield Shape(box, Layer.NOTCH, HIDDEN, hatched=True, name=feature.name)
            continue
        layer = LAYER_OF.get(feature.channel.kind if feature.channel else None, Layer.DADO)
        yield Shape(box, layer, FIRM, Tint.CUT, name=feature.name)
    for bore in feature.bores(view.part, view.sizes):
        yield Disc(view.seen(bore.mouth), float(bore.radius), Layer.BORES, FIRM, Tint.PAPER, feature.name)


def _reference_lines(view: FaceView) -> Iterator[Item]:
    """Heavy lines along the reference edges, shortened where a notch takes the edge away."""
    long, wide = float(view.long), float(view.wide)
    notches = [cut for feature in view.features() if feature.face is None for cut in view.cuts(feature)]
    for edge in reference_edges(view.part):
        at = float(view.at_edge(edge))
        upright = edge.axis is view.part.lie.length
        span = [0.0, wide if upright else long]
        for low, high in notches:
            across, along = (0, 1) if upright else (1, 0)
            if low[across] <= at <= high[across]:
                if low[along] <= span[0]:
                    span[0] = high[along]
                elif high[along] >= span[1]:
                    span[1] = low[along]
        ends = ((at, span[0]), (at, span[1])) if upright else ((span[0], at), (span[1], at))
        yield Shape(ends, Layer.REFERENCE, HEAVY, closed=False, name=edge.word)
