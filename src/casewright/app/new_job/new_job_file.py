"""A job file to begin with: commented, and clean when checked."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

import tomlkit

from ...errors import JobError
from ...findings import Finding, refusals
from ...jobfile.catalogue import FirstCases, packaged_catalogue
from ...jobfile.write.literals import length_literal
from ...lengths.fractions_text import quoted
from ...lengths.length import Unit, parse_length
from ..jobs.worked_job import WorkedJob, open_job

# The sheet goods it begins with, by their names in the shop's list: for cases, and for backs.
SHEETS = {
    Unit.INCH: ("hardwood ply 3/4", "hardwood ply 1/4", "pin jig"),
    Unit.MM: ("birch ply 18", "birch ply 6.5", "32 mm jig"),
}


@dataclass(frozen=True)
class Wish:
    """What a new job is to contain. `opening` is the text as typed."""

    name: str
    unit: Unit
    opening: str
    kind: str = "base"
    cases: int | None = None


@dataclass(frozen=True)
class JobDraft:
    """The text of a new job file with what there is to say of it."""

    text: str
    worked: WorkedJob


def new_job(wish: Wish) -> JobDraft:
    """A job file with one run that fills the opening in cases of equal width.

    Raises LengthError when the opening is no length, JobError when no cases can fill it.
    """
    if wish.name != wish.name.encode("utf-8", "ignore").decode():
        said = f"{quoted(wish.name)} is not UTF-8 text."
        raise JobError((Finding("bad-name", "name", said, "Enter a name in readable characters."),))
    opening = parse_length(wish.opening, wish.unit)
    if opening <= 0:
        finding = Finding(
            "not-positive",
            "opening",
            f"“{wish.opening}” is not a width.",
            "Enter a length greater than zero.",
        )
        raise JobError((finding,))
    number = wish.cases or _first(wish).fewest(opening)
    written = _text(wish, opening, number)
    worked = open_job(written)
    if refusals(worked.all_findings):
        unnamed = next((finding for finding in worked.all_findings if finding.place == "job"), None)
        raise JobError((_not_a_name(unnamed) if unnamed else _too_narrow(wish, opening, number),))
    return JobDraft(written, worked)


def _first(wish: Wish) -> FirstCases:
    return packaged_catalogue().practice[wish.unit].first_cases


def _not_a_name(finding: Finding) -> Finding:
    """What the check says of the job's name, said of the name that was asked for."""
    return replace(finding, place="name", line=None, column=None)


def _too_narrow(wish: Wish, opening: Fraction, number: int) -> Finding:
    """One refusal in the maker's terms: a file that was not written has no line to name."""
    cases = "one case" if number == 1 else f"{number} cases"
    said = f"“{wish.opening}” is too narrow for {cases} of kind {wish.kind}."
    enough = _first(wish).most(opening)
    fix = f"Ask for {enough} or fewer." if enough < number else "Measure the opening again."
    return Finding("opening-too-narrow", "opening", said, fix)


def _text(wish: Wish, opening: Fraction, number: int) -> str:
    case, back, jig = SHEETS[wish.unit]
    first = _first(wish)
    filler, scribe = (_written(length_literal(size, wish.unit)) for size in (first.filler, first.scribe))
    blocks = [
        _HEAD.format(
            name=_written(wish.name),
            unit=_written(wish.unit.value),
            example='27.375, "27 3/8", "3\' 5 1/4" or "695 mm"'
            if wish.unit is Unit.INCH
            else '695, 695.5, "69.5 cm" or "27 3/8 in"',
            case=_written(case),
            back=_written(back),
            readings="0.712, 0.709, 0.710" if wish.unit is Unit.INCH else "17.8, 17.9, 17.75",
            jig=_written(jig),
            piece=(40, 20) if wish.unit is Unit.INCH else (1000, 500),
        ),
        _RUN.format(
            opening=_written(length_literal(opening, wish.unit)),
            filler=f"left_filler = {{ width = {filler}, scribe = {scribe} }}\n"
            if opening > first.filler_from
            else "",
        ),
    ]
    blocks += [
        _CASE.format(mark=f"{wish.kind[0].upper()}{count}", kind=wish.kind) for count in range(1, number + 1)
    ]
    return "\n".join(blocks)


def _written(value: str | float) -> str:
    return str(tomlkit.item(value).as_string())


_HEAD = """\
# A job for casewright. Lengths are written as you say them: {example}.
# `casewright check` tells what is wrong here, `casewright packet` writes what the bench needs.

job = {name}
unit = {unit}

# The sheet goods, each under a short key. Measure your own sheets with a caliper and put the
# readings here: dados are cut to them, not to the name on the ticket.

[materials.panel]
sheet = {case}
# readings = [{readings}]
# price = 0

[materials.back]
sheet = {back}

# What cases are made of. What is not named (shelf, strip, toe) is made of the case's material.

[made_of]
case = "panel"
back = "back"

# How cases are put together. Every line may be left out, set here for the whole job, in a table
# [base], [wall], [tall] or [open] for one kind, or in a case for that one alone.

[construction]
back = "groove"    # or "rabbet", "applied", "none"
toe = "notch"      # or "plinth", "none"

[shop.pin_jig]
use = {jig}

# Pieces on the rack are used before a sheet is bought:
#
# [[shop.rack]]
# name = "behind the door"
# material = "panel"
# length = {piece[0]}
# width = {piece[1]}
"""
_RUN = """\
# Cases side by side along a wall. A case without a width takes its share of what is left.

[[runs]]
name = "first run"
opening = {opening}
{filler}"""
_CASE = """\
[[runs.cases]]
mark = "{mark}"
kind = "{kind}"
bays = [{{ adjustable = 1 }}]
"""
