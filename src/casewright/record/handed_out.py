"""The work as it was handed to the shop: which revision of the job, and its sheet plans.

Ticks are kept under the keys of operations, and those follow from the plans. So the plans that
work was begun with are kept with the record; a later search may find other plans, and must not
change what a tick means.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

from ..errors import RecordError
from ..findings import Finding, Weight
from ..planner.plan import Cut, Figures, Piece, PieceRole, Plan, PlanStatus, Purpose, SheetPlan, Unplaced
from ..planner.problem import Direction, Edge


@dataclass(frozen=True)
class Issued:
    """Plans by the material's key, for a job at one of its revisions."""

    revision: int
    plans: Mapping[str, Plan]


def numbered_on(plans: Mapping[str, Plan], earlier: Sequence[Issued]) -> dict[str, Plan]:
    """The plans with their sheets numbered so that no tick ever means another cut than it did.

    A sheet cut exactly as one handed out before has that one's number; every other has a number
    that no sheet of its material has had. So a key, which names a sheet by its number, stands for
    one cut for good, however often work is handed out.
    """
    return {
        material: _numbered_on(plan, [one.plans[material] for one in earlier if material in one.plans])
        for material, plan in plans.items()
    }


def _numbered_on(plan: Plan, earlier: Sequence[Plan]) -> Plan:
    before = [sheet for one in reversed(earlier) for sheet in one.sheets]  # the newest first
    unused = max((sheet.number for sheet in before), default=0) + 1
    taken: set[int] = set()
    sheets: list[SheetPlan] = []
    moved: dict[str, str] = {}
    for sheet in plan.sheets:
        again = (
            one.number
            for one in before
            if one.number not in taken and (one.bin, one.root) == (sheet.bin, sheet.root)
        )
        number = next(again, unused)
        unused = max(unused, number + 1)
        taken.add(number)
        sheets.append(replace(sheet, number=number))
        moved[f"sheet {sheet.number}"] = f"sheet {number}"
    findings = (replace(finding, place=moved.get(finding.place, finding.place)) for finding in plan.findings)
    return replace(plan, sheets=tuple(sheets), findings=tuple(findings))


def issued_to_plain(issued: Issued) -> dict[str, Any]:
    """As JSON can hold it, lengths as exact fractions of an inch."""
    plans = {material: _plan_out(plan) for material, plan in issued.plans.items()}
    return {"revision": issued.revision, "plans": plans}


def issued_from_plain(plain: Any) -> Issued:
    """What `issued_to_plain` wrote; RecordError where it cannot be read."""
    try:
        plans = {str(material): _plan_in(plan) for material, plan in plain["plans"].items()}
        return Issued(int(plain["revision"]), plans)
    except (KeyError, TypeError, ValueError, IndexError, AttributeError) as fault:
        text = f"the plans handed to the shop cannot be read ({fault})."
        raise RecordError((Finding("issue-malformed", "shop", text, "Hand the work out again."),)) from fault


def _plan_out(plan: Plan) -> dict[str, Any]:
    figures = {name: str(value) for name, value in vars(plan.figures).items()}
    sheets = [[sheet.number, sheet.bin, _piece_out(sheet.root)] for sheet in plan.sheets]
    return {
        "sheets": sheets,
        "bound": str(plan.bound),
        "bound_sheets": plan.bound_sheets,
        "status": plan.status.value,
        "figures": figures,
        "unplaced": [[entry.item, entry.count] for entry in plan.unplaced],
        "findings": [[one.code, one.place, one.text, one.fix, one.weight.value] for one in plan.findings],
    }


def _plan_in(plain: Any) -> Plan:
    figures: dict[str, Any] = {}
    for name, kind in Figures.__annotations__.items():
        value = Fraction(plain["figures"][name])
        figures[name] = int(value) if kind == "int" else value
    return Plan(
        tuple(SheetPlan(int(number), str(kind), _piece_in(root)) for number, kind, root in plain["sheets"]),
        Fraction(plain["bound"]),
        int(plain["bound_sheets"]),
        PlanStatus(plain["status"]),
        Figures(**figures),
        tuple(Unplaced(str(item), int(count)) for item, count in plain["unplaced"]),
        tuple(
            Finding(str(code), str(place), str(text), str(fix), Weight(weight))
            for code, place, text, fix, weight in plain.get("findings", ())  # older records have none
        ),
    )


def _piece_out(piece: Piece) -> list[Any]:
    box = [str(length) for length in (piece.x, piece.y, piece.length, piece.width)]
    return [
        box,
        piece.role.value,
        piece.item,
        piece.turned,
        [_cut_out(cut) for cut in piece.cuts],
        [_piece_out(child) for child in piece.children],
    ]


def _piece_in(plain: Any) -> Piece:
    box, role, item, turned, cuts, children = plain
    x, y, length, width = map(Fraction, box)
    return Piece(
        x,
        y,
        length,
        width,
        PieceRole(role),
        item,
        bool(turned),
        tuple(map(_cut_in, cuts)),
        tuple(map(_piece_in, children)),
    )


def _cut_out(cut: Cut) -> list[Any]:
    lengths = [str(length) for length in (cut.at, cut.kerf, cut.setting)]
    return [cut.order, cut.tool, cut.direction.value, *lengths, cut.reference.value, cut.purpose.value]


def _cut_in(plain: Any) -> Cut:
    order, tool, direction, at, kerf, setting, reference, purpose = plain
    return Cut(
        int(order),
        str(tool),
        Direction(direction),
        Fraction(at),
        Fraction(kerf),
        Fraction(setting),
        Edge(reference),
        Purpose(purpose),
    )
