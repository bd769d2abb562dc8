"""The shell of a case: sides, bottom, top or stretchers, toe kick, back and mounting strips."""

from __future__ import annotations

from ...sizes.affine import NOTHING, Affine
from ..directions import Axis, Way
from ..job import BackKind, BottomJoint, ToeKind, TopKind
from ..parts.features.channel import Channel
from ..parts.features.notch import Notch
from ..parts.part import Hand, Lie, PartName, Role
from ..size_names import FeatureSizes, thickness_of
from .case_draft import CaseDraft, PartDraft
from .joints.back import Shell, front_of_back, make_back
from .joints.housing import cut_dado, cut_rabbet, house
from .meetings import Meeting, Surface

FLAT = Lie(Axis.X, Axis.Y, Way.UP)
UPRIGHT_LEFT = Lie(Axis.Z, Axis.Y, Way.RIGHT)
UPRIGHT_RIGHT = Lie(Axis.Z, Axis.Y, Way.LEFT)
ON_EDGE = Lie(Axis.X, Axis.Z, Way.FRONT)
ON_EDGE_END = Lie(Axis.Y, Axis.Z, Way.RIGHT)


def draw_shell(case: CaseDraft, width: Affine) -> tuple[Shell, Affine, PartDraft | None]:
    """Draw up everything but dividers and shelves.

    Returns the shell, the clear depth inside it from the front edges to the back, and the back.
    """
    left, right = _sides(case)
    under = _under(case)
    bottom, inside = _bottom(case, left, right, under, width)
    above, top = _top(case, left, right, inside)
    clear = case.book.form(
        case.sizes.clear,
        left.size(Axis.Z) - under - bottom.thickness - above[0].thickness - _above_top(case),
        f"clear height inside {case.spec.mark}",
    )
    shell = Shell(left, right, bottom, top, inside, clear, under)
    depth = case.book.form(
        case.sizes.inside_depth, left.deep - front_of_back(case), f"depth inside {case.spec.mark}"
    )
    back = make_back(case, shell)
    if not top:
        _place_back_stretcher(case, above[1], left, back)
    _toe(case, left, right, bottom, inside)
    return shell, depth, back


def _sides(case: CaseDraft) -> tuple[PartDraft, PartDraft]:
    spec = case.spec
    made = spec.construction
    height, depth = case.sizes.height, case.sizes.depth
    length = height - case.of("toe_height") if made.toe is ToeKind.PLINTH else height
    width = depth - case.front_strip
    if made.back is BackKind.APPLIED:
        width = width - thickness_of(spec.materials.back)
    match = f"{spec.mark} sides"
    left = case.part(
        PartName.LEFT,
        Role.LEFT_SIDE,
        spec.materials.case,
        UPRIGHT_LEFT,
        length,
        width,
        hand=Hand.LEFT,
        match=match,
    )
    right = case.part(
        PartName.RIGHT,
        Role.RIGHT_SIDE,
        spec.materials.case,
        UPRIGHT_RIGHT,
        length,
        width,
        hand=Hand.RIGHT,
        match=match,
    )
    return left, right


def _under(case: CaseDraft) -> Affine:
    """The height of the underside of the bottom above the lower ends of the sides."""
    if case.spec.construction.toe is ToeKind.NOTCH:
        return case.of("toe_height")
    return case.of("bottom_up")


def _bottom(
    case: CaseDraft, left: PartDraft, right: PartDraft, under: Affine, width: Affine
) -> tuple[PartDraft, Affine]:
    """The bottom, and the inside width of the case, which the bottom determines."""
    material = case.spec.materials.case
    depth = _panel_depth(case, left)
    if case.spec.construction.bottom is BottomJoint.BUTT:
        bottom = case.part(
            PartName.BOTTOM, Role.BOTTOM, material, FLAT, width - left.thickness - right.thickness, depth
        )
        _butt(case, bottom, left, right)
        for side in (left, right):
            case.meet(
                f"{bottom.mark} at its height on {side.mark}",
                Meeting.FLUSH,
                Surface(side.mark, Way.DOWN, under, f"line of the bottom on {side.mark}"),
                bottom.side(Way.DOWN),
            )
        inside = _inside(case, bottom.size(Axis.X))
        return bottom, inside
    on_edge = case.book.value(under) == 0
    channels: list[Channel] = []
    for side, face in ((left, Way.RIGHT), (right, Way.LEFT)):
        if on_edge:
            channels.append(cut_rabbet(case, side, face, Way.DOWN, material, "rabbet-bottom"))
        else:
            channels.append(cut_dado(case, side, face, Way.DOWN, under, material, "dado-bottom"))
    reach = channels[0].depth + channels[1].depth
    bottom = case.part(
        PartName.BOTTOM, Role.BOTTOM, material, FLAT, width - left.thickness - right.thickness + reach, depth
    )
    for side, channel in zip((left, right), channels, strict=True):
        house(case, bottom, side, channel)
        case.flush(Way.FRONT, side, bottom)
    inside = _inside(case, bottom.size(Axis.X) - reach)
    return bottom, inside


def _inside(case: CaseDraft, width: Affine) -> Affine:
    return case.book.form(case.sizes.inside, width, f"inside width of {case.spec.mark}")


def _above_top(case: CaseDraft) -> Affine:
    """How far the top sits below the upper ends of the sides."""
    return case.of("top_down") if case.spec.construction.top is TopKind.DADO else NOTHING


def _panel_depth(case: CaseDraft, side: PartDraft) -> Affine:
    """The depth of bottom and top: the width of a side, less a back that covers their rear edges."""
    if case.spec.construction.back is BackKind.RABBET:
        return side.deep - thickness_of(case.spec.materials.back)
    return side.deep


def _butt(case: CaseDraft, part: PartDraft, left: PartDraft, right: PartDraft) -> None:
    """Butt a part between the sides, with the front edges flush."""
    case.seat(part, Way.LEFT, left)
    case.seat(part, Way.RIGHT, right)
    case.flush(Way.FRONT, left, part)
    case.flush(Way.FRONT, right, part)


def _top(
    case: CaseDraft, left: PartDraft, right: PartDraft, inside: Affine
) -> tuple[tuple[PartDraft, ...], PartDraft | None]:
    """The top of the case: (panel,) and the panel, or (front, back) stretchers and None."""
    material = case.spec.materials.case
    kind = case.spec.construction.top
    if kind is TopKind.STRETCHERS:
        front = case.part(
            PartName.FRONT_STRETCHER,
            Role.FRONT_STRETCHER,
            material,
            FLAT,
            inside,
            case.of("stretcher_width"),
            match=f"{case.spec.mark} stretchers",
        )
        back = case.part(
            PartName.BACK_STRETCHER,
            Role.BACK_STRETCHER,
            material,
            FLAT,
            inside,
            case.of("stretcher_width"),
            match=f"{case.spec.mark} stretchers",
        )
        for stretcher in (front, back):
            case.seat(stretcher, Way.LEFT, left)
            case.seat(stretcher, Way.RIGHT, right)
            case.flush(Way.UP, left, stretcher)
        case.flush(Way.FRONT, left, front)
        return (front, back), None
    depth = _panel_depth(case, left)
    lie = Lie(Axis.X, Axis.Y, Way.DOWN)
    if kind is TopKind.BUTT:
        top = case.part(PartName.TOP, Role.TOP, material, lie, inside, depth)
        _butt(case, top, left, right)
        case.flush(Way.UP, left, top)
        case.flush(Way.UP, right, top)
        return (top,), top
    channels = []
    # A dado right at the edge has only one wall, so it is a rabbet.
    on_edge = kind is TopKind.RABBET or case.book.value(case.of("top_down")) == 0
    for side, face in ((left, Way.RIGHT), (right, Way.LEFT)):
        if on_edge:
            channels.append(cut_rabbet(case, side, face, Way.UP, material, "rabbet-top"))
        else:
            channels.append(cut_dado(case, side, face, Way.UP, case.of("top_down"), material, "dado-top"))
    top = case.part(
        PartName.TOP, Role.TOP, material, lie, inside + channels[0].depth + channels[1].depth, depth
    )
    for side, channel in zip((left, right), channels, strict=True):
        house(case, top, side, channel)
        case.flush(Way.FRONT, side, top)
    return (top,), top


def _place_back_stretcher(
    case: CaseDraft, stretcher: PartDraft, left: PartDraft, back: PartDraft | None
) -> None:
    if back and case.spec.construction.back is not BackKind.APPLIED:
        case.seat(stretcher, Way.BACK, back)
    else:
        case.flush(Way.BACK, left, stretcher)


def _toe(case: CaseDraft, left: PartDraft, right: PartDraft, bottom: PartDraft, inside: Affine) -> None:
    kind = case.spec.construction.toe
    if kind is ToeKind.NOTCH:
        _kick(case, left, right, bottom, inside)
    elif kind is ToeKind.PLINTH:
        _plinth(case, left, right)


def _kick(case: CaseDraft, left: PartDraft, right: PartDraft, bottom: PartDraft, inside: Affine) -> None:
    """Notches in both sides and a toe kick between them, its face on the inner line of the notches."""
    notches = [_notch(case, side) for side in (left, right)]
    kick = case.part(
        PartName.TOE_KICK, Role.TOE_KICK, case.spec.materials.toe, ON_EDGE, inside, notches[0].second
    )
    case.seat(kick, Way.LEFT, left)
    case.seat(kick, Way.RIGHT, right)
    case.meet(
        f"{kick.mark} on the notch line of {left.mark}",
        Meeting.FLUSH,
        Surface(left.mark, Way.FRONT, notches[0].first, f"notch line of {left.mark}"),
        kick.side(Way.FRONT),
    )
    case.flush(Way.DOWN, left, kick)
    case.meet(f"{kick.mark} under {bottom.mark}", Meeting.SEATED, kick.side(Way.UP), bottom.side(Way.DOWN))


def _notch(case: CaseDraft, side: PartDraft) -> Notch:
    sizes = FeatureSizes(side.mark, "notch-toe")
    notch = Notch(
        "notch-toe",
        Way.FRONT,
        case.book.form(sizes.inward, _toe_depth(case), f"{side.mark} toe notch depth"),
        Way.DOWN,
        case.book.form(sizes.up, case.of("toe_height"), f"{side.mark} toe notch height"),
    )
    side.features.append(notch)
    return notch


def _plinth(case: CaseDraft, left: PartDraft, right: PartDraft) -> None:
    """A frame of four boards under the case, set back at the front by the depth of the toe kick."""
    material = case.spec.materials.toe
    thick = thickness_of(material)
    height = case.of("toe_height")
    outside = case.sizes.width
    reach = left.deep - _toe_depth(case) - 2 * thick
    front = case.part(PartName.PLINTH_FRONT, Role.PLINTH_FRONT, material, ON_EDGE, outside, height)
    rear = case.part(PartName.PLINTH_BACK, Role.PLINTH_BACK, material, ON_EDGE, outside, height)
    ends = [
        case.part(
            name, Role.PLINTH_END, material, ON_EDGE_END, reach, height, match=f"{case.spec.mark} plinth ends"
        )
        for name in (PartName.PLINTH_LEFT, PartName.PLINTH_RIGHT)
    ]
    for board in (front, rear):
        case.seat(board, Way.UP, left)
        case.flush(Way.LEFT, left, board)
        case.flush(Way.RIGHT, right, board)
    case.flush(Way.BACK, left, rear)
    for end, way in zip(ends, (Way.LEFT, Way.RIGHT), strict=True):
        case.flush(Way.DOWN, rear, end)
        case.flush(way, rear, end)
        case.seat(end, Way.BACK, rear)
    for end in ends:
        case.seat(end, Way.FRONT, front)


def _toe_depth(case: CaseDraft) -> Affine:
    """How far the toe kick is set back from the front edges of the sides as they are worked."""
    return case.of("toe_depth") - case.front_strip
