"""The checker's rules for one sheet: geometry, kerf, trim, grain, carrying, patterns."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from ...findings import Finding
from ..plan import Piece, PieceRole, Purpose, SheetPlan
from ..problem import Bin, Direction, Edge, FirstCut, Item, Problem, Saw, SawKind

LEAVES = {PieceRole.PART, PieceRole.OFFCUT, PieceRole.WASTE}


def tree_findings(problem: Problem, sheet: SheetPlan, said: tuple[Finding, ...]) -> Iterator[Finding]:
    """What is wrong with one sheet. `said` are the plan's own findings: a piece over the carrying limits is
    allowed where the plan says so."""
    bin_ = problem.bin(sheet.bin)
    place = f"sheet {sheet.number}"
    root = sheet.root
    if root.x or root.y or root.length != bin_.length or root.width != bin_.width:
        yield Finding("size", place, "The sheet's own rectangle is not its bin's.")
    uncut_part = root.role is PieceRole.PART and not root.cuts  # a part as large as the sheet
    if root.role is not PieceRole.SHEET and not uncut_part:
        yield Finding("role", place, "The tree must begin with the sheet.")
    items = {item.name: item for item in problem.items}
    for piece in root.walk():
        where = f"{place}, {_name(piece)}"
        yield from _cuts(problem, piece, where)
        yield from _children(piece, where)
        yield from _leaf(items, piece, where)
    yield from _overlaps(sheet, place)
    yield from _good_edges(problem, bin_, root, place)
    yield from _carried(problem, bin_, sheet, place, said)
    yield from _pattern(problem, sheet, place)
    yield from _reach(problem, sheet, place, said)


def _name(piece: Piece) -> str:
    what = piece.item if piece.item is not None else piece.role.value
    return f"{what} at {float(piece.x):g}, {float(piece.y):g}"


def _tool(problem: Problem, name: str) -> Saw | None:
    tools = [problem.table_saw] + ([problem.hand_saw] if problem.hand_saw else [])
    return next((tool for tool in tools if tool.name == name), None)


def _span(piece: Piece, direction: Direction) -> tuple[Fraction, Fraction]:
    """Where a piece begins and ends along the axis that cuts of this direction part."""
    if direction is Direction.CROSSCUT:
        return piece.x, piece.x + piece.length
    return piece.y, piece.y + piece.width


def _across(piece: Piece, direction: Direction) -> tuple[Fraction, Fraction]:
    other = Direction.RIP if direction is Direction.CROSSCUT else Direction.CROSSCUT
    return _span(piece, other)


def _cuts(problem: Problem, piece: Piece, where: str) -> Iterator[Finding]:
    """The cuts of a piece are parallel, by a saw of the shop, with its kerf, where they say they are."""
    directions = {cut.direction for cut in piece.cuts}
    if len(directions) > 1:
        yield Finding("cut-short", where, "One series of cuts runs both ways.")
        return
    for cut in piece.cuts:
        tool = _tool(problem, cut.tool)
        if tool is None:
            yield Finding("kerf", where, f"There is no saw named {cut.tool!r}.")
            continue
        if cut.kerf != tool.kerf:
            yield Finding("kerf", where, f"Cut {cut.order} takes {cut.kerf}, its saw takes {tool.kerf}.")
        if cut.purpose is Purpose.CARRY and tool.kind is not SawKind.HAND_SAW:
            yield Finding("carried", where, f"Cut {cut.order} is a carrying cut at the {tool.name}.")
        low, high = _span(piece, cut.direction)
        if not (cut.at < high and cut.at + cut.kerf >= low):
            yield Finding("outside", where, f"Cut {cut.order} at {cut.at} misses its piece.")
        yield from _setting(piece, cut.order, where)


def _setting(piece: Piece, order: int, where: str) -> Iterator[Finding]:
    """A size or carrying cut's setting is the size of the piece that lies against the reference
    edge; a trim's is what it takes off."""
    cut = next(cut for cut in piece.cuts if cut.order == order)
    low, _ = _span(piece, cut.direction)
    lower = Edge.LEFT if cut.direction is Direction.CROSSCUT else Edge.NEAR
    if cut.reference is not lower:
        yield Finding("setting", where, f"Cut {order} is measured from its {cut.reference.value} edge.")
    elif cut.purpose is Purpose.TRIM:
        before = (one.at + one.kerf for one in piece.cuts if one.order < order)
        if cut.at + cut.kerf - max(before, default=low) != cut.setting:
            yield Finding("setting", where, f"Trim cut {order} does not take off its setting, {cut.setting}.")
    else:
        spans = [_span(child, cut.direction) for child in piece.children]
        if not any(end == cut.at and end - begin == cut.setting for begin, end in spans):
            yield Finding(
                "setting", where, f"No piece at cut {order} has the size of its setting, {cut.setting}."
            )


def _children(piece: Piece, where: str) -> Iterator[Finding]:
    """Children and kerfs fill the piece exactly, and each child is as wide as the piece: every cut runs from
    edge to edge, and every kerf is accounted for."""
    if not piece.cuts:
        if piece.children:
            yield Finding("cut-short", where, "A piece has been divided without a cut.")
        return
    direction = piece.cuts[0].direction
    low, high = _span(piece, direction)
    kerfs = [(max(low, cut.at), min(high, cut.at + cut.kerf)) for cut in piece.cuts]
    spans = [_span(child, direction) for child in piece.children]
    for child in piece.children:
        if _across(child, direction) != _across(piece, direction):
            yield Finding("cut-short", where, f"A cut stops short beside {_name(child)}.")
        if child.length <= 0 or child.width <= 0:
            yield Finding("size", where, f"{_name(child)} has no size.")
    if spans != sorted(spans):
        yield Finding("order", where, "Its pieces are not in the order of their position.")
    at = low
    for begin, end in sorted(kerfs + spans):
        if begin < at:
            yield Finding("kerf", where, f"Two pieces, or a piece and a kerf, share room at {begin}.")
        elif begin > at:
            yield Finding("cut-short", where, f"From {at} to {begin} belongs to no piece and no kerf.")
        at = max(at, end)
    if at != high:
        yield Finding("cut-short", where, f"From {at} to {high} belongs to no piece and no kerf.")
    if not _parted(spans, kerfs):
        yield Finding("kerf", where, "Two pieces lie side by side with no cut between them.")


def _parted(spans: list[tuple[Fraction, Fraction]], kerfs: list[tuple[Fraction, Fraction]]) -> bool:
    """Whether a cut lies between each two neighbours."""
    return all(
        any(end <= kerf[0] and kerf[1] <= begin for kerf in kerfs) for (_, end), (begin, _) in pairwise(spans)
    )


def _leaf(items: dict[str, Item], piece: Piece, where: str) -> Iterator[Finding]:
    """A part has exactly its size, and lies with the grain unless it may be turned."""
    if (piece.role in LEAVES) != (not piece.children):
        what = "is cut again" if piece.children else "is not cut"
        yield Finding("role", where, f"A {piece.role.value} {what}.")
    if piece.role is not PieceRole.PART:
        if piece.item is not None:
            yield Finding("role", where, f"A {piece.role.value} bears a part's name.")
        return
    item = items.get(piece.item or "")
    if item is None:
        return
    wanted = (item.width, item.length) if piece.turned else (item.length, item.width)
    if (piece.length, piece.width) != wanted:
        text = f"It is {piece.length} by {piece.width} where the part is {wanted[0]} by {wanted[1]}."
        yield Finding("size", where, text)
    if piece.turned and not item.may_turn:
        yield Finding("grain", where, "It lies across the grain.")


def _overlaps(sheet: SheetPlan, place: str) -> Iterator[Finding]:
    """No two parts share any area, whatever the tree says. A sweep along x keeps this near
    linear in the number of parts."""
    parts = sorted(sheet.parts, key=lambda piece: piece.x)
    active: list[Piece] = []
    for part in parts:
        active = [other for other in active if other.x + other.length > part.x]
        for other in active:
            if part.y < other.y + other.width and other.y < part.y + part.width:
                yield Finding("overlap", place, f"{_name(part)} and {_name(other)} overlap.")
        active.append(part)
    root = sheet.root
    for part in parts:
        inside = part.x >= 0 and part.y >= 0
        if not inside or part.x + part.length > root.length or part.y + part.width > root.width:
            yield Finding("outside", place, f"{_name(part)} sticks out of the sheet.")


def _good_edges(problem: Problem, bin_: Bin, root: Piece, place: str) -> Iterator[Finding]:
    """No part lies within the sheet's trim, nor within the clean-up of a hand-sawn edge."""
    trim = bin_.trim
    stack = [(root, (trim.left, trim.right, trim.near, trim.far))]
    while stack:
        piece, (left, right, near, far) = stack.pop()
        if piece.role is PieceRole.PART and max(left, right, near, far) > 0:
            by_hand = max(left - trim.left, right - trim.right, near - trim.near, far - trim.far) > 0
            code = "clean-up" if by_hand else "trim"
            yield Finding(code, place, f"{_name(piece)} keeps an edge that should be cut again.")
        if not piece.cuts:
            continue
        direction = piece.cuts[0].direction
        crosscut = direction is Direction.CROSSCUT
        low, high = _span(piece, direction)
        for child in piece.children:
            begin, end = _span(child, direction)
            low_zone, high_zone = (left, right) if crosscut else (near, far)
            for cut in piece.cuts:
                tool = _tool(problem, cut.tool)
                # Only a carrying cut is rough: to trim or size, the straightedge stands in for a fence.
                carries = cut.purpose is Purpose.CARRY
                clean_up = tool.clean_up if tool and carries else Fraction(0)
                if cut.at + cut.kerf == begin or (cut.at < low and begin == low):
                    low_zone = max(clean_up, (left if crosscut else near) - (begin - low))
                if cut.at == end:
                    high_zone = max(clean_up, (right if crosscut else far) - (high - end))
            zones = (low_zone, high_zone, near, far) if crosscut else (left, right, low_zone, high_zone)
            stack.append((child, zones))


def _carried(
    problem: Problem, bin_: Bin, sheet: SheetPlan, place: str, said: tuple[Finding, ...]
) -> Iterator[Finding]:
    """Whatever goes to the table saw can be carried there, or the plan says that it is over the limits."""
    if problem.hand_saw is None or not problem.limits.any:
        return
    limits, hand = problem.limits, problem.hand_saw.name
    excused = any(finding.code == "limit-bent" and finding.place == place for finding in said)
    for piece in sheet.root.walk():
        by_hand = any(cut.purpose is Purpose.CARRY for cut in piece.cuts)
        trimmed = all(cut.purpose is Purpose.TRIM and cut.tool == hand for cut in piece.cuts)
        divided = trimmed and any(
            cut.purpose is Purpose.CARRY for child in piece.children for cut in child.cuts
        )
        if by_hand and piece.role not in (PieceRole.SHEET, PieceRole.BLANK):
            yield Finding("role", place, f"{_name(piece)} is cut by hand after it was carried.")
        goes = (
            piece.cuts and not by_hand and not divided and piece.role in (PieceRole.SHEET, PieceRole.CARRIED)
        )
        if not goes or excused:
            continue
        longest = max(piece.length, piece.width)
        if limits.max_length is not None and longest > limits.max_length:
            yield Finding("carried", place, f"{_name(piece)} is {longest} long, over {limits.max_length}.")
        if limits.max_weight is not None and bin_.weight_per_area is not None:
            weight = piece.area * bin_.weight_per_area
            if weight > limits.max_weight:
                text = f"{_name(piece)} weighs {float(weight):.1f}, over {float(limits.max_weight):g}."
                yield Finding("carried", place, text)


def _reach(problem: Problem, sheet: SheetPlan, place: str, said: tuple[Finding, ...]) -> Iterator[Finding]:
    """No rip at the table saw is wider than the fence reaches, or the plan says so."""
    saw = problem.table_saw
    if saw.reach is None or any(f.code == "fence-reach" and f.place == place for f in said):
        return
    for cut in sheet.cuts:
        rips = cut.tool == saw.name and cut.direction is Direction.RIP and cut.purpose is Purpose.SIZE
        if rips and cut.setting > saw.reach:
            yield Finding("reach", place, f"Cut {cut.order} is set to {cut.setting}, beyond the fence.")


def _pattern(problem: Problem, sheet: SheetPlan, place: str) -> Iterator[Finding]:
    """Stages and first cuts, counted within each piece that goes to the table saw."""
    kind = problem.pattern
    carried = list(sheet.carried) or [sheet.root]
    for piece in carried:
        if not piece.cuts:
            continue
        first = piece.cuts[0].direction
        stages = _stages(piece, None)
        wrong = Direction.RIP if kind.first_cut is FirstCut.ACROSS else Direction.CROSSCUT
        if kind.first_cut is not FirstCut.ANY and first is wrong:
            stages += 1  # the first stage is there with no cut in it, if one strip fills the piece
            if not _filled(piece, wrong):
                yield Finding("first-cut", place, f"{_name(piece)} is first cut by {first.value}.")
        if kind.stages is not None and stages > kind.stages:
            text = f"{_name(piece)} needs {stages} stages, {kind.stages} are allowed."
            yield Finding("stages", place, text)


def _filled(piece: Piece, direction: Direction) -> bool:
    """Whether parts reach from edge to edge across cuts of this direction."""
    parts = [part for part in piece.walk() if part.role is PieceRole.PART]
    spans = [_across(part, direction) for part in parts]
    return bool(spans) and (min(s[0] for s in spans), max(s[1] for s in spans)) == _across(piece, direction)


def _stages(piece: Piece, came_off: Direction | None) -> int:
    """Changes of cutting direction below `piece`; freeing one part from waste is not counted."""
    if not piece.cuts:
        return 0
    direction = piece.cuts[0].direction
    useful = [child for child in piece.children if child.role not in (PieceRole.WASTE, PieceRole.OFFCUT)]
    frees_one = came_off is not None and len(useful) == 1 and useful[0].role is PieceRole.PART
    own = 0 if frees_one or direction is came_off else 1
    return own + max((_stages(child, direction) for child in useful), default=0)
