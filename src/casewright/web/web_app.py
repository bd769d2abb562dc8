"""The web app over one shop file."""

from __future__ import annotations

from importlib.metadata import version
from importlib.resources import files
from pathlib import Path
from time import monotonic

from fastapi import FastAPI
from fastapi.staticfiles import StaticFiles

from ..app.background.other_ways_search import WayComparisons
from ..app.background.planning import Planner
from ..app.background.saving_search import SavingSearches
from ..app.background.way_search import Searches
from ..app.choices import SECONDS
from ..app.devices.pairing import PairingDesk
from ..app.jobs.kept_jobs import KeptJobs
from . import refusals, routes
from .body_limit import BodyLimit
from .device_gate import DeviceGate
from .origin_guard import OriginGuard
from .routes.backup_routes import LARGEST_BACKUP, RESTORE
from .turns import MAKING, WAITING, FewAtOnce

STATIC = Path(str(files(__package__))) / "static"


def make_app(saved: KeptJobs, planning_seconds: float = SECONDS) -> FastAPI:
    """The whole app. Each topic is a module of `routes`; this one only puts them together."""
    app = FastAPI(
        title="casewright",
        version=version("casewright"),
        openapi_url="/api/openapi.json",
        docs_url=None,  # FastAPI's own page loads its scripts from a host on the internet
        redoc_url=None,
    )
    app.state.saved = saved
    app.state.sent_backup = None

    def forget() -> None:
        """Begin anew with what is kept between requests, as after going back to a backup."""
        app.state.planner = Planner(planning_seconds)
        app.state.searches = Searches()
        app.state.saving_searches = SavingSearches()
        app.state.way_comparisons = WayComparisons()

    forget()
    app.state.forget = forget
    app.state.making, app.state.waiting = FewAtOnce(MAKING), FewAtOnce(WAITING)
    app.state.desk = PairingDesk(saved.file, saved.clock, monotonic)
    app.state.network = None  # until it is opened, which takes the switch of `serve`
    app.state.switch = None
    app.add_middleware(DeviceGate)
    app.add_middleware(BodyLimit, longer={RESTORE: LARGEST_BACKUP})
    app.add_middleware(OriginGuard)  # the outermost: what the others refuse has its headers too
    refusals.render_refusals(app)
    for module in routes.modules():
        app.include_router(module.router)
    app.mount("/static", StaticFiles(directory=STATIC), name="static")
    return app
