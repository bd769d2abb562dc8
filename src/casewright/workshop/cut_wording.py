"""How the cuts of a sheet are told, by hand and at the table saw: where the edge lies, what is kept, what it
becomes. Pieces are named by what is chalked on them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from ..casework.fronts_in_one_piece import FrontsInOnePiece
from ..casework.project import Project
from ..lengths.length import show
from ..lengths.quantities import weighed
from .freed_pieces import Freed, FreedPiece, StackedPiece
from .operations import Guide, Machine, Operation, OperationKind, Setting
from .safety.hazards import hangs_far
from .sheets.lifts import weight_of_piece
from .who_lifts import piece_rule

CHALK = "Chalk each piece for the table saw with its sheet's number and letter, as told, and stack it there."
COPY = "Copy what is chalked on a piece onto whatever is cut from it: steps call for pieces by that."
NARROW = Fraction(6)
"""A saw's base and a clamped straightedge find no hold on a strip narrower than this. Common practice, no
source."""
NOT_CRITICAL = Fraction(1, 8)
"""A trim with so much to spare is set by eye: no part is the smaller for it."""
NAMED_MOST = 4
"""Parts of a strip that are named; of the others only the number is told."""


def piece_words(operation: Operation) -> str:
    """What a step calls its piece: what is chalked on it once it has been carried to the table saw, else the
    sheet or the part."""
    return operation.carried.name if operation.carried else operation.piece


def cut_words(project: Project, cut: Operation, mates: Sequence[Operation] = ()) -> str:
    """How to make a cut of a sheet, and what it leaves. `mates` are the cuts made in one pass with it."""
    held = (*_alone(project, cut), *_backed(cut), *_matched(cut, mates))
    return " ".join((_made(project, cut), *_numbered(cut), *held, *_left(project, cut)))


@dataclass(frozen=True, slots=True)
class CutInShort:
    """A cut of a sheet at the table saw, for a row of a table.

    `edge` lies against the fence or the sled's stop; `becomes` is the part, or the parts, that the piece kept
    is for, said where the cut is `critical`; `rest` what else the cut leaves; `more` is a sentence on how to
    do it, empty for most.
    """

    edge: str
    critical: bool
    becomes: str
    rest: str
    more: str


def cut_in_short(project: Project, cut: Operation) -> CutInShort:
    """What `cut_words` says of a cut at the table saw, without the words that all such cuts share."""
    part = _kept_part(cut)
    becomes = part.name if part else _becomes(cut).removeprefix(", ")
    rest = []
    for one in cut.leaves:
        if one.what is Freed.CARRIED:
            rest.append(f"chalk the rest {one.name}")
        elif one.what is Freed.OFFCUT:
            rest.append(f"offcut {_bare_size(project, one)}")
        elif one is not part:
            rest.append(f"the rest is {one.name}")
    down = "" if cut.hold.down == "other face" else f"{cut.hold.down} down. "
    more = down + " ".join((*_numbered(cut), *_alone(project, cut)))
    critical = _is_critical(cut)
    return CutInShort(cut.hold.against, critical, becomes if critical else "", "; ".join(rest), more.strip())


def from_one_piece(fronts: Iterable[FrontsInOnePiece]) -> str:
    """Which fronts of a sheet come from one piece, in the order in which they hang; nothing where none do."""
    by_way: dict[str, list[str]] = {}
    for one in fronts:
        by_way.setdefault(_hanging(one), []).append(", ".join(one.marks))
    return " ".join(f"From one piece, {way}: {'; '.join(marks)}." for way, marks in by_way.items())


def _hanging(fronts: FrontsInOnePiece) -> str:
    return "left to right" if fronts.side_by_side else "top to bottom"


def whole_sheet_words(project: Project, sheet: StackedPiece) -> str:
    """That a sheet is not cut by hand first."""
    return f"It goes to the table saw whole: {_to_carry(project, sheet.material, sheet)}."


def _numbered(cut: Operation) -> Iterator[str]:
    """That fronts of one piece are numbered before they are parted."""
    if cut.fronts is not None:
        marks, way = ", ".join(cut.fronts.marks), _hanging(cut.fronts)
        yield f"Before it, number {marks} on the face, {way}: one piece, so that the grain runs on."


def _made(project: Project, cut: Operation) -> str:
    hold, setting, makes = cut.hold, cut.setting, cut.makes or Fraction(0)
    if setting.machine is not Machine.HAND_SAW:
        guide = "sled's stop" if setting.guide is Guide.STOP else setting.guide.value
        lies = f"{hold.against.capitalize()} against the {guide}, {hold.down} down"
        keep = f"{lies}; keep {project.printed(makes)}"
        if not _is_critical(cut):
            return f"{keep} (takes {project.printed(cut.waste)} off, not critical)."
        return f"{keep}{_becomes(cut)}."
    if cut.kind is OperationKind.TRIM:
        line = f"Take {project.printed(cut.waste)} off the {hold.against}"
    else:
        line = f"Line {project.printed(makes)} in from the {hold.against}"
    return f"{line}{_straightedge(project, cut.straightedge)}."


def _straightedge(project: Project, stands: Fraction) -> str:
    return f": straightedge at {project.printed(stands)}" if stands > 0 else ""


def _alone(project: Project, cut: Operation) -> Iterator[str]:
    """How one maker takes off what hangs too far beyond the table saw's table, where there is room: the
    hand-held saw parts the piece outside the line, the table saw then cuts it to size."""
    shop, makes = project.job.shop, cut.makes or Fraction(0)
    at_table = cut.setting.machine is Machine.TABLE_SAW
    if not at_table or cut.hold.lengthwise or cut.along < NARROW or not hangs_far(cut, shop.table_saw):
        return
    saw = shop.hand_saw
    beyond = cut.across - makes - cut.setting.cutter.width
    again = cut.spare < beyond
    lost = saw.clean_up * (2 if again else 1) + saw.kerf - cut.setting.cutter.width
    if cut.spare < lost:
        return
    line = makes + saw.clean_up
    at = _straightedge(project, line - saw.base_offset)
    edge = cut.hold.against
    yield f"Alone, first crosscut it at the trestles {project.printed(line)} in from the {edge}{at}."
    if again:
        yield f"Then take {project.printed(saw.clean_up)} off that end of the rest before its next cut."


def _backed(cut: Operation) -> Iterator[str]:
    """What a saw's base stands on beside a strip that is narrower than the base."""
    if cut.setting.machine is Machine.HAND_SAW and cut.travel < NARROW:
        yield "Lay an offcut of the same thickness tight along each side of it, or the saw's base tips."


def _matched(cut: Operation, mates: Sequence[Operation]) -> Iterator[str]:
    """How a cut by hand makes its part exactly like those it must match."""
    ends = f"{cut.hold.against}s flush"
    if cut.marked_from:
        yield f"Strike the line from {cut.marked_from} laid on it, {ends}, not from the rule."
    if not mates:
        return
    if mates[0] is cut:
        pieces = " and ".join(map(_piece_and_parts, mates))
        yield f"Clamp {pieces} side by side, {ends}, and cut them in one pass."
    else:
        yield f"Same pass as {_piece_and_parts(mates[0])}; tick {'both' if len(mates) == 2 else 'each'}."


def _piece_and_parts(cut: Operation) -> str:
    return f"{piece_words(cut)} ({', '.join(cut.sizes)})"


def _becomes(cut: Operation) -> str:
    """What the piece kept at the table saw is, or what is yet to be cut from it."""
    if part := _kept_part(cut):
        return f": {part.name}"
    if not cut.sizes:
        return ""
    more = len(cut.sizes) - NAMED_MOST
    named = ", ".join(cut.sizes[:NAMED_MOST])
    return f", for {named} and {more} more" if more > 0 else f", for {named}"


def _is_critical(cut: Operation) -> bool:
    """Whether it matters exactly how much is kept: not for a trim with wood to spare that makes no part."""
    return cut.kind is not OperationKind.TRIM or bool(_kept_part(cut)) or cut.spare < NOT_CRITICAL


def _kept_part(cut: Operation) -> FreedPiece | None:
    """The part that is at size once it is kept; a trim keeps all that is left."""
    kept = cut.parts if cut.kind is OperationKind.TRIM else cut.sizes
    return next((one for one in cut.leaves if one.what is Freed.PART and one.name in kept), None)


def _left(project: Project, cut: Operation) -> Iterator[str]:
    """A sentence for each piece that the cut leaves, but for the part that is kept at the table saw."""
    by_hand = cut.setting.machine is Machine.HAND_SAW
    told = None if by_hand else _kept_part(cut)
    for one in cut.leaves:
        piece = f"the {one.side} piece" if by_hand and cut.kind is not OperationKind.TRIM else "the rest"
        if one.what is Freed.CARRIED:
            material = cut.piece.rpartition(" ")[0]
            yield f"Chalk {piece} {one.name}: {_to_carry(project, material, one)}."
        elif one.what is Freed.OFFCUT:
            yield f"Keep {piece}, an offcut {_size(project, one)}."
        elif one is not told:
            yield f"{piece.capitalize()} is {one.name}, at its size."


def _to_carry(project: Project, material: str, piece: FreedPiece | StackedPiece) -> str:
    """The size of a piece, what it weighs, and who lifts it where that is not one."""
    pounds = weight_of_piece(project, material, piece.length, piece.width)
    weighs = "" if pounds is None else f", {weighed(pounds, project.job.unit)}"
    long = max(piece.length, piece.width)
    lifters = piece_rule(project.job.shop.carry).lifters(pounds, long)
    who = "" if lifters.alone else f", {lifters.words(project.job.unit)}"
    return f"{_size(project, piece)}{weighs}{who}"


def _bare_size(project: Project, piece: FreedPiece) -> str:
    length, width = (show(one, project.rule).marked for one in (piece.length, piece.width))
    return f"{length} × {width}"


def _size(project: Project, piece: FreedPiece | StackedPiece) -> str:
    return f"{project.printed(piece.length)} × {project.printed(piece.width)}"


def far_side_as_set(project: Project, setting: Setting) -> Fraction:
    """The far side of the cutter when the fence stands at the number that is printed: both figures of a cut
    to size lead to one part. A joint's figures are exact, and so is this."""
    if setting.height is not None:
        return setting.far_side
    return project.rule.number(setting.distance) + setting.cutter.width
