"""The form of what things cost."""

from __future__ import annotations

from ..jobs.worked_job import WorkedJob
from .form_fields import keys_at
from .form_groups import Group, group_at

TABLES = {
    "glue": "Glue",
    "finish": "Finish",
    "blade": "Saw blades",
    "dado_stack": "The dado stack's cutters",
}
"""The tables within `costs`, each with its title."""


def prices_form(worked: WorkedJob) -> tuple[Group, ...]:
    """Markup and hours, the prices of hardware, then what is priced by area or by length of cut."""
    own = tuple(key for key in keys_at(("costs",)) if key not in TABLES)
    return (
        group_at(worked, "What an hour at the bench counts as", ("shop",), ("hourly",)),
        group_at(worked, "Quote and hardware", ("costs",), own),
        *(group_at(worked, title, ("costs", key)) for key, title in TABLES.items()),
    )
