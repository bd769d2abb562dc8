"""Edging at the bench: when it goes on, what it waits for, and the sticks to buy for it."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.casework.edge_strips import edge_strips
from casewright.casework.front_choices import Front, FrontKind
from casewright.casework.job import Bay, Edged, Job
from casewright.casework.project import draw_up
from casewright.shop.edging import Edging, PutOn
from casewright.workshop.batch_wording import BatchWriter
from casewright.workshop.edging_work import cut_strip, edging_bought, edging_key, sticks_for
from casewright.workshop.operations import OperationKind
from casewright.workshop.order.batches import order
from casewright.workshop.safety.hazards import Hazard
from casewright.workshop.work import Work
from finding_rows import plain
from samples import job, spec
from workshop.test_work import check_solids
from workshop.worked_on_a_plan import worked

STRIP = Edging("maple", "maple strip", F(1, 4), F(96), F(7, 8), price=F(7))
LAST = replace(STRIP, put_on=PutOn.AFTER_GLUE_UP)
BAYS = (Bay(fixed=(F(10),), adjustable=1), Bay(adjustable=1))


def edged(strip: Edging) -> Job:
    made = job(replace(spec(bays=BAYS), edged=Edged("maple", "maple")))
    return replace(made, edging={"maple": strip})


def waits_for(done: Work, key: str) -> set[str]:
    """Everything that must be done before an operation."""
    found: set[str] = set()
    open_ends = [key]
    while open_ends:
        for before in done.by_key[open_ends.pop()].after:
            if before not in found:
                found.add(before)
                open_ends.append(before)
    return found


def test_a_part_is_edged_once_all_are_cut_and_before_anything_is_cut_into_it() -> None:
    project, done = worked(edged(STRIP))
    covered = {part.mark for part in project if part.edges}
    cuts = {step.key for step in done.operations if step.kind.cuts_up_a_sheet and covered & {*step.sizes}}
    assert cuts
    for mark in covered:
        assert cuts <= waits_for(done, edging_key(mark))
        later = [step for step in done.by_part[mark] if step.feature]
        assert all(edging_key(mark) in waits_for(done, step.key) for step in later)
        # At the saw the piece is as large as it is with its strip on.
        assert {step.size for step in later} <= {project.worked(project.parts[mark])}
    assert check_solids(project, done, 1e-6) >= 2


def test_doors_are_edged_once_the_dry_fit_has_told_their_size() -> None:
    """And what the dry fit needs is edged before it, without them."""
    closed = (Bay(adjustable=1, fronts=(Front(FrontKind.TWO_DOORS),)),)
    made = job(replace(spec(bays=closed), edged=Edged("maple", "maple", "maple")))
    _, done = worked(replace(made, edging={"maple": STRIP}))
    fit = waits_for(done, "B1 dry fit")
    assert edging_key("B1-L") in fit and edging_key("B1-DO1") not in fit
    assert "B1 dry fit" in waits_for(done, edging_key("B1-DO1"))


def test_the_front_of_a_case_is_edged_last() -> None:
    _, done = worked(edged(LAST))
    (front,) = [step for step in done.operations if step.kind is OperationKind.EDGE_CASE]
    joins = {step.key for step in done.operations if step.kind is OperationKind.JOIN}
    assert front.key == edging_key("B1") and joins and joins <= waits_for(done, front.key)
    alone = {step.piece for step in done.operations if step.kind is OperationKind.EDGE}
    assert alone == {"B1-A1", "B1-A2"}, "loose shelves are not in the glue-up"


def test_edging_is_one_step_a_part_in_one_batch() -> None:
    project, done = worked(edged(STRIP))
    texts = [BatchWriter(project).batch_text(batch) for batch in order(done.operations).batches]
    (text,) = [one for one in texts if any(step.kind == "edging" for step in one.steps)]
    words = {step.piece: step.hold for step in text.steps}
    assert plain(words["B1-L"]) == 'Front edge: maple strip, 35 1/2" long.'
    assert set(words) == {part.mark for part in project if part.edges}
    assert any("stands out at each face" in line for line in text.setting)
    assert text.cautions[0].hazard is Hazard.TRIMMING


@settings(max_examples=40, deadline=None)
@given(st.lists(st.integers(1, 16), min_size=1, max_size=7), st.integers(8, 20))
def test_sticks_hold_all_strips_and_their_number_is_proved_rightly(lengths: list[int], stick: int) -> None:
    """Against every way to share the strips out among the sticks (small enough to try them all)."""
    strips = [F(length) for length in lengths]
    pieces = tuple(sorted(_pieces(strips, stick), reverse=True))
    fewest = next(count for count in range(1, 99) if fits(pieces, (F(stick),) * count))
    found, proved = sticks_for(strips, F(stick))
    assert found >= fewest
    assert found == fewest or not proved


def _pieces(strips: list[F], stick: int) -> list[F]:
    """Strips longer than a stick are pieced together from whole ones."""
    pieces = []
    for strip in strips:
        while strip > stick:
            pieces.append(F(stick))
            strip -= stick
        pieces.append(strip)
    return pieces


def fits(pieces: tuple[F, ...], room: tuple[F, ...]) -> bool:
    if not pieces:
        return True
    first, rest = pieces[0], pieces[1:]
    return any(
        fits(rest, tuple(sorted((*room[:at], left - first, *room[at + 1 :]))))
        for at, left in enumerate(room)
        if left >= first and left not in room[:at]
    )


def test_what_is_bought_covers_every_strip_cut_over_long() -> None:
    project = draw_up(edged(STRIP))
    (bought,) = edging_bought(project)
    strips = edge_strips(project)
    assert bought.needed == sum(strip.length for strip in strips)
    assert all(strip.length + 1 <= cut_strip(project, strip) < strip.length + F(3, 2) for strip in strips)
    assert bought.sticks * STRIP.stick >= sum(cut_strip(project, strip) for strip in strips)
    assert bought.money == 7 * bought.sticks
