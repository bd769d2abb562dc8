"""The shop packet: one PDF from a project and its sheet plans, to be used at the bench."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from ..casework.project import Project
from ..drawings.kit.lettering import lettered
from ..drawings.kit.pages import Paper, fitted
from ..drawings.views.elevation import elevation
from ..drawings.views.plan_view import plan_view
from ..drawings.views.room import walls
from ..findings import Finding, Weight
from ..lengths.length import Unit
from ..planner.plan import Plan
from ..workshop.work import Work, work
from .labels.labels import label_sheets
from .pages.buying import Buying, buying
from .pages.case_pages import case_pages
from .pages.cautions import CAUTIONS, FIRST
from .pages.page_picture import Json, picture
from .pages.part_pages import joint_cards, part_cards, part_lists
from .pages.prices import priced
from .pages.setting_pages import setting_pages
from .pages.sheet_pages import buying_page, sheet_pages
from .pages.weights import weight_words
from .typesetting import typeset

PART_ADDRESS = "casewright:part/"
COVER_ROOM = (540.0, 285.0)
PLAN_ROOM = (540.0, 130.0)
OTHER_WALL_ROOM = (540.0, 205.0)
OTHER_PLAN_ROOM = (540.0, 95.0)
TOLD_IN_FULL = 3
PLACES_NAMED = 5
ON_THE_COVER = 6


@dataclass(frozen=True)
class Notice:
    """Something another layer has to say beside the cautions: sizes easily taken for one another."""

    title: str
    lines: tuple[str, ...]


@dataclass(frozen=True)
class PacketOf:
    """What goes into a packet: the project, a plan for each material by key, and which revision.

    A part's label leads to `address` followed by its mark.
    """

    project: Project
    plans: Mapping[str, Plan]
    revision: str
    address: str = PART_ADDRESS
    notices: tuple[Notice, ...] = ()


def packet(of: PacketOf) -> bytes:
    """The packet as PDF: Letter where the shop works in inches, A4 where in millimetres.

    The same input gives the same bytes.
    """
    return typeset("packet.typ", packet_data(of))


def packet_data(of: PacketOf) -> dict[str, Json]:
    """All that the template sets, as plain values and SVG text."""
    project, plans = of.project, of.plans
    all_work = work(project, plans)
    job = project.job
    paper = Paper.for_unit(job.unit)
    paper_name = "us-letter" if paper is Paper.LETTER else "a4"
    list_of = buying(project, plans)
    told = _findings(of, all_work)
    cards, plain = part_cards(project)
    return {
        "title": job.name,
        "notes": job.notes,
        "revision": of.revision,
        "paper": paper_name,
        "sizes_note": sizes_note(project),
        "figures": _figures(project, list_of),
        "walls": _walls(project),
        "findings": told[:ON_THE_COVER],
        "more_findings": told[ON_THE_COVER:],
        "notices": [{"title": notice.title, "lines": list(notice.lines)} for notice in of.notices],
        "cautions": {
            "first": FIRST,
            "all": [{"title": c.title, "text": c.text, "source": c.source} for c in CAUTIONS],
        },
        "buying": buying_page(project, plans, list_of),
        "sheets": sheet_pages(project, plans),
        "lists": part_lists(project),
        "settings": setting_pages(project, all_work),
        "cards": cards,
        "plain": plain,
        **joint_cards(project),
        "cases": case_pages(project, paper_name),
        "labels": label_sheets(project, paper, of.address),
    }


def sizes_note(project: Project) -> str:
    """The unit, the rule's finest mark, and what `~` means."""
    job = project.job
    step = lettered(job.mark.step, job.mark)
    unit = "inches" if job.unit is Unit.INCH else "millimetres"
    return f"Sizes in {unit}, length along the grain. ~ is rounded to the nearest {step}."


def _walls(project: Project) -> list[Json]:
    """Each wall in elevation and plan; the first has the cover, the others share pages."""
    rooms = [(COVER_ROOM, PLAN_ROOM), (OTHER_WALL_ROOM, OTHER_PLAN_ROOM)]
    return [
        {
            "name": wall.name,
            "elevation": picture(fitted(elevation(wall), *rooms[min(1, number)][0])),
            "plan": picture(fitted(plan_view(wall), *rooms[min(1, number)][1])),
        }
        for number, wall in enumerate(walls(project))
    ]


def _figures(project: Project, bought: Buying) -> list[Json]:
    figures = [
        (str(len(project.cases)), "cases"),
        (str(len(project.parts)), "parts"),
        (str(bought.count), "sheets to buy"),
        (priced(bought.total, project.job.money), "sheet goods"),
        (weight_words(project, project), "all parts"),
    ]
    return [{"value": value, "caption": caption} for value, caption in figures]


def _findings(of: PacketOf, all_work: Work) -> list[Json]:
    """What the project, the plans and the work by them have to say, what stops most first; of many of
    one kind, the first few and their places. Notes on settings stand with the settings."""
    doubts = (finding for finding in all_work.findings if finding.weight is not Weight.NOTE)
    found = [(finding.place, finding) for finding in (*of.project.findings, *doubts)]
    for material, plan in of.plans.items():
        name = of.project.job.sheets[material].name
        found += [(f"{name}, {finding.place}", finding) for finding in plan.findings]
    kinds: dict[str, list[tuple[str, Finding]]] = {}
    for place, finding in sorted(found, key=lambda pair: list(Weight).index(pair[1].weight)):
        kinds.setdefault(finding.code, []).append((place, finding))
    told: list[Json] = []
    for alike in kinds.values():
        for place, finding in alike[:TOLD_IN_FULL]:
            told.append(
                {
                    "weight": finding.weight.value,
                    "place": place,
                    "text": finding.text,
                    "fix": finding.fix,
                }
            )
        if more := [place for place, _ in alike[TOLD_IN_FULL:]]:
            weight_ = alike[0][1].weight.value
            named = "; ".join(more[:PLACES_NAMED])
            rest = len(more) - PLACES_NAMED
            text = f"at {named}{f' and {rest} more places' if rest > 0 else ''}."
            told.append({"weight": weight_, "place": "The same", "text": text, "fix": ""})
    return told
