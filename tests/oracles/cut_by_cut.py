"""A maker who does exactly what each step says, on real rectangles, and says what is wrong with it.

It takes the batches in the order in which they are told, finds each piece among those that lie about at
that moment, cuts it with the machine's own kerf and keeps the side named. It shares nothing with the
planner or its verifier: of a plan it is told only which sheet or rack piece each number is. What is cut from
rough boards is acted out by `board_by_board`.

Safety and handling rules are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property
from typing import NamedTuple

from casewright.casework.project import Project
from casewright.casework.size_names import thickness_of
from casewright.findings import Finding
from casewright.workshop.operations import Guide, Machine, Operation, OperationKind
from casewright.workshop.order.batches import Batch
from oracles.wood import ACROSS, ALONG, SIDE_OF, Cut, Side, Sized, Wood, parted

NIOSH_CONSTANT = Fraction(51)  # pounds: publication 94-110, for the best of postures
SQUARE_FOOT = 144
SLED_ROOM = 24
OPPOSITE = {"left": "right", "right": "left", "near": "far", "far": "near"}


class Fault(NamedTuple):
    """What is wrong with a step (or, at the end, with a part or a sheet), and the kind of fault."""

    kind: str
    place: str
    text: str


class Stock(NamedTuple):
    """A sheet or a rack piece before the first cut: its material, its size, what its edges must lose."""

    material: str
    length: Fraction
    width: Fraction
    trim: Fraction


@dataclass
class ActedOut:
    """What came of it: the faults, the pieces that lie about at the end, which parts came of which, the
    sheets of which something over the limits was carried to the table saw, and the cuts for which it is all
    one from which edge they are measured, as either is as good."""

    faults: list[Fault] = field(default_factory=list)
    wood: list[Wood] = field(default_factory=list)
    parts: dict[str, Wood] = field(default_factory=dict)
    lifted: set[str] = field(default_factory=set)
    either_way: set[str] = field(default_factory=set)

    @property
    def kinds(self) -> set[str]:
        return {fault.kind for fault in self.faults}


def stock_of(project: Project, sheets: Mapping[str, tuple[str, str]]) -> dict[str, Stock]:
    """What each piece of stock is, by its name in the steps; given its material's key and its own name."""
    found: dict[str, Stock] = {}
    for piece, (material, name) in sheets.items():
        good = project.job.sheets[material]
        sizes = {good.name: (good.sheet_length, good.sheet_width)}
        sizes |= {other.name: (other.length, other.width) for other in good.others}
        rack = {one.name: one for one in project.job.shop.rack if one.material == material}
        if name in sizes:
            found[piece] = Stock(material, *sizes[name], good.trim)
        else:
            found[piece] = Stock(material, rack[name].length, rack[name].width, Fraction(0))
    return found


def act_out(
    project: Project, stock: Mapping[str, Stock], batches: Sequence[Batch], findings: Sequence[Finding]
) -> ActedOut:
    """Do the whole job. `findings` are what the job says of itself: what is said there is no fault."""
    floor = _Floor(project, stock, findings)
    set_first: dict[tuple[Machine, Fraction], int] = {}
    for number, batch in enumerate(batches):
        if batch.setting is not None:
            size = (batch.setting.machine, batch.setting.distance)
            if (batch.new_setting and not batch.made_before) or size not in set_first:
                set_first[size] = number
        for operation in batch.operations:
            floor.step += 1
            if operation.parts and all(floor.of_boards(mark) for mark in operation.parts):
                continue
            if operation.kind.cuts_up_a_sheet:
                floor.cut(
                    operation, set_first.get((operation.setting.machine, operation.setting.distance), 0)
                )
            else:
                floor.use(operation)
    floor.finish()
    return floor.done


class _Floor:
    def __init__(self, project: Project, stock: Mapping[str, Stock], findings: Sequence[Finding]) -> None:
        self.project = project
        self.shop = project.job.shop
        self.stock = stock
        self.findings = findings
        self.step = 0
        self.used: dict[str, int] = {}  # the step that first takes up a part
        self._edged: set[str] = set()  # the parts whose edging is on by now
        self._pass: dict[tuple[str, ...], tuple[int, int, Fraction]] = {}  # first step, line's step, width
        self.done = ActedOut(wood=[self._laid_out(piece, one) for piece, one in stock.items()])

    def _laid_out(self, piece: str, stock: Stock) -> Wood:
        marks = frozenset(p.mark for p in self.project if p.material == stock.material)
        sides = {
            axis: (Side(Fraction(0), stock.trim), Side(length, stock.trim))
            for axis, length in ((ALONG, stock.length), (ACROSS, stock.width))
        }
        return Wood(piece, sides, marks)

    def fault(self, kind: str, place: str, text: str) -> None:
        self.done.faults.append(Fault(kind, place, text))

    def of_boards(self, mark: str) -> bool:
        """Whether a part comes of rough boards, not of a sheet."""
        part = self.project.parts.get(mark)
        return part is not None and self.project.job.sheets[part.material].boards is not None

    def said(self, code: str, place: str) -> bool:
        """Whether the job itself says so, of this place."""
        return any(one.code == code and place in one.place for one in self.findings)

    # Cutting

    def cut(self, operation: Operation, batch: int) -> None:
        """Find the piece, look whether the cut can be made as told, and make it. `batch` is the one that made
        its setting, or first made it where it is made again from a piece."""
        piece = self._found(operation)
        if piece is None:
            return
        edge = operation.hold.against.removesuffix(" edge")
        axis = ACROSS if operation.hold.lengthwise else ALONG
        if edge not in SIDE_OF or SIDE_OF[edge][0] != axis:
            self.fault("edge", operation.key, f"a {operation.kind.value} cannot have the {edge} edge there")
            return
        by_hand = operation.setting.machine is Machine.HAND_SAW
        self._machine(operation, piece, axis)
        cut = self._as_held(operation, piece, edge, axis)
        if not by_hand:
            self._carried(operation, piece)
        if piece.owed(edge) == piece.owed(OPPOSITE[edge]):
            self.done.either_way.add(operation.key)
        rough = self.shop.hand_saw.clean_up if by_hand else Fraction(0)
        kept_rough = rough if operation.kind is OperationKind.CARRY else Fraction(0)
        kerf = self.shop.hand_saw.kerf if by_hand else self.shop.table_saw.kerf
        exact = operation.kind in (OperationKind.RIP, OperationKind.CROSSCUT)
        if exact and piece.owed(cut.edge) > 0:
            self.fault("measured-from", operation.key, f"nobody has made its {cut.edge} edge good")
        try:
            kept, rest = parted(piece, cut._replace(kerf=kerf, owed=(kept_rough, rough)))
        except ValueError as wrong:
            self.fault("size", operation.key, str(wrong))
            return
        piece.narrowed(frozenset(operation.parts))
        kept.may_hold = piece.may_hold
        if piece.owed(cut.edge) == 0:
            line = self._line(operation, piece, axis) if by_hand else batch
            kept.sized[axis] = Sized(operation.setting.machine.value, cut.kept, line)
        self.done.wood.remove(piece)
        if rest is not None:
            rest.may_hold = piece.may_hold - set(operation.parts[:1])  # named as they lie: the first is kept
            if operation.kind is OperationKind.TRIM:
                kept.beside, rest.beside, rest.may_hold = None, None, frozenset()
        for one in (kept, rest):
            if one is not None:
                one.born, one.at_saw = self.step, not by_hand
                self.done.wood.append(one)

    def _line(self, operation: Operation, piece: Wood, axis: str) -> int:
        """The step at which this line was first struck: a cut by hand is alike another only if it was made in
        one pass with it, or is marked from its part."""
        line = self.step
        if operation.marked_from:
            lying = (one for one in self.done.wood if operation.marked_from in one.may_hold)
            made = [one.sized[axis] for one in lying if axis in one.sized]
            alike = [sized.batch for sized in made if sized.distance == operation.makes]
            if not alike:
                self.fault("pattern", operation.key, f"{operation.marked_from} is not cut to this size yet")
            line = min(alike, default=line)
        if operation.key not in operation.together:
            return line
        step, line, wide = self._pass.setdefault(operation.together, (self.step, line, Fraction(0)))
        wide += piece.across(ALONG if axis == ACROSS else ACROSS)
        if self.step - step != operation.together.index(operation.key):
            self.fault("pass", operation.key, "what is cut in one pass with it is not cut at that time")
        if wide > self.shop.hand_saw.cut_length:
            self.fault("pass", operation.key, f"{wide} side by side is longer than the straightedge")
        self._pass[operation.together] = step, line, wide
        return line

    def _found(self, operation: Operation) -> Wood | None:
        """The piece that the step speaks of: of that sheet, of that size, and not without its parts."""
        told = operation.size[:2]
        marks = frozenset(operation.parts)
        here = [one for one in self.done.wood if one.sheet == operation.piece and marks <= one.may_hold]
        if not marks:
            self.fault("no-part", operation.key, "it names no part that comes of it")
        alike = [one for one in here if one.size == told]
        if not alike:
            text = f"no piece of {operation.piece} is {told[0]} by {told[1]} and holds {sorted(marks)}"
            self.fault("no-such-piece", operation.key, text)
            return min(here, key=lambda one: len(one.may_hold), default=None)
        # Twins of one sheet differ in what they may hold, and in which edges have been made good.
        return min(alike, key=lambda one: (len(one.may_hold), len(one.rough_edges())))

    def _as_held(self, operation: Operation, piece: Wood, edge: str, axis: str) -> Cut:
        """The cut as the guide makes it: by hand along a line, at the table between fence and blade."""
        setting = operation.setting
        makes = operation.makes or Fraction(0)
        if setting.machine is Machine.HAND_SAW:
            if operation.kind is OperationKind.TRIM:
                return Cut(OPPOSITE[edge], makes, Fraction(0))  # so much off this edge; the rest is kept
            return Cut(edge, makes, Fraction(0))
        if setting.distance != makes:
            text = f"it keeps {makes}, with {setting.distance} between {setting.guide.value} and blade"
            self.fault("distance", operation.key, text)
        if operation.kind is OperationKind.TRIM and piece.owed(OPPOSITE[edge]) == 0:
            self.fault("trim", operation.key, f"the {OPPOSITE[edge]} edge is good already")
        return Cut(edge, setting.distance, Fraction(0))

    def _machine(self, operation: Operation, piece: Wood, axis: str) -> None:
        """Whether blade, guide and reach are the machine's own, and the guide is a safe one."""
        setting, key = operation.setting, operation.key
        travel = piece.across(ALONG if axis == ACROSS else ACROSS)
        if operation.travel != travel:
            self.fault("travel", key, f"the blade runs {travel}, not {operation.travel}")
        thick = self.project.sizes.of(thickness_of(self.stock[piece.sheet].material))
        if operation.size[2] != thick:
            self.fault("thickness", key, f"the sheet is {thick} thick, not {operation.size[2]}")
        kinds = {OperationKind.RIP: True, OperationKind.CROSSCUT: False}
        if kinds.get(operation.kind, operation.hold.lengthwise) != operation.hold.lengthwise:
            self.fault("edge", key, f"a {operation.kind.value} runs the other way")
        if setting.machine is Machine.HAND_SAW:
            saw = self.shop.hand_saw
            if setting.guide is not Guide.STRAIGHTEDGE or setting.distance != saw.base_offset:
                self.fault("distance", key, f"the straightedge lies {saw.base_offset} from the cut")
            if travel > saw.cut_length and not self.said("beyond-the-straightedge", operation.piece):
                self.fault("reach", key, f"{travel} is longer than the straightedge, {saw.cut_length}")
            if setting.cutter.width != saw.kerf:
                self.fault("kerf", key, f"the {saw.name} takes {saw.kerf}, not {setting.cutter.width}")
            return
        table = self.shop.table_saw
        if setting.cutter.width != table.kerf:
            self.fault("kerf", key, f"the {table.name} takes {table.kerf}, not {setting.cutter.width}")
        if setting.distance > table.rip_capacity and not self.said("beyond-the-rail", key):
            self.fault("reach", key, f"{setting.distance} is beyond the rail, {table.rip_capacity}")
        if setting.guide not in (Guide.FENCE, Guide.STOP):
            self.fault("distance", key, f"a through cut is not made with the {setting.guide.value}")
        long_enough = travel * 8 >= setting.distance * 7 or (
            travel >= SLED_ROOM and travel * 2 >= setting.distance
        )
        if setting.guide is Guide.FENCE and not long_enough:
            self.fault("unsafe", key, f"{travel} along the fence at {setting.distance} swings: use the sled")
        if thick >= table.blade_height and not self.said("beyond-the-blade", ""):
            self.fault("reach", key, f"the blade rises {table.blade_height}; the sheet is {thick}")

    # Carrying

    def _carried(self, operation: Operation, piece: Wood) -> None:
        """What comes to the table saw is under the shop's limits, or the job says it is one for two."""
        material = self.stock[piece.sheet].material
        good, carry = self.project.job.sheets[material], self.shop.carry
        pounds = good.weight * piece.size[0] * piece.size[1] / SQUARE_FOOT
        alone = NIOSH_CONSTANT if carry.weight is None else carry.weight
        long = max(piece.size) > carry.length and (good.weight == 0 or pounds > alone / 2)
        if piece.at_saw or not (long or pounds > alone):
            return
        self.done.lifted.add(piece.sheet)
        if piece.sheet not in self._for_two:
            size = " by ".join(f"{float(side):g}" for side in piece.size)
            text = f"{size}, {float(pounds):.0f} lb, is more than one person carries, and nothing says so"
            self.fault("lift", operation.key, text)

    @cached_property
    def _for_two(self) -> set[str]:
        """The sheets that the job says need a helper."""
        named: set[str] = set()
        for finding in self.findings:
            if finding.code == "lift-for-two":
                name, numbers = finding.place.replace(", sheets ", ", sheet ").split(", sheet ")
                goods = [key for key, good in self.project.job.sheets.items() if good.name == name]
                named |= {f"{key} {number}" for key in goods for number in numbers.split(", ")}
        return named

    # Parts

    def use(self, operation: Operation) -> None:
        """A part, or what is made of parts, is taken up: they must be there by then."""
        for mark in operation.parts:
            self.used.setdefault(mark, self.step)
        part = self.project.parts.get(operation.piece)
        if part is None:
            return
        edged = operation.piece in self._edged
        if operation.size != (self.project.worked(part) if edged else self.project.dimensions(part)):
            self.fault("size", operation.key, f"{part.mark} is not of this size")
        if operation.kind is OperationKind.EDGE:
            self._edged.add(operation.piece)

    def finish(self) -> None:
        """Find every part among the wood, each once, at its size, with good edges and the grain right."""
        for mark, piece in _shared_out(self._candidates()).items():
            self.done.parts[mark] = piece
            if rough := piece.rough_edges():
                self.fault("rough-edge", mark, f"nobody has made its {', '.join(rough)} edge good")
            if piece.born >= self.used.get(mark, self.step + 1):
                self.fault("too-early", mark, "a step takes it up before it is cut")
        for part in self.project:
            if part.mark not in self.done.parts and not self.of_boards(part.mark):
                self.fault("part", part.mark, "it is not among the pieces, at its size and with its grain")
        for sheet in sorted(self._for_two - self.done.lifted):
            self.fault("false-alarm", sheet, "a helper is asked for, and everything can be carried alone")
        self._matched()

    def _candidates(self) -> dict[str, list[Wood]]:
        lying: dict[tuple[str, tuple[Fraction, Fraction]], list[Wood]] = {}
        for one in self.done.wood:
            lying.setdefault((self.stock[one.sheet].material, one.size), []).append(one)
        found: dict[str, list[Wood]] = {}
        for part in self.project:
            length, width, _ = self.project.dimensions(part)
            turned = length != width and not self.project.job.sheets[part.material].grain
            ways = [(length, width), (width, length)] if turned else [(length, width)]
            every = (one for way in ways for one in lying.get((part.material, way), ()))
            found[part.mark] = [one for one in every if part.mark in one.may_hold]
        return found

    def _matched(self) -> None:
        """Parts of a match group have each size from one setting of one machine (by hand, of one line), or a
        finding says so."""
        ways: dict[tuple[str, Fraction], set[Sized | None]] = {}
        for mark, piece in self.done.parts.items():
            group = self.project.parts[mark].match
            if group is None:
                continue
            for axis in (ALONG, ACROSS):
                ways.setdefault((group, piece.across(axis)), set()).add(piece.sized.get(axis))
        for (group, size), made_by in ways.items():
            if len(made_by) > 1 and not self._split_is_said(group):
                self.fault("match", group, f"{size} comes of {len(made_by)} settings, and nothing says so")

    def _split_is_said(self, group: str) -> bool:
        return any(
            one.code == "match-split" and (group in one.place or group in one.text) for one in self.findings
        )


def _shared_out(candidates: Mapping[str, Sequence[Wood]]) -> dict[str, Wood]:
    """A piece of its own for as many parts as can have one (augmenting paths)."""
    holder: dict[int, str] = {}
    wood = {id(one): one for several in candidates.values() for one in several}

    def placed(mark: str, seen: set[int]) -> bool:
        for one in candidates[mark]:
            if id(one) not in seen:
                seen.add(id(one))
                if id(one) not in holder or placed(holder[id(one)], seen):
                    holder[id(one)] = mark
                    return True
        return False

    for mark in candidates:
        placed(mark, set())
    return {mark: wood[piece] for piece, mark in holder.items()}
