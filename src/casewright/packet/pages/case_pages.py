"""A page for each case: an exploded view, sizes to check at the dry fit, its parts and its steps."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from ...casework.job import BackKind, BottomJoint, Construction, ToeKind, TopKind
from ...casework.parts.cut_alike import PartGroup
from ...casework.project import Project
from ...drawings.kit.lettering import dimension_text
from ...drawings.kit.pages import fit_to_room
from ...drawings.views.exploded import exploded_view
from ...errors import LibraryError
from ...sizes.affine import Affine
from ...tolerance.as_built.square import square_figures
from ...workshop.assembly.joining import GlueUp
from ..typesetting import query_value
from ..work_in_short import work_in_short
from .assembly_steps import assembly_steps
from .page_picture import Json, embed_picture

WIDE = 540.0
LEAST_TALL, MOST_TALL = 225.0, 400.0
"""Points the picture may be high; where less is left, the steps run on to a second page."""

_BOTTOM = {BottomJoint.DADO: "bottom in dados", BottomJoint.BUTT: "bottom between the sides"}
_TOP = {
    TopKind.RABBET: "top in rabbets",
    TopKind.DADO: "top in dados",
    TopKind.BUTT: "top between the sides",
    TopKind.STRETCHERS: "two stretchers on top",
}
_BACK = {
    BackKind.GROOVE: "back in grooves",
    BackKind.RABBET: "back in rabbets",
    BackKind.APPLIED: "back over the rear edges",
    BackKind.NONE: "no back",
}
_TOE = {ToeKind.NOTCH: "toe kick notched", ToeKind.PLINTH: "separate plinth", ToeKind.NONE: ""}


@dataclass(frozen=True)
class CaseContents:
    """What a case's page shows that is not in the project: its parts list, glue-ups and weight."""

    parts: Sequence[PartGroup]
    joinings: Sequence[GlueUp]
    weight: str


def case_pages(project: Project, paper: str, cases: Mapping[str, CaseContents]) -> list[Json]:
    """A page for each case on `paper` (the typesetter's name for it).

    Each picture is as large as the words on the page allow.
    """
    written = {mark: _written(project, mark, of) for mark, of in cases.items()}
    rooms = query_value("case-rooms.typ", {"paper": paper, "cases": list(written.values())}, "rooms")
    if not isinstance(rooms, list):
        raise LibraryError("Typst", "measuring case-rooms.typ", "it returned no list of picture heights")
    pages: list[Json] = []
    for (mark, page), room in zip(written.items(), rooms, strict=True):
        tall = max(LEAST_TALL, min(MOST_TALL, room))
        pages.append(
            {**page, "picture": embed_picture(fit_to_room(exploded_view(project, mark), WIDE, tall))}
        )
    return pages


def _written(project: Project, mark: str, known: CaseContents) -> dict[str, Json]:
    """Everything on the page of the case called `mark` but the picture."""
    case = project.cases[mark]
    of, finest = project.sizes.of, project.rule

    def sizes(*forms: Affine) -> str:
        return " × ".join(dimension_text(of(form), finest) for form in forms)

    return {
        "mark": mark,
        "kind": f"{case.spec.kind.value} case",
        "facts": [
            {"caption": "outside, wide × high × deep", "value": sizes(case.width, case.height, case.depth)},
            {"caption": "inside, at the dry fit", "value": sizes(case.inside, case.clear, case.inside_depth)},
            *_square(project, mark),
            {"caption": "weight", "value": known.weight},
        ],
        "construction": construction_words(case.spec.construction),
        "steps": [step.plain() for step in assembly_steps(project, mark, known.joinings)],
        "parts": [
            {
                "marks": list(group.marks),
                "words": group.words,
                "size": " × ".join(
                    dimension_text(size, finest) for size in (group.length, group.width, group.thickness)
                ),
                "material": project.job.sheets[group.material].name,
                "work": work_in_short(project, group.first),
            }
            for group in known.parts
        ],
    }


def _square(project: Project, mark: str) -> list[Json]:
    """Both diagonals of the case when square, and by how much they may differ with the back in."""
    finest = project.rule
    expected = square_figures(project, project.cases[mark])
    facts: list[Json] = [{"caption": "both diagonals", "value": dimension_text(expected.diagonal, finest)}]
    if expected.differ is not None:
        value = dimension_text(expected.differ, finest)
        facts.append({"caption": "difference, back in", "value": f"≤ {value}"})
    return facts


def construction_words(made: Construction) -> str:
    """How a case is put together, in one line."""
    words = (_BOTTOM[made.bottom], _TOP[made.top], _BACK[made.back], _TOE[made.toe])
    text = ", ".join(word for word in words if word)
    return text[0].upper() + text[1:] + "."
