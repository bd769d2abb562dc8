"""That a setting is printed as it is set."""

from __future__ import annotations

from typing import Any

from casewright.lengths.length import parse_length
from casewright.packet.pages.setting_pages import setting_pages
from casewright.workshop.batch_wording import BatchWriter
from casewright.workshop.operations import Guide, Machine
from casewright.workshop.order.batches import order
from casewright.workshop.work import work
from drawings.shown_jobs import plans, project


def test_every_setting_is_printed_as_it_is_set() -> None:
    """Read back from the page, each distance is the machine's within a mark of the rule."""
    drawn, done = project(), work(project(), plans())
    ordered, writer = order(done.operations), BatchWriter(drawn)
    told_of = tuple(writer.batch_text(batch) for batch in ordered.batches)
    pages: Any = setting_pages(drawn, done, ordered, told_of)
    rows = [row for group in pages["groups"] for row in group["rows"]]
    step, unit = drawn.job.mark.step, drawn.job.unit
    seen = 0
    for row in rows:
        for hold in row["holds"]:
            for mark in (mark for way in hold["ways"] for mark in way["marks"]):
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
                    abs(told[0] - distance) < step
                    and (height is None or (len(told) == 2 and abs(told[1] - height) < step))
                    for distance, height in wanted
                ), (row, wanted)
    assert seen > 20
