"""Instructions for a batch of work: what to set, how to hold each piece, what to watch for."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from ..boards.board_plan import BoardPlan
from ..casework.parts.part import Role
from ..casework.project import Project
from ..lengths.quantities import caliper, exact_figure, stock_size
from .assembly.join_wording import join_sentences
from .assembly.joining import Joinings, dry_fit_measures, glue_ups_of_all
from .boards.board_wording import HOW, TITLES, board_step_words
from .boards.board_work import NO_BOARDS, wood_of_step
from .channels.proving_words import proving_words, turned_words
from .cut_wording import cut_words, far_side_as_set, piece_words
from .dovetail_work import DOVETAILS_TITLE, dovetail_lies, dovetail_setting, dovetail_words
from .edging_wording import EDGE_CASE_TITLE, EDGE_TITLE, edging_setting, edging_words
from .frame_joint_work import (
    frame_joint_lies,
    frame_joint_setting,
    frame_joint_title,
    frame_joint_words,
    splitting_words,
)
from .holes.boring import with_jig
from .holes.row_wording import RowWords, row_lies, row_words
from .holes.scrap_wording import scrap_words
from .operations import Guide, Machine, Operation, OperationKind, Setting
from .order.batches import Batch
from .order.step_times import Pace, effort_of_batch
from .part_operations import notch_cuts, row_of
from .safety.hazards import Caution, cautions, mirrored_caution, worst_cautions


@dataclass(frozen=True)
class StepText:
    """One piece at a setting: the operation's key, the piece as it is chalked and its parts, its size, how to
    hold it. `lies` is how it lies against the guide, where `hold` begins so, and `then` what follows; of a
    row of holes that is in `row`. `changed` says what a chosen way to put something right does otherwise."""

    key: str
    piece: str
    parts: tuple[str, ...]
    size: str
    hold: str
    kind: str
    lies: str = ""
    then: str = ""
    row: RowWords | None = None
    changed: str = ""


@dataclass(frozen=True)
class BatchText:
    """A batch: its title, what to set (in lines), its pieces, cautions, and the minutes it should take.

    `hints` say by what to set it, beyond the figures: a piece of the stock, a part cut before, a spacer.
    """

    key: str
    title: str
    machine: str
    setting: tuple[str, ...]
    steps: tuple[StepText, ...]
    cautions: tuple[Caution, ...]
    minutes: float
    fence: Fraction | None
    hints: tuple[str, ...] = ()


class BatchWriter:
    """Writes the instructions for batches of one project."""

    def __init__(
        self,
        project: Project,
        pace: Pace | None = None,
        joinings: Joinings | None = None,
        boards: Mapping[str, BoardPlan] = NO_BOARDS,
    ) -> None:
        """`joinings` are the project's glue-ups where they are known already, `boards` its plans of
        boards."""
        self.project = project
        self.boards = boards
        self.pace = pace or Pace()
        known = glue_ups_of_all(project) if joinings is None else joinings
        self._joins = {one.key: one for case in known.values() for one in case}
        self._scraps: dict[Fraction, str] = {}

    def text(self, length: Fraction) -> str:
        """A length on the shop's rule, with its unit."""
        return self.project.printed(length)

    def set_text(self, length: Fraction) -> str:
        """A length that is set for a joint: where the rule shows it rounded, with the exact figure."""
        exact = exact_figure(length, self.project.rule)
        return f"{self.text(length)} ({exact})" if exact else self.text(length)

    def batch_text(self, batch: Batch) -> BatchText:
        """The instructions for a whole batch."""
        first = batch.operations[0]
        setting, hints = batch.setting, tuple(self._hints(batch))
        at_saw = setting is not None and setting.machine is Machine.TABLE_SAW
        return BatchText(
            batch.key,
            self.title(next((one for one in batch.operations if one.kind is OperationKind.CARRY), first)),
            first.setting.machine.value,
            tuple(self._setting(batch, hints)),
            tuple(self.step_text(operation, batch) for operation in batch.operations),
            self._cautions(batch),
            round(self.pace.minutes(effort_of_batch(batch)), 1),
            setting.distance if at_saw and setting is not None else None,
            hints,
        )

    def title(self, operation: Operation) -> str:
        """What a batch does, in a few words."""
        setting = operation.setting
        if operation.kind is OperationKind.CARRY:
            return "Cut the sheets into pieces you can carry"
        if operation.kind is OperationKind.TRIM and setting.machine is Machine.HAND_SAW:
            return "Trim edges with the hand-held saw"
        if operation.kind in TITLES:
            return TITLES[operation.kind]
        if operation.kind is OperationKind.ROUGH_RIP:
            return f"Rip to rough width, {self.text(setting.distance)}"
        if operation.kind.cuts_up_a_sheet:
            return f"{operation.kind.value.capitalize()} to {self.text(operation.makes or setting.distance)}"
        if operation.kind.is_channel:
            deep = self.text(setting.height or Fraction(0))
            guide = "stop" if setting.guide is Guide.STOP else "fence"
            # An end that lies over the cutter is stopped from beyond it.
            at = self.text(setting.far_side if guide == "stop" and not setting.distance else setting.distance)
            return f"{operation.kind.value.capitalize()}, {deep} deep, {guide} at {at}"
        if operation.kind is OperationKind.NOTCH:
            return "Cut notches with the hand-held saw"
        if operation.kind is OperationKind.BORE:
            where = "from the end" if setting.guide is Guide.LINE else "in from the edge"
            return f"Bore {self._bored(operation)} {self.text(setting.distance)} {where}"
        if operation.kind is OperationKind.FRAME_JOINT:
            return frame_joint_title(operation)
        if operation.kind is OperationKind.DOVETAILS:
            return DOVETAILS_TITLE
        if operation.kind is OperationKind.EDGE:
            return EDGE_TITLE
        if operation.kind is OperationKind.EDGE_CASE:
            return EDGE_CASE_TITLE
        if operation.kind is OperationKind.DRY_FIT:
            return "Dry fit, before backs are cut"
        return "Assemble"

    def _bored(self, operation: Operation) -> str:
        """What holes are bored: rows of pins, or what they are for."""
        feature = row_of(self.project, operation)[0]
        return "rows" if feature.serves else f"{feature.kind_words}s"

    def step_text(self, operation: Operation, batch: Batch) -> StepText:
        """The instructions for one piece of a batch."""
        mates = [one for one in batch.operations if one.key in operation.together]
        length, width, _ = operation.size
        size = f"{self.text(length)} × {self.text(width)}"
        lies, then = self._lies(operation), " ".join(self._then(operation, mates))
        row = row_words(self.project, operation) if operation.kind is OperationKind.BORE else None
        hold = then
        if operation.kind.is_channel:
            fenced = operation.setting.guide is not Guide.STOP
            hold = f"{lies} (fence on the right)." if fenced else f"{lies}."
        elif operation.kind in (OperationKind.FRAME_JOINT, OperationKind.DOVETAILS):
            hold = f"{lies}: {then[0].lower()}{then[1:]}"
        if row:
            hold = " ".join(filter(None, (f"{lies}.", self._spacer(operation), row.told)))
        kind, piece = operation.kind.value, piece_words(operation)
        if operation.kind is OperationKind.FRAME_JOINT:
            kind = self.project.parts[operation.piece].feature(operation.feature).kind_words
        return StepText(operation.key, piece, operation.parts, size, hold, kind, lies, then, row)

    def _lies(self, operation: Operation) -> str:
        hold, guide = operation.hold, operation.setting.guide
        if guide is Guide.STOP and operation.kind.is_channel:
            return f"{hold.against.capitalize()} against the sled's stop, {hold.down} down"
        if operation.kind.is_channel:
            against = f"{hold.against.capitalize()} against the {guide.value}"
            return f"{against}, {hold.down} down, {hold.leads} first"
        if operation.kind is OperationKind.FRAME_JOINT:
            return frame_joint_lies(self.project, operation)
        if operation.kind is OperationKind.DOVETAILS:
            return dovetail_lies(operation)
        return row_lies(self.project, operation) if operation.kind is OperationKind.BORE else ""

    def _then(self, operation: Operation, mates: Sequence[Operation]) -> Iterator[str]:
        if operation.kind is OperationKind.JOIN:
            yield from join_sentences(self.project, self._joins[operation.key])
            return
        if operation.kind is OperationKind.DRY_FIT:
            yield "Assemble it dry, without glue, and measure:"
            measures = dry_fit_measures(self.project, operation.piece)
            yield "; ".join(f"{m.words}, {self.text(m.expected)}" for m in measures) + "."
            return
        if operation.kind is OperationKind.NOTCH:
            yield from self._notch(operation)
            return
        if operation.kind is OperationKind.FRAME_JOINT:
            yield frame_joint_words(self.project, operation)
        if operation.kind is OperationKind.DOVETAILS:
            yield dovetail_words(self.project, operation)
        if operation.kind.edges:
            yield from edging_words(self.project, operation)
        if operation.kind.cuts_up_a_sheet:
            yield cut_words(self.project, operation, mates)
        if (wood := wood_of_step(operation)) is not None:
            yield from board_step_words(self.project, self.boards[wood], operation)

    def _setting(self, batch: Batch, hints: Sequence[str]) -> Iterator[str]:
        first = batch.operations[0]
        setting = first.setting
        if first.kind.edges:
            yield from edging_setting(self.project, batch.operations)
        if first.kind is OperationKind.FRAME_JOINT:
            yield from self._frame_joint(batch)
            yield from hints
        if first.kind is OperationKind.DOVETAILS:
            yield from dovetail_setting(self.project, batch.operations)
        if first.kind.mills_boards:
            yield HOW[first.kind]
        if first.setting.machine is Machine.PLANER:
            yield f"To {self.text(setting.distance)} in the end."
        if setting.machine is Machine.BENCH or first.kind is OperationKind.FRAME_JOINT:
            return
        if batch.new_cutter:
            width = caliper(setting.cutter.width, self.project.job.unit, finer=True)
            yield f"Change to {setting.cutter.name}, {width} wide."
        if setting.guide is Guide.STRAIGHTEDGE:
            yield (
                f"Straightedge {self.text(setting.distance)} from the line, on the side you keep; measure "
                "from the edge that is named; good face down; blade just through the sheet."
            )
        elif setting.machine is Machine.TABLE_SAW:
            yield from self._saw(setting, batch, hints)
        elif setting.machine is Machine.DRILL and setting.height is not None:
            yield f"Depth stop at {self.set_text(setting.height)}."
        if first.kind.is_channel:
            yield proving_words(self.project, first)

    def _frame_joint(self, batch: Batch) -> Iterator[str]:
        setting = batch.operations[0].setting
        if batch.new_cutter:
            yield f"Change to {setting.cutter.name}."
        if setting.guide is Guide.STOP:
            yield f"Height {self.set_text(setting.height or Fraction(0))} for the front cheeks."
        elif setting.height is not None:
            what = "the holes' centres" if batch.operations[0].holes else "the near wall of the mortise"
            yield f"From the front face to {what} {self.set_text(setting.distance)}."
            yield f"Depth stop at {self.set_text(setting.height)}."
        yield from frame_joint_setting(batch.operations[0])

    def _saw(self, setting: Setting, batch: Batch, hints: Sequence[str]) -> Iterator[str]:
        tell = self.text if setting.height is None else self.set_text
        if setting.guide is Guide.SACRIFICIAL_FENCE:
            out = setting.cutter.width - setting.buried
            stands = (
                f"Sacrificial fence on: bury {self.set_text(setting.buried)} of the stack in it, "
                f"which leaves {stock_size(out, self.project.job.unit)} exposed"
            )
        elif setting.guide is Guide.STOP:
            cutter = "blade" if setting.height is None else "cutter"
            stands = f"Stop on the sled {tell(setting.distance)} from the near side of the {cutter}"
            if not setting.distance:
                stands = f"Stop on the sled {tell(setting.far_side)} from the far side of the {cutter}"
        else:
            beyond = tell(far_side_as_set(self.project, setting))
            stands = (
                f"Fence {tell(setting.distance)} from the near side of the cutter "
                f"(its far side is at {beyond})"
            )
        if setting.height is None:
            thickest = max(operation.size[2] for operation in batch.operations)
            yield f"{stands}; blade slightly above the {self.text(thickest)} stock."
            yield from hints
        else:
            yield f"{stands}."
            yield from hints
            yield f"Height {self.set_text(setting.height)}."

    def _hints(self, batch: Batch) -> Iterator[str]:
        first = batch.operations[0]
        if first.kind is OperationKind.BORE:
            yield from dict.fromkeys(words for one in batch.operations if (words := self._spacer(one)))
        elif first.kind is OperationKind.FRAME_JOINT:
            yield from splitting_words(self.project, batch.operations)
        elif first.setting.machine is Machine.TABLE_SAW:
            if first.setting.height is not None:
                yield from self._by_the_stock(batch)
                yield from turned_words(batch.operations)
                yield from self._moved(batch)
            yield from self._from_a_part(batch)

    def _by_the_stock(self, batch: Batch) -> Iterator[str]:
        """For a width or an inset as thick as a sheet: a piece of it is truer than a mark of the rule."""
        gauged = self.project.numbers.set_sizes.gauged
        for operation in batch.operations:
            part, setting = self.project.parts.get(operation.piece), operation.setting
            for channel in part.channels if part else ():
                if channel.name != operation.feature:
                    continue
                fence = setting.distance == self.project.sizes.of(channel.at)
                by, where = (
                    (channel.width, "laid against the fence")
                    if setting.guide is Guide.SACRIFICIAL_FENCE
                    else (channel.at, "between fence and cutter")
                )
                if fence and by.name in gauged:
                    sheet = self.project.sheet_called(self.project.sizes.ledger.expand(by).name)
                    assert sheet is not None, f"{by.name} is gauged from a sheet"
                    yield (
                        f"With the saw unplugged, set it by a piece of the {sheet.name} {where}, "
                        "not by the rule."
                    )
                    return

    def _moved(self, batch: Batch) -> Iterator[str]:
        """How far the fence moves between two passes: two readings of the rule would not hold the width."""
        moves = {operation.moved for operation in batch.operations}
        if len(moves) == 1 and (by := moves.pop()):
            exact = exact_figure(abs(by), self.project.rule) or self.text(abs(by))
            way = "away from" if by > 0 else "towards"
            moved = "stop" if batch.operations[0].setting.guide is Guide.STOP else "fence"
            yield (
                f"From the pass before, move the {moved} {exact} {way} the cutter; do not set it by the rule."
            )

    def _from_a_part(self, batch: Batch) -> Iterator[str]:
        """For a setting made again: a part that was cut to size on it and is truer than the rule. One of the
        stock that is cut now lies with it; one of another material may be anywhere in the shop."""
        parts = self.project.parts
        stock = {parts[mark].material for one in batch.operations for mark in one.parts if mark in parts}
        for cut in batch.made_before:
            for mark in cut.sizes:
                if mark in parts and parts[mark].material in stock and cut.makes in self._outline(mark):
                    yield f"Set it from {mark}, which was cut to this size before, not from the rule."
                    return

    def _outline(self, mark: str) -> tuple[Fraction, Fraction]:
        length, width, _ = self.project.dimensions(self.project.parts[mark])
        return length, width

    def _notch(self, operation: Operation) -> Iterator[str]:
        part = self.project.parts[operation.piece]
        corner = part.feature(operation.feature).corner
        assert corner is not None, f"{operation.key} saws out a corner"
        for cut in notch_cuts(self.project, part, corner):
            stop, left = (self.text(Fraction(value)) for value in (cut.stop, cut.left_standing))
            yield (
                f"Line {self.text(cut.line)} in from the {cut.edge}: straightedge at {self.text(cut.guide)}, "
                f"cut {self.text(cut.length)} long; stop with the blade's centre {stop} short of the corner."
            )
        yield f"Finish the corner with a hand saw: {left} is left uncut on the far face."

    def _spacer(self, operation: Operation) -> str:
        """What lies between the jig and the edge; empty for a row that needs nothing there."""
        jig = self.project.job.shop.pin_jig
        if operation.setting.guide is not Guide.PIN_JIG or jig is None:
            return ""
        spacer = with_jig(jig, row_of(self.project, operation)[1]).spacer
        return f"Spacer {self.text(spacer)} between jig and edge{self._scrap(spacer)}." if spacer else ""

    def _scrap(self, spacer: Fraction) -> str:
        """What to make a spacer of; many rows take the same one."""
        if spacer not in self._scraps:
            self._scraps[spacer] = scrap_words(self.project, spacer)
        return self._scraps[spacer]

    def _cautions(self, batch: Batch) -> tuple[Caution, ...]:
        pair = None
        if batch.setting is not None:
            pair = mirrored_caution(one for one in batch.operations if not self._centred(one))
        each = (
            caution
            for operation in batch.operations
            for caution in cautions(
                operation, self.project.job.shop, self.project.rule, self._weight(operation)
            )
        )
        return worst_cautions((*((pair,) if pair else ()), *each))

    def _centred(self, operation: Operation) -> bool:
        """Whether the piece may lie either way: what is cut into the frame of a door is in its middle."""
        part = self.project.parts.get(operation.piece)
        return part is not None and part.role in (Role.DOOR_STILE, Role.DOOR_RAIL)

    def _weight(self, operation: Operation) -> Fraction:
        for mark in operation.parts:
            if mark in self.project.parts:
                return self.project.job.sheets[self.project.parts[mark].material].weight
        return Fraction(0)
