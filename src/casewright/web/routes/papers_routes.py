"""Downloads: the packet and every file in it."""

from __future__ import annotations

from urllib.parse import quote

from fastapi import APIRouter, HTTPException, Request, Response
from fastapi.responses import RedirectResponse

from ...app.papers.downloads import download, list_downloads
from ...app.repair.made_in_shop import made_in_shop
from ...app.repair.repair_record import record_of
from ...errors import JobError
from ..opened_network import network_of
from ..plan_for_page import is_handed_out, planning_of
from ..rendering import OnBench, SavedJobs, page
from ..turns import ClientGone
from . import Tab

router = APIRouter(prefix="/jobs/{job}/papers", include_in_schema=False)
TAB = Tab(50, "Papers", "/papers")


@router.get("")
def papers_page(request: Request, work: OnBench, saved: SavedJobs) -> Response:
    """What there is to fetch, once the sheets are planned."""
    planning = planning_of(request, saved, work)
    found = list_downloads(planning.planned) if planning.planned else None
    handed_out = is_handed_out(saved, work, planning)
    return page(
        request, "papers/page.html", work=work, planning=planning, handed_out=handed_out, papers=found
    )


@router.get("/{path:path}")
def fetch(request: Request, left: ClientGone, work: OnBench, saved: SavedJobs, path: str) -> Response:
    """One file. One that needs the sheet plan while that is being made waits on its page."""
    planning = planning_of(request, saved, work)
    if planning.findings:
        raise JobError(planning.findings)
    if planning.planned is None:
        return RedirectResponse(f"/jobs/{work.id}/papers", 303)
    try:
        network = network_of(request)
        address = network.part_address(work.id) if network else ""
        made = made_in_shop(planning.planned, record_of(saved, work.id))
        content, media = download(planning.planned, path, left.is_set, address, made)
    except KeyError:
        raise HTTPException(404, f"The packet has no file named {path!r}.") from None
    name = quote(f"{work.id}-{path.replace('/', '-')}")
    # A PDF or a picture is looked at in the browser, anything else is saved.
    way = "inline" if media in ("application/pdf", "image/svg+xml") else "attachment"
    return Response(
        content, media_type=media, headers={"Content-Disposition": f"{way}; filename*=UTF-8''{name}"}
    )
