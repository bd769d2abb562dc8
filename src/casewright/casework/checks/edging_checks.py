"""Edging that cannot be put on: no such edge, an edge that meets another part, a strip too narrow."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import fields
from fractions import Fraction

from ...findings import Finding, Weight
from ...sizes.affine import Affine
from ...sizes.ledger import Sizes
from ..build.case import Case
from ..build.edged_edges import CASE_FRONTS, EDGE_NAMES, WAYS
from ..build.meetings import Meeting
from ..directions import Way, third_axis
from ..job import Job
from ..parts.covered_edge import CoveredEdge
from ..parts.part import FACE_FRAME, Part, Role
from .each_once import each_once
from .pin_checks import printed_length

FLUSH_IN_FRONT = CASE_FRONTS | {Role.FIXED_SHELF}


def check_edging(job: Job, cases: Iterable[Case], sizes: Sizes) -> Iterator[Finding]:
    """Findings about the edged edges of the parts that are made."""
    parts = {part.mark: (part, case) for case in cases for part in case.parts}
    yield from _no_such_edges(job, parts)
    narrow: set[tuple[str, str]] = set()
    edges = [(part, edge) for part, _ in parts.values() for edge in part.edges]
    edged = {case.mark: case for part, case in parts.values() if part.edges}
    joined = _joined_edges(edged.values())
    for part, edge in edges:
        yield from _joined(part, edge, joined)
        if (edge.edging, part.material) not in narrow:
            narrow.add((edge.edging, part.material))
            yield from _too_narrow(job, part, edge, sizes)
    yield from each_once(one for part, edge in edges for one in _dropped(job, part, edge))
    yield from _pieced(job, [part for part, _ in parts.values()], sizes)
    for case in {case.mark: case for _, case in parts.values()}.values():
        yield from _step_at_the_front(job, case)


def _no_such_edges(job: Job, parts: Mapping[str, tuple[Part, Case]]) -> Iterator[Finding]:
    """`edging_of` names a face, not an edge; marks that no part has are told with the other lists."""
    for mark, edges in job.edging_of.items():
        if mark not in parts:
            continue
        part = parts[mark][0]
        for entry in fields(edges):
            if getattr(edges, entry.name) and WAYS[entry.name].axis is part.lie.thickness:
                there = ", ".join(name for name, way in WAYS.items() if way.axis is not part.lie.thickness)
                text = f"{mark} is a {part.role.value}; it has no {entry.name} edge."
                yield Finding("no-such-edge", f"edging_of.{mark}.{entry.name}", text, f"Name one of {there}.")


Edge = tuple[str, Way, Affine]
"""An edge that something can be joined to: the part's mark, where the edge looks, and how far out it is."""


def _joined_edges(cases: Iterable[Case]) -> Mapping[Edge, str]:
    """The edges that are glued or let into another part, each with the mark of the first such part; a face
    frame may stand before an edge."""
    found: dict[Edge, str] = {}
    for case in cases:
        framing = {part.mark for part in case.parts if part.role in FACE_FRAME}
        for mate in case.mates:
            if mate.meeting in (Meeting.SEATED, Meeting.SLIP):
                for ours, theirs in ((mate.first, mate.second), (mate.second, mate.first)):
                    if theirs.part not in framing:
                        found.setdefault((ours.part, ours.looks, ours.at), theirs.part)
    return found


def _joined(part: Part, edge: CoveredEdge, joined: Mapping[Edge, str]) -> Iterator[Finding]:
    """An edge that is glued or let into another part is not there to be covered."""
    theirs = joined.get((part.mark, edge.way, part.end(edge.way.axis, edge.way)))
    if theirs is not None and part.role is not Role.ADJUSTABLE_SHELF:
        name = EDGE_NAMES[edge.way]
        text = f"the {name} edge of {part.mark} meets {theirs}, and cannot be covered."
        fix = f"Take {name} out of its edging."
        yield Finding("edge-joined", f"edging_of.{part.mark}.{name}", text, fix)


def _dropped(job: Job, part: Part, edge: CoveredEdge) -> Iterator[Finding]:
    """There is room for an edging to hang below only before the front of a shelf, and behind a loose one."""
    edging = job.edging[edge.edging]
    room = {Role.FIXED_SHELF: {Way.FRONT}, Role.ADJUSTABLE_SHELF: {Way.FRONT, Way.BACK}}
    if edging.drop and edge.way not in room.get(part.role, set()):
        name = EDGE_NAMES[edge.way]
        text = (
            f"{edging.name} hangs {printed_length(job, edging.drop)} below, and the {name} edge of the "
            f"{part.role.value} has no room for that."
        )
        fix = "Set drop to 0, or keep it to the front edges of shelves and the back edges of loose ones."
        yield Finding("edging-drop", f"edging.{edge.edging}.drop", text, fix)


def _too_narrow(job: Job, part: Part, edge: CoveredEdge, sizes: Sizes) -> Iterator[Finding]:
    edging, thick = job.edging[edge.edging], sizes.of(part.thickness)
    if edging.width is not None and edging.width < edging.height(thick):
        below = f", and hangs {printed_length(job, edging.drop)} below it" if edging.drop else ""
        text = (
            f"{edging.name} is {printed_length(job, edging.width)} wide; "
            f"{job.sheets[part.material].name} is {printed_length(job, thick)} thick{below}."
        )
        fix = "Use a wider strip: a little to spare at each face is trimmed flush."
        yield Finding("edging-too-narrow", f"edging.{edge.edging}.width", text, fix)


def _pieced(job: Job, parts: Iterable[Part], sizes: Sizes) -> Iterator[Finding]:
    """A strip longer than a stick has a joint in sight; the longest of each edging is told."""
    longest: dict[str, tuple[Fraction, str]] = {}
    for part in parts:
        for edge in (one for one in part.edges if one.way.axis is not part.lie.thickness):
            long = sizes.of(part.size(third_axis(edge.way.axis, part.lie.thickness)))
            longest[edge.edging] = max(longest.get(edge.edging, (Fraction(0), "")), (long, part.mark))
    for key, (long, mark) in longest.items():
        edging = job.edging[key]
        if long > edging.stick:
            have, need = printed_length(job, edging.stick), printed_length(job, long)
            text = f"{edging.name} comes in lengths of {have}; {mark} needs {need}, pieced together in sight."
            yield Finding("edging-pieced", f"edging.{key}.stick", text, "Buy it longer.", Weight.WARN)


def _step_at_the_front(job: Job, case: Case) -> Iterator[Finding]:
    """A strip over the front of the glued case leaves a step at parts that do not get it."""
    after = {edge.taken_off for part in case.parts for edge in part.edges if not edge.first}
    for part in case.parts:
        front = part.edge(Way.FRONT)
        if after and part.role in FLUSH_IN_FRONT and (front is None or front.first):
            edging = job.edging[case.spec.edged.case or ""]
            text = f"{part.mark} ends at the bare front of {case.mark}, {edging.name} stands out beyond it."
            fix = f'Edge it with {edging.key} too, or set put_on = "before joints" for {edging.name}.'
            yield Finding("step-at-the-front", f"cases.{case.mark}.edged", text, fix, Weight.WARN)
            return
