"""Advice and readings in the words of one maker to another: what to do, and what it saves."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from fractions import Fraction

from ...casework.size_names import owner_of, read_name
from ...lengths.in_a_sentence import listed
from ..chains.made_sizes import SizeKind
from ..outcomes.gap_spread import Fit
from ..tolerance_wording import amount_text, outcome_text, parts_text, sizes_text, spread_text
from .change import Change, ChangeKind
from .play_and_grade import TooMuchPlay
from .rank_advice import Advice, AdviceList

TAKEN_FOR_GRANTED = (
    "Taken for granted: parts of one size are cut on one setting, each groove is tried on a test piece, and "
    "sheets are measured before channels are cut for them."
)


def assumed_text(fit: Fit) -> str:
    """What a good maker does in any case, and the sheets of this job that have no reading yet."""
    sheets = fit.project.job.sheets
    needed = dict.fromkeys(made.gauge for made in fit.made.values() if made.gauge)
    unread = [sheets[key].name for key in needed if not sheets[key].readings]
    if not unread:
        return TAKEN_FOR_GRANTED
    return f"{TAKEN_FOR_GRANTED} No reading is entered yet of {listed(unread)}."


def advice_sentence(advice: Advice) -> str:
    """What to do, in sentences."""
    return _SENTENCES[advice.change.kind](advice)


def gain_text(advice: Advice) -> str:
    """What it takes and saves: `Takes 3 min, saves 19 min: 1 fewer joint to ease.`"""
    takes = f"Takes {minutes_text(advice.spends)}" if advice.spends else "Takes no time"
    fewer = [
        f"{number} fewer {'joint' if number == 1 else 'joints'} {words}"
        for share, words in _FEWER.items()
        if (number := round(advice.fewer(share))) > 0
    ]
    saves = f"{takes}, saves {minutes_text(advice.saves)}"
    return f"{saves}: {', '.join(fewer)}." if fewer else f"{saves}."


_FEWER: Mapping[str, str] = {
    "recut": "to cut again",
    "ease": "to ease",
    "shown": "with a gap that shows",
    "clamp": "to clamp",
}


def minutes_text(minutes: float) -> str:
    """Minutes in whole numbers: `3 min`."""
    return "under 1 min" if 0 < minutes < 1 else f"{round(minutes)} min"


def whole_text(found: AdviceList, one: str) -> str:
    """What the dry fits of the job are expected to cost, now and with the advice; `one` is a change or a
    reading."""
    places = {gap.place for gap in found.after.gaps.values()}
    where = f"In {places.pop()}" if len(places) == 1 else "In the whole job"
    before = f"{where}, clamping, easing and filling take some {minutes_text(found.before)}"
    if not found.listed:
        return f"{before}; no {one} would save enough of that to be worth its own time."
    more = "" if not found.others else f" {found.others} more would save a little each."
    return f"{before}; with this, {minutes_text(found.left)}.{more}"


def part_list(fit: Fit, marks: Iterable[str]) -> str:
    """Parts by their marks, those of one name together: `M1b and M2b in W9, W11 and W13`; `B1-K` alone."""
    wanted = set(marks)
    every = [mark for mark in fit.project.parts if mark in wanted]
    if len(every) == 1:
        return every[0]
    cases: dict[str, list[str]] = {}
    for mark in every:
        case = fit.project.parts[mark].case
        cases.setdefault(mark.removeprefix(f"{case}-"), []).append(case)
    names: dict[tuple[str, ...], list[str]] = {}
    for name, among in cases.items():
        names.setdefault(tuple(among), []).append(name)
    return "; ".join(f"{listed(several)} in {listed(among)}" for among, several in names.items())


def _try_packing(advice: Advice) -> str:
    fit, change = advice.before, advice.change
    sheet, number = _sheet(fit, change), len(change.sizes)
    packings = len({fit.setting(name) for name in change.sizes})
    again = ""
    if packings > 1:
        again = " Write down its chippers and shims: it is packed the same again later."
    return (
        f"Try the dado stack in the stock: find the thickest sheet of {sheet}, cut scrap with the stack, and "
        f"add or take out shims until a piece of that sheet slides in by hand and does not fall out. "
        f"{number} channels are cut with it.{again}"
    )


def _try_groove(advice: Advice) -> str:
    sheet = _sheet(advice.before, advice.change)
    return (
        f"Try the groove on its test piece with a piece of the thickest sheet of {sheet}, and move the fence "
        f"for the second pass until the piece slides in by hand and does not fall out."
    )


def _sheet(fit: Fit, change: Change) -> str:
    return fit.project.job.sheets[fit.made[change.sizes[0]].gauge].name


def _measure_sheets(advice: Advice) -> str:
    return (
        f"Measure {two_sheets_text(advice)} with a caliper, each in three places away from the edges, before "
        f"you pack the dado stack, and enter the readings in the job."
    )


def two_sheets_text(advice: Advice) -> str:
    """The sheets that are to be measured, beside those that were."""
    sheet = advice.before.project.job.sheets[owner_of(advice.change.sizes[0])]
    return f"two {'more ' if sheet.readings else ''}sheets of {sheet.name}"


def _fit_after(advice: Advice) -> str:
    fit, sizes = advice.before, advice.change.sizes
    made = fit.made[sizes[0]]
    if made.kind in (SizeKind.PLACE, SizeKind.PIN):
        return f"Mark {sizes_text(fit, sizes)} at the dry fit, where it is to go."
    marks = parts_text(fit.project, (fit.made[name].part for name in sizes))
    each = (
        "each to the space it finds, a hair short"
        if len(sizes) > 1
        else "to the space it finds, a hair short"
    )
    return f"Cut {marks} to {made.kind.value} after the dry fit, {each}."


def _match(advice: Advice) -> str:
    fit, change = advice.before, advice.change
    made = fit.made[change.sizes[0]]
    measured = parts_text(fit.project, (fit.made[name].part for name in change.sizes))
    mates = parts_text(fit.project, change.mates)
    return f"Measure the {made.kind.value} of {measured} once cut, and cut {mates} to match."


def _other_edge(advice: Advice) -> str:
    return f"Lay off {sizes_text(advice.before, advice.change.sizes)} from the other edge."


def _depth_piece(advice: Advice) -> str:
    what = sizes_text(advice.before, advice.change.sizes)
    return f"Cut a test piece before {what}, and set the cutter's height by a depth gauge in it."


def _play(advice: Advice) -> str:
    fit, change = advice.before, advice.change
    ((name, value),) = change.inputs.items()
    return f"{play_text(fit, name, value)}, not {amount_text(fit.project, fit.project.sizes.of(name))}."


def too_much_play_text(fit: Fit, found: TooMuchPlay) -> str:
    """Why gaps show in a grade, and the play that mends it."""
    project = fit.project
    allows, play, less = (spread_text(project, one) for one in (found.allows, found.play, found.less))
    return (
        f"The dados' play is why: in grade {project.job.grade.value} a gap in sight may be {allows}, and "
        f"each dado is cut {play} wider than its panel. With dado_play = {less} it would be: "
        f"{outcome_text(found.with_less)}."
    )


def play_text(fit: Fit, name: str, value: Fraction) -> str:
    """A play of the job at another value: `Make each dado 1/64" wider than the panel in it`."""
    amount = amount_text(fit.project, value)
    entry = read_name(name)
    where = f" in {entry.owner}" if entry.owner in fit.project.cases else ""
    plays = {
        "dado_play": f"Make each dado{where} {amount} wider than the panel in it",
        "groove_play": f"Make each groove for a back{where} {amount} wider than the back",
        "back_play": f"Make each back{where} {amount} smaller than the space between its grooves",
        "shelf_play": f"Make each adjustable shelf{where} {amount} shorter than its space",
    }
    if entry.owner in fit.project.cases and entry.what == "width":
        return f"Make {entry.owner} {amount} wide"
    words = fit.project.sizes.ledger[name].words
    return plays.get(entry.what, f"Make the {words} {amount}")


_SENTENCES: Mapping[ChangeKind, Callable[[Advice], str]] = {
    ChangeKind.TRY_PACKING: _try_packing,
    ChangeKind.TRY_GROOVE: _try_groove,
    ChangeKind.MEASURE_SHEETS: _measure_sheets,
    ChangeKind.FIT: _fit_after,
    ChangeKind.MATCH: _match,
    ChangeKind.OTHER_EDGE: _other_edge,
    ChangeKind.DEPTH_PIECE: _depth_piece,
    ChangeKind.PLAY: _play,
}
