"""What the papers count and weigh, and that a setting is printed as it is set."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

from casewright.casework.job import Bay
from casewright.casework.project import draw_up
from casewright.lengths.length import Mark, Unit, parse_length
from casewright.packet.pages.buying import buying
from casewright.packet.pages.setting_pages import setting_pages
from casewright.packet.pages.weights import weight, weight_words
from casewright.workshop.operations import Guide, Machine
from casewright.workshop.work import work
from drawings.shown_jobs import plans, project
from samples import SHEETS, job, spec


def weighted(unit: Unit = Unit.INCH) -> object:
    sheets = {key: replace(sheet, weight=F(2)) for key, sheet in SHEETS.items()}
    mark = Mark.THIRTY_SECOND if unit is Unit.INCH else Mark.MILLIMETRE
    return replace(job(), sheets=sheets, unit=unit, mark=mark)


def test_a_part_weighs_its_square_feet() -> None:
    """A side of 34 1/2 by 24 in is 5 3/4 square feet: at 2 lb each 11.5 lb, 5.2 kg."""
    for unit, said in ((Unit.INCH, "12 lb"), (Unit.MM, "5 kg")):
        drawn = draw_up(weighted(unit))  # type: ignore[arg-type]
        side = [drawn.parts["B1-L"]]
        assert weight(drawn, side) == F(23, 2)
        assert weight_words(drawn, side) == said
    assert weight_words(draw_up(job()), draw_up(job())) == "not known"


def test_four_pins_hold_a_shelf() -> None:
    """Common practice, no source: a pin near each corner."""
    for shelves in (0, 1, 3):
        drawn = draw_up(job(spec(bays=(Bay(adjustable=shelves),))))
        assert buying(drawn, {}).shelf_pins == 4 * shelves


def test_every_setting_is_printed_as_it_is_set() -> None:
    """Read back from the page, each distance is the machine's within half a mark of the rule."""
    drawn, done = project(), work(project(), plans())
    rows = [row for group in setting_pages(drawn, done)["groups"] for row in group["rows"]]  # type: ignore[union-attr,index,call-overload]
    half, unit = drawn.job.mark.step / 2, drawn.job.unit
    seen = 0
    for row in rows:
        for hold in row["holds"]:
            for mark in hold["marks"]:
                steps = [
                    step
                    for step in done.operations
                    if (step.kind.value, step.piece) == (hold["what"], mark)
                    and step.setting.machine is not Machine.BENCH
                ]
                told = [parse_length(one["value"].lstrip("~"), unit) for one in row["distances"]]
                if not told:
                    continue
                seen += 1
                wanted = [
                    (
                        step.setting.buried
                        if step.setting.guide is Guide.SACRIFICIAL_FENCE
                        else step.setting.distance,
                        step.setting.height,
                    )
                    for step in steps
                ]
                assert any(
                    abs(told[0] - distance) <= half
                    and (height is None or (len(told) == 2 and abs(told[1] - height) <= half))
                    for distance, height in wanted
                ), (row, wanted)
    assert seen > 20
