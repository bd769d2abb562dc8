"""Findings about events that do not fit the record, in one sentence each."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from ..findings import Finding, Weight
from ..lengths.in_a_sentence import listed
from ..lengths.length import Rule, show
from ..workshop.operations import Operation, OperationKind
from .events import Assembled, Event, SettingMade
from .shop_state import Tick

NO_SUCH_PART = "no-such-part"
OUT_OF_ORDER = "out-of-order"
NO_SUCH_STEP = "no-such-step"


def no_such_part(event: Event, mark: str) -> Finding:
    text = f"bench {event.bench} entered part {mark}, but this job has no such part."
    return _warning(NO_SUCH_PART, mark, text, "Undo the entry and choose the part from the list.")


def no_such_step(event: Event, step: str) -> Finding:
    text = f"bench {event.bench} ticked step {step}, but the plan has no such step."
    return _warning(
        NO_SUCH_STEP, step, text, "The tick is kept; load the list of steps again and tick it there."
    )


def tick_for_spoiled(event: Event, operation: Operation, status: str) -> Finding:
    mark = operation.parts[0]
    text = f"bench {event.bench} ticked {operation.key}, but {mark} is {status}."
    fix = (
        f"Undo the tick; or, if {mark} is good after all, undo the entry that made it {status}; the "
        "tick then counts."
    )
    return _warning("tick-for-spoiled", mark, text, fix)


def cut_twice(event: Event, operation: Operation, before: Tick) -> Finding:
    text = f"benches {before.bench} and {event.bench} both ticked {operation.key}."
    if operation.kind in (OperationKind.DRY_FIT, OperationKind.JOIN):
        fix = "It counts once; undo the tick of the bench that did not do it."
    else:
        fix = (
            f"Find out which of them did it; if there are now two pieces, one of {_list(operation.parts)} "
            "is spare."
        )
    return _warning("cut-twice", operation.key, text, fix)


def held_elsewhere(event: Event, operation: Operation, holder: str) -> Finding:
    mark = operation.parts[0]
    text = f"bench {event.bench} ticked {operation.key} while bench {holder} has {mark} in hand."
    return _warning("held-elsewhere", mark, text, f"Ask at bench {holder} before {mark} is cut again.")


def out_of_order(event: Event, operation: Operation, missing: Sequence[Operation]) -> Finding:
    text = f"bench {event.bench} ticked {operation.key} before {_list([step.key for step in missing])}."
    fix = "Tick those too if they are done; if not, check the part against its drawing first."
    return _warning(OUT_OF_ORDER, operation.key, text, fix)


def claimed_twice(event: Event, mark: str, holder: str) -> Finding:
    text = f"bench {event.bench} claimed {mark}, which bench {holder} already has in hand."
    fix = f"It stays with bench {holder} until that bench releases it."
    return _warning("claimed-twice", mark, text, fix)


def fence_beyond_rail(event: Event, what: SettingMade, reach: Fraction, rule: Rule) -> Finding:
    set_to, end = (show(length, rule, unit=True).marked for length in (what.distance, reach))
    text = f"bench {event.bench} set the fence for {what.setting} to {set_to}, but its rail ends at {end}."
    return _warning(
        "beyond-the-rail", what.setting, text, "Read the scale again, or measure from the other edge."
    )


def assembled_spoiled(event: Event, what: Assembled, mark: str, status: str) -> Finding:
    text = f"bench {event.bench} put {mark} into {what.name}, but {mark} is {status}."
    return _warning(
        "assembled-spoiled",
        mark,
        text,
        f"Undo one of the two entries: either {mark} is good, or it was not put in.",
    )


def assembled_early(event: Event, what: Assembled, mark: str, open_steps: Sequence[str]) -> Finding:
    text = f"bench {event.bench} put {mark} into {what.name} before {_list(open_steps)}."
    fix = "Tick those too if they are done; if not, take the part out while the glue is wet."
    return _warning("assembled-early", mark, text, fix)


def _warning(code: str, place: str, text: str, fix: str) -> Finding:
    return Finding(code, place, text, fix, Weight.WARN)


def _list(words: Sequence[str], most: int = 3) -> str:
    more = [f"{len(words) - most} more"] if len(words) > most else []
    return listed([*words[:most], *more])
