"""What is counted off the parts besides sheets: pins, screws and dowels, hinges, slides, sticks of edging,
glue and finish."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from ..casework.parts.part import Role
from ..casework.project import Project
from ..lengths.length import MM, Unit
from ..lengths.quantities import price_text
from ..shop.slides import Slide, SlideKind
from .assembly.joining import GlueUp
from .assembly.screws import Screw
from .boards.board_purchases import BoardPurchase, board_money
from .costs.glue_and_finish import Supply, finish_for, glue_for
from .edging_work import EdgingBought, edging_bought
from .sheets.purchases import Purchase, money_of

PINS_TO_A_SHELF = 4
"""Common practice, no source: a pin near each corner."""


@dataclass(frozen=True, slots=True)
class SlidesBought:
    """Slides of one kind and length (inches): what one drawer runs on."""

    slide: Slide
    length: Fraction

    @property
    def sold_as(self) -> str:
        """What to ask for: one in the middle, or a pair."""
        alone = self.slide.kind is SlideKind.CENTER
        return self.slide.name if alone else f"{self.slide.name}, pairs"


@dataclass(frozen=True, slots=True)
class HingeBought:
    """A hinge by what it is called, with its price; None where the job does not tell one."""

    name: str
    price: Fraction | None


GLUE_ROOM = {Unit.INCH: Fraction(1, 16), Unit.MM: 1 * MM}
"""How much deeper each hole of a dowel is than the dowel reaches, for the glue. Common practice, no
source."""


@dataclass(frozen=True, slots=True)
class Dowels:
    """Dowels of one size; inches."""

    across: Fraction
    length: Fraction
    number: int


@dataclass(frozen=True)
class Hardware:
    """What to buy besides sheet goods. `screws` are those of each size, the most numerous first, `hinges` how
    many of each, `slides` those of each length, by drawers. `glue` and `finish` are None where the job takes
    none."""

    shelf_pins: int
    screws: tuple[tuple[Screw, int], ...]
    edging: tuple[EdgingBought, ...] = ()
    dowels: tuple[Dowels, ...] = ()
    hinges: tuple[tuple[HingeBought, int], ...] = ()
    slides: tuple[tuple[SlidesBought, int], ...] = ()
    glue: Supply | None = None
    finish: Supply | None = None

    @property
    def told_supplies(self) -> tuple[Supply, ...]:
        """The glue and the finish, as far as the job tells of them."""
        return tuple(one for one in (self.glue, self.finish) if one is not None and one.told and one.area)

    @property
    def money(self) -> Fraction:
        """What it costs as far as the job tells prices: those of edging."""
        return sum((one.money for one in self.edging), Fraction(0))

    def with_wood(self, purchases: Iterable[Purchase], boards: Iterable[BoardPurchase] = ()) -> Fraction:
        """What everything to buy costs, with these sheets and boards, as far as the job tells prices."""
        return money_of(purchases) + board_money(boards) + self.money

    def all_priced(self, purchases: Iterable[Purchase], boards: Iterable[BoardPurchase] = ()) -> bool:
        """Whether the job tells a price for every sheet and board to buy and for all edging."""
        sheets = all(line.price for line in purchases if line.sheets)
        feet = all(one.foot_price for one in boards if one.feet)
        return sheets and feet and all(one.edging.price for one in self.edging)

    def total_words(
        self, purchases: Sequence[Purchase], boards: Sequence[BoardPurchase], money: str
    ) -> tuple[str, str]:
        """What the sum of everything to buy is of, and the sum: `Total of what has a price`, `$1,034`."""
        total = self.with_wood(purchases, boards)
        if not total:
            return "Total", "no price"
        whole = self.all_priced(purchases, boards)
        return "Total" if whole else "Total of what has a price", price_text(total, money)


def hardware(project: Project, joinings: Iterable[GlueUp]) -> Hardware:
    """The pins of every shelf on pins, the screws of these glue-ups, the edging, the dowels of face frames,
    the hinges and the drawer slides, no spare ones; the glue and the finish."""
    shelves = sum(part.role is Role.ADJUSTABLE_SHELF for part in project)
    screws: Counter[Screw] = Counter()
    joined = tuple(joinings)
    for joining in joined:
        for joint in joining.screws:
            screws[joint.screw] += len(joint.places)
    pins, sold = PINS_TO_A_SHELF * shelves, tuple(screws.most_common())
    dowels, hinges = tuple(_dowels(project)), tuple(_hinges(project).items())
    slides = tuple(_slides(project).items())
    supplies = glue_for(project, joined), finish_for(project)
    return Hardware(pins, sold, edging_bought(project), dowels, hinges, slides, *supplies)


def _hinges(project: Project) -> Counter[HingeBought]:
    """How many of each hinge the doors take, with as many plates."""
    count: Counter[HingeBought] = Counter()
    bays = (bay for case in project.cases.values() for bay in case.fronts)
    for hung in (hung for bay in bays for front in bay.fronts for hung in front.hinges):
        if hung.hinge is not None:
            count[HingeBought(hung.hinge.name, hung.hinge.price)] += hung.number
    return +count


def _dowels(project: Project) -> Iterator[Dowels]:
    """Each dowel stands in two holes."""
    room = 2 * GLUE_ROOM[project.job.unit]
    holes: Counter[tuple[Fraction, Fraction]] = Counter()
    for part in project:
        for feature in part.features:
            if feature.bench_joint:
                holes.update((2 * bore.radius, bore.depth) for bore in feature.bores(part, project.sizes))
    for (across, depth), number in holes.items():
        yield Dowels(across, 2 * depth - room, number // 2)


def _slides(project: Project) -> Counter[SlidesBought]:
    """The slides of every drawer with a box."""
    drawers = (drawer for case in project.cases.values() for drawer in case.drawers)
    return Counter(SlidesBought(one.on.slide, one.on.length) for one in drawers if one.on and one.box)
