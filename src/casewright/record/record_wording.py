"""What the record has to say about an event that does not fit, in one sentence each."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from ..findings import Finding, Weight
from ..lengths.length import Mark, show
from ..workshop.operations import Operation
from .events import Assembled, Event, SettingMade
from .shop_state import Tick

NO_SUCH_PART = "no-such-part"
NO_SUCH_STEP = "no-such-step"


def no_such_part(event: Event, mark: str) -> Finding:
    text = f"bench {event.bench} names the part {mark}, which this job does not have."
    return _mind(NO_SUCH_PART, mark, text, "Undo it and choose the part from the list.")


def no_such_step(event: Event, step: str) -> Finding:
    text = f"bench {event.bench} ticked the step {step}, which the plan does not have."
    return _mind(NO_SUCH_STEP, step, text, "The tick is kept; load the list of steps again and tick there.")


def tick_for_spoiled(event: Event, operation: Operation, status: str) -> Finding:
    mark = operation.parts[0]
    text = f"bench {event.bench} ticked {operation.key}, but {mark} is {status}."
    fix = f"Undo the tick; or, if {mark} is good after all, undo what made it {status}: the tick then counts."
    return _mind("tick-for-spoiled", mark, text, fix)


def cut_twice(event: Event, operation: Operation, before: Tick) -> Finding:
    text = f"benches {before.bench} and {event.bench} both ticked {operation.key}."
    fix = f"Look which of them did it; if there are two pieces now, one of {_list(operation.parts)} is spare."
    return _mind("cut-twice", operation.key, text, fix)


def held_elsewhere(event: Event, operation: Operation, holder: str) -> Finding:
    mark = operation.parts[0]
    text = f"bench {event.bench} ticked {operation.key} while bench {holder} has {mark} in hand."
    return _mind("held-elsewhere", mark, text, f"Ask at bench {holder} before {mark} is cut again.")


def out_of_order(event: Event, operation: Operation, missing: Sequence[Operation]) -> Finding:
    text = f"bench {event.bench} ticked {operation.key} before {_list([step.key for step in missing])}."
    fix = "Tick those too if they are done; if they are not, check the part against its drawing first."
    return _mind("out-of-order", operation.key, text, fix)


def claimed_twice(event: Event, mark: str, holder: str) -> Finding:
    text = f"bench {event.bench} takes {mark}, which bench {holder} has in hand."
    fix = f"It stays with bench {holder}; let it go there first."
    return _mind("claimed-twice", mark, text, fix)


def fence_beyond_rail(event: Event, what: SettingMade, reach: Fraction, rule: Mark) -> Finding:
    set_to, end = (show(length, rule, unit=True).marked for length in (what.distance, reach))
    text = f"bench {event.bench} set the fence for {what.setting} to {set_to}, but its rail ends at {end}."
    return _mind(
        "beyond-the-rail", what.setting, text, "Read the scale again, or measure from the other edge."
    )


def assembled_spoiled(event: Event, what: Assembled, mark: str, status: str) -> Finding:
    text = f"bench {event.bench} put {mark} into {what.name}, but {mark} is {status}."
    return _mind(
        "assembled-spoiled", mark, text, f"Undo one of the two: either {mark} is good or it is not in."
    )


def assembled_early(event: Event, what: Assembled, mark: str, open_steps: Sequence[str]) -> Finding:
    text = f"bench {event.bench} put {mark} into {what.name} before {_list(open_steps)}."
    fix = "Tick those too if they are done; if they are not, take the part out while the glue is wet."
    return _mind("assembled-early", mark, text, fix)


def _mind(code: str, place: str, text: str, fix: str) -> Finding:
    return Finding(code, place, text, fix, Weight.WARN)


def _list(words: Sequence[str], most: int = 3) -> str:
    shown = list(words[:most])
    if len(words) > most:
        shown.append(f"{len(words) - most} more")
    return shown[0] if len(shown) == 1 else ", ".join(shown[:-1]) + " and " + shown[-1]
