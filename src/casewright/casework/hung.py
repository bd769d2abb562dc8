"""Whether a case hangs on the wall or stands on the floor."""

from __future__ import annotations

from .job import CaseKind, CaseSpec, Run, ToeKind


def hangs_on_wall(run: Run, spec: CaseSpec) -> bool:
    """Whether a case hangs on the wall: its run is lifted off the floor, or it is a wall case without a toe
    kick, even where nobody has said yet how high it hangs."""
    return run.lift > 0 or (spec.kind is CaseKind.WALL and spec.construction.toe is ToeKind.NONE)
