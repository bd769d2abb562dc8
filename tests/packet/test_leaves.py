"""Single leaves: those of one moment are headed by it alone, those of one case hold only its own."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from io import BytesIO

import pytest
from pypdf import PdfReader

from casewright.packet.leaves import Leaves, Moment
from casewright.packet.shop_packet import packet, packet_data
from drawings.shown_jobs import plans, project
from packet.packet_input import packet_of

HEADS = {
    Moment.FRONT: "Cautions",
    Moment.YARD: "At the yard",
    Moment.TRESTLES: "At the trestles",
    Moment.SAW: "At the table saw",
    Moment.MAPS: "Sheet maps",
    Moment.JOINTS: "Joints, notches and holes",
    Moment.CASES: "The cases",
    Moment.BACKS: "Backs, after the dry fit",
    Moment.HANGING: "Hanging and standing",
}


@cache
def printed(leaves: Leaves) -> str:
    pages = PdfReader(BytesIO(packet(replace(packet_of(project(), plans()), leaves=leaves)))).pages
    return "\n".join(page.extract_text() for page in pages)


@pytest.mark.parametrize("moment", HEADS)
def test_the_leaves_of_a_moment_are_headed_by_it_and_by_no_other(moment: Moment) -> None:
    # The header and the foot of a page are no headings, nor is the list of contents.
    lines = {line.split(", kerf")[0].strip() for line in printed(Leaves((moment,))).splitlines()}
    assert {one for one, head in HEADS.items() if head in lines} == {moment}


def test_every_moment_together_is_the_whole_packet() -> None:
    """Each moment works out its own pages and no others, and none is forgotten."""
    contents = packet_of(project(), plans())
    whole, on_all = packet_data(contents), packet_data(replace(contents, leaves=Leaves(())))
    together = dict(on_all)
    for moment in Moment:
        own = packet_data(replace(contents, leaves=Leaves((moment,))))
        assert own.keys() > on_all.keys() and all(whole[key] == own[key] for key in own)
        assert not (own.keys() - on_all.keys()) & (together.keys() - on_all.keys()), "worked out twice"
        together |= own
    assert together == whole


@pytest.mark.parametrize("case", list(project().cases))
def test_the_leaves_of_a_case_name_all_its_parts_and_no_other_case(case: str) -> None:
    said = printed(Leaves.of_case(case)).replace("\n", " ")
    assert all(part.mark in said for part in project().cases[case].parts)
    heads = [
        other for other in project().cases if f"{other} {project().cases[other].spec.kind.value} case" in said
    ]
    assert heads == [case]
