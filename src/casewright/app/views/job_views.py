"""What the pages show of a project: sizes with where they come from, parts, cases, runs.

Plain values with lengths already printed on the shop's own rule; every size keeps its name in
the ledger, so that it can be asked where it comes from.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from ...casework.job import Job
from ...casework.parts.features.feature import EDGE_WORDS, Feature
from ...casework.parts.part import Part
from ...casework.printed_sums import explained_sum, in_full, rounding_in
from ...casework.project import Project
from ...casework.size_names import JOB, read_name
from ...lengths.length import show
from ...lengths.quantities import caliper
from ...sizes.affine import Affine
from ...sizes.ledger import Combination, Definition, HowMany, Share, SizeExplanation, explain
from ...workshop.assembly.case_lifts import weight_words
from ...workshop.edging_wording import edged_in_short
from ...workshop.movement_wording import moves_in_short


@dataclass(frozen=True)
class Size:
    """A size as printed. `name` is its name in the ledger, empty when it has none of its own."""

    words: str
    text: str
    name: str = ""


@dataclass(frozen=True)
class Row:
    """One line of a sum: `sign`, how often, what, and how much."""

    sign: str
    times: str
    size: Size


@dataclass(frozen=True)
class Explanation:
    """Why a size is what it is, as a sum on paper. `how` is `sum`, `given`, `greatest`, ...

    For a `share` the sum is what is shared out, `shared` its value, and `share` says which part
    of it this is.

    `used_by` are the sizes worked out from this one directly; `exact` says the length in full
    where the rule's mark rounds it.
    """

    size: Size
    how: str
    share: str
    shared: str
    rows: tuple[Row, ...]
    used_by: tuple[Size, ...]
    exact: str
    sentence: str


@dataclass(frozen=True)
class FeatureView:
    """What is cut into a part, in words a person can set out by, and its sizes."""

    name: str
    words: str
    sizes: tuple[Size, ...]


@dataclass(frozen=True)
class PartView:
    """A part with its three sizes as it is cut; `case` is the mark of its case, `edging` says which edges are
    covered and to what size, and is empty for bare ones; `moves` what solid wood does in the house, and is
    empty for panels."""

    mark: str
    role: str
    case: str
    material: str
    hand: str
    length: Size
    width: Size
    thickness: Size
    features: tuple[FeatureView, ...]
    optional: bool
    edging: str = ""
    moves: str = ""


@dataclass(frozen=True)
class PartInCase:
    """A part by its mark and what it is."""

    mark: str
    role: str


@dataclass(frozen=True)
class CaseView:
    """A case as the elevation shows it, and what it weighs when it is carried, in words."""

    mark: str
    kind: str
    run: int
    index: int
    width: Size
    height: Size
    depth: Size
    others: tuple[Size, ...]
    parts: tuple[PartInCase, ...]
    weight: str


@dataclass(frozen=True)
class RunView:
    """A run: the opening, what is left over, its cases."""

    index: int
    name: str
    opening: Size
    spare: Size
    cases: tuple[CaseView, ...]


class JobView:
    """One project's sizes and parts, printed. KeyError for names it does not have."""

    def __init__(self, project: Project) -> None:
        self.project = project
        self.sizes = project.sizes
        self.job: Job = project.job
        self._parts: dict[str, PartView] = {}

    def text(self, length: Fraction) -> str:
        """A length on the shop's rule, `~` before it where that rounds."""
        return show(length, self.project.rule, gap="\u00a0").marked

    def _in_full(self, length: Fraction) -> str:
        """A length to more places than the rule shows."""
        return caliper(length, self.job.unit, finer=True)

    def named(self, name: str) -> Size:
        """The size called `name` in the ledger."""
        return Size(self.sizes.ledger[name].words, self._value(name), name)

    def explained(self, name: str) -> Explanation:
        """One level of why a size is what it is."""
        told = explain(self.sizes, name)
        definition = self.sizes.ledger[name].definition
        if isinstance(definition, Share):
            rows = self._rows(definition.whole)
        elif isinstance(definition, Combination):
            rows = self._rows(definition.form)
        else:
            rows = [Row("+", "", self.named(needed)) for needed in definition.needs()]
        shown = self._value(name)
        return Explanation(
            self.named(name),
            told.how,
            self._share(definition) if isinstance(definition, Share) else "",
            self.text(self.sizes.of(definition.whole)) if isinstance(definition, Share) else "",
            (*rows, *self._rounding(definition, told)),
            tuple(self.named(user) for user in self.sizes.ledger.users_of(name)),
            self._in_full(told.value) if shown.startswith("~") else "",
            explained_sum(self.project, told, self.text),
        )

    def _rounding(self, definition: Definition, told: SizeExplanation) -> Iterator[Row]:
        """The line with what rounding leaves in a sum, where it leaves anything."""
        if isinstance(definition, Share):
            found = rounding_in(self.project, told, self.sizes.of(definition.whole))
        elif isinstance(definition, Combination):
            found = rounding_in(self.project, told, told.value)
        else:
            return
        if found is not None:
            yield Row(
                "+" if found.added else "−",
                "",
                Size(found.words, in_full(self.project, found.size, self.text)),
            )

    def _rows(self, form: Affine) -> list[Row]:
        """A form as the lines of a sum, what is added before what is taken away."""
        return [
            Row(
                "+" if line.added else "−",
                _times(line.times) if line.name else "",
                self.named(line.name) if line.name else Size("fixed", self.text(line.times)),
            )
            for line in form.addends
        ]

    def _share(self, share: Share) -> str:
        if len(share.weights) == 1:
            return "all of it"
        if share.is_remainder:
            return "what is left of it once every share is rounded down to a mark of the rule"
        ratio = f"{share.weights[share.index]} of {share.all_weights} shares of it"
        if share.mark is None:
            return ratio
        if share.rounded_down:
            return f"{ratio}, rounded down to a mark of the rule"
        return (
            f"{ratio}, rounded to a mark of the rule; what rounding takes from one share it adds to another"
        )

    def part(self, mark: str) -> PartView:
        """The part marked `mark`."""
        return self._parts[mark] if mark in self._parts else self._kept(self.project.parts[mark])

    def parts(self) -> tuple[PartView, ...]:
        """Every part, in order of runs and cases."""
        return tuple(self.part(part.mark) for part in self.project)

    def _kept(self, part: Part) -> PartView:
        return self._parts.setdefault(part.mark, self._part(part))

    def case(self, mark: str) -> CaseView:
        """The case marked `mark`."""
        return next(case for run in self.runs for case in run.cases if case.mark == mark)

    @cached_property
    def runs(self) -> tuple[RunView, ...]:
        """Every run, from the first."""
        return tuple(
            RunView(
                index,
                run.run.name,
                self.named(run.opening.name),
                self.named(run.spare.name),
                tuple(self._case(index, place, case.mark) for place, case in enumerate(run.cases)),
            )
            for index, run in enumerate(self.project.runs)
        )

    def _case(self, run: int, index: int, mark: str) -> CaseView:
        case = self.project.cases[mark]
        others = (case.inside, case.inside_depth, case.clear, case.outside, case.x)
        return CaseView(
            mark,
            case.spec.kind.value,
            run,
            index,
            self._short(case.width, "width"),
            self._short(case.height, "height"),
            self._short(case.depth, "depth"),
            tuple(self.named(size.name) for size in others),
            tuple(PartInCase(part.mark, part.role.value) for part in case.parts),
            weight_words(self.project, mark),
        )

    def _part(self, part: Part) -> PartView:
        return PartView(
            part.mark,
            part.role.value,
            part.case,
            self.job.sheets[part.material].name,
            part.hand.value,
            self._short(part.length, "length"),
            self._short(part.width, "width"),
            self._short(part.thickness, "thickness"),
            tuple(self._feature(feature) for feature in part.features),
            part.optional,
            edged_in_short(self.project, part),
            moves_in_short(self.project, part),
        )

    def _feature(self, feature: Feature) -> FeatureView:
        """A feature, its sizes in the order in which they are set out."""
        count = self.sizes.of(feature.count)
        words = feature.kind_words if count == 1 else f"{count} {feature.kind_words}s"
        if feature.face is not None:
            words += f", from the {EDGE_WORDS[feature.edges[0]]} edge"
        return FeatureView(
            feature.name,
            words,
            tuple(self._short(size.form, size.words) for size in feature.sizes if self.sizes.of(size.form)),
        )

    def entered_in(self, name: str) -> str:
        """The form, below the job's address, in which the owner of a size is entered; nothing for a part."""
        size = read_name(name)
        if size.owner == JOB:
            return "construction"
        if size.run is not None:
            return f"runs/{size.run - 1}"
        if size.owner in self.job.sheets:
            return f"materials#{size.owner}"
        return f"cases/{size.owner}" if size.owner in self.project.cases else ""

    def _short(self, form: Affine, words: str) -> Size:
        """A size under a short name of its own."""
        if form.is_size:
            return Size(words, self._value(form.name), form.name)
        return Size(words, self.text(self.sizes.of(form)))

    def _value(self, name: str) -> str:
        """A named size as printed: counts as whole numbers, lengths on the rule."""
        value = self.sizes.values[name]
        return str(value) if self._is_count(name) else self.text(value)

    def _is_count(self, name: str) -> bool:
        definition = self.sizes.ledger[name].definition
        if isinstance(definition, Combination):
            needs = definition.needs()
            return bool(needs) and all(self._is_count(needed) for needed in needs)
        return isinstance(definition, HowMany)


def _times(factor: Fraction) -> str:
    return "" if factor == 1 else f"{factor} ×"
