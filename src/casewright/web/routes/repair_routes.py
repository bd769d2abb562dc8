"""A part is spoiled: report what it measures, compare the ways to finish, choose one, undo it."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import zip_longest
from secrets import token_urlsafe
from typing import Annotated

from fastapi import APIRouter, Form, HTTPException, Query, Request, Response
from fastapi.responses import RedirectResponse, StreamingResponse
from pydantic import BaseModel

from ...app.background.way_search import Searches, Searching
from ...app.jobs.kept_jobs import KeptJobs, OpenedRevision
from ...app.papers.label_files import make_labels, usual_stock
from ...app.repair.flaw_report import FlawTyped, flaws_found, report_flaw, withdraw_flaw
from ...app.repair.repair_page import FoundWays
from ...app.repair.repair_pictures import way_pictures
from ...app.repair.repair_record import amiss, gone_parts, hit_by_flaws, record_of
from ...app.repair.report_form import beside_fields, part_form, wrong_in_words
from ...app.repair.shop_repair import choose, labels_of_choice, last_choice, undo_choice
from ...app.repair.spoiled_report import DamageTyped, Report, report, withdraw
from ...app.shop.shop_floor import BenchRecord, hand_out
from ...errors import JobError
from ...findings import Finding
from ..opened_network import network_of
from ..plan_for_page import planned_of, wait_for
from ..rendering import OnBench, SavedJobs, page
from ..turns import TURN_TO_WAIT
from . import Tab
from .sheets_routes import event_stream

router = APIRouter(prefix="/jobs/{job}/repair", include_in_schema=False, dependencies=[TURN_TO_WAIT])
TAB = Tab(70, "Put right", "/repair")


NO_FLAW = FlawTyped()


class ReportForm(BaseModel):
    """What the form sends. The lists `where`, `long` and `deep` have an entry for each row of damages, `of`
    and `by` one for each row of faults of a feature in the order of the first entries of `wrong`. `thick` is
    what the sheet measures that it was cut from: the one chosen, or its `own`.

    `use_length` and `use_width` are what was meant by a size that looked like a slip, `sure` what stands.
    """

    mark: str = ""
    length: str = ""
    width: str = ""
    how: str = ""
    cut: tuple[str, ...] = ()
    wrong: tuple[str, ...] = ()
    of: tuple[str, ...] = ()
    by: tuple[str, ...] = ()
    where: tuple[str, ...] = ()
    long: tuple[str, ...] = ()
    deep: tuple[str, ...] = ()
    own: str = ""
    thick: str = ""
    lost: bool = False
    sure: tuple[str, ...] = ()
    use_length: str = ""
    use_width: str = ""

    def said(self) -> Report:
        """The report, as typed."""
        rows = zip_longest(self.where, self.long, self.deep, fillvalue="")
        faults = zip_longest(self.wrong, self.of, self.by, fillvalue="")
        return Report(
            self.mark.strip(),
            self.use_length or self.length,
            self.use_width or self.width,
            self.how.strip(),
            self.cut,
            self._with_thickness(
                tuple(
                    f"{how or f'{feature}:'}{by and f':{by}'}"
                    for how, feature, by in ((one[0], one[1], one[2].strip()) for one in faults)
                    if how or by
                )
            ),
            tuple(DamageTyped(*row) for row in rows),
            self.lost,
            self.sure,
        )

    def _with_thickness(self, wrong: tuple[str, ...]) -> tuple[str, ...]:
        """What is wrong, with the thickness beside the sheet that the part was cut from."""
        thick = self.thick.strip()
        if not thick or not self.own:
            return wrong
        head = f"{self.own.partition(':')[0]}:"
        chosen = next((one for one in wrong if one.startswith(head)), self.own)
        return (*(one for one in wrong if one != chosen), f"{chosen}:{thick}")


@router.get("")
def repair(
    request: Request, work: OnBench, saved: SavedJobs, typed: Annotated[ReportForm, Query()]
) -> Response:
    """What is amiss, the ways to put it right, the choice made last, and the form to say what is spoiled.

    The form comes here too when another part is chosen in it: what was typed stays."""
    return _page(request, work, saved, typed.said())


@router.get("/progress")
def search_progress(request: Request, work: OnBench, saved: SavedJobs) -> Response:
    """Server-sent events: each way as it is found, then `done`."""
    events = event_stream(_search(request, work, record_of(saved, work.id)))
    return StreamingResponse(events, media_type="text/event-stream", headers={"Cache-Control": "no-store"})


@router.post("/spoiled")
def post_spoiled(
    request: Request, work: OnBench, saved: SavedJobs, typed: Annotated[ReportForm, Form()]
) -> Response:
    """Write down that a part is spoiled. Where no work is handed out yet, that is done first. A size that
    looks like a slip is asked about."""
    said = typed.said()
    try:
        asked = report(saved, work.id, _handed_out(request, work, saved), said, new_name)
        if asked:
            return _page(request, work, saved, said, status=422, asked=asked)
    except JobError as refused:
        return _page(request, work, saved, said, refused.findings, 422)
    return RedirectResponse(f"/jobs/{work.id}/repair", 303)


class FlawForm(BaseModel):
    """A fault in a sheet, as typed."""

    sheet: str = ""
    x: str = ""
    y: str = ""
    flaw_length: str = ""
    flaw_width: str = ""

    def typed(self) -> FlawTyped:
        return FlawTyped(self.sheet, self.x, self.y, self.flaw_length, self.flaw_width)


@router.post("/flaw")
def post_flaw(
    request: Request, work: OnBench, saved: SavedJobs, form: Annotated[FlawForm, Form()]
) -> Response:
    """Write down a fault in a sheet."""
    try:
        report_flaw(saved, work.id, record_of(saved, work.id), form.typed(), new_name)
    except JobError as wrong:
        said = form.typed()
        return _page(request, work, saved, Report(""), status=422, flaw=said, at_flaw=wrong.findings)
    return RedirectResponse(f"/jobs/{work.id}/repair", 303)


@router.post("/flaw/withdraw")
def post_no_flaw(work: OnBench, saved: SavedJobs, event: Annotated[str, Form()]) -> Response:
    """There is no fault after all."""
    withdraw_flaw(saved, work.id, record_of(saved, work.id), event, new_name)
    return RedirectResponse(f"/jobs/{work.id}/repair", 303)


@router.post("/good/{mark}")
def post_good(work: OnBench, saved: SavedJobs, mark: str) -> Response:
    """The part is good after all."""
    withdraw(saved, work.id, record_of(saved, work.id), mark, new_name)
    return RedirectResponse(f"/jobs/{work.id}/repair", 303)


@router.get("/ways/{number}")
def way(request: Request, work: OnBench, saved: SavedJobs, number: int) -> Response:
    """One way, before it is chosen: every step, and the job before and after."""
    heard = record_of(saved, work.id)
    found = _found(request, work, heard)
    if not 1 <= number <= len(found.lines):
        raise HTTPException(404, f"There is no way {number}; choose one from the list of ways.")
    return page(
        request,
        "repair/way.html",
        work=work,
        line=found.lines[number - 1],
        pictures=way_pictures(found, number),
        place=heard.place,
    )


@router.post("/ways/{number}/choose")
def post_choice(
    request: Request, work: OnBench, saved: SavedJobs, number: int, place: Annotated[int, Form()]
) -> Response:
    """Choose a way, if nothing was recorded since its page was loaded."""
    heard = record_of(saved, work.id)
    if heard.place != place:
        text = "Something was recorded since you loaded this page, so nothing was chosen."
        raise HTTPException(409, f"{text} Look at the ways again.")
    choose(saved, work.id, heard, _found(request, work, heard), number, new_name)
    return RedirectResponse(f"/jobs/{work.id}/repair", 303)


@router.get("/labels.pdf")
def choice_labels(request: Request, work: OnBench, saved: SavedJobs) -> Response:
    """The labels to print again after the choice made last."""
    heard = record_of(saved, work.id)
    marks = labels_of_choice(saved, work.id, heard)
    if heard.floor is None or not marks:
        raise HTTPException(404, "No label changed by the choice made last; print all from the Papers page.")
    network = network_of(request)
    address = network.part_address(work.id) if network else ""
    made = make_labels(heard.floor, usual_stock(heard.floor.project), address, marks)
    return Response(made, media_type="application/pdf")


@router.post("/undo")
def post_undo(work: OnBench, saved: SavedJobs) -> Response:
    """Take the last choice back."""
    undo_choice(saved, work.id, record_of(saved, work.id), new_name)
    return RedirectResponse(f"/jobs/{work.id}/repair", 303)


def new_name() -> str:
    """A new name for an event."""
    return token_urlsafe(9)


def _page(
    request: Request,
    work: OpenedRevision,
    saved: KeptJobs,
    said: Report,
    findings: tuple[Finding, ...] = (),
    status: int = 200,
    asked: Mapping[str, object] | None = None,
    flaw: FlawTyped = NO_FLAW,
    at_flaw: tuple[Finding, ...] = (),
) -> Response:
    heard = record_of(saved, work.id)
    project = heard.floor.project if heard.floor else work.worked.needed()
    bad = amiss(heard)
    searching = _search(request, work, heard) if bad else None
    return page(
        request,
        "repair/page.html",
        status=status,
        work=work,
        said=said,
        beside=beside_fields(said.mark, findings),
        form=part_form(project, heard.state, said),
        asked=asked or {},
        marks=[mark for mark in project.parts if mark not in bad],
        amiss=[
            (heard.state.parts[mark], wrong_in_words(project, mark, heard.state))
            for mark in gone_parts(heard)
        ]
        if heard.state
        else [],
        hit=hit_by_flaws(heard),
        flaws=flaws_found(project, heard.state),
        sheets=[f"{key} {one.number}" for key, plan in heard.floor.plans.items() for one in plan.sheets]
        if heard.floor
        else [],
        flaw=flaw,
        at_flaw=at_flaw,
        searching=searching,
        last=last_choice(heard),
        labels=labels_of_choice(saved, work.id, heard),
        handed_out=heard.floor is not None,
    )


def _search(request: Request, work: OpenedRevision, heard: BenchRecord) -> Searching:
    searches = request.app.state.searches
    assert isinstance(searches, Searches)
    return searches.search_for(work.id, heard)


def _found(request: Request, work: OpenedRevision, heard: BenchRecord) -> FoundWays:
    """The ways, waited for. Raises JobError when they cannot be looked for."""
    searching = _search(request, work, heard)
    wait_for(searching)
    if searching.found is None:
        raise JobError(searching.findings)
    return searching.found


def _handed_out(request: Request, work: OpenedRevision, saved: KeptJobs) -> BenchRecord:
    heard = record_of(saved, work.id)
    if heard.floor is not None:
        return heard
    planned = planned_of(request, saved, work)
    issue, plans, boards = f"issue-{new_name()}", planned.made.plans, planned.board_plans
    hand_out(saved.file, work.id, work.revision.number, plans, issue, saved.clock(), boards)
    return record_of(saved, work.id)
