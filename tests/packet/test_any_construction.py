"""However a case is put together, the packet shows every part, with nothing left out and nothing doubled."""

from __future__ import annotations

from collections import Counter
from typing import Any

from hypothesis import given, settings

from casewright.casework.front_choices import DoorKind, Front, FrontKind
from casewright.casework.job import Bay, CaseSpec, Construction
from casewright.casework.project import draw_up
from casewright.drawings.kit.pages import at_scale
from casewright.drawings.kit.pens import Layer
from casewright.drawings.kit.scene import Words
from casewright.drawings.kit.strokes import Outline
from casewright.drawings.views.exploded import exploded_view
from casewright.drawings.views.part_drawing import part_scenes
from casewright.packet.shop_packet import packet_data
from packet.packet_input import packet_of
from samples import job, spec
from strategies import case_specs


@settings(max_examples=25, deadline=None)
@given(case_specs())
def test_every_part_has_its_card_its_row_and_its_label(case: CaseSpec) -> None:
    project = draw_up(job(case))
    data: Any = packet_data(packet_of(project, {}))
    parts = Counter(list(project.parts))
    rows = Counter(mark for leaf in data["cases"] for row in leaf["parts"] for mark in row["marks"])
    labels = Counter(label["lines"][0]["text"] for label in data["labels"]["all"])
    assert rows == labels == parts
    worked = Counter(mark for card in data["cards"] for mark in card["marks"])
    assert worked == Counter(part.mark for part in project if part.features)


@settings(max_examples=25, deadline=None)
@given(case_specs())
def test_what_is_cut_lies_inside_the_blank(case: CaseSpec) -> None:
    project = draw_up(job(case))
    cut = {Layer.DADO, Layer.GROOVE, Layer.RABBET, Layer.NOTCH}
    for part in project:
        long, wide = (float(project.sizes.of(size)) for size in (part.length, part.width))
        for scene in part_scenes(project, part):
            for stroke in at_scale(scene, 0.1).strokes:
                if isinstance(stroke, Outline) and stroke.layer in cut:
                    assert all(
                        -1e-9 <= x <= long + 1e-9 and -1e-9 <= y <= wide + 1e-9 for x, y in stroke.points
                    )


@settings(max_examples=25, deadline=None)
@given(case_specs())
def test_a_case_taken_apart_shows_each_mark_once(case: CaseSpec) -> None:
    project = draw_up(job(case))
    said = Counter(item.text for item in exploded_view(project, case.mark) if isinstance(item, Words))
    assert said == Counter(part.mark for part in project.cases[case.mark].parts)


def test_a_framed_door_taken_apart_with_its_case_has_one_mark() -> None:
    """Its parts are joined before it is hung; five marks a door would leave no room for the others."""
    made = Construction(door=DoorKind.FRAME_AND_PANEL)
    project = draw_up(job(spec(construction=made, bays=(Bay(fronts=(Front(FrontKind.TWO_DOORS),)),))))
    said = [item.text for item in exploded_view(project, "B1") if isinstance(item, Words)]
    assert {"B1-DO1P", "B1-DO2L"} <= project.parts.keys()
    assert sorted(text for text in said if "-DO" in text) == ["B1-DO1", "B1-DO2"]
    others = [mark for mark in project.parts if "-DO" not in mark]
    assert sorted(said) == sorted([*others, "B1-DO1", "B1-DO2"])
