"""Board plans and the steps at the bench in words: one wording for command, page, paper and tablet."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from ...boards.board_plan import BoardLength, BoardPlan, BoardStrip, CutBoard
from ...casework.project import Project
from ...lengths.length import show
from ...shop.lumber import QUARTERS
from ...shop.rough_boards import Milling
from ..operations import Operation, OperationKind
from .board_problems import board_problem
from .board_work import board_of_step, planes_strips_to_glue
from .glue_up_wording import HOW as HOW_GLUED
from .glue_up_wording import TITLES as GLUED_TITLES
from .glue_up_wording import glue_up_lines, panel_step_words

HOW: Mapping[OperationKind, str] = {
    **HOW_GLUED,
    OperationKind.ROUGH_CROSSCUT: (
        "Look at both ends for checks first. Trim the left end, mark each length from there, and cut beside "
        "the line; chalk the board's name on every length."
    ),
    OperationKind.JOINT: (
        "Joint one face flat, hollow side down, then the near edge square to it with that face on the fence. "
        "Take no more off the edge than makes it straight."
    ),
    OperationKind.ROUGH_RIP: (
        "Jointed edge against the fence, jointed face down. Keep the strips in their order."
    ),
    OperationKind.PLANE: (
        "Jointed face down, thin passes, every strip at each setting of the planer. Once flat, turn the "
        "strips over for the last passes, so that both faces lose alike."
    ),
    OperationKind.EDGE_AGAIN: (
        "Wood moves once it is ripped, and a strip's near edge may be as the saw left it. Best face on the "
        "fence, near edge down, and no more off than makes it straight and square: this edge goes against "
        "the saw's fence next."
    ),
}
"""Common practice, no source."""

TITLES: Mapping[OperationKind, str] = {
    **GLUED_TITLES,
    OperationKind.ROUGH_CROSSCUT: "Crosscut boards to rough length",
    OperationKind.JOINT: "Joint a face and an edge",
    OperationKind.PLANE: "Plane to thickness",
    OperationKind.EDGE_AGAIN: "Joint an edge of each strip again",
}


def feet_figure(feet: Fraction) -> str:
    """Board feet to a tenth: `23.3`; a whole number without one."""
    return str(int(feet)) if feet.denominator == 1 else f"{float(feet):.1f}"


def feet_words(feet: Fraction) -> str:
    """The same with what it counts: `23.3 bf`."""
    return f"{feet_figure(feet)} bf"


def _quarters(project: Project, rough: Fraction) -> str:
    """A rough thickness as a yard calls it: `4/4`; a length where it is no number of quarters."""
    named = [name for name, thickness in QUARTERS.items() if thickness == rough]
    return named[0] if named else _text(project, rough)


def grade_words(project: Project, rough: Fraction, grade: str) -> str:
    """What to ask a yard for: `4/4 FAS`."""
    return f"{_quarters(project, rough)} {grade}"


def board_title(one: CutBoard) -> str:
    """`Board 2 (“A”)` for one at hand, `Board 3, to buy`."""
    return f"Board {one.number}, to buy" if one.to_buy else f"Board {one.number} (“{one.board.name}”)"


def board_plan_proof(plan: BoardPlan) -> str:
    """How much the plan takes, and what is proved of it, in one or two sentences."""
    at_hand = len(plan.boards) - len(plan.to_buy)
    if not plan.boards:
        return "No part could be placed on a board."
    had = f"{_boards(at_hand)} at hand ({feet_words(plan.feet_used - plan.feet_to_buy)})"
    if not plan.to_buy:
        used = f"All from {had}, nothing to buy."
        if plan.gap < Fraction(1, 200):
            return f"{used} No way of cutting them uses less."
        return f"{used} Any way of cutting them uses {feet_words(plan.bound)} at least."
    number = len(plan.to_buy)
    proved = "Whether fewer would do is not proved."
    bought = f"{_boards(number)} of the usual size to buy, if clear ({feet_words(plan.feet_to_buy)})"
    used = f"The plan takes {bought}, beside {had}." if at_hand else f"The plan takes {bought}."
    if plan.bound_boards == number:
        return f"{used} No way of cutting needs fewer boards of that size."
    if plan.bound_boards:
        fewer = number - plan.bound_boards
        proved = f"At least {plan.bound_boards} are needed, so up to {fewer} might be saved."
    return f"{used} {proved}"


def typical_words(project: Project, material: str, plan: BoardPlan) -> str:
    """What the boards that are still to be bought are taken to be; empty where there are none."""
    boards = project.job.sheets[material].boards
    if not plan.to_buy or boards is None:
        return ""
    size = f"{_text(project, boards.usual_length)} × {_text(project, boards.usual_width)}"
    return (
        f"A board to buy is taken to be {size} and clear, while {boards.grade.name.value} boards are at "
        f"least {share_words(boards.grade.least_yield)} clear. Enter the boards you bought, and plan again."
    )


def share_words(share: Fraction) -> str:
    """A share in percent as the grade rules have it: `83 1/3 %`."""
    whole, part = divmod(share * 100, 1)
    return f"{whole} {part} %" if part else f"{whole} %"


def board_plan_lines(project: Project, material: str, plan: BoardPlan) -> Iterator[str]:
    """Every board with its lengths and strips, a line each."""
    boards = project.job.sheets[material].boards
    milling = boards.milling if boards is not None else Milling()
    for one in plan.boards:
        widths = " – ".join(_text(project, width) for width in dict.fromkeys(one.board.widths))
        size = f"{_text(project, one.board.length)} × {widths}, {feet_words(one.board.feet)}"
        yield f"  {board_title(one)}: {size}{_would_do(project, milling, one)}"
        for length in one.lengths:
            yield f"    crosscut {_text(project, length.length)}, from {_text(project, length.x)}"
            for strip in length.strips:
                marks = ", ".join(part.name for part in strip.parts)
                yield f"      rip {_text(project, strip.width)}, from {_text(project, strip.y)}: {marks}"
    yield from glue_up_lines(plan)


def _would_do(project: Project, milling: Milling, one: CutBoard) -> str:
    """How small a board would do in place of one to buy, where that is much smaller."""
    long, wide = one.needed(milling.end_trim)
    if not one.to_buy or long * wide * 4 > one.board.area * 3:
        return ""
    return f"; a piece {_text(project, long)} × {_text(project, wide)} will do"


def board_step_words(project: Project, plan: BoardPlan, operation: Operation) -> Iterator[str]:
    """What one step on a board does, beyond what holds for its whole batch."""
    if operation.kind in (OperationKind.PLANE, OperationKind.EDGE_AGAIN):
        glued = planes_strips_to_glue(operation.key)
        strips = [_text(project, strip.width) for _, _, strip in plan.strips() if strip.is_glued == glued]
        widths = ", ".join(f"{strips.count(one)} of {one}" for one in dict.fromkeys(strips))
        use = ", to be glued up" if glued else ""
        yield f"{_counted(len(strips), 'strip')}{use}, rough width: {widths}."
        return
    yield from panel_step_words(project, plan, operation)
    named = board_of_step(operation.key)
    if named is None:
        return
    one = plan.numbered(named[1])
    if operation.kind is OperationKind.ROUGH_CROSSCUT:
        first = one.lengths[0]
        yield f"{board_title(one)}: left end off at {_text(project, first.x)}; then"
        cuts = "; ".join(
            f"{_text(project, length.x)} to {_text(project, length.end)}" for length in one.lengths
        )
        yield f"{cuts}, measured from the board's left end as it lies."
    elif operation.kind is OperationKind.JOINT:
        lengths = ", ".join(_text(project, length.length) for length in one.lengths)
        yield f"{_pieces(len(one.lengths))} of {board_title(one)}: {lengths}."
    elif operation.kind is OperationKind.ROUGH_RIP:
        number = int(operation.key.rpartition(" ")[2])
        length, strip = [(length, strip) for length in one.lengths for strip in length.strips][number - 1]
        where = f"the {_text(project, length.length)} length from {_text(project, length.x)}"
        marks = ", ".join(part.name for part in strip.parts)
        waste = _beside(project, named[0], length, strip)
        yield f"{board_title(one)}, {where}: {waste}strip for {marks}."
        if strip.is_glued:
            yield "Write that on it."
    elif operation.kind is OperationKind.CROSSCUT:
        yield "Square the other end first, just clean."


def _beside(project: Project, material: str, length: BoardLength, strip: BoardStrip) -> str:
    """What is ripped off before a strip that does not lie beside the one before, or at the jointed edge: what
    the defect between them takes, however little."""
    allowed = board_problem(project, material, [])
    before = [one for one in length.strips if one.y < strip.y]
    beside = before[-1].y + before[-1].width + allowed.kerf if before else allowed.milling.first_edge
    if strip.y <= beside:
        return ""
    return f"rip off the waste up to {_text(project, strip.y)} from the near edge, then the "


def _pieces(number: int) -> str:
    return "The only length" if number == 1 else f"The {number} lengths"


def _boards(number: int) -> str:
    return _counted(number, "board")


def _counted(number: int, what: str) -> str:
    return f"{number} {what}" if number == 1 else f"{number} {what}s"


def _text(project: Project, length: Fraction) -> str:
    return show(length, project.rule, unit=True).marked
