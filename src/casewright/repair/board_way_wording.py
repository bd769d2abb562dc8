"""Parts of boards that are milled once more, in words: in short, and step by step with places and sizes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..boards.cut_once_more import WoodSource
from ..casework.project import Project
from ..lengths.in_a_sentence import listed
from ..lengths.quantities import with_cents
from ..workshop.boards.board_wording import grade_words
from .ways.way import BuyBoard, MillAgain, MilledPlace, Option


def mill_in_short(one: MillAgain) -> str:
    """`mill B1-RA1 again from the uncut end of Board 2`."""
    return f"{_verb(one)} {one.mark} again {_source(one)}"


def mill_steps(project: Project, one: MillAgain) -> Iterator[str]:
    """What to do, with the rough size and the place of each strip."""
    long, wide = (project.printed(size) for size in one.rough)
    of = f" from {one.pieces} strips" if one.pieces > 1 else ""
    rough = f"rough {long} × {wide}"
    verb = _verb(one)
    yield f"{verb[0].upper()}{verb[1:]} {one.mark} again{of}, {rough}: {_places(project, one)}."
    moved = (place for place in one.places if place.number != place.before)
    yield from (f"{place.board} is board {place.number} in the plan from now on." for place in moved)
    if one.alone:
        yield (
            f"{one.mark} goes through jointer and planer by itself: set the planer by a part of the same "
            "wood that is planed already."
        )


def buy_board_words(project: Project, one: BuyBoard) -> str:
    """`buy a 4/4 FAS board, clear, at least 96 × 6 (4 bf, $38.00)`."""
    boards = project.job.sheets[one.material].boards
    assert boards is not None, f"{one.material} is bought as boards"
    price = f", {project.job.money}{with_cents(boards.price_of(one.feet))}" if boards.foot_price else ""
    grade = grade_words(project, boards.rough, boards.grade.name.value)
    long, wide = project.printed(one.length), project.printed(one.width)
    return f"buy a {grade} board, clear, at least {long} × {wide} ({one.feet} bf{price})"


def buy_board_step(project: Project, one: BuyBoard) -> str:
    """The same as a step, with how often boards that nobody has looked at are enough."""
    words = buy_board_words(project, one)
    odds = f"enough in {one.enough_in} of {one.lots} lots drawn at random"
    return f"{words[0].upper()}{words[1:]}. Of boards that you cannot choose, {one.feet} bf are {odds}."


def only_buying_found(options: Sequence[Option]) -> str:
    """What is said where nothing but parts of boards is spoiled, and every way buys, or changes the design;
    or where there is none."""
    free = [option for option in options if not option.buys]
    if free:
        return "Only a change of the design avoids buying: ask the client."
    if options:
        return (
            "Neither what the boards of the plan leave nor those at hand were found to give it, however the "
            "uncut ones are laid out; that is no proof that they cannot."
        )
    return "No board of the plan, at hand or of the usual size gives it: enter a larger one as at_hand."


def _verb(one: MillAgain) -> str:
    return "glue up" if one.pieces > 1 else "mill"


def _source(one: MillAgain) -> str:
    boards = listed(list(dict.fromkeys(place.board for place in one.places)))
    if one.source is WoodSource.BOUGHT:
        return "from it"
    if one.source is WoodSource.AT_HAND:
        names = listed([f"“{name}”" for name in dict.fromkeys(place.name for place in one.places)])
        return f"from {names}, at hand and not used so far"
    if one.source is WoodSource.LAID_OUT:
        return "from boards that are not cut yet"
    kinds = dict.fromkeys(map(_kind, one.places))
    return f"from {listed(list(kinds))} of {boards}"


def _places(project: Project, one: MillAgain) -> str:
    """Each board once, with the places of all strips that come from it."""
    by_board: dict[str, list[str]] = {}
    for place in one.places:
        x, end, across = (project.printed(size) for size in (place.x, place.end, place.y))
        where = f"the length from {x} to {end}, the strip that begins {across} from the near edge"
        by_board.setdefault(_wood(one, place), []).append(where)
    return "; ".join(f"from {wood}: {'; '.join(places)}" for wood, places in by_board.items())


def _wood(one: MillAgain, place: MilledPlace) -> str:
    if one.source is WoodSource.BOUGHT:
        return f"the board bought, board {place.number} of the plan"
    if one.source is WoodSource.LEFT:
        return f"{_kind(place)} of {place.board}"
    return f"{place.board} of the new plan" if one.source is WoodSource.LAID_OUT else place.board


def _kind(place: MilledPlace) -> str:
    if place.within:
        return "the end of a strip"
    return "the uncut end" if place.fresh else "what is left beside the strips"
