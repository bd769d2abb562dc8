"""The work as it was handed to the shop: which revision of the job, and its sheet plans.

Ticks are kept under the keys of operations, and those follow from the plans. So the plans that
work was begun with are kept with the record; a later search may find other plans, and must not
change what a tick means.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cache
from typing import Any, cast

from pydantic import TypeAdapter, ValidationError
from pydantic_core import ArgsKwargs

from ..boards.board_plan import BoardPlan
from ..boards.keep_boards import renumber_boards
from ..errors import RecordError
from ..findings import Finding
from ..planner.begun import same_cuts
from ..planner.plan import Plan, SheetPlan, renumbered
from .board_rows import boards_from_plain, boards_to_plain, is_exact


@dataclass(frozen=True)
class Issued:
    """Plans by the material's key, for a job at one of its revisions; `boards` those of solid wood bought as
    boards, which older records do not have."""

    revision: int
    plans: Mapping[str, Plan]
    boards: Mapping[str, BoardPlan] = field(default_factory=dict)


@cache
def _adapter() -> TypeAdapter[Issued]:
    return TypeAdapter(Issued)


def renumber_sheets(
    plans: Mapping[str, Plan], earlier: Sequence[Issued], used: Mapping[str, int]
) -> dict[str, Plan]:
    """The plans with their sheets numbered so that no tick ever comes to mean a different cut.

    A sheet cut exactly as one handed out before has that one's number; every other has a number
    that no sheet of its material has had, beyond the one in `used` too. So a key, which names a sheet by its
    number, stands for one cut for good, however often work is handed out.
    """
    return {
        material: _numbered_on(
            plan, [one.plans[material] for one in earlier if material in one.plans], used.get(material, 0)
        )
        for material, plan in plans.items()
    }


def renumber_boards_handed_out(
    boards: Mapping[str, BoardPlan], earlier: Sequence[Issued], used: Mapping[str, int]
) -> dict[str, BoardPlan]:
    """The same for boards."""
    return {
        material: renumber_boards(
            plan,
            [one.boards[material] for one in earlier if material in one.boards],
            used.get(material, 0),
        )
        for material, plan in boards.items()
    }


def _numbered_on(plan: Plan, earlier: Sequence[Plan], used: int) -> Plan:
    before = [sheet for one in reversed(earlier) for sheet in one.sheets]  # the newest first
    unused = max((sheet.number for sheet in before), default=used)
    unused = max(unused, used) + 1
    # A sheet under its own number comes first, so that no other that is cut alike takes that from it.
    own = {sheet.number for sheet in plan.sheets if any(_is_that_sheet(sheet, one) for one in before)}
    taken = set(own)
    numbers: list[int] = []
    for sheet in plan.sheets:
        number = sheet.number
        if number not in own:
            again = (one.number for one in before if one.number not in taken and same_cuts(sheet, one))
            number = next(again, unused)
            unused = max(unused, number + 1)
            taken.add(number)
        numbers.append(number)
    return renumbered(plan, numbers)


def _is_that_sheet(sheet: SheetPlan, handed_out: SheetPlan) -> bool:
    return sheet.number == handed_out.number and same_cuts(sheet, handed_out)


def issued_to_plain(issued: Issued) -> dict[str, Any]:
    """As JSON can hold it, lengths as exact fractions of an inch."""
    plain = _adapter().dump_python(replace(issued, boards={}), mode="json")
    del plain["boards"]
    for plan in plain["plans"].values():
        plan["sheets"] = [
            [number, kind, _piece_out(root)] for number, kind, root in map(_values, plan["sheets"])
        ]
        plan["figures"] = {name: str(value) for name, value in plan["figures"].items()}
        plan["unplaced"] = [_values(entry) for entry in plan["unplaced"]]
        plan["findings"] = [_values(finding)[:5] for finding in plan["findings"]]  # no line of a file
    if issued.boards:
        plain["boards"] = boards_to_plain(issued.boards)
    return cast("dict[str, Any]", plain)


def issued_from_plain(plain: Any) -> Issued:
    """What `issued_to_plain` wrote; RecordError where it cannot be read."""
    try:
        plans = {material: _plan_in(plan) for material, plan in plain["plans"].items()}
        boards = boards_from_plain(plain.get("boards", {}))
        return replace(_adapter().validate_python({**plain, "plans": plans, "boards": {}}), boards=boards)
    except (KeyError, TypeError, ValueError, AttributeError, RecursionError) as fault:
        text = f"the plans handed to the shop cannot be read ({_why(fault)})."
        raise RecordError((Finding("issue-malformed", "shop", text, "Hand the work out again."),)) from fault


# What there are many of is kept as rows without names, in the order of the fields: less than half the size.


def _values(table: dict[str, Any]) -> list[Any]:
    return list(table.values())


def _piece_out(piece: dict[str, Any]) -> list[Any]:
    *box, role, item, turned, cuts, children = piece.values()
    return [box, role, item, turned, list(map(_values, cuts)), list(map(_piece_out, children))]


def _plan_in(plan: Any) -> dict[str, Any]:
    return {
        **plan,
        "bound": _exact(plan["bound"]),
        "figures": {name: _exact(value) for name, value in plan["figures"].items()},
        "sheets": [ArgsKwargs((number, kind, _piece_in(root))) for number, kind, root in plan["sheets"]],
        "unplaced": list(map(_row, plan["unplaced"])),
        "findings": list(map(_row, plan.get("findings", ()))),  # older records have none
    }


def _piece_in(row: Any) -> ArgsKwargs:
    box, role, item, turned, cuts, children = row
    sawn = [_cut_in(*cut) for cut in cuts]
    return ArgsKwargs((*map(_exact, box), role, item, turned, sawn, list(map(_piece_in, children))))


def _cut_in(order: Any, tool: Any, way: Any, at: Any, kerf: Any, setting: Any, *rest: Any) -> ArgsKwargs:
    return ArgsKwargs((order, tool, way, _exact(at), _exact(kerf), _exact(setting), *rest))


def _exact(value: Any) -> str | None:
    """A length or sum; None, which is refused by its place, for anything else."""
    return value if is_exact(value) else None


def _row(values: Any) -> ArgsKwargs:
    return ArgsKwargs(tuple(values))


def _why(fault: Exception) -> str:
    """The first thing wrong, and where."""
    if not isinstance(fault, ValidationError):
        return str(fault)
    first = fault.errors(include_url=False, include_input=False)[0]
    return f"{'.'.join(map(str, first['loc']))}: {first['msg']}"
