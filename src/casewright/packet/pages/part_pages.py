"""Parts lists by material, a drawing for each group of identical parts, and joint sections at full size."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from ...casework.parts.cut_alike import PartGroup
from ...casework.parts.features.feature import Feature
from ...casework.parts.part import Hand
from ...casework.project import Project
from ...drawings.kit.lettering import caliper_text, dimension_text
from ...drawings.kit.pages import SMALLEST, at_scale, fit_to_room, full_size, scale_bar
from ...drawings.kit.scene import Scene
from ...drawings.views.joint_drawing import JointSection, Section, joint_scene, joint_sections, section_of
from ...drawings.views.part_drawing import Tags, pair_scenes, part_scenes
from ..work_in_short import work_in_short
from .page_picture import Json, embed_picture

WIDE = 540.0
PART_TALL = 95.0
FACE_OF_TWO_TALL = 121.0
"""Points a drawn part may be high, not counting the words and dimensions around it."""
PLAIN_ROOM = (250.0, 72.0)
LARGEST_SCALE = 14.0


def part_lists(project: Project, groups: Sequence[PartGroup]) -> list[Json]:
    """The parts list: a list for each material, with a row for each group of parts cut alike."""
    by_material: dict[str, list[PartGroup]] = {}
    for group in groups:
        by_material.setdefault(group.material, []).append(group)
    finest = project.rule
    lists: list[Json] = []
    for material, found in by_material.items():
        sheet = project.job.sheets[material]
        rows: list[Json] = [
            {
                "marks": list(group.marks),
                "count": group.count,
                "length": dimension_text(group.length, finest),
                "width": dimension_text(group.width, finest),
                "thickness": dimension_text(group.thickness, finest),
                "words": group.words,
                "work": work_in_short(project, group.first),
            }
            for group in found
        ]
        number = sum(group.count for group in found)
        parts = "1 part" if number == 1 else f"{number} parts"
        note = f"{parts}, {caliper_text(sheet.thickness, project.job.unit)} thick"
        lists.append({"name": sheet.name, "note": note, "rows": rows})
    return lists


def part_cards(project: Project, groups: Sequence[PartGroup]) -> tuple[list[Json], list[Json]]:
    """A card for each group of parts to machine, and one for each group only cut to size."""
    known = joint_sections(project)
    worked: list[Json] = []
    plain: list[Json] = []
    for group in groups:
        if group.first.features:
            worked.append(_worked_card(project, group, _tags(project, group, known)))
        else:
            scene = part_scenes(project, group.first)[0]
            drawn = fit_to_room(scene, *PLAIN_ROOM, largest=LARGEST_SCALE)
            plain.append({**_card(project, group), "picture": embed_picture(drawn)})
    return worked, plain


def _tags(project: Project, group: PartGroup, known: Mapping[Section, JointSection]) -> Tags:
    def tag(feature: Feature) -> str:
        channel = feature.channel
        return known[section_of(project, group.first, channel)].tag if channel else ""

    return tag


def _worked_card(project: Project, group: PartGroup, tags: Tags) -> dict[str, Json]:
    pair = group.pair
    if pair and len(part_scenes(project, pair[0])) == 1:
        scenes: tuple[Scene, ...] = pair_scenes(project, *pair, tags)
    else:
        scenes = part_scenes(project, group.first, tags)
    written = at_scale(scenes[0], 1.0 / SMALLEST, *scenes[1:]).tall
    tall = written + (PART_TALL if len(scenes) == 1 else FACE_OF_TWO_TALL * len(scenes))
    drawn = fit_to_room(scenes[0], WIDE, tall, *scenes[1:], largest=LARGEST_SCALE)
    return {**_card(project, group), "picture": embed_picture(drawn)}


def _card(project: Project, group: PartGroup) -> dict[str, Json]:
    finest = project.rule
    left, right = group.of_hand(Hand.LEFT), group.of_hand(Hand.RIGHT)
    sides = [f"{len(of)} {hand}" for of, hand in ((left, "left"), (right, "right")) if of]
    hands = f": {' and '.join(sides)}" if sides else ""
    sizes = (group.length, group.width, group.thickness)
    return {
        "marks": list(group.marks),
        "words": group.words,
        "material": project.job.sheets[group.material].name,
        "count": group.count,
        "hands": hands,
        "size": " × ".join(dimension_text(size, finest) for size in sizes),
        "work": work_in_short(project, group.first),
    }


def joint_cards(project: Project) -> dict[str, Json]:
    """Each joint's section at full size, and the bar that proves the print's scale."""
    unit, finest = project.job.unit, project.rule
    cards: list[Json] = [
        {
            "tag": joint.tag,
            "kind": joint.kind.value,
            "size": f"{dimension_text(joint.width, finest)} wide × "
            f"{dimension_text(joint.depth, finest)} deep",
            "caliper": f"exactly {caliper_text(joint.width, unit)} wide, "
            f"{caliper_text(joint.depth, unit)} deep in stock {caliper_text(joint.thickness, unit)} thick",
            "marks": ", ".join(joint.marks),
            "picture": embed_picture(full_size(joint_scene(joint, finest))),
        }
        for joint in joint_sections(project).values()
    ]
    text, wide = scale_bar(unit)
    return {"joints": cards, "bar": {"text": text, "wide": wide}}
