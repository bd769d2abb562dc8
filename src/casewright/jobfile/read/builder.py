"""From a validated job file to the job, or to the entries in it that contradict one another."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any, TypeVar

from ...casework.job import (
    CaseKind,
    CaseSpec,
    Construction,
    Filler,
    Job,
    Materials,
    Run,
    Worktop,
)
from ...casework.size_names import PartSizes
from ...findings import AS_IN_FILE, AtField
from ...lengths.did_you_mean import did_you_mean
from ...lengths.fractions_text import quoted
from ...lengths.in_a_sentence import listed
from ...shop.dry_fits import DryFits, DryFitTally
from ...shop.edging import Edging
from ...shop.hinges import Hinge
from ...shop.machines import HOURLY, Shop
from ...shop.materials import Offcut, SheetGood
from ...shop.slides import Slide
from ..catalogue import Catalogue, Practice
from ..edging_tables import EdgedTable, EdgesTable
from ..front_tables import FittedTable
from ..made_of_table import MadeOf
from ..shop_tables import DryFitsTable
from ..tables import (
    CaseTable,
    FillerTable,
    JobTable,
    KindTable,
    RunTable,
)
from .bay_entries import bay_from, width_or_share
from .board_entries import SHEETS_ONLY, board_faults
from .cost_entries import price_faults, prices_from
from .edging_entries import BARE, edged_from, edges_from, edging_faults, edging_from
from .fault import Fault
from .hardware_entries import fitted_from, hinge_of, slide_of, untold_of_screws
from .key_places import Path
from .overlay import (
    MissingEntries,
    carry_of,
    construction_of,
    dado_stack_of,
    deviations_of,
    given_entries,
    hand_saw_of,
    pin_jig_of,
    sheet_of,
    table_saw_of,
    tally_from,
)
from .schema_faults import empty_field
from .shelf_entries import own_use, shelves_from
from .twice_or_too_much import amount_faults, mark_faults, name_faults
from .wall_entries import wall_faults, walls_of
from .wood_entries import climate_faults, climate_from, wood_faults

Found = TypeVar("Found")


@dataclass
class Builder:
    """Builds the job and collects every fault found on the way."""

    tables: JobTable
    stock: Catalogue
    faults: list[Fault] = field(default_factory=list)

    @property
    def practice(self) -> Practice:
        return self.stock.practice[self.tables.unit]

    def job(self) -> Job | None:
        """The job, or None when there are faults."""
        self.faults += amount_faults(self.tables)
        if self.faults:
            return None
        sheets = {key: sheet for key in self.tables.materials if (sheet := self._sheet(key))}
        shop = self._shop()
        construction = construction_of(self.practice.construction, given_entries(self.tables.construction))
        self._made_of(("made_of",), self.tables.made_of)
        for kind in CaseKind:
            self._made_of((kind.value, "made_of"), self._kind(kind).made_of)
            self._edged((kind.value, "edged"), self._kind(kind).edged)
            self._fitted((kind.value, "fitted_with"), self._kind(kind).fitted_with)
        self._fitted(("fitted_with",), self.tables.fitted_with)
        runs = tuple(self._run(index, run, construction) for index, run in enumerate(self.tables.runs))
        for single, key in self.tables.sheet_of.items():
            self._named(("sheet_of", single), key, self.tables.materials, "material")
        edging = self._edging()
        hinges = {key: hinge for key in self.tables.hinges if (hinge := self._hinge(key))}
        climate = climate_from(self.tables.climate)
        self.faults += climate_faults(climate)
        self.faults += price_faults(self.tables.costs, self.tables.materials)
        slides = {key: slide for key in self.tables.slides if (slide := self._slide(key))}
        self.faults += mark_faults(self.tables)
        self.faults += wall_faults(self.tables.runs)
        self.faults += name_faults(self.tables, sheets)
        if self.faults or shop is None:
            return None
        mark = self.tables.mark or self.practice.mark
        return Job(
            self.tables.job,
            self.tables.unit,
            mark,
            self.tables.rounding or mark,
            self.tables.money,
            sheets,
            shop,
            construction,
            runs,
            self.tables.notes,
            frozenset(self.tables.optional),
            frozenset(self.tables.left_out),
            dict(self.tables.sheet_of),
            frozenset(self.tables.either_way),
            self.tables.grade,
            edging,
            {mark: edges_from(table) for mark, table in self.tables.edging_of.items()},
            {
                size.name: value
                for mark, table in self.tables.as_cut.items()
                for size, value in (
                    (PartSizes(mark).length, table.length),
                    (PartSizes(mark).width, table.width),
                )
                if value is not None
            },
            hinges,
            slides,
            climate,
            walls_of(self.tables.runs),
            prices_from(self.tables.costs),
            {mark: own_use(table) for mark, table in self.tables.loads_of.items()},
        )

    def _fault(self, code: str, path: Path, text: str, fix: str, at_field: AtField = AS_IN_FILE) -> None:
        self.faults.append(Fault(code, path, text, fix, at_field))

    def _named(self, path: Path, key: str | None, known: Mapping[str, Found], words: str) -> Found | None:
        """What `key` names among `known`; a fault where it names nothing."""
        if key is None or key in known:
            return known[key] if key is not None else None
        text = f"no {words} is called {quoted(key)}."
        self._fault("unknown-name", path, text, did_you_mean(key, known))
        return None

    def _lay(self, path: Path, key: str | None, make: Callable[[], Found]) -> Found | None:
        """The result of `make`; a fault for each entry that is neither given nor inherited."""
        try:
            return make()
        except MissingEntries as missing:
            if key is None:
                for name in missing.keys:
                    text = f"“{name}” is missing, and no catalogue entry is named to start from."
                    fix = f"Add {name}, or name a catalogue entry to start from."
                    at_field = empty_field(otherwise=", or choose an entry of the shop's list")
                    self._fault("missing", (*path, name), text, fix, at_field)
            return None

    def _sheet(self, key: str) -> SheetGood | None:
        table = self.tables.materials[key]
        path = ("materials", key)
        self.faults += wood_faults(key, table)
        if table.boards is not None and (said := [one for one in SHEETS_ONLY if one in given_entries(table)]):
            text = f"“{said[0]}” speaks of sheets, and {key} is bought as boards."
            fix = f"Leave it out; the table [materials.{key}.boards] says how boards are bought."
            self._fault("boards-and-sheets", (*path, said[0]), text, fix)
            return None
        start = self._named((*path, "sheet"), table.sheet, self.stock.sheets, "sheet good in the catalogue")
        sheet = self._lay(path, table.sheet, lambda: sheet_of(key, table, start))
        if sheet is not None and sheet.boards is not None:
            mark = self.tables.mark or self.practice.mark
            self.faults += board_faults(sheet.boards, sheet.usual.middle, mark, path)
        return sheet

    def _hinge(self, key: str) -> Hinge | None:
        table, stock = self.tables.hinges[key], self.stock
        start = self._named(("hinges", key, "like"), table.like, stock.hinges, "hinge in the catalogue")
        charts = tuple(stock.hinge_charts.values())
        return self._lay(("hinges", key), table.like, lambda: hinge_of(key, table, start, charts))

    def _slide(self, key: str) -> Slide | None:
        table, known = self.tables.slides[key], self.stock.slides
        start = self._named(("slides", key, "like"), table.like, known, "drawer slide in the catalogue")
        slide = self._lay(("slides", key), table.like, lambda: slide_of(key, table, start))
        if slide and (untold := untold_of_screws(slide)):
            text = f"the slides {key} say something of their screws, and nothing of {listed(untold)}."
            fix = f"Add {listed(untold)}, or leave out what is said of the screws."
            self._fault("screws-half-told", ("slides", key, untold[0]), text, fix)
        return slide

    def _shop(self) -> Shop | None:
        tables, usual, stock = self.tables.shop, self.practice, self.stock
        hand = self._named(("shop", "hand_saw", "use"), tables.hand_saw.use, stock.hand_saws, "hand-held saw")
        saw = self._named(("shop", "table_saw", "use"), tables.table_saw.use, stock.table_saws, "table saw")
        stack = self._named(
            ("shop", "dado_stack", "use"), tables.dado_stack.use, stock.dado_stacks, "dado stack"
        )
        jig = None
        if tables.pin_jig is not None:
            table = tables.pin_jig
            start = self._named(("shop", "pin_jig", "use"), table.use, stock.pin_jigs, "pin jig")
            jig = self._lay(("shop", "pin_jig"), table.use, lambda: pin_jig_of(table, start))
        for index, piece in enumerate(tables.rack):
            path: Path = ("shop", "rack", index, "material")
            self._material(path, piece.material)
            wood = self.tables.materials.get(piece.material)
            if wood is not None and wood.boards is not None:
                text = f"{quoted(piece.name)} is of {piece.material}, which is bought as boards."
                fix = f"Enter it as a board, under materials.{piece.material}.boards.at_hand."
                self._fault("rack-of-boards", path, text, fix)
        return Shop(
            hand_saw_of(tables.hand_saw, hand or usual.hand_saw),
            table_saw_of(tables.table_saw, saw or usual.table_saw),
            dado_stack_of(tables.dado_stack, stack or usual.dado_stack),
            carry_of(tables.carry, usual.carry),
            tables.workmanship,
            deviations_of(tables.deviations, stock.deviations[tables.workmanship]),
            jig,
            tuple(
                Offcut(piece.name, piece.material, piece.length, piece.width, piece.count, piece.worth)
                for piece in tables.rack
            ),
            HOURLY if tables.hourly is None else tables.hourly,
            self._dry_fits(tables.dry_fits),
        )

    def _dry_fits(self, table: DryFitsTable) -> DryFits:
        tallies: dict[str, DryFitTally] = {}
        for name, given in given_entries(table).items():
            tally = tally_from(given)
            path = ("shop", "dry_fits", name)
            if abs(sum(tally.predicted) - tally.joints) > 0.1 or not tally.joints:
                text = f"{sum(tally.predicted):g} joints were predicted, and {tally.joints} happened."
                fix = f"Run shop-figures with --yes to write it anew, or leave {name} out."
                self._fault("dry-fits", (*path, "predicted"), text, fix)
            elif not 0.0 < tally.worth <= tally.joints:
                text = f"{tally.joints} joints cannot tell as much as {tally.worth:g}."
                fix = f"Enter more than 0 and at most {tally.joints}."
                self._fault("dry-fits", (*path, "worth"), text, fix)
            tallies[name] = tally
        return DryFits(**tallies)

    def _material(self, path: Path, key: str | None) -> None:
        self._named(path, key, self.tables.materials, "material in this job")

    def _made_of(self, path: Path, table: MadeOf) -> None:
        for name, key in given_entries(table).items():
            self._material((*path, name), key)

    def _edging(self) -> dict[str, Edging]:
        """The job's edging; faults for keys that cannot be used and for names that name none."""
        for key in self.tables.edging:
            if key == BARE or key in self.tables.materials:
                used = "stands for bare edges" if key == BARE else "is already the key of a sheet good"
                text, fix = f"the key {quoted(key)} {used}.", "Give the edging another key."
                self._fault("key-taken", ("edging", key), text, fix)
        for key, strip in self.tables.edging.items():
            self.faults += edging_faults(key, strip)
        self._edged(("edged",), self.tables.edged)
        for mark, table in self.tables.edging_of.items():
            self._edged(("edging_of", mark), table)
        return {key: edging_from(key, table) for key, table in self.tables.edging.items()}

    def _edged(self, path: Path, table: EdgedTable | EdgesTable) -> None:
        for name, key in given_entries(table).items():
            if key != BARE:
                self._named((*path, name), key, self.tables.edging, "edging")

    def _fitted(self, path: Path, table: FittedTable) -> None:
        self._named((*path, "hinge"), table.hinge, self.tables.hinges, "hinge in this job")
        divider = table.divider_hinge
        self._named((*path, "divider_hinge"), divider, self.tables.hinges, "hinge in this job")
        self._named((*path, "slide"), table.slide, self.tables.slides, "slide in this job")

    def _kind(self, kind: CaseKind) -> KindTable:
        table = getattr(self.tables, kind.value)
        assert isinstance(table, KindTable)
        return table

    def _run(self, index: int, run: RunTable, construction: Construction) -> Run:
        path: Path = ("runs", index)
        cases = tuple(
            self._case((*path, "cases", number), case, construction) for number, case in enumerate(run.cases)
        )
        kinds = {case.kind for case in run.cases}
        usual = self.practice.kinds[kinds.pop()].lift if len(kinds) == 1 else Fraction(0)
        first = cases[0].materials.case
        return Run(
            run.name,
            run.opening,
            cases,
            run.wall,
            run.along,
            usual if run.lift is None else run.lift,
            run.ceiling,
            self._filler((*path, "left_filler"), run.left_filler, first),
            self._filler((*path, "right_filler"), run.right_filler, first),
            run.gap,
            run.wall_length,
            run.left_scribe,
            run.right_scribe,
            tuple(run.wall_gaps or ()),
            tuple(run.left_gaps or ()),
            tuple(run.right_gaps or ()),
            Worktop(**given_entries(run.worktop)) if run.worktop else None,
        )

    def _filler(self, path: Path, table: FillerTable | None, material: str) -> Filler | None:
        if table is None:
            return None
        self._material((*path, "material"), table.material)
        width, _ = width_or_share(table.width)
        return Filler(width, table.scribe, table.material or material)

    def _case(self, path: Path, case: CaseTable, construction: Construction) -> CaseSpec:
        usual, kind = self.practice.kinds[case.kind], self._kind(case.kind)
        own = {**given_entries(kind.construction), **given_entries(case.construction)}
        made = construction_of(construction_of(construction, usual.construction), own)
        self._made_of((*path, "made_of"), case.made_of)
        self._edged((*path, "edged"), case.edged)
        self._fitted((*path, "fitted_with"), case.fitted_with)
        width, weight = width_or_share(case.width)
        return CaseSpec(
            case.mark,
            case.kind,
            width,
            case.height or kind.height or usual.height,
            case.depth or kind.depth or usual.depth,
            made,
            self._materials(
                path,
                {
                    **given_entries(self.tables.made_of),
                    **given_entries(kind.made_of),
                    **given_entries(case.made_of),
                },
            ),
            tuple(bay_from(bay) for bay in case.bays),
            weight,
            frozenset(own),
            edged_from((self.tables.edged, kind.edged, case.edged)),
            fitted_from((self.tables.fitted_with, kind.fitted_with, case.fitted_with)),
            case.frame_with_left,
            shelves_from((self.tables.loads, kind.loads, case.loads)),
        )

    def _materials(self, path: Path, made_of: Mapping[str, str]) -> Materials:
        only = next(iter(self.tables.materials)) if len(self.tables.materials) == 1 else None
        case = made_of.get("case", only)
        back = made_of.get("back", only)
        if case is None or back is None:
            missing = "case" if case is None else "back"
            fault = Fault(
                "missing",
                ("made_of", missing),
                f"no material is given for the {'parts' if case is None else 'backs'} of cases.",
                f"Add {missing} to the table [made_of].",
                AtField(fix="Choose one of the job's materials."),
            )
            if fault not in self.faults:
                self.faults.append(fault)
        case, back = case or "", back or ""
        of_case = dict.fromkeys(("shelf", "strip", "toe", "frame", "front", "drawer"), case)
        usual = {**of_case, "panel": back, "drawer_bottom": back}
        rest: dict[str, Any] = {name: made_of.get(name, key) for name, key in usual.items()}
        return Materials(case, back, **rest)
