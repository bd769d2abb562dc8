"""Where the outcomes of a gap change, by its role: what goes in by hand, what a clamp draws, what must be
eased.

Each figure has its source beside it. The grades are those of the casework standards; everything else is
common practice and judgement without a source. Limits are forms over the ledger, so a play that the maker
changes moves its own limits.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ...casework.build.meetings import Mate, Meeting
from ...casework.job import Grade
from ...casework.parts.part import Role
from ...casework.project import DrawnRun, Project
from ...shop.slides import SlideKind
from ...shop.thickness_levels import thickness_levels
from ...sizes.affine import NOTHING, Affine
from ...sizes.ledger import Sizes
from .roles import GapRole, Sight, lies_in_it

TAPPED_IN = Fraction(4, 1000)
SANDED_IN = Fraction(20, 1000)
"""A panel so much too thick for its dado is tapped in, or its end is sanded; beyond, the dado is cut once
more (common practice, no source)."""

THICKEST = Fraction(85, 100)
"""The thickest of three places is so many deviations above the mean: 0.846 is the mean of the greatest of
three normal values (order statistics; from memory, and worked out anew in the tests)."""

OPEN_JOINT = {
    Grade.PREMIUM: Fraction(16, 1000),
    Grade.CUSTOM: Fraction(31, 1000),
    Grade.ECONOMY: Fraction(47, 1000),
}
"""The gap of a wood joint that a grade allows in sight: ANSI/AWI 0620-2024, 3.4.1.1(c)."""

STEP = {
    Grade.PREMIUM: Fraction(12, 1000),
    Grade.CUSTOM: Fraction(25, 1000),
    Grade.ECONOMY: Fraction(31, 1000),
}
"""Flushness, installed, of flat wood: AWS ed. 1 (2009), 6.1.21.1.1, custom and premium; economy is the
gap's own 1/32 (common practice, no source)."""

LEAN = {Grade.PREMIUM: Fraction(1, 32), Grade.CUSTOM: Fraction(1, 16), Grade.ECONOMY: Fraction(3, 32)}
"""A lean or slope over the length of a part that the eye finds (common practice, no source)."""

REVEAL = {Grade.PREMIUM: Fraction(1, 32), Grade.CUSTOM: Fraction(1, 16), Grade.ECONOMY: Fraction(3, 32)}
"""By how much the gap beside a front may be off: the figures of AWI's grades, through a trade page."""

ADJUSTED = Fraction(2) / Fraction("25.4")
"""By how much the screws of a hinge or of a drawer front move it: 2 mm (common practice, no source)."""

RUBS = Fraction(1, 32)
"""Inches of gap that an inset front needs at least, so that it does not rub (common practice, no source)."""

RUNS = {
    SlideKind.SIDE: Fraction(1, 32),
    SlideKind.UNDER: Fraction(1, 32),
    SlideKind.CENTER: Fraction(3, 32),
}
"""Inches, both sides together, that a drawer box may be wider or narrower than its slides want. Side mount:
slide catalogues allow 0 to 1/32 in more than 1/2 in at each side (from memory), and a slide factory's page
has 13 mm a side, where 12.5 binds and 13.5 shakes. Under mount: pages in inches and in millimetres lie 0.7 mm
apart. Center mount: half of the 3/16 in that such drawers are narrower than the opening (from memory, with
little confidence)."""

RUNS_WHY = {
    SlideKind.SIDE: "runs freely and does not shake on its slides (slide catalogues and a factory's page)",
    SlideKind.UNDER: "goes on its slides and does not shake (makers' pages, 0.7 mm apart)",
    SlideKind.CENTER: "clears both sides of its opening (common practice, no source)",
}

BY_HAND, BY_CLAMP = 15.0, 300.0
"""Pounds that a hand presses and that one bar clamp draws (common practice, no source)."""
UNFELT, LEFT_OPEN = Fraction(1, 64), Fraction(1, 32)
"""An end so much too long goes home without being noticed, or leaves its neighbour so little open that glue
bridges it, however stiff the panels (common practice, no source)."""

PLANED = Fraction(1, 32)
CAULKED = Fraction(1, 8)
FILLER_LEAST = Fraction(1, 2)


@dataclass(frozen=True, slots=True)
class GapLimits:
    """Where the outcome changes, as forms over the ledger in inches; None where it never does.

    Below `again_low` a part is cut again, below `ease` an end is eased, below `hand` a clamp draws it
    together; above `ease_high` a pin is shimmed, above `again_high` a part is cut again. Below `shown_low`
    and above `shown_high` it shows. `reason` says in words what is wanted.
    """

    reason: str
    again_low: Affine | None = None
    ease: Affine | None = None
    hand: Affine | None = None
    ease_high: Affine | None = None
    again_high: Affine | None = None
    shown_low: Affine | None = None
    shown_high: Affine | None = None

    @property
    def forms(self) -> tuple[Affine, ...]:
        """Every limit there is."""
        every = (
            self.again_low,
            self.ease,
            self.hand,
            self.ease_high,
            self.again_high,
            self.shown_low,
            self.shown_high,
        )
        return tuple(one for one in every if one is not None)


def gap_limits(project: Project, mate: Mate, role: GapRole, sight: Sight, stiffness: float) -> GapLimits:
    """The limits of the gap at `mate`; `stiffness` is what an end meets with, in pounds an inch."""
    grade = project.job.grade
    seen = sight is Sight.EXPOSED
    if role is GapRole.OWN_DADO:
        thickest = Affine(_thickest(project, mate))
        return GapLimits(
            "goes in by hand at its thickest place, and shows no wide line (common practice, no source)",
            thickest - SANDED_IN,
            thickest - TAPPED_IN,
            thickest,
            shown_high=Affine(OPEN_JOINT[grade]) if seen else None,
        )
    if role is GapRole.END:
        return _end(project, mate, seen, stiffness)
    if role is GapRole.LEAN:
        return _shown_beyond(LEAN[grade], "leans so little that nobody sees it (common practice, no source)")
    if role is GapRole.STEP:
        reason = "flush at the front within the grade (AWS ed. 1, 2009, 6.1.21.1.1)"
        return _shown_beyond(STEP[grade] + _slack(project, mate), reason)
    if role is GapRole.BACK_PLAY:
        reason = "slides in without force, and laps its channels by half (common practice, no source)"
        return GapLimits(reason, ease=NOTHING, hand=NOTHING, again_high=_laps(project, mate))
    if role is GapRole.OVERHANG:
        return _overhang(project, mate)
    if role is GapRole.SHELF_PLAY:
        return GapLimits(
            "lifts out, and lies on its pins (common practice, no source)",
            ease=NOTHING,
            hand=NOTHING,
            shown_high=mate.gap + CAULKED,
        )
    if role is GapRole.PINS:
        return _shown_beyond(LEAN[grade], "level as far as the eye finds (common practice, no source)")
    if role is GapRole.REVEAL:
        return _reveal(mate, grade)
    if role is GapRole.SLIDE:
        return _slide(project, mate)
    return GapLimits("out of sight, and nothing rests on it (common practice, no source)")


def _reveal(mate: Mate, grade: Grade) -> GapLimits:
    """A front is moved by its screws until its gaps are even; beyond that it shows, or it is planed."""
    reason = "the gap comes even by the screws of hinge or front (AWI's grades, through a trade page)"
    off = REVEAL[grade] + ADJUSTED
    rubs = Affine(RUBS - ADJUSTED) if mate.meeting is Meeting.PLAY else None
    return GapLimits(reason, ease=rubs, hand=rubs, shown_low=mate.gap - off, shown_high=mate.gap + off)


def _slide(project: Project, mate: Mate) -> GapLimits:
    """A box that leaves its slides too little room binds and is planed or cut again; too much is packed."""
    case = project.cases[project.parts[mate.first.part].case]
    pair = {mate.first.part, mate.second.part}
    kind = next(one.on.slide.kind for one in case.drawers if one.on and one.box and pair & set(one.box.marks))
    off = RUNS[kind]
    return GapLimits(RUNS_WHY[kind], None, mate.gap - off, mate.gap - off, mate.gap + off)


ROCKS = Fraction(1, 32)
"""A shelf whose four pins are so far out of one plane rocks, and a pin is shimmed (common practice, no
source)."""


def rock_limits() -> GapLimits:
    """The limits of how far four pins may be out of one plane."""
    reason = "lies still on its four pins (common practice, no source)"
    return GapLimits(reason, ease=Affine(-ROCKS), hand=Affine(-ROCKS), ease_high=Affine(ROCKS))


def _slack(project: Project, mate: Mate) -> Affine:
    """What the play of its groove takes up, before a part has to slide for the back."""
    case = project.cases[project.parts[mate.first.part].case]
    pair = {mate.first.part, mate.second.part}
    slips = (one for one in case.mates if one.meeting is Meeting.SLIP and one.axis is mate.axis)
    return next((one.gap for one in slips if {one.first.part, one.second.part} == pair), NOTHING)


def _shown_beyond(limit: Affine | Fraction, reason: str) -> GapLimits:
    return GapLimits(reason, shown_low=NOTHING - limit, shown_high=NOTHING + limit)


def _end(project: Project, mate: Mate, seen: bool, stiffness: float) -> GapLimits:
    """An end that stops at a face or floor: too long it bends what it meets, too short it stays open."""
    grade = project.job.grade
    if not stiffness:
        # Nothing holds the panels on both sides of it: they lean until it is home.
        return _shown_beyond(
            LEAN[grade], "goes home as the case leans by a hair (common practice, no source)"
        )
    by_hand = max(Fraction(BY_HAND / stiffness), UNFELT)
    by_clamp = max(Fraction(BY_CLAMP / stiffness), LEFT_OPEN)
    engaged = _half_the_dado(project, mate)
    return GapLimits(
        "hands or a clamp press it home, and the joint stays closed in sight (ANSI/AWI 0620-2024, 3.4.1.1)",
        None,
        Affine(-by_clamp),
        Affine(-by_hand),
        again_high=None if engaged is None else Affine(max(engaged, by_clamp)),
        shown_high=Affine(max(OPEN_JOINT[grade], by_clamp)) if seen else None,
    )


def _overhang(project: Project, mate: Mate) -> GapLimits:
    """A back or toe kick that stands out is planed; one that is shy does no harm."""
    reason = "stands out by no more than a few strokes of a plane take off (common practice, no source)"
    outwards = -1  # too tall for its place
    if mate.meeting is Meeting.FLUSH:
        outwards = mate.first.looks.sign
        if project.parts[mate.first.part].role is Role.BACK:
            outwards = -outwards
    if outwards > 0:
        return GapLimits(reason, ease_high=Affine(PLANED))
    return GapLimits(reason, ease=Affine(-PLANED), hand=Affine(-PLANED))


def _laps(project: Project, mate: Mate) -> Affine | None:
    """How much play a centred back may have, both sides together: that which is drawn, and a channel's depth
    more. It then laps by half, but for the play that it was meant to have."""
    for surface in (mate.first, mate.second):
        for channel in project.parts[surface.part].channels:
            if channel.face.axis is mate.axis and surface.at == channel.floor(project.parts[surface.part]):
                return channel.depth + mate.gap
    return None


def _half_the_dado(project: Project, mate: Mate) -> Fraction | None:
    """Half the depth of the channel that an end goes into; None where it stops at a face."""
    for surface in (mate.first, mate.second):
        part = project.parts[surface.part]
        for channel in part.channels:
            if channel.face.axis is mate.axis and surface.at == channel.floor(part):
                return project.sizes.of(channel.depth) / 2
    return None


def _thickest(project: Project, mate: Mate) -> Fraction:
    """How much a panel's thickest place stands above its mean."""
    panel = lies_in_it(project, mate)
    assert panel is not None, f"{mate.name} is a panel in a channel"
    sheet = project.job.sheets[panel.material]
    levels = thickness_levels(sheet, project.job.shop.deviations)
    return THICKEST * Fraction(levels.places)


def spare_limits(drawn: DrawnRun, sizes: Sizes) -> GapLimits:
    """What may be left over beside a run: fillers give way, an open end keeps its own gap.

    A filler may be planed down to half an inch in sight, or shown wider by its scribe. An open
    end may close to nothing, or open to what a line of caulk covers.
    """
    low, high = NOTHING, NOTHING
    for end, filler in ((drawn.left, drawn.run.left), (drawn.right, drawn.run.right)):
        low = low - end
        if filler:
            low = low + min(FILLER_LEAST, sizes.of(end))
            high = high + filler.scribe
        else:
            high = high + CAULKED
    reason = "goes in, and filler or caulk covers the rest (common practice, no source)"
    return GapLimits(reason, ease=low, hand=low, shown_high=high)
