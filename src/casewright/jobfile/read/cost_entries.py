"""What things cost, as a job file has it."""

from __future__ import annotations

from collections.abc import Iterator

from ...lengths.did_you_mean import did_you_mean
from ...lengths.fractions_text import quoted
from ...shop.prices import FinishPrice, GluePrice, Prices, Sharpening
from ..costs_table import CostsTable
from ..sheet_tables import SheetTable
from .fault import Fault
from .overlay import given_entries

_KINDS = {"glue": GluePrice, "finish": FinishPrice, "blade": Sharpening, "dado_stack": Sharpening}


def prices_from(table: CostsTable) -> Prices:
    """The prices that a table tells."""
    given = given_entries(table)
    return Prices(
        **{
            name: _KINDS[name](**given_entries(value)) if name in _KINDS else value
            for name, value in given.items()
        }
    )


def price_faults(table: CostsTable, materials: dict[str, SheetTable]) -> Iterator[Fault]:
    """A fault for each material without finish that the job does not have."""
    for index, key in enumerate(table.finish.not_on or () if table.finish else ()):
        if key not in materials:
            text = f"no material in this job is called {quoted(key)}."
            yield Fault(
                "unknown-name", ("costs", "finish", "not_on", index), text, did_you_mean(key, materials)
            )
