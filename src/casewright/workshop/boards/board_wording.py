"""Board plans and the steps at the bench in words: one wording for command, page, paper and tablet."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from ...boards.board_plan import BoardLength, BoardPlan, BoardStrip, CutBoard
from ...casework.project import Project
from ...shop.lumber import QUARTERS
from ...shop.rough_boards import Milling
from ..operations import Operation, OperationKind
from .board_problems import board_problem
from .board_work import board_of_step, planes_strips_to_glue, round_of_step
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
    return named[0] if named else project.printed(rough)


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
        if not plan.bound:
            return used
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
    size = f"{project.printed(boards.usual_length)} × {project.printed(boards.usual_width)}"
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
        widths = " – ".join(project.printed(width) for width in dict.fromkeys(one.board.widths))
        size = f"{project.printed(one.board.length)} × {widths}, {feet_words(one.board.feet)}"
        yield f"  {board_title(one)}: {size}{_would_do(project, milling, one)}"
        for length in one.lengths:
            yield f"    crosscut {project.printed(length.length)}, from {project.printed(length.x)}"
            for strip in length.strips:
                marks = ", ".join(f"{part.name}{' (cut already)' * part.spent}" for part in strip.parts)
                yield f"      rip {project.printed(strip.width)}, from {project.printed(strip.y)}: {marks}"
    yield from glue_up_lines(plan)


def _would_do(project: Project, milling: Milling, one: CutBoard) -> str:
    """How small a board would do in place of one to buy, where that is much smaller."""
    long, wide = one.needed(milling.end_trim)
    if not one.to_buy or long * wide * 4 > one.board.area * 3:
        return ""
    return f"; a piece {project.printed(long)} × {project.printed(wide)} will do"


def board_step_words(project: Project, plan: BoardPlan, operation: Operation) -> Iterator[str]:
    """What one step on a board does, beyond what holds for its whole batch."""
    if operation.kind in (OperationKind.PLANE, OperationKind.EDGE_AGAIN):
        glued, later = planes_strips_to_glue(operation.key), round_of_step(operation.key)
        strips = [
            project.printed(strip.width)
            for _, _, strip in plan.strips()
            if strip.wanted and strip.is_glued == glued and strip.later == later
        ]
        widths = ", ".join(f"{strips.count(one)} of {one}" for one in dict.fromkeys(strips))
        use = ", to be glued up" if glued else ""
        yield f"{_counted(len(strips), 'strip')}{use}, rough width: {widths}."
        return
    yield from panel_step_words(project, plan, operation)
    named = board_of_step(operation.key)
    if named is None:
        return
    one = plan.numbered(named[1])
    lengths = [length for length in one.lengths if length.later == round_of_step(operation.key)]
    if operation.kind is OperationKind.ROUGH_CROSSCUT:
        yield from _crosscut_words(project, named[0], one, lengths)
    elif operation.kind is OperationKind.JOINT:
        long = ", ".join(project.printed(length.length) for length in lengths)
        yield f"{_pieces(len(lengths))} of {board_title(one)}: {long}."
    elif operation.kind is OperationKind.ROUGH_RIP:
        number = int(operation.key.rpartition(" ")[2])
        _, length, strip = one.strips_in_turn()[number - 1]
        where = f"the {project.printed(length.length)} length from {project.printed(length.x)}"
        if strip.later > length.later:
            where = f"what is left beside the strips of {where}"
        marks = ", ".join(part.name for part in strip.wanted)
        waste = _beside(project, named[0], length, strip)
        yield f"{board_title(one)}, {where}: {waste}strip for {marks}."
        if strip.is_glued:
            yield "Write that on it."
    elif operation.kind is OperationKind.CROSSCUT:
        yield "Square the other end first, just clean."


def _crosscut_words(
    project: Project, material: str, one: CutBoard, lengths: Sequence[BoardLength]
) -> Iterator[str]:
    """Where a board is crosscut; on what is left of one, measured from the end where it was sawn."""
    first = lengths[0]
    before = [length.end for length in one.lengths if length.x < first.x]
    sawn = max(before) + board_problem(project, material, []).kerf if before else Fraction(0)
    cuts = "; ".join(
        f"{project.printed(length.x - sawn)} to {project.printed(length.end - sawn)}" for length in lengths
    )
    if before:
        yield f"What is left of {board_title(one)}: {cuts}, measured from the end where it was sawn."
        return
    yield f"{board_title(one)}: left end off at {project.printed(first.x)}; then"
    yield f"{cuts}, measured from the board's left end as it lies."


def _beside(project: Project, material: str, length: BoardLength, strip: BoardStrip) -> str:
    """What is ripped off before a strip that does not lie beside the one before, or at the jointed edge: what
    the defect between them takes, however little."""
    allowed = board_problem(project, material, [])
    before = [one for one in length.strips if one.y < strip.y]
    beside = before[-1].y + before[-1].width + allowed.kerf if before else allowed.milling.first_edge
    if strip.y <= beside:
        return ""
    return f"rip off the waste up to {project.printed(strip.y)} from the near edge, then the "


def _pieces(number: int) -> str:
    return "The only length" if number == 1 else f"The {number} lengths"


def _boards(number: int) -> str:
    return _counted(number, "board")


def _counted(number: int, what: str) -> str:
    return f"{number} {what}" if number == 1 else f"{number} {what}s"
