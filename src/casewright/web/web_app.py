"""The web app over one shop file."""

from __future__ import annotations

from importlib.metadata import version
from importlib.resources import files
from pathlib import Path

from fastapi import FastAPI
from fastapi.staticfiles import StaticFiles

from ..app.background.planning import Planner
from ..app.background.saving_search import SavingSearches
from ..app.background.way_search import Searches
from ..app.choices import SECONDS
from ..app.jobs.kept_jobs import KeptJobs
from . import refusals, routes
from .body_limit import BodyLimit
from .origin_guard import OriginGuard
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
    app.state.planner = Planner(planning_seconds)
    app.state.searches = Searches()
    app.state.saving_searches = SavingSearches()
    app.state.making, app.state.waiting = FewAtOnce(MAKING), FewAtOnce(WAITING)
    app.add_middleware(BodyLimit)
    app.add_middleware(OriginGuard)  # the outermost: what the others refuse has its headers too
    refusals.render_refusals(app)
    for module in routes.modules():
        app.include_router(module.router)
    app.mount("/static", StaticFiles(directory=STATIC), name="static")
    return app
