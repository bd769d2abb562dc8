"""`python -m benchmarks [NAME ...] [--quick] [--list]`: prints the tables and keeps each in `results/`.

A table is a module of this folder with a TITLE and `run(quick) -> str` (Markdown). One with a
`fails(text) -> bool` can fall short; then the command ends with 1.
"""

from __future__ import annotations

import argparse
import importlib
import pkgutil
import sys
from pathlib import Path
from types import ModuleType

HERE = Path(__file__).parent
sys.path.insert(0, str(HERE.parent / "tests"))  # tables and tests share their judges and simulators
RESULTS = HERE / "results"


def tables() -> dict[str, ModuleType]:
    found = {}
    for module in pkgutil.iter_modules([str(HERE)]):
        if module.name != "__main__":
            loaded = importlib.import_module(f"benchmarks.{module.name}")
            if hasattr(loaded, "TITLE") and hasattr(loaded, "run"):
                found[module.name] = loaded
    return found


def main(arguments: list[str]) -> int:
    known = tables()
    parser = argparse.ArgumentParser(prog="python -m benchmarks", description="The benchmark tables (slow).")
    parser.add_argument("names", nargs="*", metavar="NAME", help=f"of: {', '.join(known)}; none: all")
    parser.add_argument("--quick", action="store_true", help="a sample, in a minute or so; kept apart")
    parser.add_argument("--list", action="store_true", help="only name the tables")
    asked = parser.parse_args(arguments)
    for name in asked.names:
        if name not in known:
            parser.error(f"no table is called {name}; there are {', '.join(known)}")
    if asked.list:
        print("\n".join(f"{name}: {module.TITLE}" for name, module in known.items()))
        return 0
    RESULTS.mkdir(exist_ok=True)
    short = False
    for name in asked.names or known:
        text = f"# {known[name].TITLE}\n\n{known[name].run(asked.quick).rstrip()}\n"
        print(text, flush=True)
        (RESULTS / f"{name}{'-quick' if asked.quick else ''}.md").write_text(text)
        short |= hasattr(known[name], "fails") and known[name].fails(text)
    return int(short)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
