"""A leaf for each case: an exploded view, its parts with where they come from, its steps."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from ...casework.build.case import Case
from ...casework.job import BackKind, BottomJoint, ToeKind, TopKind
from ...casework.parts.cut_alike import PartGroup, within_case
from ...casework.parts.part import Role
from ...casework.project import Project
from ...drawings.kit.lettering import dimension_text
from ...drawings.kit.pages import fit_to_room
from ...drawings.views.exploded import exploded_view
from ...lengths.in_a_sentence import with_capital
from ...sizes.affine import Affine
from ...tolerance.as_built.square import square_figures
from ...tolerance.tolerance_wording import gap_text
from ...workshop.assembly.case_lifts import weight_words
from ...workshop.assembly.joining import GlueUp
from ...workshop.movement_wording import moves_in_short
from ..cut_places import CutPlace, places_text
from ..work_in_short import work_in_short
from .assembly_steps import assembly_steps
from .page_picture import Json, embed_picture

ROOM = (260.0, 134.0)
"""Points for the exploded view at the head of a column."""

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


def case_pages(
    project: Project,
    groups: Sequence[PartGroup],
    places: Mapping[str, CutPlace],
    joinings: Mapping[str, Sequence[GlueUp]],
) -> list[Json]:
    """A leaf for each of the cases of these `joinings`, with its rows of the parts list `groups`."""
    return [
        {
            **_written(project, mark, known),
            "picture": embed_picture(fit_to_room(exploded_view(project, mark), *ROOM)),
            "parts": [_part_row(project, group, places) for group in within_case(groups, mark)],
        }
        for mark, known in joinings.items()
    ]


def _part_row(project: Project, group: PartGroup, places: Mapping[str, CutPlace]) -> Json:
    sizes = (group.length, group.width)
    return {
        "marks": list(group.marks),
        "count": group.count,
        "words": group.words,
        "size": " × ".join(dimension_text(size, project.rule) for size in sizes),
        "from": places_text(group.marks, places),
        "work": ", ".join(
            words
            for words in (work_in_short(project, group.first), moves_in_short(project, group.first))
            if words
        ),
    }


def _written(project: Project, mark: str, known: Sequence[GlueUp]) -> dict[str, Json]:
    """The words of the leaf of the case called `mark`."""
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
        ],
        "weight": weight_words(project, mark),
        "construction": construction_words(case),
        "steps": [step.plain() for step in assembly_steps(project, mark, known)],
    }


def _square(project: Project, mark: str) -> list[Json]:
    """Both diagonals of the case when square, and by how much they may differ with the back in."""
    finest = project.rule
    expected = square_figures(project, project.cases[mark])
    diagonals = dimension_text(expected.diagonal, finest)
    if expected.differ is None:
        return [{"caption": "both diagonals", "value": diagonals}]
    differ = gap_text(project, expected.differ)
    return [{"caption": "both diagonals, apart with the back in", "value": f"{diagonals}, ≤ {differ}"}]


def construction_words(case: Case) -> str:
    """How a case is put together, in one line. A bottom at the very end of its sides lies in rabbets."""
    made = case.spec.construction
    kinds = {
        channel.kind.value
        for part in case.parts
        for channel in part.channels
        if part.role is Role.LEFT_SIDE and channel.name.endswith("-bottom")
    }
    bottom = f"bottom in {kinds.pop()}s" if kinds else _BOTTOM[made.bottom]
    frame = f"face frame with {made.frame.value}" if made.has_frame else ""
    words = (bottom, _TOP[made.top], _BACK[made.back], _TOE[made.toe], frame)
    text = ", ".join(word for word in words if word)
    return f"{with_capital(text)}."
