"""A panel glued up from strips, in words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from ...boards.board_plan import BoardPlan
from ...casework.project import Project
from ...casework.size_names import thickness_of
from ..operations import Operation, OperationKind
from .glue_up_work import GluedPanel, glued_panel, panel_of_step

HOW: Mapping[OperationKind, str] = {
    OperationKind.EDGE_PAIRS: (
        "Lay the strips of a panel side by side, see which way each looks best, and chalk a triangle across "
        "all of them. Joint the two edges of each joint one after the other, one strip with its best face "
        "on the fence, its neighbour with that face away from it: what the fence is out of square then "
        "cancels. Done when one strip stands on the other and no light shows between them. Joint one outer "
        "edge too: it goes against the saw's fence."
    ),
    OperationKind.GLUE_PANEL: (
        "Put it together dry first, clamps and all: the joints must close without force. Then a thin, even "
        "film of glue on one edge of each joint, clamps above and below by turns, and the faces pressed "
        "level from the middle outwards as you tighten. Leave it in the clamps for as long as the glue's "
        "label says, with yellow glue half an hour to an hour, and a day before it is planed, or the joints "
        "sink later."
    ),
    OperationKind.FLUSH: (
        "Scrape the hard glue off first: it nicks knives. Then take both faces down alike until the joints "
        "are level, and measure the panel: what it is let into goes by that."
    ),
}
"""Common practice; the times in clamps are makers' of yellow glue, from memory."""

TITLES: Mapping[OperationKind, str] = {
    OperationKind.EDGE_PAIRS: "Joint the edges of strips in pairs",
    OperationKind.GLUE_PANEL: "Glue up panels",
    OperationKind.FLUSH: "Level glued-up panels",
}


def strips_words(mark: str, strips: Sequence[str]) -> str:
    """`B1-DP1a, b, c`."""
    first, *others = strips
    return ", ".join((first, *(strip.removeprefix(mark) for strip in others)))


def glued_words(mark: str, strips: Sequence[str]) -> str:
    """`B1-DP1 from 3 strips (B1-DP1a, b, c)`."""
    return f"{mark} from {len(strips)} strips ({strips_words(mark, strips)})"


def glue_up_lines(plan: BoardPlan) -> Iterator[str]:
    """The parts that are glued up, a line each, for the plan as text."""
    for mark, strips in plan.glued.items():
        yield f"  glue up {glued_words(mark, strips)}"


def panel_step_words(project: Project, plan: BoardPlan, operation: Operation) -> Iterator[str]:
    """What a step does on one panel, beyond what holds for its whole batch."""
    named = panel_of_step(operation.key)
    if named is None:
        return
    material, mark = named
    yield from _words(project, glued_panel(project, material, plan, mark), operation)


def _words(project: Project, panel: GluedPanel, operation: Operation) -> Iterator[str]:
    length, width = (project.printed(size) for size in (panel.length, panel.width))
    mark, strips = panel.part.mark, panel.strips
    if operation.kind is OperationKind.EDGE_PAIRS:
        yield f"{glued_words(mark, strips)}, crosscut apart first where they hang together."
    elif operation.kind is OperationKind.GLUE_PANEL:
        clamps = f"{panel.clamps} clamps" if panel.clamps > 1 else "1 clamp"
        yield f"{strips_words(mark, strips)}: {clamps}; comes out {length} × {width} or a little more."
    elif operation.kind is OperationKind.FLUSH:
        planed = project.sizes.of(thickness_of(panel.part.material))
        thick = project.printed(planed)
        if panel.through_planer:
            yield f"Through the planer to {thick}, {len(strips)} strips wide."
        else:
            yield f"Wider than a planer takes: with plane, scraper or sander to {thick}."
    elif operation.kind is OperationKind.CROSSCUT:
        yield "Square the other end first, just clean."
