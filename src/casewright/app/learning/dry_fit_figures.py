"""How the shop's dry fits went in words, and the edits that let a job's predictions go by them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from ...jobfile.write.literals import inline_table, tally_entries
from ...shop.dry_fits import DryFitTally
from ...tolerance.learning.dry_fit_record import JoinedHow, RoleRecord
from ...tolerance.outcomes.by_dry_fits import ENOUGH, TALLIED
from ...tolerance.tolerance_wording import share_text
from ..editing.text_edits import SetEntry
from .shop_figures import count_text
from .shop_record import ShopDryFits

_HOW = {JoinedHow.CLAMP: "with a clamp", JoinedHow.EASED: "to ease", JoinedHow.REMADE: "cut again"}


@dataclass(frozen=True)
class DryFitLine:
    """The joints of one role that were tried: predicted, happened, and what to expect from now on.

    `use` names the edit that writes it into the job; it is empty while there is none, and `not_yet` says why.
    """

    role: str
    sentence: str
    use: str = ""
    not_yet: str = ""


@dataclass(frozen=True)
class DryFitFigures:
    """The dry fits of the shop, kind of joint by kind, and the edits that write them into a job file."""

    lines: tuple[DryFitLine, ...]
    edits: Mapping[str, SetEntry]


def dry_fit_figures(fits: ShopDryFits) -> DryFitFigures:
    """What was predicted of the joints tried, beside what happened, role by role."""
    lines = [_line(one) for one in fits.records]
    if fits.gone:
        taps = count_text(fits.gone, "tap")
        lines.append(DryFitLine("joints that their job no longer has", f"{taps} not counted"))
    return DryFitFigures(
        tuple(lines),
        {
            _use(one): SetEntry(
                ("shop", "dry_fits", TALLIED[one.role]), inline_table(tally_entries(_short(one.tally)))
            )
            for one in fits.records
            if one.enough
        },
    )


def _line(record: RoleRecord) -> DryFitLine:
    few = f"too few to change a prediction, which takes {ENOUGH}" if record.role in TALLIED else ""
    return DryFitLine(
        record.role.value,
        _text(record),
        _use(record) if record.enough else "",
        "" if record.enough else few,
    )


def _use(record: RoleRecord) -> str:
    return f"dry fits: {TALLIED[record.role].replace('_', ' ')}"


def _short(tally: DryFitTally) -> DryFitTally:
    a, b, c, d = (round(share, 3) for share in tally.predicted)
    return DryFitTally((a, b, c, d), tally.happened, round(tally.worth, 2))


def _text(record: RoleRecord) -> str:
    said = []
    for how, words in _HOW.items():
        predicted, happened = record.predicted[how], record.happened[how]
        if happened or round(predicted):
            share = f", from now on {share_text(record.share(how))}" if record.enough else ""
            foretold = f"{predicted:.0f}" if round(predicted) else "under 1"
            said.append(f"{words}: predicted {foretold} of {record.joints}, happened {happened}{share}")
    return "; ".join(said) or f"{count_text(record.joints, 'joint')}, all by hand as predicted"
