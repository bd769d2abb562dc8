"""Cautions for each step: what can hurt, and where a piece is poorly supported.

These are the usual cautions, not a course in safety: the machine's manual, local rules and
licensed practice come first. Push sticks below 6 in: one saw's manual; featherboards where the
guard comes off, the spreader put back at once: California Code of Regulations title 8 section
4296, which mirrors 29 CFR 1910.213; dust: the limits OSHA and NIOSH publish for wood dust. How far
a piece may hang over is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

from ...casework.parts.weights import sheet_weight
from ...lengths.length import Rule, show
from ...lengths.quantities import weighed
from ...shop.machines import Carry, Shop, TableSaw
from ..operations import Guide, Machine, Operation, OperationKind
from ..who_lifts import Lifters, over_limit_words, piece_rule, sheet_rule

MANUAL = "Follow your machine's manual and local rules; they take precedence over anything written here."
NARROW = Fraction(6)
THIN_STRIP = Fraction(1, 2)
FREE_OVERHANG = Fraction(12)
LONG_BEYOND = Fraction(48)
"""More than this beyond the cutter, most of it off the table, is more than one maker holds down."""


_ON_THE_SLED = (
    "The guard comes off for this cut: keep both hands on the sled and out of the cutter's line, hold the "
    "piece down and tight to the stop through the whole cut, and put guard and spreader back straight "
    "afterwards."
)


SHORT_EDGE = Fraction(12)
"""Inches of edge along the fence below which a piece turns in front of the cutter. Common practice, no
source."""

_FLAT = "Keep the piece flat on the table and against the fence for the whole cut, or the depth will vary."
_ON_EDGE = (
    "It stands on its edge: against a tall fence, with a featherboard to hold it there for the whole cut, or "
    "the groove will wander."
)
_NOT_ALONE = (
    "Its edge along the fence is short: push it with the miter gauge or the sled and a backer behind it, "
    "never by hand along the fence alone."
)
_DOVETAILS = (
    "With a router: clamp both pieces tight in the jig, keep both hands on the handles, and let the bit stop "
    "before you lift it: lifted while it turns it ruins jig and fingers. With a chisel: clamp the piece, and "
    "keep both hands behind the edge."
)
"""Common practice, no source."""


class Hazard(Enum):
    KICKBACK = "kickback"
    NARROW = "narrow piece"
    GUARD = "guard"
    SUPPORT = "support"
    LIFTING = "lifting"
    DUST = "dust"
    MIRROR = "mirrored part"
    HAND_SAW = "hand-held saw"
    DRILL = "drill"
    TRIMMING = "trimming"
    DOVETAILS = "dovetails"


@dataclass(frozen=True, slots=True)
class Caution:
    """One caution, in a sentence. Of several with the same `about`, a batch gives the one of the greatest
    `degree`: the heaviest piece, the longest overhang. `brief` says it in a few words where a table has no
    room for the sentence; empty where it is the same at every setting."""

    hazard: Hazard
    text: str
    about: str = ""
    degree: float = 0.0
    brief: str = ""


_MILLING = {
    Machine.CROSSCUT_SAW: Caution(
        Hazard.SUPPORT,
        "Support the board on both sides of the cut, so that neither end drops and pinches the blade.",
    ),
    Machine.JOINTER: Caution(
        Hazard.KICKBACK,
        "At the jointer: push blocks, guard over the knives, hands never over or behind them, and nothing "
        "shorter than 12 in (300 mm).",
    ),
    Machine.PLANER: Caution(
        Hazard.KICKBACK,
        "At the planer: stand beside the strip, not behind it, let it catch hold by itself, and feed nothing "
        "shorter than its rollers are apart (about 12 in, 300 mm): leave short parts in one strip.",
    ),
}
"""Where rough boards are milled. Common practice, no source."""


def cautions(
    operation: Operation, shop: Shop, mark: Rule, weight_per_foot: Fraction = Fraction(0)
) -> tuple[Caution, ...]:
    """The cautions for an operation. `weight_per_foot` is the sheet's, in pounds per square foot."""
    found: list[Caution] = []
    machine = operation.setting.machine
    if machine is Machine.TABLE_SAW:
        found += _at_the_saw(operation, mark)
        found += _support(operation, shop, mark, piece_weight(operation, weight_per_foot))
    elif machine is Machine.HAND_SAW:
        text = (
            "Support both sides of the cut, clamp the straightedge, and let the blade stop before "
            "lifting the saw."
        )
        found.append(Caution(Hazard.HAND_SAW, text))
    elif machine is Machine.DRILL:
        found.append(
            Caution(
                Hazard.DRILL,
                "Clamp the piece and set the depth stop, or the bit breaks through the far face.",
            )
        )
    elif operation.kind is OperationKind.FRAME_JOINT:
        found.append(Caution(Hazard.GUARD, _ON_THE_SLED))
    elif operation.kind is OperationKind.DOVETAILS:
        found.append(Caution(Hazard.DOVETAILS, _DOVETAILS))
    elif machine in _MILLING:
        found.append(_MILLING[machine])
    elif operation.kind.edges:
        text = (
            "Trimming flush: clamp the work, keep both hands behind the blade or on the router, and let the "
            "bit stop before you set it down."
        )
        found.append(Caution(Hazard.TRIMMING, text))
    lifting = _lifting(operation, shop.carry, weight_per_foot, mark)
    if lifting:
        found.append(lifting)
    dusty = operation.kind.edges or operation.kind is OperationKind.FLUSH
    at_rest = machine is Machine.BENCH and not dusty
    if not at_rest or operation.kind in (OperationKind.FRAME_JOINT, OperationKind.DOVETAILS):
        found.append(
            Caution(
                Hazard.DUST, "Wood dust harms the lungs: collect it at the cutter, and wear eye protection."
            )
        )
    return tuple(found)


def _at_the_saw(operation: Operation, mark: Rule) -> list[Caution]:
    found: list[Caution] = []
    setting = operation.setting
    housed = operation.kind.is_channel
    if operation.kind.on_sled or operation.kind is OperationKind.FRAME_JOINT:
        return [Caution(Hazard.GUARD, _ON_THE_SLED)]
    if housed:
        text = (
            "The guard comes off for this cut: use featherboards and push blocks, keep your hands clear of "
            "the hidden cutter, and put the guard and spreader back straight afterwards."
        )
        found.append(Caution(Hazard.GUARD, text))
        found.append(Caution(Hazard.SUPPORT, _ON_EDGE if operation.hold.down.endswith("edge") else _FLAT))
        if operation.along < SHORT_EDGE:
            found.append(Caution(Hazard.GUARD, _NOT_ALONE, "short edge"))
    elif setting.guide is not Guide.STOP:
        text = (
            "At the fence: leave spreader and guard on, stand out of line with the piece, and feed it fully "
            "past the blade."
        )
        found.append(Caution(Hazard.KICKBACK, text))
    if setting.guide is Guide.STOP:
        text = (
            "Too short along the fence to be guided by it: use the crosscut sled and a stop, without "
            "the fence. Leave the guard on where the sled lets it, and keep both hands out of the "
            "blade's line."
        )
        found.append(Caution(Hazard.KICKBACK, text))
    elif not housed and setting.distance < THIN_STRIP:
        text = (
            "The strip between blade and fence is thin and can be thrown back: control it with a push block."
        )
        found.append(Caution(Hazard.NARROW, text, brief="thin strip: push block"))
    elif not housed and setting.distance < NARROW:
        width = show(setting.distance, mark, unit=True).marked
        text = f"Only {width} between blade and fence: use a push stick and a push block."
        found.append(Caution(Hazard.NARROW, text, brief="push stick and push block"))
    return found


def hangs_far(operation: Operation, saw: TableSaw) -> bool:
    """Whether what lies beyond the cutter is long and hangs more than half of its length off the table."""
    beyond = operation.across - operation.setting.distance - operation.setting.cutter.width
    return beyond > max(LONG_BEYOND, 2 * saw.table_left)


def _support(operation: Operation, shop: Shop, mark: Rule, pounds: Fraction) -> list[Caution]:
    """Where the table does not support the piece of so many pounds, and by what it is held up there: by a
    stand where one maker carries the piece, by a helper where it takes two or hangs far over."""
    found: list[Caution] = []
    wide, long = operation.across, operation.along
    saw, setting = shop.table_saw, operation.setting
    hangs = wide - setting.distance - saw.table_left
    tips = wide / 2 - setting.distance > saw.table_left
    housed = setting.height is not None
    if tips or hangs > FREE_OVERHANG:
        far = show(hangs, mark, unit=True).marked
        text = f"A piece overhangs the table by {far} on the far side of the blade"
        brief = f"overhangs {far}: "
        if housed and hangs_far(operation, saw):
            text += (
                ": do not run its end over the cutter alone. Have a helper carry the far end through the "
                "whole cut, or lay the piece on trestles and use a router along a clamped straightedge."
            )
            brief += "a helper carries it through"
        elif not tips:
            text += ": support it there."
            brief += "support it"
        elif long < NARROW:
            text += ", more than half of it: set a stand under its far end."
            brief += "stand under its far end"
        elif not hangs_far(operation, saw) and _lifters(operation, shop.carry, pounds).alone:
            text += ", more than half of it: let it slide on a stand or table as high as the saw's."
            brief += "stand or table"
        else:
            text += ", more than half of it: have a helper carry it."
            brief += "a helper carries it"
        found.append(Caution(Hazard.SUPPORT, text, "overhang", float(hangs), brief))
    if long > 2 * saw.table_deep:
        length = show(long, mark, unit=True).marked
        text = f"A piece is {length} long on the table: use an outfeed stand or a helper behind the saw."
        brief = f"{length} long: outfeed stand or helper"
        found.append(Caution(Hazard.SUPPORT, text, "outfeed", float(long), brief))
    return found


def piece_weight(operation: Operation, weight_per_foot: Fraction) -> Fraction:
    """What the piece weighs as it comes to the machine, in pounds."""
    length, width, _ = operation.size
    return sheet_weight(length, width, weight_per_foot)


def _lifters(operation: Operation, carry: Carry, pounds: Fraction) -> Lifters:
    """Who lifts its piece: onto the trestles where it is still the whole sheet, else to the machine."""
    whole = operation.setting.machine is Machine.HAND_SAW and not (operation.after or operation.carried)
    rule = sheet_rule(carry) if whole else piece_rule(carry)
    return rule.lifters(pounds or None, max(operation.size[:2]))


def _lifting(operation: Operation, carry: Carry, weight_per_foot: Fraction, mark: Rule) -> Caution | None:
    """A piece over the limits by which the sheets were planned, and no other limit."""
    pounds, length = piece_weight(operation, weight_per_foot), max(operation.size[:2])
    lifters = _lifters(operation, carry, pounds)
    if operation.kind is OperationKind.DRY_FIT or lifters.alone:
        return None
    if pounds > lifters.limit.one:
        heavy, most = weighed(pounds, mark.unit), over_limit_words(carry, lifters.limit, mark.unit)
        text = f"A piece weighs about {heavy}, over {most}: {lifters.words(mark.unit)}, or slide it."
        return Caution(Hazard.LIFTING, text, "weight", float(pounds))
    long, alone = (show(one, mark, unit=True).marked for one in (length, carry.length))
    text = f"A piece is {long} long; you carry {alone} alone: {lifters.words(mark.unit)}."
    return Caution(Hazard.LIFTING, text, "length", float(length))


def worst_cautions(found: Iterable[Caution]) -> tuple[Caution, ...]:
    """Each caution once; of several about the same thing, the one of the greatest degree."""
    kept: dict[str, Caution] = {}
    for caution in found:
        about = caution.about or caution.text
        if about not in kept or caution.degree > kept[about].degree:
            kept[about] = caution
    return tuple(kept.values())


def mirrored_caution(operations: Iterable[Operation]) -> Caution | None:
    """A batch in which some pieces lead with one edge and some with the other: a mirrored pair. `operations`
    are those on pieces that may not lie either way."""
    leads: dict[str, list[str]] = {}
    for operation in operations:
        if operation.hold.leads:
            leads.setdefault(operation.hold.leads, []).append(operation.piece)
    if len(leads) < 2:
        return None
    each = "; ".join(f"{', '.join(dict.fromkeys(pieces))} {edge} first" for edge, pieces in leads.items())
    return Caution(
        Hazard.MIRROR, f"Mirrored parts on one setting, with the same edge against the fence: {each}."
    )
