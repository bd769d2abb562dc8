"""The job in the round: a model to turn, take apart, and tap."""

from __future__ import annotations

from fastapi import APIRouter, Request, Response

from ..rendering import OnBench, page
from ..turns import TURN_TO_MAKE
from . import Tab

router = APIRouter(prefix="/jobs/{job}", include_in_schema=False)
TAB = Tab(20, "In the round", "/round")


@router.get("/round")
def in_the_round(request: Request, work: OnBench) -> Response:
    """The page with the model."""
    return page(request, "round/page.html", work=work)


@router.get("/model.glb", dependencies=[TURN_TO_MAKE])
def model(work: OnBench) -> Response:
    """The job as binary glTF, a node for each part."""
    name = f'attachment; filename="{work.id}.glb"'
    return Response(work.worked.model, media_type="model/gltf-binary", headers={"Content-Disposition": name})
