"""The words for putting edging on, on paper and screen alike."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from ..casework.build.edged_edges import EDGE_NAMES
from ..casework.edge_strips import EdgeStrip
from ..casework.hidden_sides import SIDES
from ..casework.parts.part import Part
from ..casework.project import Project
from ..lengths.in_a_sentence import listed
from ..lengths.length import show
from .edging_work import cut_strip, strips_first, strips_last
from .operations import Operation, OperationKind
from .side_names import side_words

EDGE_TITLE = "Edge the parts"
EDGE_CASE_TITLE = "Edge the fronts of the cases"
_GLUED = (
    "Glue each on along its whole length, and let the glue set. "
    "Trim the ends, then the faces flush; stop at the veneer."
)
HOW_TO_EDGE = f"Cut the strips as long as is said, which leaves some to trim at each end. {_GLUED}"
HOW_TO_EDGE_A_CASE = (
    "The sides first, with strips as long as is said, which leaves some to trim at each end; then cut those "
    f"between them to fit. {_GLUED}"
)


def edging_setting(project: Project, operations: Sequence[Operation]) -> Iterator[str]:
    """How edging is put on, and how far each strip stands out before it is trimmed."""
    first, *_ = operations
    yield HOW_TO_EDGE if first.kind is OperationKind.EDGE else HOW_TO_EDGE_A_CASE
    out: dict[tuple[str, str], str] = {}
    for strip in (strip for operation in operations for strip in _strips(project, operation)):
        edging, thick = project.job.edging[strip.edge.edging], project.sizes.of(strip.part.thickness)
        told = []
        if (proud := edging.proud(thick)) > 0:
            told.append(f"{project.printed(proud)} stands out at each face, to be trimmed")
        if edging.drop:
            told.append(f"flush above, it hangs {project.printed(edging.drop)} below when trimmed")
        if told:
            on = f"{edging.name} on {project.job.sheets[strip.part.material].name}"
            out[edging.key, strip.part.material] = f"{on[0].upper()}{on[1:]}: {'; '.join(told)}."
    yield from out.values()


def edging_words(project: Project, operation: Operation) -> Iterator[str]:
    """What goes on which edge, and how long it is cut; alike strips in one sentence."""
    if operation.kind is OperationKind.EDGE_CASE:
        return case_edging_words(project, operation.piece)
    return _alike(
        (_rough(project, strip), side_words(strip.part, strip.edge.way).capitalize())
        for strip in _strips(project, operation)
    )


def case_edging_words(project: Project, case: str) -> Iterator[str]:
    """The same for what goes over the front of a case once it is glued; nothing where nothing does.

    The sides come first. What lies between them has no end to be trimmed at: it is cut to fit.
    """
    strips = sorted(strips_last(project, case), key=lambda strip: strip.part.role not in SIDES)
    return _alike(
        (_rough(project, strip) if strip.part.role in SIDES else _fitted(project, strip), strip.part.mark)
        for strip in strips
    )


def _alike(told: Iterable[tuple[str, str]]) -> Iterator[str]:
    """A sentence for each of these words, with all the places that they are said of."""
    found: dict[str, list[str]] = {}
    for words, where in told:
        found.setdefault(words, []).append(where)
    for words, places in found.items():
        yield f"{listed(places)}: {words}."


def _rough(project: Project, strip: EdgeStrip) -> str:
    return f"{project.job.edging[strip.edge.edging].name}, {project.printed(cut_strip(project, strip))} long"


def _fitted(project: Project, strip: EdgeStrip) -> str:
    return f"{project.job.edging[strip.edge.edging].name}, cut to fit, {project.printed(strip.length)}"


def edged_in_short(project: Project, part: Part) -> str:
    """`edged front to 24`, with the size that this brings it to before its joints; empty for bare edges."""
    if not part.edges:
        return ""
    words = f"edged {' and '.join(EDGE_NAMES[edge.way] for edge in part.edges)}"
    if len(part.edges) == 4:
        words = "edged all round"
    sizes = zip(project.worked(part), project.dimensions(part), strict=True)
    to = " × ".join(show(worked, project.rule).marked for worked, cut in sizes if worked != cut)
    return f"{words} to {to}" if to else words


def edging_by_edge(project: Project, part: Part) -> str:
    """`front: maple strip`, for a list; empty for bare edges."""
    known = project.job.edging
    return "; ".join(f"{EDGE_NAMES[edge.way]}: {known[edge.edging].name}" for edge in part.edges)


def _strips(project: Project, operation: Operation) -> tuple[EdgeStrip, ...]:
    if operation.kind is OperationKind.EDGE:
        return strips_first(project, project.parts[operation.piece])
    return strips_last(project, operation.piece) if operation.kind is OperationKind.EDGE_CASE else ()
