"""Write a job file: the text of `write_job(job)` reads back as the same job."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import fields, replace
from enum import Enum
from fractions import Fraction
from typing import Any

import tomlkit
from tomlkit.items import AoT, Array, InlineTable

from ...casework.front_choices import Front, Hung
from ...casework.job import (
    Bay,
    CaseSpec,
    Construction,
    Edged,
    EdgesOf,
    Filler,
    FittedWith,
    Grade,
    Job,
    Materials,
    Run,
    Worktop,
)
from ...casework.size_names import read_name
from ...shop.deviations import Workmanship
from ...shop.edging import Edging, PutOn
from ...shop.machines import HOURLY, Carry, DadoStack, HandSaw, PinJig, TableSaw
from ...shop.materials import Offcut, OtherSize, SheetGood, Spread
from ...shop.moisture import Air, Climate, Region
from ...shop.shelf_use import USUAL_USE, OwnUse, ShelfUse
from ...shop.walls import UNKNOWN_WALL, KnownWall
from ..catalogue import Catalogue, Practice, packaged_catalogue
from ..read.board_entries import milled_stock
from . import literals
from .cost_text import cost_entries
from .differences import Entries, differing, likest
from .hardware_text import hardware_entries
from .literals import Literal, inline_table
from .write_boards import boards_entries


def write_job(job: Job, stock: Catalogue | None = None) -> str:
    """The text of a job file that `read_job`, with the same catalogue `stock`, reads as an equal job.

    Usual values are left out, except the sizes of cases. A case that differs from the job in something
    it does not list as `chosen` reads back with it chosen. Raises LengthError for a number that has no
    short exact text.
    """
    return tomlkit.dumps(_Writer(job, stock or packaged_catalogue()).job_file())


class _Writer:
    def __init__(self, job: Job, stock: Catalogue) -> None:
        self.job = job
        self.stock = stock
        cases = Counter(case.materials for run in job.runs for case in run.cases)
        self.made_of = cases.most_common(1)[0][0] if cases else None
        """The materials that most cases have."""

    @property
    def practice(self) -> Practice:
        return self.stock.practice[self.job.unit]

    def job_file(self) -> Entries:
        job = self.job
        entries: Entries = {"job": job.name, "unit": job.unit.value, "mark": job.mark.value}
        if job.grade is not Grade.CUSTOM:
            entries["grade"] = job.grade.value
        if job.rounding is not job.mark:
            entries["rounding"] = job.rounding.value
        entries |= _there(
            money=job.money,
            notes=job.notes,
            optional=sorted(job.optional),
            left_out=sorted(job.left_out),
            either_way=sorted(job.either_way),
        )
        if job.sheet_of:
            entries["sheet_of"] = inline_table(dict(sorted(job.sheet_of.items())))
        if job.as_cut:
            entries["as_cut"] = inline_table(self._as_cut())
        return entries | _there(
            materials={key: self._material(sheet) for key, sheet in job.sheets.items()},
            made_of=dict(vars(self.made_of)) if self.made_of else {},
            edging={key: self._edging(edging) for key, edging in job.edging.items()},
            loads_of={mark: inline_table(_use(own, OwnUse())) for mark, own in sorted(job.loads_of.items())},
            edging_of={mark: inline_table(_keys(edges)) for mark, edges in sorted(job.edging_of.items())},
            construction=differing(self._making(job.construction), self._making(self.practice.construction)),
            shop=self._shop(),
            climate=self._climate(job.climate),
            costs=cost_entries(job.prices),
            **hardware_entries(job, self.stock),
            runs=[self._run(run) for run in job.runs],
        )

    def _as_cut(self) -> Entries:
        """The sizes of parts that are used as they were cut, a table a part."""
        parts: Entries = {}
        for name, value in sorted(self.job.as_cut.items()):
            size = read_name(name)
            parts.setdefault(size.owner, {})[size.what] = self._length(value)
        return {mark: inline_table(sizes) for mark, sizes in parts.items()}

    def _length(self, value: Fraction) -> Literal:
        return literals.length_literal(value, self.job.unit)

    def _lengths(self, values: Iterable[Fraction]) -> list[Literal]:
        return [self._length(value) for value in values]

    def _material(self, sheet: SheetGood) -> Entries:
        """A sheet good, as its differences from the catalogue entry it is closest to; or solid wood."""
        if sheet.boards is not None:
            stock = milled_stock(sheet.boards)
            bare = replace(sheet, price=Fraction(0))  # a usual board's price need not have a decimal
            wood = self._sheet(bare)
            milled = self._sheet(replace(bare, usual=Spread(stock["usual"], float(stock["deviation"]))))
            own = {key: wood[key] for key in ("usual", "deviation") if wood[key] != milled[key]}
            own |= {key: wood[key] for key in ("readings", "weight") if wood.get(key)}
            own |= _wood(sheet)
            return {"name": sheet.name, **own, "boards": boards_entries(sheet.boards, self._length)}
        entries = self._sheet(sheet)
        if sheet.wood:
            return {**entries, **_wood(sheet)}
        alike = {
            key: self._sheet(one)
            for key, one in self.stock.sheets.items()
            if (one.nominal, one.grain, one.kind) == (sheet.nominal, sheet.grain, sheet.kind)
        }
        if not alike:
            return entries
        key = likest(entries, alike)
        return {"sheet": key, **differing(entries, alike[key])}

    def _sheet(self, sheet: SheetGood) -> Entries:
        entries: Entries = {
            "name": sheet.name,
            "nominal": self._length(sheet.nominal),
            "usual": self._length(sheet.usual.middle),
            "deviation": literals.deviation_literal(sheet.usual.deviation, self.job.unit),
            "size": self._lengths((sheet.sheet_length, sheet.sheet_width)),
            "trim": self._length(sheet.trim),
            "price": literals.number_literal(sheet.price),
            "weight": literals.weight_per_area_literal(sheet.weight),
            "others": _list(self._other(other) for other in sheet.others),
            "grain": sheet.grain,
        }
        if sheet.readings:
            entries["readings"] = self._lengths(sheet.readings)
        if sheet.kind is not None:
            entries["kind"] = sheet.kind.value
        if sheet.stiffness is not None:
            entries["stiffness"] = literals.modulus_literal(sheet.stiffness)
        return entries

    def _edging(self, edging: Edging) -> Entries:
        entries: Entries = {
            "name": edging.name,
            "thickness": self._length(edging.thickness),
            "stick": self._length(edging.stick),
        }
        if edging.width is not None:
            entries["width"] = self._length(edging.width)
        if edging.price:
            entries["price"] = literals.number_literal(edging.price)
        if not edging.taken_off:
            entries["taken_off"] = False
        if edging.put_on is not PutOn.BEFORE_JOINTS:
            entries["put_on"] = edging.put_on.value
        if edging.wood is not None:
            entries["wood"] = edging.wood.name
        if edging.drop:
            entries["drop"] = self._length(edging.drop)
        return entries

    def _climate(self, climate: Climate) -> Entries:
        entries: Entries = {} if climate.region is Region.MOST else {"region": climate.region.value}
        for name in ("shop", "house_dry", "house_damp"):
            match getattr(climate, name):
                case Air(written=written):
                    entries[name] = written
                case Fraction() as percent:
                    entries[name] = literals.number_literal(percent)
        return entries

    def _other(self, other: OtherSize) -> Entries:
        entries: Entries = {
            "name": other.name,
            "size": self._lengths((other.length, other.width)),
            "price": literals.number_literal(other.price),
        }
        return entries | ({} if other.count is None else {"count": other.count})

    def _making(self, made: Construction) -> Entries:
        return {entry.name: self._value(getattr(made, entry.name)) for entry in fields(made)}

    def _value(self, value: Any) -> Any:
        match value:
            case Enum():
                return value.value
            case Fraction():
                return self._length(value)
            case float():
                return literals.deviation_literal(value, self.job.unit)
            case tuple():
                return self._lengths(value)
        return value

    def _shop(self) -> Entries:
        shop, usual, stock = self.job.shop, self.practice, self.stock
        entries: Entries = {}
        if shop.workmanship is not Workmanship.CAREFUL:
            entries["workmanship"] = shop.workmanship.value
        if shop.hourly != HOURLY:
            entries["hourly"] = literals.number_literal(shop.hourly)
        return entries | _there(
            hand_saw=self._machine(shop.hand_saw, usual.hand_saw, stock.hand_saws),
            table_saw=self._machine(shop.table_saw, usual.table_saw, stock.table_saws),
            dado_stack=self._machine(shop.dado_stack, usual.dado_stack, stock.dado_stacks),
            pin_jig=self._machine(shop.pin_jig, None, stock.pin_jigs),
            carry=differing(self._carry(shop.carry), self._carry(usual.carry)),
            deviations=differing(self._tool(shop.deviations), self._tool(stock.deviations[shop.workmanship])),
            dry_fits={
                name: literals.tally_entries(tally) for name, tally in vars(shop.dry_fits).items() if tally
            },
            rack=[self._piece(piece) for piece in shop.rack],
        )

    def _machine(
        self,
        machine: HandSaw | TableSaw | DadoStack | PinJig | None,
        usual: HandSaw | TableSaw | DadoStack | PinJig | None,
        known: Mapping[str, Any],
    ) -> Entries:
        """A machine's entries; none if it is the usual one."""
        if machine == usual:
            return {}
        entries = self._tool(machine)
        starts = {key: self._tool(one) for key, one in known.items()}
        key = likest(entries, starts)
        return {"use": key, **differing(entries, starts[key])}

    def _tool(self, machine: Any) -> Entries:
        return {name: self._value(value) for name, value in vars(machine).items()}

    def _carry(self, carry: Carry) -> Entries:
        weight = {} if carry.weight is None else {"weight": literals.weight_literal(carry.weight)}
        return {**weight, "length": self._length(carry.length)}

    def _piece(self, piece: Offcut) -> Entries:
        return {
            "name": piece.name,
            "material": piece.material,
            "length": self._length(piece.length),
            "width": self._length(piece.width),
            "count": piece.count,
            "worth": literals.number_literal(piece.worth),
        }

    def _run(self, run: Run) -> Entries:
        kinds = {case.kind for case in run.cases}
        lift = self.practice.kinds[kinds.pop()].lift if len(kinds) == 1 else Fraction(0)
        entries: Entries = {"name": run.name, "wall": run.wall, "opening": self._length(run.opening)}
        for key, value, usual in (
            ("wall_length", run.wall_length, None),
            ("along", run.along, Fraction(0)),
            ("lift", run.lift, lift),
            ("ceiling", run.ceiling, None),
            ("gap", run.gap, Fraction(0)),
            ("left_scribe", run.left_scribe, None),
            ("right_scribe", run.right_scribe, None),
        ):
            if value is not None and value != usual:
                entries[key] = self._length(value)
        for key in ("wall_gaps", "left_gaps", "right_gaps"):
            if gaps := getattr(run, key):
                entries[key] = self._lengths(gaps)
        if (wall := self.job.walls.get(run.wall)) and run is next(
            one for one in self.job.runs if one.wall == run.wall
        ):
            entries["framing"] = inline_table(self._framing(wall))
        for key, filler in (("left_filler", run.left), ("right_filler", run.right)):
            if filler:
                entries[key] = self._filler(filler)
        if run.worktop:
            entries["worktop"] = self._worktop(run.worktop)
        return entries | {"cases": _tables(self._case(case) for case in run.cases)}

    def _worktop(self, top: Worktop) -> InlineTable:
        weight = {} if top.weight is None else {"weight": literals.weight_per_area_literal(top.weight)}
        sizes = {"thick": self._length(top.thick), "overhang": self._length(top.overhang)}
        return inline_table({**sizes, **weight})

    def _framing(self, wall: KnownWall) -> Entries:
        known = differing(vars(wall), vars(UNKNOWN_WALL))
        return {name: self._value(value) for name, value in known.items()}

    def _filler(self, filler: Filler) -> InlineTable:
        width, scribe = self._width(filler.width, Fraction(1)), self._length(filler.scribe)
        return inline_table({"width": width, "scribe": scribe, "material": filler.material})

    def _case(self, case: CaseSpec) -> Entries:
        entries: Entries = {
            "mark": case.mark,
            "kind": case.kind.value,
            "width": self._width(case.width, case.weight),
            "height": self._length(case.height),
            "depth": self._length(case.depth),
        }
        if case.frame_with_left:
            entries["frame_with_left"] = True
        if case.bays != (Bay(),):
            entries["bays"] = _list(self._bay(bay) for bay in case.bays)
        usual = self._making(self.job.construction) | {
            key: self._value(value) for key, value in self.practice.kinds[case.kind].construction.items()
        }
        making = self._making(case.construction)
        if own := {key: one for key, one in making.items() if key in case.chosen or one != usual[key]}:
            entries["construction"] = inline_table(own)
        assert isinstance(self.made_of, Materials)
        if own := differing(vars(case.materials), vars(self.made_of)):
            entries["made_of"] = inline_table(own)
        if keys := _keys(case.edged):
            entries["edged"] = inline_table(keys)
        if keys := _keys(case.fitted):
            entries["fitted_with"] = inline_table(keys)
        if own := _use(case.shelves, USUAL_USE):
            entries["loads"] = inline_table(own)
        return entries

    def _width(self, width: Fraction | None, share: Fraction) -> Any:
        if width is not None:
            return self._length(width)
        return "rest" if share == 1 else inline_table({"share": literals.number_literal(share)})

    def _bay(self, bay: Bay) -> Entries:
        entries: Entries = {}
        if bay.width is not None or bay.weight != 1:
            entries["width"] = self._width(bay.width, bay.weight)
        return entries | _there(
            fixed=self._lengths(bay.fixed),
            adjustable=bay.adjustable,
            fronts=_list(self._front(front) for front in bay.fronts),
        )

    def _front(self, front: Front) -> Entries:
        entries: Entries = {"kind": front.kind.value}
        if front.height is not None or front.weight != 1:
            entries["height"] = self._width(front.height, front.weight)
        if front.hung is not Hung.LEFT:
            entries["hung"] = front.hung.value
        return entries | _there(box_height=front.box_height and self._length(front.box_height))


def _wood(sheet: SheetGood) -> Entries:
    """What wood a sheet good is and how it is sawn; nothing for a panel."""
    return {"wood": sheet.wood.name, "sawn": sheet.sawn.value} if sheet.wood else {}


def _use(use: ShelfUse | OwnUse, usual: ShelfUse | OwnUse) -> Entries:
    """What shelves bear, as far as it differs from the `usual`."""
    own = {key: one.value for key, one in differing(vars(use), vars(usual)).items() if key != "load"}
    load = {} if use.load is None else {"load": literals.weight_per_area_literal(use.load)}
    return own | load


def _keys(chosen: Edged | EdgesOf | FittedWith) -> Entries:
    """The keys of what is chosen."""
    return {name: key for name, key in vars(chosen).items() if key is not None}


def _there(**entries: Any) -> Entries:
    """The entries that are not empty."""
    return {key: value for key, value in entries.items() if value}


def _tables(entries: Iterable[Entries]) -> AoT:
    """A list of tables with headers. The entries of each keep their order; inline tables do not go last."""
    listed = tomlkit.aot()
    for entry in entries:
        table = tomlkit.table()
        table.update(entry)
        listed.append(table)
    return listed


def _list(entries: Iterable[Entries]) -> Array:
    """A list of tables on one line, without headers."""
    listed = tomlkit.array()
    listed.extend(inline_table(entry) for entry in entries)
    return listed
