"""What readings do to the joints, in words: the doubt first, then what closes with it and without it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ...casework.project import Project
from ...findings import Finding
from ...lengths.in_a_sentence import listed
from ...tolerance.as_built.cures import find_cures, gaps_out_of_range
from ...tolerance.as_built.readings import AsBuilt, fit_as_built
from ...tolerance.outcomes.gap_spread import Fit
from ...tolerance.tolerance_wording import cure_sentence, gap_off_text, merge_alike_cures, rule_text
from ...workshop.assembly.frame_sums import moved_rails

CLOSES = "everything still closes"
OPENS = "this no longer closes"


@dataclass(frozen=True)
class SaidOfJoints:
    """One statement about the job as built, and the joints it speaks of: those that no longer close."""

    said: str
    joints: tuple[str, ...]


@dataclass(frozen=True)
class ClosingAsBuilt:
    """What readings break, and what would mend it.

    `findings` are about the readings and come first; `doubted` are the sizes whose reading is in doubt.
    `broken` are the joints that no longer close with all readings, `without` those that do not without the
    doubted ones. `follow` says to what the rails of face frames are cut now, which wait for the cases they
    cover. `worked` counts the gaps recalculated.
    """

    findings: tuple[Finding, ...]
    doubted: tuple[str, ...]
    broken: tuple[str, ...]
    without: tuple[str, ...]
    cures: tuple[str, ...]
    follow: tuple[str, ...]
    worked: int

    @property
    def verdicts(self) -> tuple[SaidOfJoints, ...]:
        """What is said of the joints: once, or with the doubted readings and without them."""
        if not self.doubted:
            return (_verdict("", self.broken),)
        if self.broken == self.without:
            return (_verdict(f"with {self._these} and without, ", self.broken),)
        are = "is" if len(self.doubted) == 1 else "are"
        return (
            _verdict(f"if {self._these} {are} right, ", self.broken),
            _verdict("if not, ", self.without),
        )

    @property
    def mends(self) -> str:
        """What stands over the cures."""
        if not self.doubted:
            return "Any one of these mends it"
        one = len(self.doubted) == 1
        return f"If {'it is' if one else 'they are'} right, any one of these mends it"

    @property
    def _these(self) -> str:
        few = " and ".join(self.doubted) if len(self.doubted) <= 2 else f"these {len(self.doubted)} sizes"
        return f"the reading{'' if len(self.doubted) == 1 else 's'} of {few}"


def _verdict(begins: str, broken: tuple[str, ...]) -> SaidOfJoints:
    said = f"{begins}{OPENS}:" if broken else f"{begins}{CLOSES}."
    return SaidOfJoints(f"{said[:1].upper()}{said[1:]}", broken)


def closing_as_built(fit: Fit, so_far: AsBuilt) -> ClosingAsBuilt:
    """The plan's `fit` with what is known from the shop, in words."""
    built = fit_as_built(fit, so_far)
    plain = fit_as_built(fit, so_far.without(built.doubted)) if built.doubted else built
    cures = merge_alike_cures(find_cures(built.fit, so_far), fit.project)
    return ClosingAsBuilt(
        built.findings,
        built.doubted,
        _joints(built.fit),
        _joints(plain.fit),
        tuple(cure_sentence(fit.project, cure) for cure in cures),
        tuple(_rails(fit.project, built.fit.project, so_far)),
        built.fit.worked,
    )


def _joints(fit: Fit) -> tuple[str, ...]:
    return tuple(gap_off_text(fit.project, spread) for spread in gaps_out_of_range(fit))


def _rails(planned: Project, built: Project, so_far: AsBuilt) -> Iterator[str]:
    """The rails that are still to cut, where the sides and bottoms behind them came out other than
    planned."""
    for rails in moved_rails(planned, built, {*so_far.cut, *so_far.names()}):
        long, by = rule_text(planned, rails.length), rule_text(planned, rails.by)
        way = "longer" if rails.longer else "shorter"
        yield f"Cut {listed(rails.marks)} {long} long, {by} {way} than planned."
