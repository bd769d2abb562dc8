"""From the features of parts to operations: channels in their passes, notches, rows of holes.

What comes before what, on one part:
- the saw's channels come before a notch, for the notch takes away the corner of the edges that
  run along the fence;
- a rabbet comes after every channel measured from the same edge, for it thins that edge;
- the passes of one channel come in their order, so that a test piece can follow them.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from ..casework.directions import Way
from ..casework.parts.features.channel import Channel, ChannelKind
from ..casework.parts.features.feature import Feature
from ..casework.parts.features.notch import Notch
from ..casework.parts.holes import HoleRow
from ..casework.parts.part import DRAWER_BOX, Part
from ..casework.project import Project
from .channels.passes import BLADE_PROUD, NotchCut, buried_width, from_far_edge, notch_cut, plunge
from .channels.tooling import Tooling, Tools
from .dovetail_work import dovetail_operation
from .frame_joint_work import frame_joint_operation
from .holes.boring import bit_size, jig_serves, runs_across
from .operations import Cutter, Guide, Hold, Machine, Operation, OperationKind, Setting
from .side_names import leading, side_words

_KINDS = {
    ChannelKind.DADO: OperationKind.DADO,
    ChannelKind.GROOVE: OperationKind.GROOVE,
    ChannelKind.RABBET: OperationKind.RABBET,
    ChannelKind.LAP: OperationKind.LAP,
    ChannelKind.TONGUE: OperationKind.TONGUE,
}


def feature_key(part: Part, feature: str, number: int = 1, passes: int = 1) -> str:
    """The key of an operation on a feature: `B1-L groove-back pass 2`."""
    return f"{part.mark} {feature}" + (f" pass {number}" if passes > 1 else "")


def part_operations(
    project: Project, part: Part, tools: Tools, freed: tuple[str, ...]
) -> Iterator[Operation]:
    """Every operation on a part once the operations `freed` have cut it out; see above for their order."""
    last: dict[str, str] = {}
    for channel in sorted(part.channels, key=lambda channel: channel.kind is ChannelKind.RABBET):
        tooling = tools.of(project, channel)
        if tooling is None:
            continue
        after = freed
        if channel.kind is ChannelKind.RABBET:
            others = (one for one in part.channels if one.kind is not ChannelKind.RABBET)
            same = (one.name for one in others if one.edge is channel.edge)
            after = tuple(last[name] for name in same if name in last) or freed
        for operation in channel_passes(project, part, channel, tooling, after):
            yield operation
            last[channel.name] = operation.key
    for feature in part.features:
        if corner := feature.corner:
            yield _notch(project, part, corner, tuple(last.values()) or freed)
        if feature.bench_joint:
            by_joint = dovetail_operation if part.role in DRAWER_BOX else frame_joint_operation
            yield by_joint(project, part, feature, feature_key(part, feature.name), freed)
        for key, row in bored_rows(project, part, feature):
            yield _row(project, part, feature, row, key, freed)


def bored_rows(project: Project, part: Part, feature: Feature) -> Iterator[tuple[str, HoleRow]]:
    """The rows of holes of a feature, each with the key of the operation that bores it."""
    rows = feature.rows(project.sizes)
    for number, row in enumerate(rows, 1):
        yield feature_key(part, feature.name, number, len(rows)), row


def row_of(project: Project, operation: Operation) -> tuple[Feature, HoleRow]:
    """The row that an operation bores, and the feature it belongs to; KeyError for any other operation."""
    part = project.parts[operation.piece]
    feature = part.feature(operation.feature)
    return feature, dict(bored_rows(project, part, feature))[operation.key]


def channel_passes(
    project: Project, part: Part, channel: Channel, tooling: Tooling, after: tuple[str, ...]
) -> Iterator[Operation]:
    """One operation for every pass of a channel."""
    count = len(tooling.passes)
    before: tuple[Fraction, Way] | None = None
    for number, begins in enumerate(tooling.passes, 1):
        key = feature_key(part, channel.name, number, count)
        setting, against = _setting(project, part, channel, tooling, begins)
        yield Operation(
            key,
            _KINDS[channel.kind],
            part.mark,
            (part.mark,),
            setting,
            _hold(part, against, channel),
            project.worked(part),
            project.sizes.of(part.size(channel.runs)),
            after,
            feature=channel.name,
            moved=setting.distance - before[0] if before and before[1] is against else Fraction(0),
        )
        after, before = (key,), (setting.distance, against)


def _setting(
    project: Project, part: Part, channel: Channel, tooling: Tooling, begins: Fraction
) -> tuple[Setting, Way]:
    """The saw's setting for one pass, and the edge of the part that runs along the fence."""
    depth = project.sizes.of(channel.depth)
    if channel.kind is ChannelKind.RABBET:
        width = project.sizes.of(channel.width)
        hidden = buried_width(width, tooling.cutter.width) if tooling.packing else Fraction(0)
        guide = Guide.SACRIFICIAL_FENCE
        return Setting(Machine.TABLE_SAW, tooling.cutter, guide, begins, depth, hidden), channel.edge
    # A narrow piece is crossed on the sled, whose stop stands as near as it can. A groove in the middle of an
    # edge is cut on one setting from both faces: it then comes in the middle by itself.
    sled, across = channel.kind.on_sled, project.sizes.of(part.size(channel.edge.axis))
    near_only = sled or _in_the_middle(project, part, channel)
    reach = Fraction(0) if near_only else project.job.shop.table_saw.rip_capacity
    near = project.sizes.of(channel.at) + begins
    far = from_far_edge(across, near, tooling.cutter.width)
    turned = near > reach and far < near
    distance, against = (far, channel.edge.opposite) if turned else (near, channel.edge)
    guide = Guide.STOP if sled else Guide.FENCE
    return Setting(Machine.TABLE_SAW, tooling.cutter, guide, distance, depth), against


def _in_the_middle(project: Project, part: Part, channel: Channel) -> bool:
    """Whether it lies in an edge of its part as far from one face as from the other."""
    if channel.edge.axis is not part.lie.thickness:
        return False
    at, wide = project.sizes.of(channel.at), project.sizes.of(channel.width)
    return from_far_edge(project.sizes.of(part.thickness), at, wide) == at


def _hold(part: Part, against: Way, channel: Channel) -> Hold:
    """How a part lies for a pass; on the sled it does not matter which edge goes first."""
    down = channel.face
    leads = "" if channel.kind.on_sled else side_words(part, leading(against, down))
    return Hold(side_words(part, against), side_words(part, down), leads, channel.runs is part.lie.length)


def _notch(project: Project, part: Part, notch: Notch, after: tuple[str, ...]) -> Operation:
    """Both cuts of a notch by the hand-held saw, the good face down, where its teeth come in clean."""
    saw = project.job.shop.hand_saw
    setting = Setting(
        Machine.HAND_SAW, Cutter(f"{saw.name} blade", saw.kerf), Guide.STRAIGHTEDGE, saw.base_offset
    )
    return Operation(
        feature_key(part, notch.name),
        OperationKind.NOTCH,
        part.mark,
        (part.mark,),
        setting,
        Hold(
            f"{side_words(part, notch.first_edge)} and {side_words(part, notch.second_edge)}",
            side_words(part, part.lie.worked.opposite),
            "",
            False,
        ),
        project.worked(part),
        project.sizes.of(notch.first) + project.sizes.of(notch.second),
        after,
        feature=notch.name,
    )


def notch_cuts(project: Project, part: Part, notch: Notch) -> tuple[NotchCut, NotchCut]:
    """The two cuts of a notch: along its line in from each edge, up to the corner."""
    saw = project.job.shop.hand_saw
    first, second = project.sizes.of(notch.first), project.sizes.of(notch.second)
    lying = plunge(saw.blade_diameter, project.sizes.of(part.thickness), BLADE_PROUD)
    return (
        notch_cut(side_words(part, notch.first_edge), first, second, saw.base_offset, lying),
        notch_cut(side_words(part, notch.second_edge), second, first, saw.base_offset, lying),
    )


def _row(
    project: Project, part: Part, feature: Feature, row: HoleRow, key: str, after: tuple[str, ...]
) -> Operation:
    """A row of holes, on the jig where it has the row's holes, else from a story stick; on a line that is
    squared across the part, by that."""
    with_jig = jig_serves(project.job.shop.pin_jig, row)
    guide = Guide.PIN_JIG if with_jig else Guide.STORY_STICK
    if runs_across(part, feature):
        guide = Guide.LINE
    bit = Cutter(f"{bit_size(project, row.diameter)} bit", row.diameter)
    setting = Setting(Machine.DRILL, bit, guide, row.setback, row.depth)
    face = feature.face or part.lie.worked
    return Operation(
        key,
        OperationKind.BORE,
        part.mark,
        (part.mark,),
        setting,
        Hold(side_words(part, feature.edges[0]), side_words(part, face.opposite), "", True),
        project.worked(part),
        row.length,
        after,
        holes=row.number,
        feature=feature.name,
    )
