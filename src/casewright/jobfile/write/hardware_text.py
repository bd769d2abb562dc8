"""The maker's own hinges and drawer slides as a job file says them: what differs from the nearest listed."""

from __future__ import annotations

from collections.abc import Mapping
from enum import Enum
from fractions import Fraction
from typing import Any

from ...casework.job import Job
from ...lengths.length import Unit
from ...shop.hinges import Hinge, HingeRow
from ...shop.slides import Slide
from ..catalogue import Catalogue
from .differences import Entries, differing, likest
from .literals import inline_table, length_literal, number_literal, weight_literal


def hardware_entries(job: Job, stock: Catalogue) -> Entries:
    """The tables `hinges` and `slides` of a job file, without those that are empty."""
    charts = tuple(stock.hinge_charts.values())
    listed_hinges = {name: _hinge(one, charts, job.unit) for name, one in stock.hinges.items()}
    listed_slides = {name: _entries(one, job.unit) for name, one in stock.slides.items()}
    tables = {
        "hinges": {
            key: _like(_hinge(one, charts, job.unit), listed_hinges) for key, one in job.hinges.items()
        },
        "slides": {key: _like(_entries(one, job.unit), listed_slides) for key, one in job.slides.items()},
    }
    return {name: table for name, table in tables.items() if table}


def _like(entries: Entries, listed: Mapping[str, Entries]) -> Entries:
    """The entries, as differences from the nearest of the listed ones; in full where each says something that
    these leave out, for a job file cannot take an entry back."""
    within = {name: start for name, start in listed.items() if start.keys() <= entries.keys()}
    if not within:
        return entries
    like = likest(entries, within)
    return {"like": like, **differing(entries, within[like])}


def _hinge(hinge: Hinge, charts: tuple[object, ...], unit: Unit) -> Entries:
    entries = _entries(hinge, unit)
    del entries["charts"]
    if hinge.charts != charts:
        rows = [row for chart in hinge.charts for row in chart.rows]
        entries["chart"] = [_row(row, unit) for row in rows]
    return entries


def _row(row: HingeRow, unit: Unit) -> Any:
    entries: Entries = {"hinges": row.hinges}
    if row.weight is not None:
        entries["weight"] = weight_literal(row.weight)
    if row.height is not None:
        entries["height"] = length_literal(row.height, unit)
    return inline_table(entries)


def _entries(hardware: Hinge | Slide, unit: Unit) -> Entries:
    """What is said of it, without its key and without what is not there."""
    return {
        name: number_literal(value) if name == "price" else _value(value, unit)
        for name, value in vars(hardware).items()
        if name != "key" and value is not None
    }


def _value(value: Any, unit: Unit) -> Any:
    match value:
        case Enum():
            return value.value
        case Fraction():
            return length_literal(value, unit)
        case tuple() if all(isinstance(one, Fraction) for one in value):
            return [length_literal(one, unit) for one in value]
    return value
