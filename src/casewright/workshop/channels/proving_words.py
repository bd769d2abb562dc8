"""How a channel is proved before it is cut, and how a groove in the middle of an edge comes out there."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ...casework.project import Project
from ..operations import Operation, OperationKind


def turned_words(operations: Sequence[Operation]) -> Iterator[str]:
    """How a groove in the middle of an edge is cut, where its passes are on one setting; common practice, no
    source."""
    against: dict[tuple[str, str], set[str]] = {}
    for one in operations:
        if one.kind is OperationKind.GROOVE:
            against.setdefault((one.piece, one.feature), set()).add(one.hold.against)
    if any(len(faces) > 1 for faces in against.values()):
        yield (
            "Two passes on this setting: one with each face against the fence, the piece turned end for end "
            "between them. So the groove comes in the middle by itself, and wider or narrower by twice what "
            "the fence is moved."
        )


def proving_words(project: Project, operation: Operation) -> str:
    """What is cut first in scrap, and how to see that the setting is right."""
    if operation.kind is OperationKind.LAP:
        return (
            "Run two test pieces of the frame's stock through every pass first and lay them together: "
            "their faces come flush."
        )
    if operation.kind is OperationKind.TONGUE:
        return "Cut both faces of a test piece first: its tongue goes into the groove by hand."
    sawn = project.job.sheets[project.parts[operation.piece].material].wood is not None
    stock = "planed with the parts" if sawn else "of the same sheet"
    return f"Run a test piece {stock} through every pass first, then try a panel in it."
