"""The job as a model one can turn: a GLB file, made once for each text of the job."""

from __future__ import annotations

from functools import lru_cache

from ..solids.bodies import assemble
from ..solids.gltf import glb_file
from ..solids.palette import palette
from .live import drawn


@lru_cache(maxsize=8)
def model_of(text: str) -> bytes:
    """The job with this text as binary glTF. Raises JobError while it cannot be built."""
    project = drawn(text).needed()
    return glb_file(assemble(project), palette(project))
