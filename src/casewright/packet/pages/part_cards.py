"""Worked parts as cards: a drawing for each group cut alike, and the sections of joints at full size."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from ...casework.parts.cut_alike import PartGroup
from ...casework.parts.features.feature import Feature
from ...casework.parts.part import Hand
from ...casework.project import Project
from ...drawings.kit.lettering import dimension_text, stock_dimension, writers
from ...drawings.kit.pages import SMALLEST, PlacedScene, at_scale, fit_to_room, full_size, scale_bar
from ...drawings.kit.scene import Scene
from ...drawings.views.joint_drawing import JointSection, Section, joint_scene, joint_sections, section_of
from ...drawings.views.part_drawing import pair_scenes, part_scenes
from ..work_in_short import work_in_short
from .page_picture import Json, embed_picture

WIDE, HALF = 540.0, 262.0
"""Points a card is wide: the page, or a column of two."""

LONG = 100
"""Inches; a part longer than this is drawn over the whole width of the page: in a column it would be a strip.
A tall case's side of 84 by 24 is drawn 40 points high in a column, and its words are as large as on any."""

FACE_TALL, LONG_FACE_TALL = 55.0, 50.0
"""Points a drawn face may be high, not counting the words and dimensions around it."""

LARGEST_SCALE = 14.0


def worked_cards(project: Project, groups: Sequence[PartGroup]) -> list[Json]:
    """A card for each of the `groups` that is machined, not only cut to size."""
    known = joint_sections(project)
    return [
        _worked_card(project, group, _tags(project, group, known)) for group in groups if group.first.features
    ]


def _worked_card(project: Project, group: PartGroup, tags: Mapping[str, str]) -> Json:
    """The card of a group of parts that are machined alike: how many of which hand, and the drawings."""
    finest = project.rule
    left, right = group.of_hand(Hand.LEFT), group.of_hand(Hand.RIGHT)
    sides = [f"{len(of)} {hand}" for of, hand in ((left, "left"), (right, "right")) if of]
    callouts = dict.fromkeys(
        feature.callout(project.sizes, *writers(finest), tags[feature.name])
        for feature in group.first.features
    )
    return {
        "marks": list(group.marks),
        "words": group.words,
        "count": group.count,
        "hands": f": {' and '.join(sides)}" if sides else "",
        "size": " × ".join(dimension_text(size, finest) for size in (group.length, group.width)),
        "work": work_in_short(project, group.first),
        "cuts": [words for words in callouts if words],
        "whole_width": group.length > LONG,
        "picture": embed_picture(_drawn(project, group, tags)),
    }


def _drawn(project: Project, group: PartGroup, tags: Mapping[str, str]) -> PlacedScene:
    """Every face that is worked, one below the other; of a left and a right part, both.

    What is cut bears its letter and each row the number of its holes: the sizes stand in the card's words.
    """

    def name(feature: Feature) -> str:
        return feature.called(project.sizes, tags.get(feature.name, ""))

    pair = group.pair
    if pair and len(part_scenes(project, pair[0])) == 1:
        scenes: tuple[Scene, ...] = pair_scenes(project, *pair, name)
    else:
        scenes = part_scenes(project, group.first, name)
    wide, face = (WIDE, LONG_FACE_TALL) if group.length > LONG else (HALF, FACE_TALL)
    tall = at_scale(scenes[0], 1.0 / SMALLEST, *scenes[1:]).tall + face * len(scenes)
    return fit_to_room(scenes[0], wide, tall, *scenes[1:], largest=LARGEST_SCALE)


def _tags(project: Project, group: PartGroup, known: Mapping[Section, JointSection]) -> dict[str, str]:
    """The letter of each channel's section, by its name; empty for what has none."""

    def tag(feature: Feature) -> str:
        if feature.channel is None:
            return ""
        section = known.get(section_of(project, group.first, feature.channel))
        return section.tag if section else ""

    return {feature.name: tag(feature) for feature in group.first.features}


def joint_cards(project: Project) -> dict[str, Json]:
    """Each joint's section at full size by its letter, and the bar that proves the print's scale."""
    cards: dict[str, Json] = {
        joint.tag: _section_card(project, joint) for joint in joint_sections(project).values()
    }
    text, wide = scale_bar(project.job.unit)
    return {"joints": cards, "bar": {"text": text, "wide": wide}}


def section_cards(project: Project, case: str) -> list[Json]:
    """The sections of the joints in the parts of one case, by their letters."""
    marks = {part.mark for part in project.cases[case].parts}
    return [
        _section_card(project, joint)
        for joint in joint_sections(project).values()
        if marks.intersection(joint.marks)
    ]


def _section_card(project: Project, joint: JointSection) -> Json:
    unit, finest, cut = project.job.unit, project.rule, joint.cut
    width, depth = stock_dimension(cut.width, unit), dimension_text(cut.depth, finest)
    edge = " in the edge" if cut.from_face is not None else ""
    return {
        "tag": joint.tag,
        "kind": cut.kind.value + edge,
        "sizes": f"{width} wide, {depth} deep",
        "picture": embed_picture(full_size(joint_scene(joint, finest))),
    }
