"""The job as a STEP file: exact solids in their places, each under its mark."""

from __future__ import annotations

from ..errors import ExtraMissing
from .bodies import Bodies


def step_file(bodies: Bodies, name: str) -> bytes:
    """The bodies as one STEP file: an assembly called `name`, each part under its mark, in mm.

    The same bodies give the same bytes. Raises ExtraMissing where the kernel that writes the
    format is not installed.
    """
    try:
        # Only here: it is large, slow to load, and an extra that a plain install may lack.
        from .boundary import write_step
    except ImportError as missing:
        raise ExtraMissing(
            "STEP files need a geometry kernel that is not installed: "
            "install casewright with its extra `step`."
        ) from missing
    return write_step(bodies, name)
