"""The cautions at the front of the packet. They replace no manual, rule or licence."""

from __future__ import annotations

from dataclasses import dataclass

from ...lengths.length import Unit
from ...lengths.quantities import weighed
from ...strength.usual_lifts import SHEET_OFF_TRESTLES, limit_off_trestles


@dataclass(frozen=True)
class FrontCaution:
    """One danger: what it is, what to do about it, and the source of its figures."""

    title: str
    text: str
    source: str = ""


FIRST = (
    "This packet says where to cut, not how to cut safely. Your machines' manuals, the rules where you "
    "work, and people licensed for wiring, plumbing and building come first. Where they differ from "
    "this packet, follow them."
)

TRESTLES = limit_off_trestles()

CAUTIONS = (
    FrontCaution(
        "Kickback",
        "Keep the riving knife or spreader on for every through cut. Keep the piece flat and against the "
        "fence, stand out of its line, and never let an offcut be trapped between blade and fence. Do not "
        "use fence and mitre gauge together on a through cut. Do not cut freehand.",
        "common practice; your saw's manual",
    ),
    FrontCaution(
        "Narrow and short pieces",
        "Use a push stick or push block whenever a hand would come near the blade: one shop manual says for "
        "every rip narrower than 6 in (150 mm). Cut small parts from a piece large enough to hold, or clamp "
        "them to a sled.",
        "shop safety manuals; your saw's manual",
    ),
    FrontCaution(
        "Dado stack, rabbets and grooves",
        "The usual guard and splitter come off for these cuts, so put something in their place: "
        "featherboards, a guard over the fence, push blocks. Refit the guard and splitter as "
        "soon as these cuts are done. Check that your saw is made for a dado stack and that the arbor nut "
        "is fully threaded on.",
        "California Code of Regulations, title 8, section 4296; OSHA 29 CFR 1910.213",
    ),
    FrontCaution(
        "Hand-held saw and full sheets",
        "Support both sides of the cut so that nothing falls or closes on the blade. Clamp the "
        "straightedge. Set the blade just deeper than the sheet. Unplug before you change a blade or "
        "cutter on any machine.",
        "common practice; your saw's manual",
    ),
    FrontCaution(
        "Dust",
        "Wood and MDF dust harms lungs and can burn. Collect it at the machine and wear a fitted "
        "respirator. OSHA's limits for nuisance dust over 8 hours are 15 mg/m³ total and 5 mg/m³ "
        "respirable; NIOSH recommends no more than 1 mg/m³ of wood dust. Other countries set their own.",
        "29 CFR 1910.1000 table Z-3; NIOSH recommended exposure limit for wood dust",
    ),
    FrontCaution(
        "Lifting",
        "The revised NIOSH equation starts from 51 lb (23 kg) for one person in the best posture and goes "
        "down with reach, height and twist: for a sheet lifted off trestles, held "
        f"{SHEET_OFF_TRESTLES.out} in in front of you, it gives {weighed(TRESTLES.one, Unit.INCH)}, and "
        f"{weighed(TRESTLES.two, Unit.INCH)} for two. The plan keeps to your own limit, or to the equation’s "
        "for a piece on edge. A full sheet or a case is often more: cut it down, use a cart, or get help.",
        "NIOSH, Applications Manual for the Revised Lifting Equation, 94-110",
    ),
    FrontCaution(
        "Hanging and anchoring",
        "Fix wall cases through the mounting strip into studs or into anchors rated for the load, never "
        "through the back alone. Look for wires and pipes first. Fix what stands to the wall as its step "
        "says, before anything in it is opened. Ask a licensed person where the structure, wiring, gas or "
        "water is in doubt.",
        "common practice; local building rules",
    ),
    FrontCaution(
        "Eyes, ears, blades",
        "Wear eye and hearing protection. Do not wear gloves at a turning blade or bit. Measure, change "
        "settings and clear offcuts only when the machine has stopped.",
        "common practice",
    ),
)
