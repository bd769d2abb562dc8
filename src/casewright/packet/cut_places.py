"""Where each part comes from: the sheet it is cut from, and the step at which it has its size."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from ..lengths.in_a_sentence import listed
from ..workshop.boards.glue_up_work import panel_of_step
from ..workshop.order.batches import WorkOrder


@dataclass(frozen=True)
class CutPlace:
    """The sheet, as steps call it (`maple 3`; `glued up` for a panel of strips), and the number of the step
    that cuts the part to size."""

    sheet: str
    step: int


def cut_places(ordered: WorkOrder) -> Mapping[str, CutPlace]:
    """The place of every part that is cut from a sheet, by its mark, in the order in which they are cut."""
    found: dict[str, CutPlace] = {}
    for step, batch in enumerate(ordered.batches, 1):
        for cut in batch.operations:
            if cut.kind.cuts_up_a_sheet:
                for mark in cut.parts:
                    found.pop(mark, None)  # the last cut of a part is the one that counts
                    found[mark] = CutPlace("glued up" if panel_of_step(cut.key) else cut.piece, step)
    return found


def places_text(marks: Iterable[str], places: Mapping[str, CutPlace]) -> str:
    """`maple 3 and 9, steps 41 and 52`; empty for parts that no plan cuts."""
    known = [places[mark] for mark in marks if mark in places]
    if not known:
        return ""
    sheets = list(dict.fromkeys(place.sheet for place in known))
    material = sheets[0].rpartition(" ")[0]
    numbers = [sheet.rpartition(" ")[2] if sheet.startswith(f"{material} ") else sheet for sheet in sheets]
    steps = [str(step) for step in sorted({place.step for place in known})]
    word = "step" if len(steps) == 1 else "steps"
    return f"{material} {listed(numbers)}, {word} {listed(steps)}"
