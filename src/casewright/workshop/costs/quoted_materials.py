"""What the cases of a quote are made of, in a customer's words: every material with what it is for."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Mapping

from ...casework.parts.part import Role
from ...casework.project import Project
from ...lengths.in_a_sentence import listed, with_capital
from ...shop.materials import PanelKind, SheetGood
from ...shop.prices import FinishPrice, Surfaces
from ...shop.woods import known_woods

_USES: Mapping[Role, str] = {
    Role.FIXED_SHELF: "shelves",
    Role.ADJUSTABLE_SHELF: "shelves",
    Role.BACK: "backs",
    Role.TOE_KICK: "toe kicks",
    Role.PLINTH_FRONT: "plinths",
    Role.PLINTH_BACK: "plinths",
    Role.PLINTH_END: "plinths",
    Role.FILLER: "fillers",
    Role.STILE: "face frames",
    Role.RAIL: "face frames",
    Role.MULLION: "face frames",
    Role.CROSS_RAIL: "face frames",
    Role.DOOR: "doors",
    Role.DOOR_STILE: "door frames",
    Role.DOOR_RAIL: "door frames",
    Role.DOOR_PANEL: "door panels",
    Role.DRAWER_FRONT: "drawer fronts",
    Role.FIXED_FRONT: "fixed fronts",
    Role.DRAWER_SIDE: "drawer boxes",
    Role.INNER_FRONT: "drawer boxes",
    Role.DRAWER_BACK: "drawer boxes",
    Role.DRAWER_BOTTOM: "drawer bottoms",
}
_CASES = "cases"
"""What every other part is of: sides, bottoms, tops, dividers, stretchers, mounting strips."""


def quoted_materials(project: Project) -> tuple[str, ...]:
    """A sentence for each material and the finish: `Hardwood plywood, 3/4": cases and most shelves.`

    Materials that a customer would call the same are told as one: a better face is the shop's own affair.
    """
    of: dict[str, Counter[str]] = {}
    for part in project:
        named = _named(project, project.job.sheets[part.material])
        of.setdefault(named, Counter())[_USES.get(part.role, _CASES)] += 1
    whole = sum(of.values(), Counter[str]())
    said = [f"{with_capital(named)}: {listed(_shares(uses, whole))}." for named, uses in of.items()]
    finish = project.job.prices.finish
    return (*said, _finished(finish)) if finish else tuple(said)


def _shares(uses: Counter[str], whole: Counter[str]) -> Iterator[str]:
    """What a material is for; of what is made of several, whether it is most of it."""
    for use in dict.fromkeys((_CASES, *_USES.values())):
        count = uses[use]
        if not count:
            continue
        if count == whole[use]:
            yield use
        else:
            share = "most" if 2 * count > whole[use] else "some"
            yield f"{share} {'parts of cases' if use == _CASES else use}"


def _named(project: Project, good: SheetGood) -> str:
    """`oak plywood, 3/4"`: the wood or the kind of panel and the thickness that it is sold as, or that boards
    are planed to. The maker's own name stands where the job tells neither."""
    thick = good.nominal if good.boards is None else good.usual.middle
    return f"{_kind(good)}, {project.printed(thick)}"


def _kind(good: SheetGood) -> str:
    if good.wood is not None:
        return next(iter(good.wood.also), good.wood.name)  # the names of the trade: soft maple, not red maple
    wood = _wood_in(good.name)
    if good.kind is PanelKind.HARDWOOD_PLYWOOD and wood:
        return f"{wood} plywood"
    if good.kind is not None:
        return good.kind.value
    return wood if good.boards is not None and wood else good.name


def _wood_in(name: str) -> str:
    """The wood that a maker's name of a material speaks of, the longest known: `soft maple`; or none."""
    known = {called for wood in known_woods().values() for called in (wood.name, *wood.also)}
    known |= {called.rpartition(" ")[2] for called in known}
    found = [one for one in known if re.search(rf"\b{re.escape(one)}\b", name, re.IGNORECASE)]
    return max(found, key=len, default="")


def _finished(finish: FinishPrice) -> str:
    where = "" if finish.surfaces is Surfaces.ALL else ", on the fronts"
    return f"Finish: {finish.name}, {finish.coats} {'coat' if finish.coats == 1 else 'coats'}{where}."
