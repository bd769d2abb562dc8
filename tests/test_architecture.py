"""The layers hold: imports point down, files stay readable, the core touches no shell."""

import ast
import re
from collections import Counter
from functools import cache
from pathlib import Path

import pytest

SOURCE = Path(__file__).parents[1] / "src" / "casewright"

# Each layer with the layers it may import directly. `lengths` and `sizes` know nothing of wood,
# `planner` nothing of cabinets, `packet` computes no size, only `app` touches `store`.
NUMBERS = "lengths sizes"
SPINE = f"{NUMBERS} shop casework planner boards workshop"
WORK = f"{SPINE} strength bearing solids record tolerance repair"


def layers(names: str) -> set[str]:
    """The layers named, and the three that every layer may import."""
    return {"errors", "findings", "validation", *names.split()}


def solving(names: str) -> set[str]:
    """The same, for layers that solve programmes."""
    return {"solver", *layers(names)}


MAY_IMPORT: dict[str, set[str]] = {
    "findings": set(),
    "errors": {"findings"},
    "validation": {"findings"},
    "lengths": layers(""),
    "sizes": layers("lengths"),
    "solver": {"errors"},
    "shop": layers(NUMBERS),
    "casework": solving(f"{NUMBERS} shop"),
    "jobfile": layers(f"{NUMBERS} shop casework"),
    "planner": solving(NUMBERS),
    "boards": solving(f"{NUMBERS} shop"),
    "strength": layers("lengths shop"),
    "bearing": layers(f"{SPINE} strength"),
    "workshop": solving(f"{NUMBERS} shop casework planner boards strength"),
    "solids": layers(f"{NUMBERS} shop casework"),
    "record": layers(SPINE),
    "tolerance": solving(SPINE),
    "repair": solving(f"{SPINE} record tolerance"),
    "drawings": layers(WORK),
    "packet": layers(f"{WORK} drawings"),
    "store": layers(""),
    "cli": layers("web app lengths"),  # `serve` starts the web app
    "web": layers("app lengths"),
}
MAY_IMPORT["app"] = (set(MAY_IMPORT) | {"app"}) - {"cli", "web"}

LINE_BUDGET = 400

# Libraries that hold state of the process or of a thread, each with the only file that may use it.
ONE_DOOR = {
    "highspy": "solver.py",
    "typst": "packet/typesetting.py",
    "ezdxf": "drawings/kit/dxf.py",
    "segno": "packet/labels/square_code.py",
    "tree_sitter": "jobfile/read/key_places.py",
    "OCP": "solids/boundary.py",
    "ctypes": "planner/engine",
}

# Modules of the outside world that only the edge may ask.
EDGE_ONLY = {"sqlite3", "socket", "urllib", "requests", "httpx", "random", "time", "os"}
EDGE = {"app", "store", "cli", "web"}


def modules() -> list[Path]:
    return sorted(SOURCE.rglob("*.py"))


@cache
def syntax(path: Path) -> ast.Module:
    return ast.parse(path.read_text())


def layer_of(path: Path) -> str:
    first = path.relative_to(SOURCE).parts[0]
    return first.removesuffix(".py")


@cache
def imported(path: Path) -> set[tuple[str, int]]:
    """The dotted names a module imports, relative ones made absolute."""
    package = ["casewright", *path.relative_to(SOURCE).parts[:-1]]
    found: set[tuple[str, int]] = set()
    for node in ast.walk(syntax(path)):
        if isinstance(node, ast.Import):
            found |= {(alias.name, node.lineno) for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            base = package[: len(package) - node.level + 1] if node.level else []
            stem = ".".join([*base, *([node.module] if node.module else [])])
            found |= {(f"{stem}.{alias.name}", node.lineno) for alias in node.names}
    return found


@pytest.mark.parametrize("path", modules(), ids=lambda path: str(path.relative_to(SOURCE)))
def test_imports_point_down(path: Path) -> None:
    layer = layer_of(path)
    if layer == "__init__":
        return
    assert layer in MAY_IMPORT, f"{layer} is not a layer of the design"
    for name, line in imported(path):
        parts = name.split(".")
        if parts[0] == "casewright" and len(parts) > 1 and parts[1] != layer:
            assert parts[1] in MAY_IMPORT[layer], f"{path.name}:{line}: {layer} may not import {parts[1]}"
        if layer not in EDGE:
            assert parts[0] not in EDGE_ONLY, f"{path.name}:{line}: only the edge may ask {parts[0]}"


@pytest.mark.parametrize(("library", "door"), ONE_DOOR.items())
def test_a_library_with_state_is_used_in_one_place(library: str, door: str) -> None:
    """A solver made elsewhere would miss the thread of its own that keeps others' solves from spoiling it;
    a compiler kept elsewhere would be entered by two threads at once."""
    users = {
        path.relative_to(SOURCE).as_posix()
        for path in modules()
        for name, _ in imported(path)
        if name.split(".")[0] == library
    }
    assert users, f"nothing uses {library}: take it off the list"
    assert all(user == door or user.startswith(f"{door}/") for user in users), users


def test_an_answer_is_read_through_the_check_of_its_status() -> None:
    """Whoever reads HiGHS's own answer reads nothing at all where the solve failed."""
    unchecked = {"getSolution", "getModelStatus", "getInfo", "minimize", "maximize"}
    for path in modules():
        if path != SOURCE / "solver.py":
            for node in ast.walk(syntax(path)):
                assert not (isinstance(node, ast.Attribute) and node.attr in unchecked), (path, node.lineno)


@pytest.mark.parametrize("path", modules(), ids=lambda path: str(path.relative_to(SOURCE)))
def test_a_file_can_be_read_in_one_sitting(path: Path) -> None:
    assert len(path.read_text().splitlines()) <= LINE_BUDGET


def test_the_check_itself_sees_an_upward_import(tmp_path: Path) -> None:
    sample = SOURCE / "lengths" / "sample.py"
    tree = ast.parse("from ..casework import parts")
    node = tree.body[0]
    assert isinstance(node, ast.ImportFrom) and node.level == 2
    assert layer_of(sample) == "lengths"
    assert "casework" not in MAY_IMPORT["lengths"]


def test_no_file_name_stands_twice() -> None:
    names = Counter(path.name for path in modules() if path.name != "__init__.py")
    assert [name for name, count in names.items() if count > 1] == []


# Each command has one of each of these.
ONE_A_COMMAND = {"arguments": {"add_arguments"}, "commands": {"run"}}


def public_names(path: Path) -> set[str]:
    """The public classes and functions that a module defines."""
    defined = (ast.ClassDef, ast.FunctionDef, ast.AsyncFunctionDef)
    names = {node.name for node in syntax(path).body if isinstance(node, defined)}
    if path.parent.parent == SOURCE / "cli":
        names -= ONE_A_COMMAND[path.parent.name]
    return {name for name in names if not name.startswith("_")}


def test_no_public_name_stands_twice() -> None:
    places: dict[str, list[str]] = {}
    for path in modules():
        for name in public_names(path):
            places.setdefault(name, []).append(path.relative_to(SOURCE).as_posix())
    doubled = {name: files for name, files in places.items() if len(files) > 1}
    assert doubled == {}


def test_every_folder_says_what_it_is_for() -> None:
    for path in modules():
        if path.name == "__init__.py":
            assert ast.get_docstring(syntax(path)), path


def test_the_map_in_the_docs_has_a_row_for_every_layer() -> None:
    page = (SOURCE.parents[1] / "docs" / "architecture.md").read_text()
    table = page[page.index("| layer |") : page.index("## Problems are data")]
    told = {
        name
        for row in table.splitlines()[2:]
        for name in re.findall(r"`(\w+)`", row.split("|")[1] if row else "")
    }
    assert told == set(MAY_IMPORT)


def test_every_file_that_the_docs_name_is_there() -> None:
    """Paths and folders in backticks in docs/architecture.md lead somewhere in the package."""
    page = (SOURCE.parents[1] / "docs" / "architecture.md").read_text()
    files = {path.relative_to(SOURCE).as_posix() for path in modules()}
    for named in re.findall(r"`([a-z_/]+\.py)`", page):
        inside = any(file == named or file.endswith(f"/{named}") for file in files)
        assert inside or (SOURCE.parents[1] / named).is_file(), named


# What a job comes to is worked out in one file, so that no two ways in can differ.
ANSWERS = {
    "jobfile.read.read_job.read_job",
    "casework.project.draw_up",
    "casework.parts.cut_alike.cut_alike",
    "casework.parts.weights.weight_of",
    "workshop.work.work",
    "workshop.work.shop_findings",
    "workshop.order.batches.order",
    "workshop.sheets.purchases.buying_list",
    "workshop.sheets.cut_problems.cut_problems",
    "workshop.costs.job_costs.job_costs",
    "workshop.hardware.hardware",
    "workshop.holes.boring.sticks_needed",
    "workshop.assembly.joining.glue_ups",
    "workshop.assembly.joining.glue_ups_of_all",
    "tolerance.outcomes.gap_spread.fit",
    "repair.prevention.saw_check.look_alikes",
    "solids.bodies.assemble",
    "solids.solid_check.check_solids",
}
ASKS_THEM = "app/jobs/worked_job.py"
BESIDES = {
    # Python's front door plans a project of which there is no text.
    "app/sheets/plan_search.py": {
        "workshop.sheets.cut_problems.cut_problems",
        "workshop.sheets.purchases.buying_list",
    },
    # A way to put a job right is judged by drawing the changed job up from nothing.
    "app/repair/repair_page.py": {"jobfile.read.read_job.read_job", "casework.project.draw_up"},
}


@pytest.mark.parametrize("layer", ["app", "cli", "web", "packet", "drawings"])
def test_answers_are_worked_out_in_one_file(layer: str) -> None:
    for path in sorted((SOURCE / layer).rglob("*.py")):
        name = str(path.relative_to(SOURCE))
        asked = {one.removeprefix("casewright.") for one, _ in imported(path)} & ANSWERS
        allowed = ANSWERS if name == ASKS_THEM else BESIDES.get(name, set())
        assert asked <= allowed, f"{name} works out {sorted(asked - allowed)}; read it off the worked job"


def test_the_one_file_asks_for_every_answer_and_each_is_there_to_be_asked() -> None:
    asked = {name.removeprefix("casewright.") for name, _ in imported(SOURCE / ASKS_THEM)}
    assert ANSWERS - asked == {"solids.solid_check.check_solids", "workshop.assembly.joining.glue_ups"}, (
        "the first is the front door's own; here its bodies are kept, and the glue-ups of all cases"
    )
    for name in ANSWERS:
        module, _, function = name.rpartition(".")
        tree = ast.parse((SOURCE / f"{module.replace('.', '/')}.py").read_text())
        assert any(isinstance(node, ast.FunctionDef) and node.name == function for node in tree.body), name


FEATURES = SOURCE / "casework" / "parts" / "features"


@cache
def kinds_of_feature() -> frozenset[str]:
    """The classes in the features' own folder that say how a feature behaves."""
    trees = (syntax(path) for path in FEATURES.glob("*.py"))
    classes = (node for tree in trees for node in tree.body if isinstance(node, ast.ClassDef))
    bases = {"FeatureDefaults", "HoleLine"}
    found = {one.name for one in classes if bases & set(map(ast.unparse, one.bases))}
    assert found >= {"Channel", "Notch", "PinRow", "HingeCups"}
    return frozenset(found)


def asked_class(node: ast.AST) -> list[ast.AST]:
    """What a line compares an object's class with: by isinstance, match, type() or dispatch on a class."""
    if isinstance(node, ast.Call) and ast.unparse(node.func) in {"isinstance", "issubclass"}:
        return [node.args[1]]
    if isinstance(node, ast.MatchClass):
        return [node.cls]
    if isinstance(node, ast.Compare) and "type(" in ast.unparse(node):
        return [node]
    if isinstance(node, ast.FunctionDef) and any(".register" in ast.unparse(d) for d in node.decorator_list):
        return [*node.decorator_list, node.args]
    return []


def asks_of_kind(tree: ast.AST, kinds: frozenset[str]) -> set[str]:
    """The kinds of feature that a module tells apart by their class."""
    asked = (inner for node in ast.walk(tree) for one in asked_class(node) for inner in ast.walk(one))
    return {name.id for name in asked if isinstance(name, ast.Name)} & kinds


@pytest.mark.parametrize("path", modules(), ids=lambda path: str(path.relative_to(SOURCE)))
def test_features_are_not_told_apart_by_their_class(path: Path) -> None:
    """A feature says of itself what a layer needs; who asks for its class misses the next kind."""
    if FEATURES not in path.parents:
        assert asks_of_kind(syntax(path), kinds_of_feature()) == set(), path


@pytest.mark.parametrize(
    "text",
    [
        "isinstance(one, Channel)",
        "isinstance(one, (int, Notch))",
        "isinstance(one, Channel | Notch)",
        "type(one) is PinRow",
        "match one:\n    case Channel():\n        pass",
        "@draw.register\ndef _(one: Notch, size: int) -> None: ...",
        "@draw.register(PinRow)\ndef _(one, size): ...",
    ],
)
def test_that_check_sees_every_way_to_ask(text: str) -> None:
    assert asks_of_kind(ast.parse(text), kinds_of_feature())
    assert not asks_of_kind(ast.parse("isinstance(one, int)"), kinds_of_feature())
