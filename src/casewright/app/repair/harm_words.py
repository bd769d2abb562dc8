"""What a maker says is wrong with a part, and where: from words to harms."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace

from ...casework.directions import Way
from ...casework.parts.part import Hand, Part
from ...casework.project import Project
from ...errors import LengthError
from ...findings import Finding
from ...lengths.did_you_mean import did_you_mean
from ...lengths.length import parse_length, show
from ...repair.facts import from_sheet, made_as
from ...repair.harm import MISPLACED, TURNED_ROUND, Harm, HarmKind

TOO_FAR, TOO_NEAR = "too far", "too near"
"""Out of place, and which way: from the edge or end that the feature is measured from."""

HOW: Mapping[str, HarmKind] = {
    "other face": HarmKind.FACE,
    "wrong face": HarmKind.FACE,
    "wrong end": HarmKind.END,
    "other end": HarmKind.END,
    "wrong edge": HarmKind.EDGE,
    "other edge": HarmKind.EDGE,
    "out of place": HarmKind.PLACE,
    TOO_FAR: HarmKind.PLACE,
    TOO_NEAR: HarmKind.PLACE,
    "too wide": HarmKind.LARGE,
    "too large": HarmKind.LARGE,
    "too deep": HarmKind.DEEP,
    "too narrow": HarmKind.SMALL,
    "too small": HarmKind.SMALL,
    "too shallow": HarmKind.SHALLOW,
}
MIRRORED = "mirrored"
MADE_OF = "made of"
MADE_AS = "made as"
MIXED_UP = "mixed up with"
NOT_IN = "not in"
"""Said in place of a feature: `B1-L:mirrored`, `B1-TK:made of:maple`, `B1-B:made of:maple:11/16` (what its
sheet measures), `B1-L:made as:B2-L`, `B1-L:mixed up with:B2-L` (each made as the other), `B3-K:not in` (when
B3 was glued)."""

ONE_OF_EACH = (
    MISPLACED,
    frozenset({HarmKind.LARGE, HarmKind.SMALL}),
    frozenset({HarmKind.DEEP, HarmKind.SHALLOW}),
)
"""Faults of which one feature has one at most: where it is, its width, its depth."""

SIDE: Mapping[str, Way] = {
    "front": Way.FRONT,
    "rear": Way.BACK,
    "back": Way.BACK,
    "left": Way.LEFT,
    "right": Way.RIGHT,
    "upper": Way.UP,
    "top": Way.UP,
    "lower": Way.DOWN,
    "bottom": Way.DOWN,
}


def read_harms(
    project: Project, wrong: Sequence[str], damaged: Sequence[str], faults: list[Finding]
) -> dict[str, tuple[Harm, ...]]:
    """The harms of each part, by its mark; what cannot be read is added to `faults`."""
    found: dict[str, tuple[Harm, ...]] = {}
    for place, said, read in (
        *(("wrong", said, _wrong) for one in wrong for said in both_mixed_up(one)),
        *(("damaged", said, _damage) for said in damaged),
    ):
        mark, *rest = (piece.strip() for piece in said.split(":"))
        part = project.parts.get(mark)
        if part is None:
            fix = did_you_mean(mark, project.parts)
            faults.append(Finding("no-such-part", place, f"there is no part “{mark}”.", fix))
            continue
        one = read(project, part, rest)
        if isinstance(one, Finding):
            faults.append(one)
        else:
            found[mark] = (*found.get(mark, ()), one)
    for mark, harms in found.items():
        faults += against_each_other(mark, harms)
    return found


def both_mixed_up(said: str) -> tuple[str, ...]:
    """What is said of two parts that were mixed up, said of each of them; anything else as it is."""
    pieces = [piece.strip() for piece in said.split(":")]
    if len(pieces) != 3 or pieces[1] != MIXED_UP:
        return (said,)
    first, _, second = pieces
    return f"{first}:{MADE_AS}:{second}", f"{second}:{MADE_AS}:{first}"


def _wrong(project: Project, part: Part, rest: Sequence[str]) -> Harm | Finding:
    name, how, by = (*rest, "", "", "")[:3]
    if name == MADE_OF:
        return _material(project, part, how, by)
    if name in (MADE_AS, MIXED_UP):
        return _other_part(project, part, how)
    if name == NOT_IN:
        return Harm(HarmKind.LEFT_OUT)
    if name == MIRRORED:
        if part.hand is Hand.NONE and not part.features:
            text = "it has no features, so it has no mirror image."
            return Finding("no-mirror-image", part.mark, text, "Report what it measures instead.")
        return Harm(HarmKind.MIRRORED)
    names = [feature.name for feature in part.features]
    if name not in names:
        text = f"it has no feature “{name}”."
        fix = did_you_mean(name, names) if names else "Nothing is cut into it; report its size or damage."
        return Finding("no-such-feature", part.mark, text, fix)
    if how not in HOW:
        text = f"“{how}” does not say how {name} is wrong."
        if not how:
            text = f"it is not said how {name} is wrong{f', only by how much: {by}' if by else ''}."
        if by and not how:
            return Finding(
                "how-is-it-wrong", part.mark, text, "Say how it is wrong, or leave out by how much."
            )
        return Finding("how-is-it-wrong", part.mark, text, f"Write one of: {', '.join(HOW)}.")
    return _by(project, part, Harm(HOW[how], name), how, by) if by else Harm(HOW[how], name)


def _by(project: Project, part: Part, harm: Harm, how: str, said: str) -> Harm | Finding:
    """The fault with by how much it is out: of a place, less than nothing where it is too near its edge."""
    minus = how == "out of place" and said.startswith("-")
    nearer = minus or how == TOO_NEAR
    try:
        if harm.fault in TURNED_ROUND:
            raise LengthError(f"what is {harm.fault.value} is out by no length, but “{said}” is given")
        by = parse_length(said.removeprefix("-") if minus else said, project.job.unit)
    except LengthError as fault:
        fix = f"Write how far it is out: {part.mark}:{harm.feature}:too wide:1/64; -1/2 is too near the edge."
        return Finding("how-far-out", part.mark, f"{str(fault).rstrip('.')}.", fix)
    if not 0 < by < max(project.dimensions(part)):
        text = f"{harm.feature} cannot be out by {said}."
        return Finding("out-too-far", part.mark, text, "Measure from where it should be, and check the unit.")
    out = replace(harm, by=by)
    return out.turned_nearer() if nearer else out


def _material(project: Project, part: Part, key: str, thick: str) -> Harm | Finding:
    """The sheet that it was cut from, and what that measures where it is not the job's own figure."""
    if key not in project.job.sheets:
        fix = did_you_mean(key, project.job.sheets)
        return Finding("no-such-material", part.mark, f"the job has no material “{key}”.", fix)
    try:
        harm = from_sheet(project, part, key, parse_length(thick, project.job.unit) if thick else None)
    except LengthError as fault:
        fix = f"Write what the caliper reads: {part.mark}:{MADE_OF}:{key}:11/16."
        return Finding("how-thick", part.mark, f"{str(fault).rstrip('.')}.", fix)
    if harm is None:
        planned = show(project.dimensions(part)[2], project.rule).plain
        text = f"{part.mark} cannot be {thick} thick where {planned} is planned."
        return Finding("thick-too-far-off", part.mark, text, "Measure it again, and check the unit.")
    if key == part.material and not harm.by:
        text = f"it is to be made of {key}{f', {thick} thick' if thick else ''}."
        fix = "Name the sheet that it was cut from, or add what that measures: made of:maple:11/16."
        return Finding("material-as-planned", part.mark, text, fix)
    return harm


def _other_part(project: Project, part: Part, mark: str) -> Harm | Finding:
    """The other part that it was made as."""
    other = project.parts.get(mark)
    if other is None or other is part:
        text = f"it cannot have been made as “{mark}”."
        others = [one for one in project.parts if one != part.mark]
        return Finding("made-as-no-other", part.mark, text, did_you_mean(mark, others))
    material = other.material if other.material != part.material else ""
    return Harm(HarmKind.MADE_AS, material=material, other=mark)


def _damage(project: Project, part: Part, rest: Sequence[str]) -> Harm | Finding:
    where, size = (*rest, "", "")[:2]
    side = SIDE.get(where.partition(" ")[0])
    if side is None:
        text = f"“{where}” does not say where it is damaged."
        fix = "Write front, rear, left, right, upper or lower, and edge, end or face."
        return Finding("where-is-it-damaged", part.mark, text, fix)
    if not size:
        return Harm(HarmKind.DAMAGE, side=side)
    pair = re.split(r"\s*[x×]\s*", size)
    try:
        if len(pair) != 2:
            raise LengthError(f"{size!r} is not a length and a depth")
        long, deep = (parse_length(one, project.job.unit) for one in pair)
    except LengthError as fault:
        fix = f"Write how long and how deep the damage is: {part.mark}:{where}:2 x 1/4."
        return Finding("damage-size", part.mark, f"{str(fault).rstrip('.')}.", fix)
    across = project.sizes.of(part.size(side.axis))
    if min(long, deep) <= 0 or deep >= across:
        words = project.printed(across)
        text = f"a damage {size} does not lie within the part, which is {words} from that side to the other."
        fix = "Write its length along the side that you named, then how deep it goes in from there."
        return Finding("damage-off-the-part", part.mark, text, fix)
    return Harm(HarmKind.DAMAGE, side=side, long=long, deep=deep)


def against_each_other(mark: str, harms: Sequence[Harm]) -> Sequence[Finding]:
    """One feature wrong in two ways that cannot both be; it may be out of place, too wide and too deep."""
    for one in harms:
        same = [other for other in harms if other.feature == one.feature and other is not one]
        others = [other for other in same if any({one.fault, other.fault} <= kind for kind in ONE_OF_EACH)]
        if one.feature and others:
            text = f"{one.feature} is reported as {one.fault.value} and as {others[0].fault.value}."
            return (Finding("wrong-in-two-ways", mark, text, "Say how it is wrong once."),)
    return ()


def left_out_of_nothing(part: Part, harms: Sequence[Harm], glued: Collection[str]) -> Sequence[Finding]:
    """A part that was not in when its case was glued, though its case is none of the `glued` ones."""
    if part.case in glued or not any(harm.fault is HarmKind.LEFT_OUT for harm in harms):
        return ()
    text = (
        f"it is reported as not in when {part.case} was glued, but {part.case} is not reported as glued up."
    )
    fix = f"Say that {part.case} is glued up as well; before that nothing is wrong, for it can still go in."
    return (Finding("not-glued", part.mark, text, fix),)


def plain_and_alike(
    project: Project, part: Part, harms: Sequence[Harm], begun: Collection[str]
) -> Sequence[Finding]:
    """Two parts mixed up that are of one size, while nothing is said to be cut into this one."""
    other = made_as(project, harms)
    alike = other and project.dimensions(other) == project.dimensions(part)
    if other is None or begun or not alike or other.material != part.material:
        return ()
    text = f"{part.mark} and {other.mark} have the same size, and nothing is said to be cut into {part.mark}."
    fix = (
        "Say what is cut into it, if anything is; if not, nothing is wrong but the labels: change them over."
    )
    return (Finding("mixed-up-alike", part.mark, text, fix),)
