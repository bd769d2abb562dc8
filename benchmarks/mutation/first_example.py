"""A pytest plugin: hypothesis tries the same examples each time, and does not make a failing one small."""

from __future__ import annotations

from hypothesis import Phase, settings

settings.register_profile("mutants", derandomize=True, database=None, phases=[Phase.explicit, Phase.generate])
settings.load_profile("mutants")
