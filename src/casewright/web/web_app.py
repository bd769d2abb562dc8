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
from . import origin_guard as guard
from . import refusals, routes

STATIC = Path(str(files(__package__))) / "static"


def make_app(saved: KeptJobs, planning_seconds: float = SECONDS) -> FastAPI:
    """The whole app. Each topic is a module of `routes`; this one only puts them together."""
    app = FastAPI(title="casewright", version=version("casewright"), docs_url="/api/docs", redoc_url=None)
    app.state.saved = saved
    app.state.planner = Planner(planning_seconds)
    app.state.searches = Searches()
    app.state.saving_searches = SavingSearches()
    guard.guard_requests(app)
    refusals.render_refusals(app)
    for module in routes.modules():
        app.include_router(module.router)
    app.mount("/static", StaticFiles(directory=STATIC), name="static")
    return app
