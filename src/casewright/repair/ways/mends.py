"""Mends: solid wood or plugs glued to or into the part itself, without wood from a sheet.

Times and limits are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from ...casework.directions import Way
from ...casework.hidden_sides import clear_of_features, is_hidden, outer_side
from ...casework.parts.features.channel import ChannelKind
from ...casework.parts.features.feature import EDGE_WORDS, Feature
from ...casework.parts.part import DRAWER_BOX, FRAMED_DOOR, SLABS, Part, Role
from ...casework.project import Project
from ...lengths.length import show
from ..facts import Facts
from ..harm import MISPLACED, Harm, HarmKind
from ..hinge_places import doors_of
from ..price import Seen, most_seen
from .build_out import NARROWEST, ROLES
from .cure import Lack, PartCure, one_part
from .thicker_strip import thicker_strips
from .way import Mend, WayKind

THINNEST = Fraction(1, 8)
"""The thinnest lip of solid wood that can be glued on and planed (inches)."""

CUT_AGAIN = MISPLACED | {HarmKind.SMALL, HarmKind.SHALLOW}
"""Faults whose mend ends with the feature being cut where, or as large as, it belongs."""

LIPPED = ROLES | SLABS
"""What is lipped with solid wood: what a strip can be glued to, and fronts in one piece, where a lip is seen
less than a strip of sheet."""

LIP_MINUTES = Fraction(30)
STRIP_MINUTES = Fraction(25)
PATCH_MINUTES = Fraction(35)
"""For a strip in sight, which is fitted at both its ends: a lip along the whole edge is sooner made, and
looks meant."""
FILL_MINUTES = Fraction(25)
CHANNEL_MINUTES = Fraction(4)
PLUG_MINUTES = Fraction(10)
HOLE_MINUTES = Fraction(3, 2)


def mended(project: Project, lack: Lack) -> Iterator[PartCure]:
    """The ways to mend the part itself."""
    if lack.cut.harms:
        yield from _lipped_over_damage(project, lack)
        if lack.sized:
            yield from _faults_mended(project, lack)
    else:
        yield from thicker_strips(project, lack)
        yield from _lipped(project, lack)


def hidden_edge(project: Project, part: Part) -> Way | None:
    """An edge along the grain that nobody sees and nothing is measured from, the rear one first."""
    ways = [way for way in Way if way.axis is part.lie.width]
    measured = {edge for feature in part.features for edge in feature.edges}
    hidden = [way for way in ways if is_hidden(project, part, way)]
    hidden.sort(key=lambda way: (way in measured, way is not Way.BACK))
    return hidden[0] if hidden else None


def _lipped(project: Project, lack: Lack) -> Iterator[PartCure]:
    """A part that is too narrow, by less than a strip of its own wood takes."""
    part = lack.part
    if part.role not in LIPPED or lack.cut.worked or lack.short > 0 or not 0 < lack.narrow < NARROWEST:
        return
    yield _lip(project, lack, max(THINNEST, lack.narrow), _edge_to_lip(project, part))


def _edge_to_lip(project: Project, part: Part) -> Way:
    """A hidden edge; else the one that the hinges are on, the lower one of a front that has none, and of
    other parts the front one."""
    if hidden := hidden_edge(project, part):
        return hidden
    for hung in doors_of(project, part.case):
        if hung.leaf == part.mark:
            return hung.way
    ways = [way for way in Way if way.axis is part.lie.width]
    return next((way for way in ways if way in (Way.FRONT, Way.DOWN)), ways[0])


def _lip(project: Project, lack: Lack, wide: Fraction, edge: Way) -> PartCure:
    part, mark = lack.part, lack.part.mark
    _, width, _ = project.dimensions(part)
    words = EDGE_WORDS[edge]
    steps = [f"Glue a lip of solid wood {_length(project, wide)} wide along the {words} edge of {mark}."]
    if width - wide < lack.cut.width:
        steps.insert(0, f"Rip {mark} to {_length(project, width - wide)} wide at its {words} edge.")
    steps.append(
        f"Plane the lip flush and rip {mark} to {_length(project, width)} wide when the glue is dry."
    )
    seen = Seen.HIDDEN_LINE if is_hidden(project, part, edge) else Seen.IN_SIGHT
    return one_part(WayKind.LIP, lack, (Mend(mark, LIP_MINUTES, tuple(steps), f"a lip along {mark}"),), seen)


def _lipped_over_damage(project: Project, lack: Lack) -> Iterator[PartCure]:
    """A damaged edge along the grain, ripped off as deep as the damage goes and lipped."""
    part, harms = lack.part, lack.cut.harms
    if part.role not in LIPPED or lack.short > 0 or lack.narrow > 0 or len(harms) != 1:
        return
    (harm,) = harms
    side = harm.side
    if harm.fault is not HarmKind.DAMAGE or side is None or side.axis is not part.lie.width:
        return
    if lack.cut.worked and not clear_of_features(project, part, side, max(harm.deep_or_taken, THINNEST)):
        return
    wide = max(THINNEST, harm.deep_or_taken)
    if wide < NARROWEST:
        yield _lip(project, lack, wide, side)


def _faults_mended(project: Project, lack: Lack) -> Iterator[PartCure]:
    """Every fault of the part mended in its place, where each of them can be."""
    part = lack.part
    kinds: list[WayKind] = []
    shown: list[Seen] = []
    minutes = Fraction(0)
    steps: list[str] = []
    harms = _other_way_round(lack)
    for harm in _to_mend(harms):
        if harm.fault in (HarmKind.MIRRORED, HarmKind.MADE_AS, HarmKind.MATERIAL, HarmKind.LEFT_OUT):
            return
        if harm.fault in MISPLACED and harm.feature and part.feature(harm.feature).stands_out:
            return  # no wood is left where its shoulder belongs
        found = _damage(project, part, harm) if harm.fault is HarmKind.DAMAGE else _wrong(project, part, harm)
        kind, took, words, seen = found
        kinds.append(kind)
        shown.append(seen)
        minutes += took
        steps += words
    if not steps:
        return
    kind = kinds[0] if len(set(kinds)) == 1 else WayKind.MIXED
    again = tuple(harm.feature for harm in harms if harm.fault in CUT_AGAIN)
    mend = Mend(part.mark, minutes, tuple(steps), f"a mend in {part.mark}", again=again)
    yield one_part(kind, lack, (mend,), most_seen(shown))


def _other_way_round(lack: Lack) -> tuple[Harm, ...]:
    """The faults, a mirrored slab door's as what it is: cups along the wrong edge, which can be plugged."""
    harms = lack.cut.harms
    others = tuple(harm for harm in harms if harm.fault is not HarmKind.MIRRORED)
    if lack.part.role is not Role.DOOR or others == harms:
        return harms
    return (*others, *(Harm(HarmKind.EDGE, feature.name) for feature in lack.part.features))


def _to_mend(harms: Sequence[Harm]) -> Iterator[Harm]:
    """The faults that are mended one by one: what is filled and cut again where it belongs is as large and as
    deep as it should be, and one slip makes a channel narrower and shallower."""
    for harm in harms:
        others = {other.fault for other in harms if other.feature == harm.feature} if harm.feature else set()
        covered = (
            (harm.fault not in MISPLACED and others & MISPLACED)
            or (harm.fault is HarmKind.DEEP and HarmKind.LARGE in others)
            or (harm.fault is HarmKind.SHALLOW and HarmKind.SMALL in others)
        )
        if not covered:
            yield harm


Mended = tuple[WayKind, Fraction, list[str], Seen]


def _damage(project: Project, part: Part, harm: Harm) -> Mended:
    assert harm.side is not None
    hidden = is_hidden(project, part, harm.side)
    where = f"the {side_of_part(part, harm.side)} of {part.mark}"
    long = f" {_length(project, harm.long)} long" if harm.long else ""
    deep = f", {_length(project, harm.deep)} in from it," if harm.deep else ""
    steps = [
        f"Cut {where} back clean where it is damaged{deep} and let in a strip{long} of the same wood.",
        f"Plane it flush with {where} when the glue is dry.",
    ]
    if hidden:
        return WayKind.LET_IN, STRIP_MINUTES, steps, Seen.HIDDEN_LINE
    return WayKind.LET_IN, PATCH_MINUTES, steps, Seen.IN_SIGHT


def _wrong(project: Project, part: Part, harm: Harm) -> Mended:
    feature = part.feature(harm.feature)
    words, mark = f"{feature.kind_words} {feature.name}", part.mark
    if feature.bench_joint and not feature.bores(part, project.sizes):
        return _joint_of_frame(project, part, feature, harm)
    if harm.fault in (HarmKind.SMALL, HarmKind.SHALLOW):
        return (
            WayKind.TO_SIZE,
            CHANNEL_MINUTES,
            [f"Cut the {words} of {mark} again to its size."],
            Seen.NOTHING,
        )
    seen = _sight_of(project, part, feature, harm.fault)
    if harm.fault is HarmKind.PLACE and 0 < harm.off <= feature.covered_within:
        seen = Seen.HIDDEN_LINE
    if feature.channel:
        tongue = feature.channel.kind is ChannelKind.RABBET and part.role in FRAMED_DOOR | DRAWER_BOX
        if tongue and harm.fault in (HarmKind.LARGE, HarmKind.DEEP):
            steps = [f"Glue a slip to the tongue of {mark} at its {feature.name} and pare it until it fits."]
            return WayKind.FILL, FILL_MINUTES, steps, Seen.HIDDEN_LINE
        if harm.fault in (HarmKind.LARGE, HarmKind.DEEP):
            steps = [f"Glue a slip into the {words} of {mark} and trim it to fit the mate, which covers it."]
            return WayKind.FILL, FILL_MINUTES, steps, Seen.HIDDEN_LINE
        steps = [
            f"Glue a strip of the same wood into the wrong {words} of {mark} and plane it flush.",
            f"Cut the {words} where it belongs when the glue is dry.",
        ]
        return WayKind.FILL, FILL_MINUTES + CHANNEL_MINUTES, steps, seen
    if feature.corner:
        steps = [
            f"Glue a block of the same wood into the wrong {words} of {mark} and plane it flush.",
            f"Saw the {words} where it belongs.",
        ]
        return WayKind.LET_IN, STRIP_MINUTES + CHANNEL_MINUTES, steps, seen
    holes = len(feature.bores(part, project.sizes))
    steps = [
        f"Plug the {holes} wrong holes of {feature.name} in {mark} and pare the plugs flush.",
        f"Bore {feature.name} again where it belongs.",
    ]
    return WayKind.PLUG, PLUG_MINUTES + HOLE_MINUTES * holes, steps, seen


def _joint_of_frame(project: Project, part: Part, feature: Feature, harm: Harm) -> Mended:
    """A mortise or a tenon: what is loose is packed with slips, what is tight is pared, and a mortise in the
    wrong place is filled. All of it is inside the joint."""
    words = f"{feature.kind_words} of {part.mark}, {feature.name.replace('-', ' ')}"
    small = harm.fault in (HarmKind.SMALL, HarmKind.SHALLOW)
    if small or harm.fault in (HarmKind.LARGE, HarmKind.DEEP):
        if small != feature.stands_out:
            steps = [f"Pare the {words}, until the two go together."]
            return WayKind.TO_SIZE, CHANNEL_MINUTES, steps, Seen.NOTHING
        steps = [f"Glue slips to the {words}, and pare them until the two go together."]
        return WayKind.FILL, FILL_MINUTES, steps, Seen.NOTHING
    steps = [
        f"Glue a slip of the same wood into the wrong {words} and plane it flush.",
        "Cut it where it belongs when the glue is dry.",
    ]
    seen = _sight_of(project, part, feature, harm.fault)
    return WayKind.FILL, FILL_MINUTES + CHANNEL_MINUTES, steps, seen


def _sight_of(project: Project, part: Part, feature: Feature, fault: HarmKind) -> Seen:
    """Where the filled place is: on a face that nobody sees, or in sight."""
    face = feature.face or outer_side(part)
    if fault is HarmKind.FACE:
        face = face.opposite
    return Seen.HIDDEN_LINE if is_hidden(project, part, face) else Seen.IN_SIGHT


def depths_taken(project: Project, facts: Facts) -> tuple[str, ...]:
    """What the ways take for granted of damages that nobody measured, a sentence each."""
    return tuple(
        f"Nobody said how large the damage at the {where} of {mark} is: it is taken as "
        f"{_length(project, harm.deep_or_taken)} deep. To tell more, write how long and how deep it is: "
        f"{mark}:{where}:2 x 1/4."
        for mark, cut in facts.spoiled.items()
        for harm in cut.harms
        if harm.fault is HarmKind.DAMAGE and harm.side is not None and not harm.deep
        for where in [side_of_part(project.parts[mark], harm.side)]
    )


def side_of_part(part: Part, side: Way) -> str:
    """`front edge`, `lower end`, `inside face`."""
    if side.axis is part.lie.length:
        return f"{EDGE_WORDS[side]} end"
    return f"{EDGE_WORDS[side]} edge" if side.axis is part.lie.width else f"{EDGE_WORDS[side]} face"


def _length(project: Project, length: Fraction) -> str:
    return show(length, project.job.mark, unit=True).marked
