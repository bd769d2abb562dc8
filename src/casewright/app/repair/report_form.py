"""The form in which a spoiled part is reported: the part's features and sides by their names in the trade,
and its drawing, on which each of them can be tapped."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from ...casework.directions import Way
from ...casework.parts.features.feature import EDGE_WORDS, Feature
from ...casework.parts.part import Hand, Part
from ...casework.project import Project
from ...casework.size_names import PartSizes
from ...drawings.kit.pages import fit_to_room
from ...drawings.views.part_drawing import part_scenes
from ...drawings.views.part_view import FaceView, faces
from ...findings import Finding
from ...lengths.length import show
from ...record.shop_state import State, Status
from ...repair.facts import thickness_from
from ...repair.harm import Harm, HarmKind
from ...repair.recorded_facts import features_cut, harms_recorded
from ...workshop.side_names import side_words
from ..views.job_views import FeatureView, JobView
from ..views.page_pictures import Picture, inline_svg
from .harm_words import HOW, MADE_AS, MADE_OF, MIRRORED, MIXED_UP, NOT_IN, TOO_FAR, TOO_NEAR
from .spoiled_report import DamageTyped, Report, damage_row, wrong_row
from .tap_places import SideBox, with_tap_places

ROOM = (560.0, 340.0)
"""The room for each face that is drawn, in points."""

LEAST_DAMAGES = 2
"""Rows for damages: a corner is damaged at its end and at its edge."""

LEAST_FAULTS = 2
"""Rows for what is wrong with one feature: it may be too deep and out of its place."""

FIELD_OF: Mapping[str, str] = {
    "no-such-part": "mark",
    "assembled": "mark",
    "said-already": "mark",
    "no-size": "length",
    "too-large": "length",
    "larger": "length",
    "as-planned": "length",
    "spoiled-and-lost": "lost",
    "no-such-feature": "wrong",
    "no-mirror-image": "wrong",
    "wrong-in-two-ways": "wrong",
    "no-such-material": "material",
    "material-as-planned": "material",
    "how-thick": "material",
    "thick-too-far-off": "material",
    "made-as-no-other": "made-as",
    "mixed-up-alike": "made-as",
    "not-glued": "not-in",
}
"""The field that a finding belongs to, by its code, where its place does not name the field."""


@dataclass(frozen=True)
class Offer:
    """One entry of a list to choose from: its value, its words, and whether it is chosen."""

    value: str
    words: str
    chosen: bool


@dataclass(frozen=True)
class FaultRow:
    """How a feature may be wrong and `by` how much, as typed."""

    hows: tuple[Offer, ...]
    by: str

    @property
    def said(self) -> bool:
        """Whether anything is chosen or typed."""
        return bool(self.by) or not self.hows[0].chosen


@dataclass(frozen=True)
class FeatureRow:
    """One feature of the part: its words, whether it is cut so far, what is wrong with it, with room for
    more. What is `ticked` off in the shop is cut, whatever the form says. Findings call it `place`."""

    name: str
    words: str
    cut: bool
    ticked: bool
    faults: tuple[FaultRow, ...]
    place: str


@dataclass(frozen=True)
class DamageRow:
    """One damage: its place in findings, where it may be, and what is typed."""

    place: str
    sides: tuple[Offer, ...]
    typed: DamageTyped


@dataclass(frozen=True)
class PartForm:
    """What can be said of one part. `mirrored` is None where the part has no mirror image; `materials` are
    the sheets it may have been cut from by mistake, `thick` what that sheet measures; `made_as` and
    `mixed_up` offer the other parts; `within` names what it is built into."""

    mark: str
    role: str
    sizes: str
    features: tuple[FeatureRow, ...]
    mirrored: Offer | None
    materials: tuple[Offer, ...]
    own_material: str
    thick: str
    made_as: tuple[Offer, ...]
    mixed_up: tuple[Offer, ...]
    not_in: Offer
    damages: tuple[DamageRow, ...]
    drawing: Picture
    within: str


def part_form(project: Project, state: State | None, said: Report) -> PartForm | None:
    """The form for the part of a report; None where the job has no such part."""
    part = project.parts.get(said.mark)
    if part is None:
        return None
    shown = JobView(project).part(part.mark)
    words = {
        one.name: _feature_words(part, one, seen)
        for one, seen in zip(part.features, shown.features, strict=True)
    }
    ticked = features_cut(part, state.done) if state else frozenset()
    stands = state.parts.get(part.mark) if state else None
    mirrored = None
    if part.hand is not Hand.NONE and part.features:
        mirrored = Offer(MIRRORED, HarmKind.MIRRORED.value, MIRRORED in said.wrong)
    return PartForm(
        part.mark,
        shown.role,
        f"{shown.length.text} × {shown.width.text}",
        tuple(
            FeatureRow(
                one.name,
                words[one.name],
                one.name in ticked or one.name in said.cut,
                one.name in ticked,
                tuple(_faults(part, one, said.wrong)),
                wrong_row(part, one.name),
            )
            for one in part.features
        ),
        mirrored,
        tuple(_materials(project, part, said.wrong)),
        f"{MADE_OF}:{part.material}",
        _thick(said.wrong),
        tuple(_others(project, part, said.wrong, MADE_AS)),
        tuple(_others(project, part, said.wrong, MIXED_UP)),
        Offer(NOT_IN, f"{HarmKind.LEFT_OUT.value}", NOT_IN in said.wrong),
        tuple(_damages(part, said.damaged)),
        _drawing(project, part, words),
        stands.within if stands and stands.status is Status.ASSEMBLED else "",
    )


def _feature_words(part: Part, feature: Feature, shown: FeatureView) -> str:
    """`dado, 4 1/2 from the lower end`, with its face where both faces of the part are cut."""
    words = shown.words.partition(",")[0]
    face = f", in the {side_words(part, feature.face)}" if feature.face and len(faces(part)) > 1 else ""
    if not shown.sizes:
        return words + face
    first = shown.sizes[0]
    if first.words == "in from the edge":
        return f"{words}, {first.text} from the {side_words(part, feature.edges[0])}{face}"
    return f"{words}, {first.text} {first.words.removeprefix('in ')}{face}"


def _faults(part: Part, feature: Feature, wrong: Iterable[str]) -> Iterable[FaultRow]:
    """What is said to be wrong with a feature, a row each, with room for one more: two rows at least."""
    own = [one.split(":", 2) for one in wrong if one.startswith(f"{feature.name}:")]
    for said in (*own, *([[]] * max(1, LEAST_FAULTS - len(own)))):
        yield FaultRow(tuple(_hows(part, feature, ":".join(said[:2]))), said[2] if len(said) > 2 else "")


def _hows(part: Part, feature: Feature, said: str) -> Iterable[Offer]:
    """How it may be wrong, in the words of the command, each once. What goes right through is in no face."""
    yield Offer("", "as it should be", not said or said == f"{feature.name}:")
    first: dict[HarmKind, str] = {}
    for words, kind in HOW.items():
        first.setdefault(kind, words)
    for kind, words in first.items():
        if kind is HarmKind.FACE and feature.face is None:
            continue
        value = f"{feature.name}:{words}"
        if kind is not HarmKind.PLACE:
            yield Offer(value, kind.value, value == said)
            continue
        for way in (TOO_FAR, TOO_NEAR):
            value = f"{feature.name}:{way}"
            yield Offer(value, f"{kind.value}, {_from_edge(part, feature, way)}", value == said)


def _from_edge(part: Part, feature: Feature, way: str) -> str:
    """`too far from the lower end`, the one that the feature is measured from."""
    return f"{way} {'from ' if way == TOO_FAR else ''}the {side_words(part, feature.edges[-1])}"


def _materials(project: Project, part: Part, wrong: Iterable[str]) -> Iterable[Offer]:
    """The job's sheets, its own first: the part may have been cut from another, or from one of another
    thickness."""
    sheets = project.job.sheets
    said = frozenset(":".join(one.split(":")[:2]) for one in wrong)
    others = [
        Offer(value, sheets[key].name, value in said)
        for key in sheets
        if key != part.material and (value := f"{MADE_OF}:{key}")
    ]
    own = f"as planned, {sheets[part.material].name}"
    yield Offer("", own, not any(one.chosen for one in others))
    yield from others


def _thick(wrong: Iterable[str]) -> str:
    """What the part's sheet measures, as typed."""
    said = (one.split(":", 2) for one in wrong)
    return next((one[2] for one in said if len(one) > 2 and one[0] == MADE_OF), "")


def _others(project: Project, part: Part, wrong: Iterable[str], how: str) -> Iterable[Offer]:
    """The other parts that it may have been made as, or mixed up with."""
    for mark in project.parts:
        if mark != part.mark:
            yield Offer(f"{how}:{mark}", mark, f"{how}:{mark}" in wrong)


def _damages(part: Part, typed: tuple[DamageTyped, ...]) -> Iterable[DamageRow]:
    filled = [one for one in typed if one != DamageTyped()]
    rows = [*filled, *(DamageTyped() for _ in range(max(1, LEAST_DAMAGES - len(filled))))]
    for row, one in enumerate(rows):
        sides = [Offer(_said(part, way), side_words(part, way), _said(part, way) == one.where) for way in Way]
        yield DamageRow(damage_row(row), (Offer("", "nowhere", not one.where), *sides), one)


def _said(part: Part, way: Way) -> str:
    """A side as the command takes it: `front edge`, `lower end`, `left face`."""
    kind = side_words(part, way).rpartition(" ")[2]
    return f"{EDGE_WORDS[way]} {kind}"


def _drawing(project: Project, part: Part, words: Mapping[str, str]) -> Picture:
    """Its drawing with places to tap: every feature, and the edges and ends of each face that is drawn."""
    views = [FaceView(part, face, project.sizes) for face in faces(part)]
    first, *more = part_scenes(project, part)
    wide, tall = ROOM
    text = inline_svg(fit_to_room(first, wide, tall * len(views), *more))
    boxes = [
        SideBox(
            *(_said(part, way) for way in (*view.ends(), *view.edges())),
            *(side_words(part, way) for way in (*view.ends(), *view.edges())),
        )
        for view in views
    ]
    return Picture(part.mark, with_tap_places(text, part.mark, words, boxes))


def wrong_in_words(project: Project, mark: str, state: State) -> tuple[str, ...]:
    """What is recorded as wrong with a part, a phrase each: `dado-bottom from the wrong end`."""
    part = project.parts.get(mark)
    if part is None:
        return ()
    said: list[str] = []
    for harm in harms_recorded(project, part, state.parts[mark].harms):
        if harm.side is None:
            by = project.printed(harm.off)
            how = harm.fault.value if not harm.by else f"{harm.fault.value} by {by}"
            if harm.by and harm.fault is HarmKind.PLACE:
                way = _from_edge(part, part.feature(harm.feature), TOO_FAR if harm.by > 0 else TOO_NEAR)
                how = f"{harm.fault.value}, {by} {way}"
            if harm.fault is HarmKind.MATERIAL:
                how = f"cut from {project.job.sheets[harm.material].name}{_thicker(project, part, harm)}"
            if harm.fault is HarmKind.MADE_AS:
                how = f"made as {harm.other}"
            said.append(f"{harm.feature} {how}".strip())
            continue
        size = " × ".join(show(one, project.rule).marked for one in (harm.long, harm.deep) if one)
        said.append(f"damaged at its {side_words(part, harm.side)}{f', {size}' if size else ''}")
    return tuple(said)


def _thicker(project: Project, part: Part, harm: Harm) -> str:
    """How thick its sheet is, where that was measured."""
    if not harm.by:
        return ""
    return f", {project.printed(thickness_from(project, part, harm))} thick"


def beside_fields(mark: str, findings: Iterable[Finding]) -> dict[str, list[Finding]]:
    """The findings of a report on the part by the field that each belongs to; those of no field under
    `loose`."""
    names = PartSizes(mark)
    sizes = {names.length.name: "length", names.width.name: "width"}
    found: dict[str, list[Finding]] = defaultdict(list)
    for finding in findings:
        field = FIELD_OF.get(finding.code, "loose")
        if finding.place.startswith(("damage ", "feature ")):
            field = finding.place
        found[sizes.get(finding.place, field)].append(finding)
    return dict(found)
