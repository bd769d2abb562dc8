"""Every code of a finding that occurs in the source stands in its layer's table of findings."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from functools import cache
from itertools import product
from pathlib import Path

import pytest

from casewright.casework.parts.features.channel import ChannelKind

SOURCE = Path(__file__).parents[1] / "src" / "casewright"
TESTS = Path(__file__).parent

MADE_BY = {"Finding": 0}  # what takes a code, and for which of its arguments
MADE_BY_IN = {  # what else does in a layer
    "jobfile": {"Fault": 0, "BoardFault": 0, "input_error": 0},
    "planner": {"input_error": 0},
    "web": {"Refusal": 1},
}
HOLES = {  # what a code put together at run time may hold
    "kind": [kind.value for kind in ChannelKind if not kind.on_sled],  # has no faults
    "self.code": ["pins", "cups", "plates", "slides"],
    "what.split()[0]": ["case", "part", "sheet"],
}
HANDED_ON = {  # places where a finding made elsewhere is put into other words, its code kept
    "jobfile/read/read_job.py:fault.code",
}


class Codes:
    """The codes of one layer; those put together at run time in every way."""

    def __init__(self, layer: str) -> None:
        self.layer = layer
        self.trees = {path: ast.parse(path.read_text()) for path in sorted((SOURCE / layer).rglob("*.py"))}
        self.functions: dict[str, list[ast.FunctionDef]] = {}
        self.unknown: set[str] = set()
        for tree in self.trees.values():
            for node in ast.walk(tree):
                if isinstance(node, ast.FunctionDef):
                    self.functions.setdefault(node.name, []).append(node)

    def all(self) -> set[str]:
        found: set[str] = set()
        for path, tree in self.trees.items():
            for function, call in _calls(tree):
                made_by = MADE_BY | MADE_BY_IN.get(self.layer, {})
                if _called(call) in made_by and (call.args or call.keywords):
                    found |= self._codes(path, function, _argument(call, made_by[_called(call)], "code"))
        return found

    def _codes(self, path: Path, function: ast.FunctionDef | None, code: ast.expr | None) -> set[str]:
        if isinstance(code, ast.Constant) and isinstance(code.value, str):
            return {code.value}
        if isinstance(code, ast.IfExp):
            return self._codes(path, function, code.body) | self._codes(path, function, code.orelse)
        if isinstance(code, ast.JoinedStr):
            parts = [
                HOLES[ast.unparse(part.value)]
                if isinstance(part, ast.FormattedValue)
                else [ast.literal_eval(part)]
                for part in code.values
            ]
            return {"".join(chosen) for chosen in product(*parts)}
        if isinstance(code, ast.Name) and function is not None:
            at = [arg.arg for arg in function.args.args]
            if code.id in at:
                return self._handed(path, function, at.index(code.id) - (at[0] == "self"), code.id)
            given = list(self._assigned(path, function, code.id))
            if given:
                return set().union(*given)
        if isinstance(code, ast.Name):
            for node in self.trees[path].body:
                if isinstance(node, ast.Assign) and ast.unparse(node.targets[0]) == code.id:
                    return self._codes(path, None, node.value)
        self.unknown.add(f"{path.relative_to(SOURCE)}:{ast.unparse(code) if code else ''}")
        return set()

    def _handed(self, home: Path, function: ast.FunctionDef, at: int, name: str) -> set[str]:
        """The codes that the function's callers hand it, or else its own default."""
        found: set[str] = set()
        for path, tree in self.trees.items():
            for caller, call in _calls(tree):
                if _called(call) == function.name and (path == home or not function.name.startswith("_")):
                    value = _argument(call, at, name)
                    if value is not None:
                        found |= self._codes(path, caller, value)
        for default in function.args.defaults[-1:]:
            if function.args.args[-1].arg == name:
                found |= self._codes(next(iter(self.trees)), None, default)
        return found

    def _assigned(self, path: Path, function: ast.FunctionDef, name: str) -> Iterator[set[str]]:
        """What a name is set to: at once, by what a function of the layer returns, or in a loop."""
        for node in ast.walk(function):
            if isinstance(node, ast.Assign):
                target, value = node.targets[0], node.value
                if isinstance(target, ast.Name) and target.id == name:
                    yield self._codes(path, function, value)
                elif isinstance(target, ast.Tuple):
                    names = [ast.unparse(one) for one in target.elts]
                    for call in value.values if isinstance(value, ast.BoolOp) else [value]:
                        if name in names and isinstance(call, ast.Call):
                            yield from self._returned(path, _called(call), names.index(name))

    def _returned(self, path: Path, name: str, at: int) -> Iterator[set[str]]:
        for function in self.functions.get(name, ()):
            for node in ast.walk(function):
                if isinstance(node, ast.Return) and isinstance(node.value, ast.Tuple):
                    yield self._codes(path, function, node.value.elts[at])


def _calls(
    tree: ast.AST, function: ast.FunctionDef | None = None
) -> Iterator[tuple[ast.FunctionDef | None, ast.Call]]:
    """Every call with the function it stands in."""
    for node in ast.iter_child_nodes(tree):
        if isinstance(node, ast.Call):
            yield function, node
        yield from _calls(node, node if isinstance(node, ast.FunctionDef) else function)


def _called(call: ast.Call) -> str:
    return call.func.attr if isinstance(call.func, ast.Attribute) else ast.unparse(call.func)


def _argument(call: ast.Call, at: int, name: str) -> ast.expr | None:
    for keyword in call.keywords:
        if keyword.arg == name:
            return keyword.value
    return call.args[at] if at < len(call.args) else None


LAYERS = sorted(path.name for path in SOURCE.iterdir() if path.is_dir() and any(path.rglob("*.py")))


@cache
def codes_of(layer: str) -> tuple[set[str], set[str]]:
    """The codes that occur in the layer, and the places whose code cannot be worked out."""
    codes = Codes(layer)
    return codes.all(), codes.unknown


@cache
def rows_of(layer: str) -> frozenset[str]:
    """The codes in the layer's rows."""
    paths = sorted((TESTS / layer).glob(f"test_findings_of_{layer}*.py"))
    rows = [
        call for path in paths for _, call in _calls(ast.parse(path.read_text())) if _called(call) == "Row"
    ]
    return frozenset(ast.literal_eval(call.args[0]) for call in rows)


@pytest.mark.parametrize("layer", LAYERS)
def test_every_code_has_a_row(layer: str) -> None:
    lacking = codes_of(layer)[0] - rows_of(layer)
    assert not lacking, f"write a Row for each in tests/{layer}/test_findings_of_{layer}.py"


@pytest.mark.parametrize("layer", LAYERS)
def test_every_row_is_of_a_code_that_occurs(layer: str) -> None:
    assert not rows_of(layer) - codes_of(layer)[0]


def test_no_code_is_put_together_where_this_test_cannot_see_it() -> None:
    assert {place for layer in LAYERS for place in codes_of(layer)[1]} == HANDED_ON
