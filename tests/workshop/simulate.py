"""Does on a block of wood exactly what the operations say, and nothing the part says."""

from __future__ import annotations

from fractions import Fraction as F

from casewright.casework.directions import Axis, Way
from casewright.casework.parts.features.hole_line import HoleLine
from casewright.casework.parts.features.notch import Notch
from casewright.casework.parts.holes import Bore
from casewright.casework.parts.part import Part
from casewright.casework.project import Project
from casewright.shop.machines import PinJig
from casewright.solids.part_shape import Block, PartShape, Point
from casewright.workshop.holes.boring import JigWork, with_jig
from casewright.workshop.operations import Guide, Operation, OperationKind
from casewright.workshop.part_operations import notch_cuts
from casewright.workshop.side_names import side_words


def bored_by(jig: PinJig, work: JigWork) -> tuple[tuple[F, F], ...]:
    """Where the holes really come: (from the end, from the edge), by laying the jig as told."""
    return tuple(
        (move.shift + (hole - 1) * jig.pitch, jig.setback + work.spacer)
        for move in work.moves
        for hole in move.holes
    )


def made_by(project: Project, part: Part, operations: tuple[Operation, ...]) -> PartShape:
    """The part's blank after these operations."""
    blank = tuple(project.sizes.of(part.size(axis)) for axis in Axis)
    cuts: list[Block] = []
    bores: list[Bore] = []
    for operation in operations:
        if operation.kind in (OperationKind.DADO, OperationKind.GROOVE, OperationKind.RABBET):
            cuts.append(_pass(part, blank, operation))
        elif operation.kind is OperationKind.NOTCH:
            cuts.append(_notch(project, part, blank, operation))
        elif operation.kind is OperationKind.BORE:
            bores.extend(_holes(project, part, blank, operation))
    return PartShape((blank[0], blank[1], blank[2]), tuple(cuts), tuple(bores))


def _way(part: Part, words: str) -> Way:
    (found,) = [way for way in Way if side_words(part, way) == words]
    return found


def _pass(part: Part, blank: tuple[F, ...], operation: Operation) -> Block:
    """The strip the cutter takes: it stands between `distance` (less what is buried) from the edge
    on the fence and its own width further, `height` into what lies on the table."""
    setting = operation.setting
    assert setting.height is not None
    begins = setting.distance - setting.buried
    low, high = [F(0)] * 3, list(blank)
    for way, near, far in (
        (_way(part, operation.hold.against), max(begins, F(0)), begins + setting.cutter.width),
        (_way(part, operation.hold.down), F(0), setting.height),
    ):
        axis = way.axis.value
        far = min(far, blank[axis])
        low[axis], high[axis] = (near, far) if way.sign < 0 else (blank[axis] - far, blank[axis] - near)
    return Block((low[0], low[1], low[2]), (high[0], high[1], high[2]))


def _notch(project: Project, part: Part, blank: tuple[F, ...], operation: Operation) -> Block:
    feature = part.feature(operation.key.removeprefix(f"{part.mark} "))
    assert isinstance(feature, Notch)
    low, high = [F(0)] * 3, list(blank)
    offset = project.job.shop.hand_saw.base_offset
    for cut in notch_cuts(project, part, feature):
        way = _way(part, cut.edge)
        axis, line = way.axis.value, cut.guide - offset
        low[axis], high[axis] = (F(0), line) if way.sign < 0 else (blank[axis] - line, blank[axis])
    return Block((low[0], low[1], low[2]), (high[0], high[1], high[2]))


def _holes(project: Project, part: Part, blank: tuple[F, ...], operation: Operation) -> list[Bore]:
    feature = part.feature(operation.key.removeprefix(f"{part.mark} "))
    assert isinstance(feature, HoleLine)
    row = feature.row(project.sizes)
    jig = project.job.shop.pin_jig
    if operation.setting.guide is Guide.PIN_JIG:
        assert jig is not None
        places = bored_by(jig, with_jig(jig, row))
    else:
        places = tuple((hole, operation.setting.distance) for hole in row.holes)
    edge, face = _way(part, operation.hold.against), _way(part, operation.hold.down).opposite
    end = feature.end
    assert operation.setting.height is not None
    bores = []
    for along, setback in places:
        mouth = [F(0)] * 3
        for way, distance in ((end, along), (edge, setback), (face, F(0))):
            size = blank[way.axis.value]
            mouth[way.axis.value] = distance if way.sign < 0 else size - distance
        point: Point = (mouth[0], mouth[1], mouth[2])
        bores.append(Bore(point, face.opposite, operation.setting.cutter.width / 2, operation.setting.height))
    return bores
