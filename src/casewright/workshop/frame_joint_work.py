"""The joints of face frames that are laid out one by one: the operations that make them, and their words."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from fractions import Fraction

from ..casework.parts.features.feature import Feature
from ..casework.parts.features.frame_joints import DowelPair, Mortise, Tenon
from ..casework.parts.part import Part
from ..casework.project import Project
from ..lengths.in_a_sentence import listed
from .channels.stack_packing import pack
from .channels.tooling import stack_cutter
from .holes.boring import bit_size
from .operations import Cutter, Guide, Hold, Machine, Operation, OperationKind, Setting
from .sheets.sheet_cuts import blade
from .side_names import side_words

SPLITS_WITHIN = Fraction(1, 2)
"""Less wood than this between a mortise and the end of its piece splits while the mortise is cut (inches).
Common practice, no source. The size stays what a magazine gives: it puts 1/4 in there."""


def frame_joint_operation(
    project: Project, part: Part, feature: Feature, key: str, after: tuple[str, ...]
) -> Operation:
    """The operation that makes a joint of a frame in one of its parts; `after` is what comes before it."""
    assert feature.face is not None, f"{feature.name} is cut into an end or an edge"
    return Operation(
        key,
        OperationKind.FRAME_JOINT,
        part.mark,
        (part.mark,),
        _setting(project, feature),
        Hold(side_words(part, feature.face), "", "", False),
        project.worked(part),
        Fraction(0),
        after,
        holes=len(feature.bores(part, project.sizes)),
        feature=feature.name,
    )


def _setting(project: Project, feature: Feature) -> Setting:
    """Holes and mortises are set from the front face; a tenon is cut with the dado stack on the sled."""
    of = project.sizes.of
    if isinstance(feature, DowelPair):
        across = of(feature.diameter)
        bit = Cutter(f"{bit_size(project, across)} bit", across)
        return Setting(Machine.DRILL, bit, Guide.FRONT_FACE, of(feature.setback), of(feature.depth))
    if isinstance(feature, Mortise):
        wide = of(feature.width)
        bit = Cutter(f"{bit_size(project, wide)} mortise bit", wide)
        return Setting(Machine.DRILL, bit, Guide.FRONT_FACE, of(feature.cheek), of(feature.depth))
    assert isinstance(feature, Tenon), f"{feature.name} is a joint of a frame"
    packed = pack(project.job.shop.dado_stack, of(feature.long)).under
    cutter = stack_cutter(project, packed) if packed else blade(project.job.shop)
    return Setting(Machine.TABLE_SAW, cutter, Guide.STOP, Fraction(0), of(feature.cheek))


def mortises_first(project: Project, operations: Iterable[Operation]) -> Iterator[Operation]:
    """The operations, a tenon waiting for every mortise of its case: it is cut to one that is there."""
    made = tuple(operations)
    mortises: dict[str, list[str]] = {}
    for one in made:
        if one.kind is OperationKind.FRAME_JOINT and isinstance(_joint(project, one), Mortise):
            mortises.setdefault(project.parts[one.piece].case, []).append(one.key)
    for one in made:
        if one.kind is OperationKind.FRAME_JOINT and isinstance(_joint(project, one), Tenon):
            one = replace(one, after=(*one.after, *mortises.get(project.parts[one.piece].case, ())))
        yield one


def _joint(project: Project, operation: Operation) -> Feature:
    return project.parts[operation.piece].feature(operation.feature)


def frame_joint_title(operation: Operation) -> str:
    """What a batch of such joints does."""
    if operation.setting.guide is Guide.STOP:
        return "Cut the tenons of the face frames"
    return "Bore for dowels" if operation.holes else "Cut the mortises of the face frames"


def frame_joint_setting(operation: Operation) -> Iterator[str]:
    """How the joints of one setting are made alike, and the test piece that comes first."""
    if operation.setting.guide is Guide.STOP:
        yield (
            "On the crosscut sled, the end against the stop, so that the stack takes the whole length in "
            "passes: the front cheeks first, then the rear ones, then the edges."
        )
        yield "Try one on an offcut of the frame's stock first: it goes into its mortise by hand and stays."
        return
    yield "The front face of every piece against the fence or the jig: so the faces come flush."
    if operation.holes:
        yield "Bore a joint in two offcuts of the frame's stock first, and push it together on dry dowels."
    else:
        yield "Cut one in an offcut of the frame's stock first: bore out the waste, pare the ends square."


def splitting_words(project: Project, operations: Iterable[Operation]) -> Iterator[str]:
    """What keeps the ends of pieces whole that have a mortise close by."""
    if any(_near_its_end(project, one) for one in operations):
        yield (
            "An end with a mortise close to it splits easily: clamp it tight between two blocks while you "
            "bore and pare."
        )


def _near_its_end(project: Project, operation: Operation) -> bool:
    """Whether a mortise leaves little wood between itself and the end that it is measured from."""
    joint = _joint(project, operation)
    return isinstance(joint, Mortise) and project.sizes.of(joint.at) < SPLITS_WITHIN


def frame_joint_lies(project: Project, operation: Operation) -> str:
    """Where on its piece the joint is made: `In the right edge`."""
    feature = project.parts[operation.piece].feature(operation.feature)
    where = "On" if isinstance(feature, Tenon) else "In"
    return f"{where} the {operation.hold.against}"


def frame_joint_words(project: Project, operation: Operation) -> str:
    """The sizes of the joint, from the end or edge that they are laid out from."""
    part = project.parts[operation.piece]
    feature = part.feature(operation.feature)

    text = project.printed
    of = project.sizes.of
    if isinstance(feature, DowelPair):
        centres = listed(text(of(place)) for place in (feature.first, feature.second))
        return f"2 holes, centres {centres} from the {side_words(part, feature.end).upper()}."
    if isinstance(feature, Mortise):
        end = side_words(part, feature.end).upper()
        return f"Begins {text(of(feature.at))} from the {end}, {text(of(feature.long))} long."
    assert isinstance(feature, Tenon), f"{operation.key} is a joint of a frame"
    long, thick, cheek, shoulder = (
        text(of(form)) for form in (feature.long, feature.width, feature.cheek, feature.shoulder)
    )
    return f"{long} long, {thick} thick, {cheek} behind the front face, {shoulder} off each edge."
