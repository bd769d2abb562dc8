"""Pages and endpoints, a module a topic.

A module here has a `router` (FastAPI's), and may have a `TAB` that puts it among a job's pages.
Dropping a module in this folder is all it takes.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from importlib import import_module
from pkgutil import iter_modules
from types import ModuleType


@dataclass(frozen=True, order=True)
class Tab:
    """One of a job's pages: its place among them, its word, and its path below `/jobs/{job}`."""

    order: int
    words: str
    path: str


@cache
def modules() -> tuple[ModuleType, ...]:
    """Every module of this folder, by name."""
    names = sorted(module.name for module in iter_modules(__path__))
    return tuple(import_module(f"{__name__}.{name}") for name in names)


@cache
def tabs() -> tuple[Tab, ...]:
    """A job's pages in order."""
    return tuple(sorted(module.TAB for module in modules() if hasattr(module, "TAB")))
