"""A page for each case: taken apart, with its sizes to check at the dry fit and its parts."""

from __future__ import annotations

from fractions import Fraction

from ..casework.job import BackKind, BottomJoint, Construction, ToeKind, TopKind
from ..casework.project import Project
from ..drawings.exploded import exploded
from ..drawings.lettering import lettered
from ..drawings.pages import fitted
from ..fit.square import square_of
from .grouping import groups, work_in_short
from .picture import Json, picture
from .weights import weighed, weight

WIDE = 540.0
LEAST_TALL, MOST_TALL = 270.0, 410.0
PAGE_LEFT, ROW = 590.0, 26.0
"""What heading and facts leave of a page for picture and list, and how high a row of the list is."""

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
    tall = max(LEAST_TALL, min(MOST_TALL, PAGE_LEFT - ROW * len(listed)))

    def sizes(*names: str) -> str:
        return " × ".join(lettered(of(f"{mark}.{name}"), finest) for name in names)

    return {
        "mark": mark,
        "kind": f"{case.spec.kind.value} case",
        "facts": [
            {"caption": "outside, wide × high × deep", "value": sizes("width", "height", "depth")},
            {"caption": "inside, to check dry", "value": sizes("inside", "clear", "inside_depth")},
            *_square(project, mark),
            {"caption": "weight", "value": weighed(weight(project, case.parts), project.job.unit)},
        ],
        "construction": construction_words(case.spec.construction),
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
