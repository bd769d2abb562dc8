"""Single leaves: those of one moment are headed by it alone, those of one case hold only its own."""

from __future__ import annotations

import re
from dataclasses import replace
from functools import cache
from io import BytesIO

import pytest
from pypdf import PdfReader

from casewright.casework.parts.part import Role
from casewright.drawings.views.joint_drawing import joint_sections
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
    assert not re.search(r"page of|on page", said), "a leaf at the bench sends nobody to another page"
    letters = set(re.findall(r"(?:dado|groove|rabbet) ([a-z]+)\b ·", said))
    assert letters and letters <= set(re.findall(r"\b([a-z]+) (?:dado|groove|rabbet) ~?\d", said))


def test_in_the_packet_the_letters_of_worked_parts_name_the_pages_of_their_sections() -> None:
    pages = PdfReader(BytesIO(packet(packet_of(project(), plans())))).pages
    said = [re.sub(r"\s+", " ", page.extract_text()) for page in pages]
    (named,) = re.findall(r"Letters are those of the sections: ([^.]+)\.", " ".join(said))
    found = re.findall(r"([a-z]+) on page (\d+)", named)
    assert len(found) == len(joint_sections(project())) > 2
    for letter, number in found:
        assert re.search(rf"\b{letter} (?:dado|groove|rabbet) ~?\d", said[int(number) - 1]), letter


def test_each_filler_is_measured_and_scribed_where_it_hangs() -> None:
    fillers = [part.mark for part in project() if part.role is Role.FILLER]
    said = printed(Leaves((Moment.HANGING,)))
    assert fillers and "plane to the line" in said and "Bottom" in said.title()
    assert all(len(re.findall(rf"^{mark}\b", said, re.MULTILINE)) == 1 for mark in fillers)
