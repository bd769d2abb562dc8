"""How each made size comes out and errs, in one way of working."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from fractions import Fraction

from ...casework.project import Project
from ...casework.size_names import thickness_of
from ...sizes.affine import Affine, size, total
from ..chains.gaps import Gap
from ..chains.made_sizes import BY_RULE, HowMade, MadeSize, SizeKind, far_edge_name
from .causes import Cause, CauseKind, Errors, add, causes_of, deviation, lot_cause, sled_angle
from .followed_size import UNMOVED, FollowedError, along, follow
from .rounded_size import rounded
from .shared_rounding import SharedRounding
from .way_of_working import Method


class _WorkedOut(dict[str, Fraction]):
    """Sizes by name, each worked out when it is first asked for."""

    def __init__(self, work_out: Callable[[str], Fraction]) -> None:
        super().__init__()
        self._work_out = work_out

    def __missing__(self, name: str) -> Fraction:
        value = self[name] = self._work_out(name)
        return value


class ErrorModel:
    """The made sizes of a job as one way of working makes them.

    Sizes are cut to the plan's numbers, so two sizes err together only through a cause they
    share. Where `method` measures a size first, what follows from it follows its error too;
    where it fits a size, that size takes up the errors of all others in its gap.

    `facts` are sizes known as they are, each with the deviation of its reading. `gaps` must
    hold every gap that the method fits a size to. `rounding` is that of an earlier model whose
    gaps are held against this one's. Results are kept, so use one model for many gaps.
    """

    def __init__(
        self,
        project: Project,
        made: Mapping[str, MadeSize],
        gaps: Mapping[str, Gap],
        method: Method,
        facts: Mapping[str, float] | None = None,
        rounding: SharedRounding | None = None,
    ) -> None:
        self.project = project
        self.method = method
        self.deviations = project.job.shop.deviations
        self.facts = facts or {}
        self.rounding = SharedRounding(rounding)
        self._made = made
        self._gaps = gaps
        self._near = {far_edge_name(place): place for place in method.moved}
        self._far = {far_edge_name(place): self._from_far_edge(made[place]) for place in method.moved}
        self._errors: dict[str, Errors] = {}
        self._means = _WorkedOut(self._mean)
        self._planned = _WorkedOut(self.planned)
        self._planned_errors: dict[str, FollowedError] = {}

    def form(self, gap: Gap) -> Affine:
        """The gap's form, with channels located from the edges this way of working uses."""
        moved = [name for name in gap.form.names if name in self.method.moved]
        if not moved:
            return gap.form
        # The place from the near edge is what is left of the part.
        return gap.form.substitute(
            {place: _span(self.project, self._made[place]) - size(far_edge_name(place)) for place in moved}
        )

    def mean(self, name: str) -> Fraction:
        """What a size comes out as on average, in inches: the number the saw is set to.

        A size that follows a measured one is rounded too, to marks not yet known.
        """
        return self._means[name]

    def error(self, name: str) -> Errors:
        """How a size errs about its mean; empty for a size nobody makes."""
        known = self._errors.get(name)
        if known is None:
            known = self._errors[name] = self._error(name)
        return known

    def mean_of(self, form: Affine) -> Fraction:
        """The mean of a form over made sizes."""
        return form.value(self._means)

    def nominal_of(self, form: Affine) -> Fraction:
        """A form over made sizes as the exact plan has them."""
        return form.value(self._planned)

    def error_of(self, terms: Iterable[tuple[str, Fraction]]) -> dict[Cause, float]:
        """The error of a sum over made sizes."""
        found: dict[Cause, float] = {}
        for name, k in terms:
            add(found, self.error(name), float(k))
        return found

    def _mean(self, name: str) -> Fraction:
        made = self._find(name)
        if made is None:
            return self.project.sizes.of(name)
        if name in self.method.fitted:
            gap = self._gaps[self.method.fitted[name].gap]
            form = self.form(gap)
            rest = total(k * size(other) for other, k in form.terms if other != name) + form.constant
            short = Fraction(self.deviations.fitted)
            return (self.project.sizes.of(gap.aim) + short - self.mean_of(rest)) / form.coefficient(name)
        planned = self.planned(name)
        if name in self.facts:
            return planned
        if name in self.method.tried:
            return self.project.sizes.of(thickness_of(made.gauge)) + self.method.tried[name]
        if not self._has_number(made):
            return planned
        following = self._planned_error(name)
        if following:
            step = self.project.job.mark.step
            return Fraction(rounded(planned, deviation(following.smooth), step).mean)
        known = name in self.project.sizes.values
        return self.project.set_to(name) if known else self.project.rule.number(planned)

    def _has_number(self, made: MadeSize) -> bool:
        """Whether a size is set by the rule; what is gauged from the stock is not."""
        return made.how in BY_RULE

    def planned(self, name: str) -> Fraction:
        """What the exact plan asks for, before any rounding; zero for a line's error."""
        if name in self._far:
            place = self._near[name]
            return self.project.sizes.of(_span(self.project, self._made[place]) - size(place))
        return self.project.sizes.values.get(name, Fraction(0))

    def _error(self, name: str) -> Errors:
        if name in self.facts:
            return {Cause(CauseKind.READING, name, self.facts[name]): 1.0}
        made = self._find(name)
        if made is None:
            errors = dict(self._input_error(name))
            # What a filler takes of the opening is not made, but follows what was measured.
            add(errors, self._planned_error(name).whole(), 1.0)
            return errors
        if name in self.method.fitted:
            found: dict[Cause, float] = {Cause(CauseKind.FITTED, name, self.deviations.fitted): 1.0}
            fitted = self.method.fitted[name]
            form = self.form(self._gaps[fitted.gap])
            own = form.coefficient(name)
            others = [(other, -k / own) for other, k in form.terms if other != name]
            add(found, self.error_of(others), 1.0)
            return found
        found = dict.fromkeys(self._own(made), 1.0)
        if angle := sled_angle(made, self.project, self.method):
            found[angle[0]] = angle[1]
        following = UNMOVED if made.kind is SizeKind.THICKNESS else self._planned_error(name)
        if not following:
            return found
        if not self._has_number(made):
            add(found, following.whole(), 1.0)
            return found
        planned = self.planned(name)
        add(found, following.stepped, 1.0)
        step = self.project.job.mark.step
        add(found, self.rounding.on_marks(planned, following.smooth, step), 1.0)
        return found

    def _planned_error(self, name: str) -> FollowedError:
        """How the plan's own number for a size errs, where it follows measurements."""
        known = self._planned_errors.get(name)
        if known is None:
            known = self._planned_errors[name] = self._follow(name)
        return known

    def _follow(self, name: str) -> FollowedError:
        made = self._find(name)
        if not self.method.measured or (made is not None and made.part not in self.method.follow):
            return UNMOVED
        if name in self._far:
            place = self._near[name]
            span = _span(self.project, self._made[place]) - size(place)
            return along(span.terms, {other: self._planned_error(other) for other in span.names})
        entry = self.project.sizes.ledger.get(name)
        if entry is None:
            return UNMOVED
        believed = {needed: self._believed(needed) for needed in entry.definition.needs()}
        step = self.project.job.mark.step
        return follow(self.project.sizes, name, believed, step, self.rounding)

    def _believed(self, name: str) -> FollowedError:
        """How a size errs as the maker believes it to be: as measured, or as planned."""
        if name not in self.method.measured:
            return self._planned_error(name)
        reading = self.deviations.reading(self.method.measured[name])
        return FollowedError({**self.error(name), self._reading(name, reading): 1.0}, {})

    def _reading(self, what: str, deviation: float) -> Cause:
        return Cause(CauseKind.READING, what, deviation)

    def _input_error(self, name: str) -> Errors:
        """An input errs only where it stands for something real: a sheet's thickness."""
        sheet = self.project.sheet_called(name)
        if sheet is None:
            return {}
        return {lot_cause(sheet, self.deviations): 1.0}

    def _find(self, name: str) -> MadeSize | None:
        return self._far.get(name) or self._made.get(name)

    def _from_far_edge(self, made: MadeSize) -> MadeSize:
        # No strip lies behind a channel that is laid off from its other edge: the scale sets it.
        setting = f"{made.setting} from the far edge"
        return replace(made, name=far_edge_name(made.name), how=HowMade.FENCE, setting=setting, gauge="")

    def _own(self, made: MadeSize) -> tuple[Cause, ...]:
        """What makes a size err; where the stock was measured, the reading takes the place of its lot."""
        return tuple(self._known(cause) for cause in causes_of(made, self.project, self.method))

    def _known(self, cause: Cause) -> Cause:
        measured = thickness_of(cause.what).name
        if cause.kind is CauseKind.LOT and measured in self.facts:
            return self._reading(measured, self.facts[measured])
        return cause


def _span(project: Project, made: MadeSize) -> Affine:
    """What a channel's two places, from either edge, add up to."""
    part = project.parts[made.part]
    channel = part.feature(made.feature).channel
    assert channel is not None, f"{made.name} is a place of a channel"
    return part.size(channel.edge.axis) - channel.width
