"""A part used as it is, turned, centred or packed up: ways that need no wood and no glue.

Allowances are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from ...casework.directions import Axis, Box, Way
from ...casework.hidden_sides import SIDES, is_hidden, near_features, outer_side
from ...casework.job import BackKind, TopKind
from ...casework.parts.features.feature import Feature
from ...casework.parts.part import FRONTS, Part, Role
from ...casework.project import Project
from ...casework.size_names import PartSizes
from ...lengths.length import show
from ..as_cut_in_fit import gaps_spoiled, may_be_narrower
from ..facts import made_as
from ..harm import Harm, HarmKind
from ..housings import housings
from ..piece_shape import TURNS, piece_shape, turn_that_serves, turned_side
from ..price import Seen
from .cure import Lack, PartCure, one_part
from .fronts_as_cut import shoulders_set_out, taken_by_screws
from .other_material import used_of_other_material
from .put_in_later import put_in_later
from .way import KeepAsCut, Mend, TakeSize, WayKind, while_only

NONE = Fraction(0)

HAIR = Fraction(1, 32)
"""How much smaller a back may be without being centred (inches)."""

HOUSED = Fraction(1, 16)
"""How much shorter a part may be that is let into channels, if the fit holds (inches)."""

PUSHED_DOWN = Fraction(1, 4)
"""How much shorter a back may be whose upper end stands behind a stretcher (inches)."""

SCRIBED = Fraction(1, 3)
"""The share of its scribe that a filler may lack."""

ALLOWED: Mapping[Role, tuple[Fraction, Fraction, str]] = {
    Role.ADJUSTABLE_SHELF: (Fraction(1, 8), Fraction(1, 2), "It still rests on its pins, a little set back."),
    Role.FIXED_SHELF: (HOUSED, Fraction(1, 8), "Keep its front edge in line; the gap is at the back."),
    Role.DIVIDER: (HOUSED, Fraction(1, 8), "Keep its front edge in line; the gap is at the back."),
    Role.BACK: (HAIR, HAIR, "Its channels have more play than that."),
    Role.DRAWER_BOTTOM: (HAIR, HAIR, "Its grooves have more play than that."),
    Role.MOUNTING_STRIP: (Fraction(1, 8), Fraction(1, 2), "It still takes the screws."),
    Role.FRONT_STRETCHER: (NONE, Fraction(1, 2), "Nothing is measured from its other edge."),
    Role.BACK_STRETCHER: (NONE, Fraction(1, 2), "Nothing is measured from its other edge."),
    Role.TOE_KICK: (NONE, Fraction(1, 4), "Set it against the bottom; the gap at the floor is in the shade."),
}  # fmt: skip
"""How much shorter and narrower a part may be and still serve, and why (inches); its joints must hold too."""

GRAIN_UNSEEN = frozenset(
    {
        Role.BACK,
        Role.DRAWER_BOTTOM,
        Role.MOUNTING_STRIP,
        Role.FRONT_STRETCHER,
        Role.BACK_STRETCHER,
        Role.TOE_KICK,
    }
)
"""Parts whose grain nobody looks at, so that it may run the wrong way."""

LIES_LOOSE = frozenset({Role.DOOR_PANEL, Role.DRAWER_BOTTOM})
"""Panels that lie with play in grooves."""

CHIP = Fraction(1, 2)
"""How deep a damage may be that is left where nobody sees it (inches)."""

PACK = Fraction(1, 2)
"""How much may be packed up under a side's floor end (inches)."""

PACK_ON_TOP = Fraction(1, 8)
"""The same on its upper end, under a counter, where the stretchers are screwed (inches)."""

PACKED_IN = {
    Role.DIVIDER: None,
    Role.FIXED_SHELF: None,
    Role.BOTTOM: Fraction(1, 8),
    Role.TOP: Fraction(1, 8),
}
"""What stands in channels at both ends, and how short it may be, in inches, for a packing to be right: where
a bottom or top lacks more, the case is better made narrower. Common practice, no source."""

TURN_MINUTES = Fraction(1)
CENTRE_MINUTES = Fraction(5)
PACK_MINUTES = Fraction(10)
PACK_IN_MINUTES = Fraction(15)


def serves_as_cut(project: Project, lack: Lack) -> str | None:
    """Why a part serves at the size that it has; None if it does not.

    This is the one place that the question is asked.
    """
    if min(lack.short, lack.narrow) < 0:
        return None  # too large: it must be trimmed first
    if lack.sized:
        return "It is the planned size to the mark of the rule."
    for short, narrow, why in _allowed(project, lack.part):
        if lack.short <= short and lack.narrow <= narrow and _fits(project, lack):
            return why
    return None


def _fits(project: Project, lack: Lack) -> bool:
    """Whether the joints of the part hold with the size it has, as far as the fit knows them."""
    part = lack.part
    cut = {part.length.name: lack.cut.length, part.width.name: lack.cut.width}
    return not gaps_spoiled(project, part.case, cut)


def _allowed(project: Project, part: Part) -> Iterator[tuple[Fraction, Fraction, str]]:
    """What a part may lack in length and in width, and why."""
    if part.role in ALLOWED:
        yield ALLOWED[part.role]
    made = project.cases[part.case].spec.construction
    if part.role is Role.BACK and made.back is BackKind.GROOVE and made.top is TopKind.STRETCHERS:
        why = "Push it down into the groove of the bottom; the gap at the top is behind the stretcher."
        yield PUSHED_DOWN, HAIR, why
    if part.role is Role.FILLER:
        scribe = project.sizes.of(PartSizes(part.mark).scribe)
        yield NONE, scribe * SCRIBED, "It still has enough to scribe to the wall."


def used_as_it_is(project: Project, lack: Lack) -> Iterator[PartCure]:
    """The ways in which the part needs nothing but to be put in its place."""
    mark, harms = lack.part.mark, lack.cut.harms
    faults = {harm.fault for harm in harms}
    if HarmKind.LEFT_OUT in faults:
        yield from put_in_later(project, lack) if len(faults) == 1 else ()
        return
    if HarmKind.MATERIAL in faults:
        yield from used_of_other_material(project, lack)
        return
    if HarmKind.MADE_AS in faults:
        yield from _like_the_other(project, lack)
        return
    if harms:
        yield from taken_by_screws(lack)
        yield from _turned_for_harm(project, lack)
        return
    if lack.cut.worked and lack.sized:
        return  # something is wrong with it that nobody has said
    serves = serves_as_cut(project, lack)
    if serves:
        yield one_part(WayKind.USE, lack, (KeepAsCut(mark, serves), *_size_taken(lack)))
    yield from _cut_across(project, lack)
    yield from shoulders_set_out(project, lack)
    yield from _centred(project, lack)
    yield from _packed_up(project, lack)
    yield from _packed_in(project, lack)


def _size_taken(lack: Lack) -> tuple[TakeSize, ...]:
    """That the part counts as it was cut from now on, where it is smaller than drawn."""
    sizes = [(lack.part.length.name, lack.cut.length)] if lack.short > 0 else []
    sizes += [(lack.part.width.name, lack.cut.width)] if lack.narrow > 0 else []
    return (TakeSize(lack.part.mark, tuple(sizes)),) if sizes else ()


def _cut_across(project: Project, lack: Lack) -> Iterator[PartCure]:
    """A piece whose length is the planned width and the other way about."""
    length, width, _ = project.dimensions(lack.part)
    half = project.job.mark.step / 2
    if lack.cut.worked or lack.sized:
        return
    if abs(lack.cut.length - width) > half or abs(lack.cut.width - length) > half:
        return
    free = project.may_turn(lack.part) or lack.part.role in GRAIN_UNSEEN
    why = "Its length and width were changed over in the report or at the saw; it is the planned size."
    if not project.may_turn(lack.part):
        why += " Look which way its grain runs."
    seen = Seen.NOTHING if free else Seen.IN_SIGHT
    yield one_part(WayKind.USE, lack, (KeepAsCut(lack.part.mark, why),), seen)


def _turned_for_harm(project: Project, lack: Lack) -> Iterator[PartCure]:
    """Turned so that it is cut as it should be and its damage is where nobody sees it."""
    if not lack.sized:
        return
    part, harms = lack.part, lack.cut.harms
    wrong = [harm for harm in harms if harm.fault is not HarmKind.DAMAGE]
    half = project.job.mark.step / 2
    # Until all features are cut, the wrong ones are the only ones that anybody has spoken of.
    begun = lack.cut.cut_so_far
    good = piece_shape(project, part, only=begun)
    have = piece_shape(project, part, wrong, only=begun)
    assert good is not None
    if have is None:
        return
    if not lack.cut.worked and not wrong and _cut_away(project, part, harms):
        why = "What is cut into it there takes the damage away."
        yield one_part(WayKind.USE, lack, (KeepAsCut(part.mark, why),))
        return
    damages = [(harm.side, harm.deep_or_taken) for harm in harms if harm.side is not None]
    for turn, signs in TURNS.items():
        if not have.turned(signs).alike(good, half):
            continue
        looks = [(turned_side(part, side, turn), deep) for side, deep in damages]
        if all(_may_stay(project, part, way, deep) for way, deep in looks):
            if not turn:
                why = "The damage is where nobody sees it." if damages else "It is right to half a mark."
                yield one_part(WayKind.USE, lack, (KeepAsCut(part.mark, why),))
            else:
                made = tuple(one.name for one in lack.cut.made_of_it(part))
                limit = f", {while_only(made)}" if 0 < len(made) < len(part.features) else ""
                steps = (f"Turn {part.mark} {turn}{limit}.", *_other_face(part, turn))
                yield one_part(WayKind.TURN, lack, (Mend(part.mark, TURN_MINUTES, steps, turn=turn),))
            return


def _other_face(part: Part, turn: str) -> Iterator[str]:
    """That the face of a front is another one once it is turned over."""
    if part.role in FRONTS and turn.startswith("over"):
        yield f"Look first whether the other face of {part.mark} is good enough to be seen."


def _like_the_other(project: Project, lack: Lack) -> Iterator[PartCure]:
    """Made as another part that is cut alike, or is once it is turned."""
    part = lack.part
    other, half = made_as(project, lack.cut.harms), project.job.mark.step / 2
    have = piece_shape(project, part, lack.cut.harms, lack.cut.cut_so_far)
    need = piece_shape(project, part)
    if other is None or have is None or need is None or max(abs(lack.short), abs(lack.narrow)) > half:
        return
    turn = turn_that_serves(have, need, half)
    if turn:
        steps = (f"Turn {part.mark} {turn}.",)
        yield one_part(WayKind.TURN, lack, (Mend(part.mark, TURN_MINUTES, steps, turn=turn),))
    elif turn is not None:
        why = f"{other.mark} and {part.mark} are cut alike."
        if not have.alike(need, half):
            why = f"All that is cut into it is cut into {part.mark} too: cut the rest."
        yield one_part(WayKind.USE, lack, (KeepAsCut(part.mark, why),))


def _cut_away(project: Project, part: Part, harms: Sequence[Harm]) -> bool:
    """Whether a corner's damages, one of an end and one of an edge, lie in a notch that is still to be cut.

    Each says how deep it goes in from its side, and so how far it runs along the other.
    """
    of = project.sizes.of
    plane = (part.lie.length, part.lie.width)
    deep = {harm.side: harm.deep for harm in harms if harm.side is not None and harm.side.axis in plane}
    if len(deep) != 2 or len(harms) != 2 or min(deep.values()) <= 0 or len({way.axis for way in deep}) != 2:
        return False

    def takes(box: Box) -> bool:
        return all(
            of(box.along(way.axis).low) <= 0 and of(box.along(way.axis).high) >= by
            if way.sign < 0
            else of(box.along(way.axis).low) <= of(part.size(way.axis)) - by
            and of(box.along(way.axis).high) >= of(part.size(way.axis))
            for way, by in deep.items()
        )

    return any(takes(box) for feature in part.features if feature.corner for box in feature.cuts(part))


def _may_stay(project: Project, part: Part, side: Way, deep: Fraction) -> bool:
    """Whether a damage of this side is left: small, out of sight, and clear of what is cut into the part."""
    hidden = is_hidden(project, part, side) and not _holds(part, side)
    if not hidden or deep > CHIP:
        return False
    if side.axis not in (part.lie.length, part.lie.width):
        return True
    # What is left outside a rabbet for the back holds nothing; it only covers the back's edge.
    near = near_features(project, part, side, deep)
    return all(_is_rabbet_for_back(project, one, side) for one in near)


def _is_rabbet_for_back(project: Project, feature: Feature, side: Way) -> bool:
    channel = feature.channel
    open_there = channel is not None and channel.edge is side and not project.sizes.of(channel.at)
    return feature.takes_back and open_there


def _holds(part: Part, side: Way) -> bool:
    """Whether the part is held or located by this side, so that a damage of it matters."""
    if part.role in SIDES:
        return side is outer_side(part).opposite
    return part.role in (Role.BOTTOM, Role.TOP, Role.FIXED_SHELF) and side in (Way.LEFT, Way.RIGHT)


def _centred(project: Project, lack: Lack) -> Iterator[PartCure]:
    """A back that is narrow but still laps by half what it is let into, or lies on, on every side, and so a
    door's panel and a drawer's bottom. A back that is only short stands on the floor of its channel: to
    centre it changes nothing."""
    part = lack.part
    if part.role in LIES_LOOSE:
        along, across = (_lap_to_spare(project, part, axis) for axis in (part.lie.length, part.lie.width))
        if lack.sized or min(lack.narrow, lack.short) < 0:
            return
    elif part.role is not Role.BACK or lack.narrow <= 0 or lack.short < 0:
        return
    else:
        along, across = back_allowance(project, part)
    if lack.narrow <= across and lack.short <= along:
        how = "hold it with a brad in the middle of each end" if part.role in LIES_LOOSE else "pin it there"
        steps = (f"Centre {part.mark} so that it laps alike on both sides, and {how}.",)
        mend = Mend(part.mark, CENTRE_MINUTES, steps)
        yield one_part(WayKind.CENTRE, lack, (mend, *_size_taken(lack)))


def _lap_to_spare(project: Project, part: Part, axis: Axis) -> Fraction:
    """How much smaller a panel in grooves on two sides may be along an axis and still lap by half of each
    (inches); where there is one groove alone, by half of that."""
    depths = [project.sizes.of(one.channel.depth) for one in housings(project, part, axis)]
    if not depths:
        return NONE
    if len(depths) == 1:
        return depths[0] / 2
    made = project.cases[part.case].spec.construction
    play = made.panel_play if part.role is Role.DOOR_PANEL else made.drawer_play
    return max(NONE, min(depths) - play)


def back_allowance(project: Project, back: Part) -> tuple[Fraction, Fraction]:
    """How much shorter and narrower a back may be and still lap by half on every side (inches).

    Between channels the fit says how narrow: there it may lose a channel's depth, both sides together.
    """
    case = project.cases[back.case]
    of = project.sizes.of
    made = case.spec.construction
    deep = {
        part.role: of(channel.depth) for part in case.parts for channel in part.channels if channel.takes_back
    }
    panel = min(of(part.thickness) for part in case.parts if part.role in (Role.BOTTOM, *SIDES))
    if made.back is BackKind.GROOVE:
        across = may_be_narrower(project, back) or NONE
        below = deep.get(Role.BOTTOM, NONE)
        # With a groove above as well both ends lap; else the upper end is flush and only the lower one does.
        along = below if made.top is not TopKind.STRETCHERS else below / 2
        return along, across
    across = panel if made.back is BackKind.APPLIED else may_be_narrower(project, back) or NONE
    return panel / 2, across


def _packed_up(project: Project, lack: Lack) -> Iterator[PartCure]:
    """A short side, before anything is cut into it, that a packing piece brings to height where nobody looks:
    under its floor end behind the kick, or a little on its upper end under a counter."""
    part = lack.part
    if part.role not in SIDES or lack.cut.worked or lack.narrow > 0 or not NONE < lack.short <= PACK:
        return
    seen = Seen.NOTHING if is_hidden(project, part, outer_side(part)) else Seen.IN_SIGHT
    top = project.cases[part.case].spec.construction.top
    if is_hidden(project, part, Way.DOWN) and any(one.corner for one in part.features):
        steps = (
            f"Glue a packing piece under the floor end of {part.mark} to bring it to length; "
            "the kick hides it.",
            f"Set out its joints from the upper end of {part.mark}.",
        )
    elif top is TopKind.STRETCHERS and lack.short <= PACK_ON_TOP:
        steps = (
            f"Set out the joints of {part.mark} from its lower end.",
            f"Glue a packing piece on the upper end of {part.mark}; the counter covers it.",
        )
    else:
        return
    yield one_part(WayKind.PACK, lack, (Mend(part.mark, PACK_MINUTES, steps),), seen)


def _packed_in(project: Project, lack: Lack) -> Iterator[PartCure]:
    """A part that is short between channels, packed out at their floors, while half of each still holds it.

    Once it is worked, only at an end that nothing is measured from.
    """
    part = lack.part
    if part.role not in PACKED_IN or lack.narrow > 0 or lack.short <= 0:
        return
    most = PACKED_IN[part.role]
    if most is not None and lack.short > most:
        return
    measured = {edge for feature in lack.cut.made_of_it(part) for edge in feature.edges}
    held = [one for one in housings(project, part, part.lie.length) if one.end not in measured]
    depths = [project.sizes.of(one.channel.depth) for one in held]
    if not held or any(lack.short / len(held) > depth / 2 for depth in depths):
        return
    holders = " and ".join(f"{one.channel.name} of {one.holder.mark}" for one in held)
    much = show(lack.short / len(held), project.job.mark, unit=True).marked
    steps = (
        f"Glue a packing {much} thick to the floor of {holders}, so that {part.mark} stands in its place.",
    )
    mend = Mend(part.mark, PACK_IN_MINUTES, steps)
    yield one_part(WayKind.PACK_IN, lack, (mend, *_size_taken(lack)), Seen.IN_SIGHT)
