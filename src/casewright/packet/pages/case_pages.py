"""A page for each case: taken apart, with its sizes to check at the dry fit and its parts."""

from __future__ import annotations

from fractions import Fraction

from ...casework.job import BackKind, BottomJoint, Construction, ToeKind, TopKind
from ...casework.parts.alike_parts import groups
from ...casework.project import Project
from ...drawings.kit.lettering import lettered
from ...drawings.kit.pages import fitted
from ...drawings.views.exploded import exploded
from ...sizes.affine import Affine
from ...tolerance.as_built.square import square_of
from .assembly_steps import assembly_steps
from .page_picture import Json, picture
from .part_work import work_in_short
from .weights import weight_words

WIDE = 540.0
LEAST_TALL, MOST_TALL = 225.0, 400.0
PAGE, ROW, STEP, LINE = 625.0, 25.0, 26.0, 11.0
"""What heading, facts and titles leave of a page, and how high rows, steps and lines of notes are."""
LETTERS = 125
"""About how many letters of a step's notes stand in one line."""

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


def case_page(project: Project, mark: str) -> dict[str, Json]:
    """What the page of the case called `mark` shows."""
    case = project.cases[mark]
    of, finest = project.sizes.of, project.job.mark
    listed = groups(project, case.parts)
    steps = assembly_steps(project, mark)
    lines = sum(1 + len(" · ".join(step.notes)) // LETTERS + len(step.marks) // 9 for step in steps)
    below = ROW * (-(-len(listed) // 2)) + STEP * len(steps) + LINE * lines
    tall = max(LEAST_TALL, min(MOST_TALL, PAGE - below))

    def sizes(*forms: Affine) -> str:
        return " × ".join(lettered(of(form), finest) for form in forms)

    return {
        "mark": mark,
        "kind": f"{case.spec.kind.value} case",
        "facts": [
            {"caption": "outside, wide × high × deep", "value": sizes(case.width, case.height, case.depth)},
            {"caption": "inside, to check dry", "value": sizes(case.inside, case.clear, case.inside_depth)},
            *_square(project, mark),
            {"caption": "weight", "value": weight_words(project, case.parts)},
        ],
        "construction": construction_words(case.spec.construction),
        "steps": [step.plain() for step in steps],
        "picture": picture(fitted(exploded(project, mark), WIDE, tall)),
        "parts": [
            {
                "marks": list(group.marks),
                "words": group.words,
                "size": " × ".join(
                    lettered(size, finest) for size in (group.length, group.width, group.thickness)
                ),
                "material": project.job.sheets[group.first.material].name,
                "work": work_in_short(project, group.first),
            }
            for group in listed
        ],
    }


def _square(project: Project, mark: str) -> list[Json]:
    """Both diagonals when the case is square, and how far apart the back still lets them be."""
    finest = project.job.mark
    expected = square_of(project, project.cases[mark])
    facts: list[Json] = [
        {"caption": "both diagonals", "value": lettered(Fraction(expected.diagonal), finest)}
    ]
    if expected.differ is not None:
        value = lettered(Fraction(expected.differ), finest)
        facts.append({"caption": "differ, back in", "value": f"≤ {value}"})
    return facts


def construction_words(made: Construction) -> str:
    """How a case is put together, in one line."""
    said = (_BOTTOM[made.bottom], _TOP[made.top], _BACK[made.back], _TOE[made.toe])
    text = ", ".join(words for words in said if words)
    return text[0].upper() + text[1:] + "."
