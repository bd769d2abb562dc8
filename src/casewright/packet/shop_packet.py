"""The shop packet: one PDF from a project and its sheet plans, to be used at the bench."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from ..bearing.borne import Borne
from ..boards.board_plan import BoardPlan
from ..casework.parts.cut_alike import PartGroup
from ..casework.project import Project
from ..drawings.kit.lettering import dimension_text
from ..drawings.kit.pages import Paper
from ..findings import Finding, Weight
from ..lengths.quantities import price_text, weighed
from ..planner.plan import Plan
from ..workshop.assembly.joining import GlueUp
from ..workshop.batch_wording import BatchText
from ..workshop.boards.board_purchases import BoardPurchase, board_feet_of, board_money
from ..workshop.boards.board_wording import feet_words
from ..workshop.costs.cost_lines import JobCosts
from ..workshop.hardware import Hardware
from ..workshop.order.batches import WorkOrder
from ..workshop.sheets.purchases import Purchase, sheets_of
from ..workshop.sheets.sheet_marks import SheetMarks, sheet_marks
from ..workshop.work import Work
from .cut_places import cut_places
from .labels.labels import label_sheets
from .leaves import EVERY_LEAF, Leaves, Moment
from .pages.board_pages import board_pages
from .pages.buying_page import buying_page
from .pages.case_pages import case_pages
from .pages.cautions import CAUTIONS, FIRST
from .pages.costs_page import costs_page
from .pages.edging_pages import edging_pages
from .pages.fitting_pages import back_page, hanging_page
from .pages.map_pages import map_pages
from .pages.page_picture import Json
from .pages.part_cards import joint_cards, section_cards, worked_cards
from .pages.setting_pages import setting_pages
from .pages.shelf_pages import shelf_pages
from .pages.table_saw_pages import table_saw_pages
from .pages.trestle_pages import trestle_pages
from .pages.wall_pages import wall_pages
from .typesetting import typeset

PART_ADDRESS = "casewright:part/"
SHOWN_IN_FULL = 3
PLACES_NAMED = 5
ON_THE_COVER = 3
"""Findings of one kind shown in full, places named of the rest, and findings on the cover."""


@dataclass(frozen=True)
class Notice:
    """A list printed after the cautions, for example of sizes that are easily confused."""

    title: str
    lines: tuple[str, ...]


@dataclass(frozen=True)
class Matter:
    """A line for the front besides findings: where it is, what it is, and what to do about it."""

    place: str
    text: str
    fix: str


@dataclass(frozen=True, kw_only=True)
class PacketContents:
    """Everything that goes into a packet, already worked out: this layer only lays out pages.

    `revision` and `plan` are the short names of the job's text and of its `plans`, which are by material
    key; `boards` are the plans of solid wood bought as boards; `joinings` (glue-ups) by case; `weight` is
    pounds, None where it is not known; `borne` what shelves and hung cases bear. `told` are the batches of
    `ordered` in words, as `steps` prints them. `groups` are parts cut alike. A part's label leads to
    `address` followed by its mark. `matters`, the worst first, fill the front up to three things where the
    findings are fewer. Only the pages of `leaves` are printed. `done` are the keys of steps that are done
    already; `costs` is None for a job that tells nothing of them.
    """

    project: Project
    plans: Mapping[str, Plan]
    revision: str
    plan: str
    findings: tuple[Finding, ...]
    groups: tuple[PartGroup, ...]
    joinings: Mapping[str, tuple[GlueUp, ...]]
    weight: Fraction | None
    purchases: tuple[Purchase, ...]
    hardware: Hardware
    borne: Borne
    boards: Mapping[str, BoardPlan]
    board_purchases: tuple[BoardPurchase, ...]
    work: Work
    ordered: WorkOrder
    told: tuple[BatchText, ...]
    costs: JobCosts | None
    notices: tuple[Notice, ...] = ()
    matters: tuple[Matter, ...] = ()
    address: str = PART_ADDRESS
    leaves: Leaves = EVERY_LEAF
    done: frozenset[str] = frozenset()

    @cached_property
    def sheet_marks(self) -> Mapping[tuple[str, int], SheetMarks]:
        """What the maps of each sheet show of the work, at the trestles and at the table saw alike."""
        return sheet_marks(self.plans, self.ordered.operations)


def packet(of: PacketContents) -> bytes:
    """The packet as PDF: Letter where the shop works in inches, A4 where in millimetres.

    The same input gives the same bytes.
    """
    return typeset("packet.typ", packet_data(of))


def packet_data(of: PacketContents) -> dict[str, Json]:
    """Everything the template needs for the pages of `of.leaves`, as plain values and SVG text; what is not
    printed is not worked out."""
    project, plans, job = of.project, of.plans, of.project.job
    paper = Paper.for_unit(job.unit)
    places = cut_places(of.ordered)
    cases = [mark for mark in project.cases if of.leaves.case in ("", mark)]
    groups = [group for group in of.groups if any(part.case in cases for part in group.parts)]
    pages: Mapping[Moment, Callable[[], dict[str, Json]]] = {
        Moment.FRONT: lambda: _front(of),
        Moment.YARD: lambda: {
            "buying": buying_page(project, plans, of.purchases, of.hardware, of.board_purchases),
        },
        Moment.LABELS: lambda: {
            "labels": label_sheets(project, of.plan, places, paper, of.address, plans),
        },
        Moment.BOARDS: lambda: {
            "boards": board_pages(project, of.boards, of.ordered, of.told, of.done),
        },
        Moment.TRESTLES: lambda: {
            "trestles": trestle_pages(project, plans, of.sheet_marks, of.ordered, of.told, of.done),
        },
        Moment.SAW: lambda: {"table_saw": table_saw_pages(project, of.ordered, of.told, of.done)},
        Moment.MAPS: lambda: {"maps": map_pages(project, plans, of.sheet_marks)},
        Moment.JOINTS: lambda: {
            "edging": edging_pages(of.ordered, of.told, of.done),
            "settings": setting_pages(project, of.work, of.ordered, of.told, of.done),
            **joint_cards(project),
        },
        Moment.CASES: lambda: {
            "cases": case_pages(project, of.groups, places, {mark: of.joinings[mark] for mark in cases}),
        },
        # The leaf of a case has the sum of its back: only more cases than one are worth a list.
        Moment.BACKS: lambda: {
            "backs": back_page(project, cases, places)
            if cases[1:] or Moment.CASES not in of.leaves.moments
            else []
        },
        Moment.HANGING: lambda: {"hanging": hanging_page(of.borne)},
        Moment.SHELVES: lambda: {"shelves": _shelves(of)},
        Moment.COSTS: lambda: {"costs": costs_page(project, of.costs) if of.costs else {}},
    }
    data: dict[str, Json] = {
        "title": job.name,
        "notes": job.notes,
        "revision": of.revision,
        "plan": of.plan,
        "paper": "us-letter" if paper is Paper.LETTER else "a4",
        "sizes_note": sizes_note(project),
    }
    for moment in of.leaves.moments:
        data |= pages[moment]()
    if of.leaves.case or Moment.JOINTS in of.leaves.moments:
        data["cards"] = worked_cards(project, groups)
    if of.leaves.case:
        data["sections"] = section_cards(project, of.leaves.case)
    return data


def _shelves(of: PacketContents) -> dict[str, Json]:
    """The list of shelves: in the whole packet only where there is something to think of before it is cut."""
    sheet = of.borne.shelf_sheet
    return {} if of.leaves.every_moment and not sheet.asks_for_thought else shelf_pages(sheet)


def _front(of: PacketContents) -> dict[str, Json]:
    """The first page, and the cautions on its back."""
    lines = _findings(of.findings)
    return {
        "figures": _figures(of),
        "walls": wall_pages(of.project),
        "findings": [*lines, *_matters(of.matters)][:ON_THE_COVER],
        "more_findings": lines[ON_THE_COVER:],
        "notices": [{"title": notice.title, "lines": list(notice.lines)} for notice in of.notices],
        "cautions": {
            "first": FIRST,
            "all": [{"title": c.title, "text": c.text, "source": c.source} for c in CAUTIONS],
        },
    }


def sizes_note(project: Project) -> str:
    """The unit, the rule's finest mark, and what `~` means."""
    job = project.job
    step = dimension_text(job.mark.step, job.mark)
    return f"Sizes in {job.unit.words}, length along the grain. ~ means rounded, by less than {step}."


def _weight(pounds: Fraction | None, project: Project) -> str:
    return "not known" if pounds is None else weighed(pounds, project.job.unit)


def _figures(of: PacketContents) -> list[Json]:
    project = of.project
    bought = "sheet goods and edging" if of.hardware.money else "sheet goods"
    money = of.hardware.with_wood(of.purchases)
    if money and not of.hardware.all_priced(of.purchases):
        bought += ", as far as priced"
    figures = [
        (str(len(project.cases)), "cases"),
        (str(len(project.parts)), "parts"),
        (str(sheets_of(of.purchases)), "sheets to buy"),
        (price_text(money, project.job.money), bought),
        *_board_figures(of),
        (_weight(of.weight, project), "all parts"),
    ]
    return [{"value": value, "caption": caption} for value, caption in figures]


def _board_figures(of: PacketContents) -> list[tuple[str, str]]:
    """What solid wood is to be bought; nothing where a job has none."""
    feet = board_feet_of(of.board_purchases)
    money = board_money(of.board_purchases)
    figures = [(feet_words(feet), "boards to buy")] if of.board_purchases else []
    return [*figures, (price_text(money, of.project.job.money), "boards")] if money else figures


def _matters(matters: Iterable[Matter]) -> list[Json]:
    return [{"weight": "warn", "place": one.place, "text": one.text, "fix": one.fix} for one in matters]


def _findings(findings: Iterable[Finding]) -> list[Json]:
    """What to check before cutting, the most serious first.

    Of many findings of one kind the first few are given in full and the rest by their places.
    """
    kinds: dict[str, list[Finding]] = {}
    for finding in sorted(findings, key=lambda finding: list(Weight).index(finding.weight)):
        kinds.setdefault(finding.code, []).append(finding)
    lines: list[Json] = []
    for alike in kinds.values():
        for finding in alike[:SHOWN_IN_FULL]:
            lines.append(
                {
                    "weight": finding.weight.value,
                    "place": finding.place,
                    "text": finding.text,
                    "fix": finding.fix,
                }
            )
        if more := [finding.place for finding in alike[SHOWN_IN_FULL:]]:
            weight = alike[0].weight.value
            named = "; ".join(more[:PLACES_NAMED])
            rest = len(more) - PLACES_NAMED
            text = f"at {named}{f' and {rest} more places' if rest > 0 else ''}."
            lines.append({"weight": weight, "place": "The same", "text": text, "fix": ""})
    return lines
