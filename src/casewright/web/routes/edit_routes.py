"""Forms that change the job. A wrong value changes nothing, and what was typed stays in its field."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Annotated, Any

from fastapi import APIRouter, Depends, HTTPException, Request, Response
from fastapi.responses import RedirectResponse

from ...app.editing.form_groups import Group
from ...app.editing.forms import (
    FormOutcome,
    SentForm,
    case_form,
    construction_form,
    edging_form,
    followed_case,
    followed_run,
    kind_form,
    machines_form,
    materials_form,
    run_form,
    settings_form,
    sheet_goods,
    submit_form,
)
from ...app.editing.front_forms import fittings_on_the_list, hardware_form
from ...app.editing.price_form import prices_form
from ...app.jobs.kept_jobs import OpenedRevision
from ...app.jobs.worked_job import WorkedJob
from ...app.views.page_pictures import Picture, pictures_of_case
from ..rendering import OnBench, SavedJobs, card, partial, tell_revision

router = APIRouter(prefix="/jobs/{job}", include_in_schema=False)

THEIRS, TAKE, SEEN, SURE = "theirs:", "take:", "seen:", "sure:"


@dataclass(frozen=True)
class EditForm:
    """A form beside the drawing: its title, where it is sent, its card's template, its groups.

    `facts` is the template of what the card shows above the form; it is redrawn after a change.
    """

    title: str
    action: str
    template: str
    make: Callable[[WorkedJob], tuple[Group, ...]]
    about: str = ""
    facts: str = ""


def _case(mark: str) -> EditForm:
    return EditForm(
        f"Case {mark}",
        f"cases/{mark}",
        "edit/case_card.html",
        lambda worked: case_form(worked, mark),
        mark,
        "edit/case_facts.html",
    )


def _run(index: int) -> EditForm:
    return EditForm(
        "Run",
        f"runs/{index}",
        "edit/run_card.html",
        lambda worked: run_form(worked, index),
        str(index),
        "edit/run_facts.html",
    )


def _kind(kind: str) -> EditForm:
    return EditForm(
        f"Every {kind} case", f"kinds/{kind}", "edit/form_card.html", lambda worked: kind_form(worked, kind)
    )


MACHINES = EditForm("Machines", "machines", "edit/form_card.html", machines_form)
PRICES = EditForm("Prices", "prices", "edit/form_card.html", prices_form)
MATERIALS = EditForm("Materials", "materials", "edit/materials_card.html", materials_form)
EDGING = EditForm("Edging", "edging", "edit/edging_card.html", edging_form)
HARDWARE = EditForm("Hinges and slides", "hardware", "edit/hardware_card.html", hardware_form)
CONSTRUCTION = EditForm("Construction", "construction", "edit/form_card.html", construction_form)
SETTINGS = EditForm("Job", "settings", "edit/form_card.html", settings_form)


@router.get("/cases/{mark}")
def case_card(request: Request, work: OnBench, mark: str) -> Response:
    """A case: its sizes, its parts, and the form that changes it."""
    return _show(request, work, _case(mark))


@router.get("/runs/{index}")
def run_card(request: Request, work: OnBench, index: int) -> Response:
    """A run: its opening, fillers, cases."""
    return _show(request, work, _run(index))


@router.get("/materials")
def materials(request: Request, work: OnBench) -> Response:
    """Every sheet good of the job."""
    return _show(request, work, MATERIALS)


@router.get("/edging")
def edging(request: Request, work: OnBench) -> Response:
    """The edging of the job, and what is edged."""
    return _show(request, work, EDGING)


@router.get("/hardware")
def hinges_and_slides(request: Request, work: OnBench) -> Response:
    """The hinges and drawer slides of the job, and what its cases are fitted with."""
    return _show(request, work, HARDWARE)


@router.get("/construction")
def construction(request: Request, work: OnBench) -> Response:
    """How cases are put together."""
    return _show(request, work, CONSTRUCTION)


@router.get("/settings")
def settings(request: Request, work: OnBench) -> Response:
    """The job's name, unit, rule and notes."""
    return _show(request, work, SETTINGS)


@router.get("/kinds/{kind}")
def kind(request: Request, work: OnBench, kind: str) -> Response:
    """What every case of one kind is."""
    return _show(request, work, _kind(kind))


@router.get("/machines")
def machines(request: Request, work: OnBench) -> Response:
    """The saws, the stack, the jig."""
    return _show(request, work, MACHINES)


@router.get("/prices")
def prices(request: Request, work: OnBench) -> Response:
    """What hardware, glue, finish, blades and hours cost."""
    return _show(request, work, PRICES)


async def _sent(request: Request, work: OnBench) -> SentForm:
    """What the form holds. `theirs:NAME` and `take:NAME` are its answers to a field that two changed,
    `sure:NAME` is what stands although it looked like a slip, and `seen:NAME` is what a field showed when
    that was typed which has come back in it.

    Only the reading waits where all requests are taken: what is done with it has a thread of its own.
    """
    form = {name: value for name, value in (await request.form()).items() if isinstance(value, str)}
    said = form.pop("based_on", "")
    number = said.isascii() and said.isdigit() and len(said) < 10
    based_on = int(said) if number else 0 if said else work.newest  # 0, which no revision is: told as unknown
    settled = {name.removeprefix(THEIRS): value for name, value in form.items() if name.startswith(THEIRS)}
    yielded = frozenset(name.removeprefix(TAKE) for name in form if name.startswith(TAKE))
    seen = {name.removeprefix(SEEN): value for name, value in form.items() if name.startswith(SEEN)}
    sure = {name.removeprefix(SURE): value for name, value in form.items() if name.startswith(SURE)}
    typed = {name: value for name, value in form.items() if not name.startswith((THEIRS, TAKE, SEEN, SURE))}
    return SentForm(typed, based_on, settled, yielded, seen, sure)


Sent = Annotated[SentForm, Depends(_sent)]


@router.post("/kinds/{kind}")
def change_kind(request: Request, work: OnBench, saved: SavedJobs, sent: Sent, kind: str) -> Response:
    """Change what every case of one kind is."""
    return _send(request, saved, work, _kind(kind), sent)


@router.post("/machines")
def change_machines(request: Request, work: OnBench, saved: SavedJobs, sent: Sent) -> Response:
    """Change the machines."""
    return _send(request, saved, work, MACHINES, sent)


@router.post("/prices")
def change_prices(request: Request, work: OnBench, saved: SavedJobs, sent: Sent) -> Response:
    """Change the prices."""
    return _send(request, saved, work, PRICES, sent)


@router.post("/cases/{mark}")
def change_case(request: Request, work: OnBench, saved: SavedJobs, sent: Sent, mark: str) -> Response:
    """Change the case that had this mark when the form was made."""
    try:
        now = followed_case(saved, work.id, mark, sent.based_on)
    except KeyError:
        raise HTTPException(404, f"This job has no case {mark}.") from None
    if now is None:
        raise HTTPException(409, _REMOVED.format(f"case {mark}"))
    return _send(request, saved, work, _case(now), sent)


@router.post("/runs/{index}")
def change_run(request: Request, work: OnBench, saved: SavedJobs, sent: Sent, index: int) -> Response:
    """Change the run that stood at this place when the form was made."""
    now = followed_run(saved, work.id, index, sent.based_on)
    if now is None:
        raise HTTPException(409, _REMOVED.format("this run"))
    return _send(request, saved, work, _run(now), sent)


@router.post("/materials")
def change_materials(request: Request, work: OnBench, saved: SavedJobs, sent: Sent) -> Response:
    """Change the materials."""
    return _send(request, saved, work, MATERIALS, sent)


@router.post("/edging")
def change_edging(request: Request, work: OnBench, saved: SavedJobs, sent: Sent) -> Response:
    """Change the edging."""
    return _send(request, saved, work, EDGING, sent)


@router.post("/hardware")
def change_hardware(request: Request, work: OnBench, saved: SavedJobs, sent: Sent) -> Response:
    """Change the hinges and slides."""
    return _send(request, saved, work, HARDWARE, sent)


@router.post("/construction")
def change_construction(request: Request, work: OnBench, saved: SavedJobs, sent: Sent) -> Response:
    """Change how cases are put together."""
    return _send(request, saved, work, CONSTRUCTION, sent)


@router.post("/settings")
def change_settings(request: Request, work: OnBench, saved: SavedJobs, sent: Sent) -> Response:
    """Change the job's own entries."""
    return _send(request, saved, work, SETTINGS, sent)


_REMOVED = "Another device removed {} since this page was opened. Undo brings it back."


def _send(
    request: Request, saved: SavedJobs, work: OpenedRevision, sheet: EditForm, sent: SentForm
) -> Response:
    outcome = submit_form(saved, work, lambda worked: _groups(worked, sheet), sent)
    return _after(request, outcome, _renamed(sheet, outcome))


def _after(request: Request, sent: FormOutcome, sheet: EditForm) -> Response:
    """The answer to a form: for htmx only what changed, so that nothing typed is ever replaced."""
    status = 422 if sent.refused and not sent.kept else 200
    if not request.headers.get("hx-request"):
        if sent.refused:
            return _show(request, sent.work, sheet, sent, status)
        return RedirectResponse(f"/jobs/{sent.work.id}/{sheet.action}", 303)
    if request.url.path.endswith(f"/{sheet.action}") and not sent.moved:
        answer = partial(
            request,
            "edit/after.html",
            status=status,
            work=sent.work,
            sent=sent,
            **_values(sent.work, sheet, sent),
        )
        answer.headers["HX-Reswap"] = "none"
    else:
        answer = partial(
            request, sheet.template, status=status, work=sent.work, **_values(sent.work, sheet, sent)
        )
        answer.headers["HX-Retarget"] = "#card"
        answer.headers["HX-Reswap"] = "innerHTML"
    tell_revision(answer, sent.work)
    return answer


def _renamed(sheet: EditForm, sent: FormOutcome) -> EditForm:
    """A case's form goes on under its new mark."""
    for field in (field for group in sent.groups for field in group.fields):
        if sheet.about and field.path[-1] == "mark" and sent.kept:
            return _case(field.typed.strip())
    return sheet


def _show(
    request: Request,
    work: OpenedRevision,
    sheet: EditForm,
    sent: FormOutcome | None = None,
    status: int = 200,
) -> Response:
    return card(request, work, sheet.template, status=status, **_values(work, sheet, sent))


def _values(work: OpenedRevision, sheet: EditForm, sent: FormOutcome | None) -> dict[str, Any]:
    """What a form's card shows: after a refusal with what was typed, else as the job has it."""
    keep = sent is not None and sent.refused
    return {
        "sheet": sheet,
        "groups": sent.groups if sent and keep else _groups(work.worked, sheet),
        "loose": sent.loose if sent else (),
        "shown": work.worked.shown,
        "sheet_goods": sheet_goods(),
        "fittings": fittings_on_the_list(),
        "pictures_of_case": _pictures(work, sheet),
    }


def _pictures(work: OpenedRevision, sheet: EditForm) -> tuple[Picture, ...]:
    project = work.worked.project
    if project is None or sheet.about not in project.cases:
        return ()
    return pictures_of_case(project, sheet.about)


def _groups(worked: WorkedJob, sheet: EditForm) -> tuple[Group, ...]:
    try:
        return sheet.make(worked)
    except KeyError:
        name = f"{sheet.title[:1].lower()}{sheet.title[1:]}"
        name = name if sheet.about in name else f"{name} {sheet.about}"
        raise HTTPException(404, f"There is no {name} now; it was removed or has another name.") from None
