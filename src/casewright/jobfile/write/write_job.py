"""The one door out: `write_job(job)` gives a job file's text that reads back as the same job."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import fields
from enum import Enum
from fractions import Fraction
from typing import Any

from ...casework.job import Bay, CaseSpec, Construction, Filler, Job, Materials, Run
from ...shop.machines import Carry, DadoStack, HandSaw, PinJig, TableSaw
from ...shop.materials import Offcut, OtherSize, SheetGood
from ..catalogue import Practice, Stock, packaged_stock
from . import literals
from .literals import Bare


def write_job(job: Job, stock: Stock | None = None) -> str:
    """The text of a job file that `read_job`, on the same stock, reads as an equal job.

    What is as usual is left out, sizes of cases apart. A case that differs from the job in
    something it does not name as `chosen` reads back with it chosen. Raises LengthError for a
    number that no short text says exactly.
    """
    return _Writer(job, stock or packaged_stock()).text()


class _Writer:
    def __init__(self, job: Job, stock: Stock) -> None:
        self.job = job
        self.stock = stock

    @property
    def practice(self) -> Practice:
        return self.stock.practice[self.job.unit]

    def text(self) -> str:
        blocks = [self._head(), *self._materials(), *self._usual(), *self._shop()]
        for run in self.job.runs:
            blocks += self._run(run)
        return "\n\n".join("\n".join(block) for block in blocks) + "\n"

    def _length(self, value: Fraction) -> Bare:
        return literals.length(value, self.job.unit)

    def _head(self) -> list[str]:
        job = self.job
        lines = [
            f"job = {literals.text(job.name)}",
            f"unit = {literals.choice(job.unit)}",
            f"mark = {literals.choice(job.mark)}",
        ]
        if job.rounding is not job.mark:
            lines.append(f"rounding = {literals.choice(job.rounding)}")
        for key, said in (("money", job.money), ("notes", job.notes)):
            if said:
                lines.append(f"{key} = {literals.text(said)}")
        if job.optional:
            lines.append(f"optional = {literals.array(literals.text(mark) for mark in sorted(job.optional))}")
        if job.left_out:
            lines.append(f"left_out = {literals.array(literals.text(mark) for mark in sorted(job.left_out))}")
        if job.sheet_of:
            sheets = {literals.text(mark): literals.text(key) for mark, key in sorted(job.sheet_of.items())}
            lines.append(f"sheet_of = {literals.inline(sheets)}")
        return lines

    def _materials(self) -> Iterator[list[str]]:
        for key, sheet in self.job.sheets.items():
            start_key, start = self._start_of(sheet)
            lines = [f"[materials.{key}]"]
            if start_key is not None:
                lines.append(f"sheet = {literals.text(start_key)}")
            yield lines + _entries(self._sheet(sheet), self._sheet(start) if start else {})

    def _start_of(self, sheet: SheetGood) -> tuple[str | None, SheetGood | None]:
        """The sheet good in stock it differs least from, if one is of its kind at all."""
        said = self._sheet(sheet)
        alike = {
            key: sum(self._sheet(one)[name] == value for name, value in said.items())
            for key, one in self.stock.sheets.items()
            if one.nominal == sheet.nominal and one.grain == sheet.grain
        }
        if not alike:
            return None, None
        nearest = max(alike, key=lambda key: alike[key])
        return nearest, self.stock.sheets[nearest]

    def _sheet(self, sheet: SheetGood) -> dict[str, Bare]:
        return {
            "name": literals.text(sheet.name),
            "nominal": self._length(sheet.nominal),
            "usual": self._length(sheet.usual.middle),
            "deviation": literals.spread(sheet.usual.deviation, self.job.unit),
            "readings": literals.array(self._length(reading) for reading in sheet.readings),
            "size": literals.array((self._length(sheet.sheet_length), self._length(sheet.sheet_width))),
            "trim": self._length(sheet.trim),
            "price": literals.number(sheet.price),
            "weight": literals.weight_per_area(sheet.weight),
            "others": literals.array(self._other(other) for other in sheet.others),
            "grain": literals.yes_no(sheet.grain),
        }

    def _other(self, other: OtherSize) -> Bare:
        entries = {
            "name": literals.text(other.name),
            "size": literals.array((self._length(other.length), self._length(other.width))),
            "price": literals.number(other.price),
        }
        return literals.inline(entries | ({} if other.count is None else {"count": str(other.count)}))

    def _usual(self) -> Iterator[list[str]]:
        made_of = self._made_of()
        if made_of:
            yield ["[made_of]", *(f"{key} = {literals.text(value)}" for key, value in vars(made_of).items())]
        if lines := _entries(self._making(self.job.construction), self._making(self.practice.construction)):
            yield ["[construction]", *lines]

    def _made_of(self) -> Materials | None:
        """What most cases are made of."""
        counted = Counter(case.materials for run in self.job.runs for case in run.cases)
        return counted.most_common(1)[0][0] if counted else None

    def _making(self, made: Construction) -> dict[str, Bare]:
        return {entry.name: self._value(getattr(made, entry.name)) for entry in fields(made)}

    def _value(self, value: Any) -> Bare:
        if isinstance(value, Enum):
            return literals.choice(value)
        return self._length(value) if isinstance(value, Fraction) else str(value)

    def _shop(self) -> Iterator[list[str]]:
        shop, usual, stock = self.job.shop, self.practice, self.stock
        if shop.rule != float(usual.rule):
            yield ["[shop]", f"rule = {literals.spread(shop.rule, self.job.unit)}"]
        yield from self._machine("hand_saw", shop.hand_saw, usual.hand_saw, stock.hand_saws)
        yield from self._machine("table_saw", shop.table_saw, usual.table_saw, stock.table_saws)
        yield from self._machine("dado_stack", shop.dado_stack, usual.dado_stack, stock.dado_stacks)
        if shop.pin_jig is not None:
            yield from self._machine("pin_jig", shop.pin_jig, None, stock.pin_jigs)
        if lines := _entries(self._carry(shop.carry), self._carry(usual.carry)):
            yield ["[shop.carry]", *lines]
        for piece in shop.rack:
            yield ["[[shop.rack]]", *_entries(self._piece(piece), {})]

    def _machine(
        self,
        table: str,
        machine: HandSaw | TableSaw | DadoStack | PinJig,
        usual: HandSaw | TableSaw | DadoStack | PinJig | None,
        known: Mapping[str, Any],
    ) -> Iterator[list[str]]:
        """A machine's table, where it is not the usual one."""
        if machine == usual:
            return
        said = self._tool(machine)
        starts = {key: self._tool(one) for key, one in known.items()}
        key = max(starts, key=lambda key: sum(starts[key][name] == value for name, value in said.items()))
        yield [f"[shop.{table}]", f"use = {literals.text(key)}", *_entries(said, starts[key])]

    def _tool(self, machine: HandSaw | TableSaw | DadoStack | PinJig) -> dict[str, Bare]:
        said: dict[str, Bare] = {}
        for name, value in vars(machine).items():
            if isinstance(value, str):
                said[name] = literals.text(value)
            elif isinstance(value, float):
                said[name] = literals.spread(value, self.job.unit)
            elif isinstance(value, tuple):
                said[name] = literals.array(self._length(one) for one in value)
            else:
                said[name] = self._value(value)
        return said

    def _carry(self, carry: Carry) -> dict[str, Bare]:
        return {"weight": literals.weight(carry.weight), "length": self._length(carry.length)}

    def _piece(self, piece: Offcut) -> dict[str, Bare]:
        return {
            "name": literals.text(piece.name),
            "material": literals.text(piece.material),
            "length": self._length(piece.length),
            "width": self._length(piece.width),
            "count": str(piece.count),
            "worth": literals.number(piece.worth),
        }

    def _run(self, run: Run) -> Iterator[list[str]]:
        kinds = {case.kind for case in run.cases}
        lift = self.practice.kinds[kinds.pop()].lift if len(kinds) == 1 else Fraction(0)
        lines = [
            f"name = {literals.text(run.name)}",
            f"wall = {literals.text(run.wall)}",
            f"opening = {self._length(run.opening)}",
        ]
        for key, value, usual in (
            ("along", run.along, Fraction(0)),
            ("lift", run.lift, lift),
            ("ceiling", run.ceiling, None),
            ("gap", run.gap, Fraction(0)),
        ):
            if value is not None and value != usual:
                lines.append(f"{key} = {self._length(value)}")
        for key, filler in (("left_filler", run.left), ("right_filler", run.right)):
            if filler:
                lines.append(f"{key} = {self._filler(filler)}")
        yield ["[[runs]]", *lines]
        for case in run.cases:
            yield ["[[runs.cases]]", *self._case(case)]

    def _filler(self, filler: Filler) -> Bare:
        return literals.inline(
            {
                "width": self._length(filler.width),
                "scribe": self._length(filler.scribe),
                "material": literals.text(filler.material),
            }
        )

    def _case(self, case: CaseSpec) -> Iterator[str]:
        yield f"mark = {literals.text(case.mark)}"
        yield f"kind = {literals.choice(case.kind)}"
        yield f"width = {self._width(case.width, case.weight)}"
        yield f"height = {self._length(case.height)}"
        yield f"depth = {self._length(case.depth)}"
        if case.bays != (Bay(),):
            yield f"bays = {literals.array(self._bay(bay) for bay in case.bays)}"
        usual = {
            **self._making(self.job.construction),
            **{key: self._value(value) for key, value in self.practice.kinds[case.kind].construction.items()},
        }
        making = self._making(case.construction)
        if own := {key: said for key, said in making.items() if key in case.chosen or said != usual[key]}:
            yield f"construction = {literals.inline(own)}"
        made_of = self._made_of()
        if own := {
            key: literals.text(value)
            for key, value in vars(case.materials).items()
            if value != getattr(made_of, key)
        }:
            yield f"made_of = {literals.inline(own)}"

    def _width(self, width: Fraction | None, share: Fraction) -> Bare:
        if width is not None:
            return self._length(width)
        return literals.text("rest") if share == 1 else literals.inline({"share": literals.number(share)})

    def _bay(self, bay: Bay) -> Bare:
        entries = {}
        if bay.width is not None or bay.weight != 1:
            entries["width"] = self._width(bay.width, bay.weight)
        if bay.fixed:
            entries["fixed"] = literals.array(self._length(rise) for rise in bay.fixed)
        if bay.adjustable:
            entries["adjustable"] = str(bay.adjustable)
        return literals.inline(entries) if entries else "{}"


def _entries(said: Mapping[str, Bare], start: Mapping[str, Bare]) -> list[str]:
    """Lines for what differs from what it starts from."""
    return [f"{key} = {value}" for key, value in said.items() if start.get(key) != value]
