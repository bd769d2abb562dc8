"""Changes to the way of working that could save minutes, found from the gaps that cost some.

What a good maker takes for granted is not among them: one setting for one number, a test piece for a
groove. A change is made once, for every case and every part that it serves.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Hashable, Iterable, Iterator, Mapping
from fractions import Fraction
from math import sqrt
from statistics import NormalDist

from ...casework.parts.part import Role
from ...casework.size_names import read_name, thickness_of
from ...shop.measuring_tools import MeasuringTool
from ...shop.thickness_levels import thickness_levels
from ...sizes.affine import Affine
from ...sizes.ledger import Given
from ..chains.limits import THICKEST
from ..chains.made_sizes import HowMade, MadeSize, SizeKind, far_edge_name
from ..errors.causes import CauseKind, tool_for
from ..errors.way_of_working import FittedSize, Method
from ..outcomes.gap_spread import Fit, GapSpread
from .bench_minutes import bench_minutes
from .change import Change, ChangeKind

SIDES = (Role.LEFT_SIDE, Role.RIGHT_SIDE)
SHELL = frozenset({*SIDES, Role.BOTTOM, Role.TOP})
OUTSIDE = (SizeKind.LENGTH, SizeKind.WIDTH)
SHEETS_MEASURED, PLACES_MEASURED = 2, 3
"""Two sheets in three places each: what a maker has patience for (common practice, no source)."""

TRIED = {HowMade.STACK: ChangeKind.TRY_PACKING, HowMade.TWO_PASSES: ChangeKind.TRY_GROOVE}

SLIDES = Fraction(4, 1000)
"""A channel so much wider than a piece lets it slide in by hand and does not let it fall out (common
practice, no source)."""

LOOSE = Fraction(1, 32)
"""A dado or groove with more play than this is no seat any more (common practice, no source)."""

LESS = (Fraction(1, 4), Fraction(1, 2), Fraction(3, 4))
"""Parts of a play that are taken off where it shows (our judgement, no source)."""

Found = Iterator[tuple[Hashable, Change]]  # each change with what makes two of them one piece of advice


def changes_for(
    fit: Fit, costly: Iterable[GapSpread], kinds: frozenset[ChangeKind]
) -> dict[Hashable, list[Change]]:
    """Every change of `kinds` that touches one of the gaps, the parts of one piece of advice together."""
    found: dict[Hashable, list[Change]] = defaultdict(list)
    finder = _Finder(fit)
    for spread in costly:
        for key, change in finder.for_gap(spread):
            if change.kind in kinds:
                found[change.kind, key].append(change)
    return found


def made_one(fit: Fit, changes: Iterable[Change]) -> Change:
    """The parts of one piece of advice as one change; of two that cannot both be made, the first."""
    first, *rest = changes
    for more in rest:
        if not _clash(fit, first, more):
            first = first.and_(more)
    if first.kind is ChangeKind.MATCH:
        return _to_match(first.method.measured, first.mates, first.tool)
    return _laid_off(fit, first.sizes) if first.kind is ChangeKind.OTHER_EDGE else first


def _to_match(
    measured: Mapping[str, MeasuringTool], mates: tuple[str, ...], tool: MeasuringTool | None
) -> Change:
    """Each size read once, and each of its mates set for alone."""
    minutes = bench_minutes()
    spends = minutes.reading * len(measured) + minutes.own_setting * len(mates)
    method = Method(measured=measured, follow=frozenset(mates))
    return Change(ChangeKind.MATCH, tuple(measured), spends, method, tool=tool, mates=mates)


def _laid_off(fit: Fit, places: Iterable[str]) -> Change:
    """Channels laid off from their other edge; where that is one number, at one setting."""
    moved = tuple(places)
    method = Method(moved=frozenset(moved))
    model = fit.error_model(fit.method.with_(method))
    numbers: dict[Fraction, list[str]] = defaultdict(list)
    for name in moved:
        numbers[model.mean(far_edge_name(name))].append(name)
    for same in numbers.values():
        joined = " and ".join(sorted({fit.setting(name) for name in same}))
        far = {far_edge_name(name): f"{joined} from the far edge" for name in same}
        method = method.with_(Method(settings=far))
    return Change(ChangeKind.OTHER_EDGE, moved, bench_minutes().own_setting * len(numbers), method)


def _clash(fit: Fit, one: Change, other: Change) -> bool:
    fitted, more = one.method.fitted, other.method.fitted
    return bool(
        any(name in fit.gaps[there.gap].form.names for name in fitted for there in more.values())
        or any(name in fit.gaps[there.gap].form.names for name in more for there in fitted.values())
        or one.method.moved & other.method.moved
    )


def _is_seat(name: str) -> bool:
    """Whether a play is that of a channel about the panel in it."""
    return read_name(name).what in ("dado_play", "groove_play")


def greatest_of(number: int) -> float:
    """The mean of the greatest of so many normal values, in deviations (G. Blom, "Statistical estimates and
    transformed beta-variables", 1958: from memory, and checked in the tests)."""
    return NormalDist().inv_cdf((number - 0.375) / (number + 0.25))


class _Finder:
    """Finds each change once, whichever of its gaps asks for it first."""

    def __init__(self, fit: Fit) -> None:
        self._fit = fit
        self._model = fit.error_model()
        self._minutes = bench_minutes()
        self._order = {mark: place for place, mark in enumerate(fit.project.parts)}
        self._seen: set[Hashable] = set()

    def for_gap(self, spread: GapSpread) -> Found:
        names = [name for name in self._model.form(spread.gap).names if name not in self._fit.facts]
        made = {name: self._fit.made[name] for name in names if name in self._fit.made}
        for one in made.values():
            yield from self._tried(one)
            yield from self._depth_piece(one)
            yield from self._matched(one, made)
        yield from self._measured_sheets(spread)
        yield from self._fitted(spread, made)
        yield from self._other_edge(made)
        yield from self._play(spread)

    def _role(self, made: MadeSize) -> Role | None:
        """What the part is whose size it is; None for the opening of a run."""
        part = self._fit.project.parts.get(made.part)
        return None if part is None else part.role

    def _new(self, *what: Hashable) -> bool:
        """Whether a change was not found before."""
        seen = what in self._seen
        self._seen.add(what)
        return not seen

    def _tried(self, made: MadeSize) -> Found:
        """All channels that a sheet good goes into, tried in its thickest sheet instead of set by numbers."""
        fit = self._fit
        kind = TRIED.get(made.how)
        if kind is None or not made.gauge or not self._new("tried", made.gauge, made.how):
            return
        sizes = tuple(
            name
            for name, one in fit.made.items()
            if one.gauge == made.gauge and one.how is made.how and name not in fit.method.tried
        )
        widths = {fit.setting(name): fit.project.sizes.of(name) for name in sizes}
        if not widths:
            return
        # One trial for each width; packed again, the stack is made up of what was written down then.
        first = len(set(widths.values()))
        trial = self._minutes.try_packing if made.how is HowMade.STACK else self._minutes.try_groove
        again = self._minutes.reading if made.how is HowMade.STACK else self._minutes.try_groove
        yield (
            made.gauge,
            Change(
                kind,
                sizes,
                trial * first + again * (len(widths) - first),
                Method(tried=dict.fromkeys(sizes, self._slides_in(made.gauge))),
            ),
        )

    def _slides_in(self, material: str) -> Fraction:
        """How much wider than the mean of a sheet good a channel is in which its thickest sheet slides."""
        levels = thickness_levels(
            self._fit.project.job.sheets[material], self._fit.project.job.shop.deviations
        )
        return (
            Fraction(greatest_of(self._sheets_of(material)) * levels.sheets)
            + THICKEST * Fraction(levels.places)
            + SLIDES
        )

    def _sheets_of(self, material: str) -> int:
        """How many sheets of a material the job is cut from; a sheet for each part where that is not
        planned."""
        marks = [part.mark for part in self._fit.project if part.material == material]
        return len({self._fit.method.sheets.get(mark, mark) for mark in marks})

    def _depth_piece(self, made: MadeSize) -> Found:
        """Heights of a cutter that a test piece and a depth gauge would settle."""
        setting = self._fit.setting(made.name)
        if made.how is not HowMade.HEIGHT or setting in self._fit.method.proved:
            return
        if self._new("depth", setting):
            yield (
                made.feature,
                Change(
                    ChangeKind.DEPTH_PIECE,
                    self._fit.settings[setting],
                    self._minutes.depth_piece,
                    Method(proved=frozenset((setting,))),
                    tool=MeasuringTool.DEPTH_GAUGE,
                    lessens=frozenset({(CauseKind.HEIGHT, setting)}),
                ),
            )

    def _measured_sheets(self, spread: GapSpread) -> Found:
        """Two sheets of a lot measured, where that tells more than is known of it."""
        for cause, _ in spread.shares:
            name = thickness_of(cause.what).name
            if cause.kind is not CauseKind.LOT or name in self._fit.facts or not self._new("sheets", name):
                continue
            deviations = self._fit.project.job.shop.deviations
            sheet = self._fit.project.job.sheets[cause.what]
            levels = thickness_levels(sheet, deviations)
            # The sheets measured are among those that are cut up, so their mean is nearer to that of all.
            others = max(0.0, 1 - 2 * SHEETS_MEASURED / self._sheets_of(cause.what))
            places = (levels.places**2 + deviations.caliper**2) / PLACES_MEASURED
            each = levels.sheets**2 * others + places
            # Readings taken before count with these, each by its own exactness.
            known = 1 / levels.lot**2 if sheet.readings else 0.0
            after = 1 / sqrt(SHEETS_MEASURED / each + known)
            if after < levels.lot:
                yield (
                    name,
                    Change(
                        ChangeKind.MEASURE_SHEETS,
                        (name,),
                        self._minutes.two_sheets,
                        facts={name: after},
                        tool=MeasuringTool.CALIPER,
                        lessens=frozenset({(cause.kind, cause.what)}),
                    ),
                )

    def _fitted(self, spread: GapSpread, made: dict[str, MadeSize]) -> Found:
        """A part that waits for the dry fit and is cut to the space it finds."""
        name = self._last_made(spread, made)
        # What is fitted takes up the errors of its gap; two sizes fitted to each other fit neither.
        fitted = self._fit.method.fitted
        if name is None or any(other in fitted for other in made) or not self._new("fitted", name):
            return
        one = made[name]
        part = self._fit.project.parts[one.part]
        tool = tool_for(one, float(self._fit.project.sizes.of(name)))
        # The work is ordered so that backs wait for the dry fit anyhow; any other part is set for alone.
        waits = 0.0 if part.role is Role.BACK else self._minutes.own_setting
        method = Method(fitted={name: FittedSize(spread.gap.name, tool)})
        spends = self._minutes.reading + waits
        yield (part.role, one.kind, one.feature), Change(ChangeKind.FIT, (name,), spends, method, tool=tool)

    def _last_made(self, spread: GapSpread, made: dict[str, MadeSize]) -> str | None:
        """The size of a gap that can best wait for a direct measurement.

        The length or width of the part that goes in last; where neither is in the gap, the place
        of a channel or of a row of holes, marked on the part that is worked last.
        """
        sizes: list[str] = []
        marks: list[str] = []
        for name, one in made.items():
            if name in self._fit.method.moved:
                continue
            role = self._role(one)
            if one.kind in OUTSIDE:
                if one.part in spread.gap.parts and role not in (*SIDES, Role.BOTTOM):
                    sizes.append(name)
            elif one.kind in (SizeKind.PLACE, SizeKind.PIN) and role not in SHELL:
                marks.append(name)
        return max(sizes or marks, key=lambda name: self._order[made[name].part], default=None)

    def _matched(self, one: MadeSize, made: dict[str, MadeSize]) -> Found:
        """A finished size measured, and what is derived from it in the same gap cut to match."""
        if one.kind not in OUTSIDE or one.name in self._fit.method.measured:
            return
        following = set(self._fit.project.sizes.ledger.downstream(frozenset((one.name,))))
        mates = dict.fromkeys(
            other.part
            for name, other in made.items()
            if name in following and other.kind in OUTSIDE and other.part != one.part
        )
        for mate in mates:
            if self._new("matched", one.name, mate):
                tool = tool_for(one, float(self._fit.project.sizes.of(one.name)))
                change = _to_match({one.name: tool}, (mate,), tool)
                yield (self._fit.project.parts[one.part].role, one.kind), change

    def _other_edge(self, made: dict[str, MadeSize]) -> Found:
        """Channels of one name, laid off from their other edge: all that are cut on the same settings."""
        channels: dict[str, set[str]] = defaultdict(set)
        for name, one in made.items():
            if one.kind is SizeKind.PLACE and name not in self._fit.method.moved:
                channels[one.feature].add(self._fit.setting(name))
        for feature, settings in channels.items():
            if not self._new("other edge", feature, frozenset(settings)):
                continue
            every = [
                name
                for setting in sorted(settings)
                for name in self._fit.settings[setting]
                if self._fit.made[name].feature == feature
                and self._fit.made[name].kind is SizeKind.PLACE
                and name not in self._fit.method.moved
            ]
            yield feature, _laid_off(self._fit, every)

    def _play(self, spread: GapSpread) -> Found:
        """Plays the job states that a gap's sizes or its range depend on, by half a mark and by one more."""
        project = self._fit.project
        ledger = project.sizes.ledger
        known = [(name, k) for name, k in spread.gap.form.terms if name in ledger]
        limits = (name for form in spread.gap.limits.forms for name in form.names)
        names = dict.fromkeys((*ledger.expand(Affine(0, known)).names, *limits))
        stated = [name for name in names if isinstance(ledger[name].definition, Given)]
        half = project.job.mark.step / 2
        steps = [(name, halves * half) for name in stated if read_name(name).is_play for halves in (1, 2)]
        if not spread.gap.parts:  # a run against its opening: its widest case may give way
            cases = {case.width.name for case in project.cases.values()}
            widths = [name for name in stated if name in cases]
            widest = max(widths, key=project.sizes.of, default=None)
            steps += [(widest, -halves * half) for halves in (2, 4, 8) if widest]
        if spread.outcome.shown > spread.outcome.clamp + spread.outcome.ease:  # too loose, not too tight
            steps = [
                (name, -project.sizes.of(name) * part) for name in stated if _is_seat(name) for part in LESS
            ]
        for name, step in steps:
            value = project.sizes.of(name) + step
            if not (_is_seat(name) and value > LOOSE) and self._new("play", name, value):
                yield (name, value), Change(ChangeKind.PLAY, (name,), 0.0, inputs={name: value})
