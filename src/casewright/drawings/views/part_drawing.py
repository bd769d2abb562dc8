"""A part's working drawing: worked face up, features located from its named reference edges."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from ...casework.directions import Way
from ...casework.parts.features.channel import ChannelKind
from ...casework.parts.features.feature import Feature
from ...casework.parts.part import Hand, Part
from ...casework.project import Project
from ...lengths.length import Rule
from ...workshop.side_names import side_words
from ..kit.lettering import dimension_text
from ..kit.pens import BOLD, FIRM, HEAVY, HIDDEN, SOFT, Layer, Tint
from ..kit.scene import Anchor, Arrow, Disc, Item, Leader, Point, Scene, Shape, Words, rectangle
from .part_dimensions import crosswise, lengthwise
from .part_view import FaceView, faces, reference_edges

LAYER_OF: dict[ChannelKind | None, Layer] = {
    ChannelKind.DADO: Layer.DADO,
    ChannelKind.GROOVE: Layer.GROOVE,
    ChannelKind.RABBET: Layer.RABBET,
}
PENCIL = "#a9824c"

Tags = Callable[[Feature], str]


def no_tags(feature: Feature) -> str:
    """No letters, for a drawing that stands alone without a page of joint sections."""
    return ""


def part_scenes(project: Project, part: Part, tags: Tags = no_tags) -> tuple[Scene, ...]:
    """The part's drawing: its worked face, and below it the other face if that is cut as well."""
    mark = project.rule
    views = [FaceView(part, face, project.sizes) for face in faces(part)]
    return tuple(
        face_scene(view, mark, tags, part.mark, other_face=number > 0) for number, view in enumerate(views)
    )


def pair_scenes(project: Project, left: Part, right: Part, tags: Tags = no_tags) -> tuple[Scene, Scene]:
    """A left and right pair, front edges together on the bench: the right part above the left."""
    mark = project.rule
    upper, lower = (FaceView(part, part.lie.worked, project.sizes) for part in (right, left))
    return (
        face_scene(upper, mark, tags, right.mark, with_lengths=False),
        face_scene(lower, mark, tags, left.mark),
    )


def face_scene(
    view: FaceView,
    mark: Rule,
    tags: Tags,
    title: str,
    *,
    with_lengths: bool = True,
    other_face: bool = False,
) -> Scene:
    """One face with all that is cut into it. `with_lengths=False` leaves lengths to the face below."""
    items: list[Item] = list(_blank(view))
    for feature in view.features():
        items.extend(feature_items(feature, view, mark, tags))
    items.extend(_middle(view, title, other_face))
    lanes = _callouts(view, mark, tags)
    if with_lengths:
        below = sum(isinstance(item, Words) for item in lanes[False])
        items.extend(lengthwise(view, mark, below + 1))
    items.extend(crosswise(view, mark))
    # Words come after dimension lines, so that no line is drawn through them.
    items.extend(_reference_lines(view))
    if view.part.features:
        items.extend(_edge_names(view))
    items.extend(item for side in lanes.values() for item in side)
    return Scene(tuple(items), title)


def _blank(view: FaceView) -> Iterator[Item]:
    """The blank, and its outline once the notches are cut."""
    long, wide = float(view.long), float(view.wide)
    whole = rectangle(0.0, 0.0, long, wide)
    notches = [cut for feature in view.features() if feature.face is None for cut in view.cuts(feature)]
    outline = tuple(point for corner in whole for point in _corner(corner, notches, long, wide))
    yield Shape(outline, Layer.OUTLINE, None, Tint.FACE)
    yield Shape(whole, Layer.BLANK, HIDDEN if notches else None, name=view.part.mark)
    yield Shape(outline, Layer.OUTLINE, BOLD)


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


def feature_items(feature: Feature, view: FaceView, mark: Rule, tags: Tags) -> Iterator[Item]:
    """A feature as drawn on a face: its holes, and what is cut away, with words if it crosses the part."""
    through = feature.face is None
    for (left, low), (right, high) in view.cuts(feature):
        box = rectangle(left, low, right - left, high - low)
        if through:
            yield Shape(box, Layer.NOTCH, HIDDEN, hatched=True, name=feature.name)
            continue
        layer = LAYER_OF.get(feature.channel.kind if feature.channel else None, Layer.DADO)
        yield Shape(box, layer, FIRM, Tint.CUT, name=feature.name)
        if _crosses(view, feature):
            before = left > 0.8 * float(view.long)
            yield Words(
                (left if before else right, float(view.wide) / 2),
                _callout(feature, view, mark, tags),
                8.0,
                turn=90.0,
                backing=Tint.FACE,
                shift=(-7.0 if before else 7.0, 0.0),
                within=(float(view.long), float(view.wide)),
            )
    for bore in feature.bores(view.part, view.sizes):
        yield Disc(view.seen(bore.mouth), float(bore.radius), Layer.BORES, FIRM, Tint.PAPER, feature.name)


def _crosses(view: FaceView, feature: Feature) -> bool:
    """Whether it lies across the part, so that its words stand along it; else they stand beside the part."""
    return feature.face is not None and feature.edges[0].axis is view.part.lie.length


def _callout(feature: Feature, view: FaceView, mark: Rule, tags: Tags) -> str:
    return feature.callout(view.sizes, lambda length: dimension_text(length, mark), tags(feature))


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


def _edge_names(view: FaceView) -> Iterator[Item]:
    long, wide = float(view.long), float(view.wide)
    heavy = reference_edges(view.part)

    def words(edge: Way, at: Point, turn: float, shift: Point) -> Words:
        name = side_words(view.part, edge)
        reference = edge in heavy
        text = name.upper() if reference else name
        anchor = Anchor.MIDDLE if turn else Anchor.START
        return Words(at, text, 7.5, anchor, turn, reference, SOFT, Tint.PAPER, shift=shift)

    foot, head = view.edges()
    start, end = view.ends()
    yield words(foot, (0.0, 0.0), 0.0, (1.0, -7.5))
    yield words(head, (0.0, wide), 0.0, (1.0, 7.5))
    yield words(start, (0.0, wide / 2), 90.0, (-8.0, 0.0))
    yield words(end, (long, wide / 2), 90.0, (8.5, 0.0))


def _middle(view: FaceView, title: str, other_face: bool) -> Iterator[Item]:
    """The mark, the face that is up, the hand and the grain, in the widest field without channels."""
    left, right = _clear_field(view)
    x, y = (left + right) / 2, float(view.wide) / 2
    part = view.part
    if not part.features:
        yield from _plain_middle(view, title)
        return
    face_up = f"{side_words(part, view.face)} up"
    if other_face:
        face_up = f"turned over: {face_up}"
    hand = "" if part.hand is Hand.NONE else f"{part.hand.value.upper()} hand"
    lines = [hand, face_up] if hand else [face_up]
    rise = 5.0 * len(lines)
    aside = 6.0 if left > 0.0 else 0.0  # clear of the words along the channel beside the field
    yield Words((x, y), title, 20.0, bold=True, colour=PENCIL, shift=(aside, rise + 8.0))
    for number, line in enumerate(lines):
        yield Words(
            (x, y), line, 8.0, bold=number == 0 and bool(hand), shift=(aside, rise - 6.5 - 10.0 * number)
        )
    yield Arrow((x, y), 64.0, shift=(aside, -rise - 9.0), most=0.7 * (right - left))
    yield Words((x, y), "grain", 7.0, shift=(aside, -rise - 9.0), backing=Tint.FACE, colour=SOFT)


def _plain_middle(view: FaceView, title: str) -> Iterator[Item]:
    """The mark and grain of a part with nothing cut into it, on one line if it is a strip."""
    long, wide = float(view.long), float(view.wide)
    x, y = long / 2, wide / 2
    if wide * 3 > long:
        yield Words((x, y), title, 13.0, bold=True, colour=PENCIL, shift=(0.0, 6.0), within=(long, wide))
        yield Arrow((x, y), 50.0, shift=(0.0, -8.0), most=0.8 * long)
        return
    yield Words((0.5 * x, y), title, 12.0, bold=True, colour=PENCIL, within=(x, wide))
    yield Arrow((1.5 * x, y), 50.0, most=0.3 * long)


def _clear_field(view: FaceView) -> tuple[float, float]:
    """The widest stretch of the length that no channel crosses."""
    cuts = sorted(
        (low[0], high[0])
        for feature in view.features()
        if _crosses(view, feature)
        for low, high in view.cuts(feature)
    )
    edges = [0.0, *(at for cut in cuts for at in cut), float(view.long)]
    fields = [(edges[index], edges[index + 1]) for index in range(0, len(edges), 2)]
    return max(fields, key=lambda field: field[1] - field[0])


def _callouts(view: FaceView, mark: Rule, tags: Tags) -> dict[bool, list[Item]]:
    """Words beside the long edges for the features along them: True above the part, False below."""
    long, wide = float(view.long), float(view.wide)
    found: dict[bool, list[Item]] = {True: [], False: []}
    printed: set[tuple[bool, str]] = set()
    for feature in view.features():
        text = _callout(feature, view, mark, tags)
        if not text or feature.face is None or _crosses(view, feature):
            continue
        above = float(view.at_edge(feature.edges[0])) > wide / 2
        tip = _tip(view, feature)
        if (above, text) in printed:
            continue
        printed.add((above, text))
        level = 19.0 + 11.0 * (len(found[above]) // 2)  # the edge's own name comes first
        at = (long, wide if above else 0.0)
        shift = level if above else -level
        # Leaders come first, so that words cover a leader that passes behind them.
        found[above].insert(0, Leader((tip[0], at[1]), tip, (0.0, shift + (-4.0 if above else 4.0))))
        found[above] += [
            Words(at, text, 8.0, Anchor.END, shift=(0.0, shift), backing=Tint.PAPER),
        ]
    return found


def _tip(view: FaceView, feature: Feature) -> Point:
    """Where the words beside a part point: to the end of what is cut along it, or to the last hole."""
    for (_, low), (_, high) in view.cuts(feature):
        return 0.97 * float(view.long), (low + high) / 2
    return view.holes(feature)[-1]
