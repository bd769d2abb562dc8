"""The faults to plant: a seeded sample of cosmic-ray's mutants of the core.

Left out are faults that no test can notice, because the program does the same with them: those in type
annotations (mypy's affair), in what a dataclass is told, and a cache taken away.
"""

from __future__ import annotations

import ast
import random
from collections.abc import Iterator
from pathlib import Path

from cosmic_ray.ast import ast_nodes, get_ast_from_path
from cosmic_ray.mutating import mutate_code
from cosmic_ray.plugins import get_operator
from cosmic_ray.work_item import MutationSpec

# One plausible slip each. The tool knows 150 more, such as + for <<, that end in an error at once and would
# only flatter the score.
OPERATORS = [
    "NumberReplacer",
    "AddNot",
    "ReplaceUnaryOperator_Delete_Not",
    "ReplaceUnaryOperator_USub_UAdd",
    "ZeroIterationForLoop",
    "ReplaceTrueWithFalse",
    "ReplaceFalseWithTrue",
    "ReplaceAndWithOr",
    "ReplaceOrWithAnd",
    "ReplaceBreakWithContinue",
    "ReplaceContinueWithBreak",
    "ExceptionReplacer",
    "RemoveDecorator",
    "ReplaceBinaryOperator_Add_Sub",
    "ReplaceBinaryOperator_Sub_Add",
    "ReplaceBinaryOperator_Mul_Div",
    "ReplaceBinaryOperator_Div_Mul",
    "ReplaceBinaryOperator_FloorDiv_Mul",
    "ReplaceBinaryOperator_Mod_FloorDiv",
    "ReplaceBinaryOperator_Pow_Mul",
    "ReplaceBinaryOperator_BitOr_BitAnd",
    "ReplaceBinaryOperator_BitAnd_BitOr",
    "ReplaceComparisonOperator_Eq_NotEq",
    "ReplaceComparisonOperator_NotEq_Eq",
    "ReplaceComparisonOperator_Lt_LtE",
    "ReplaceComparisonOperator_LtE_Lt",
    "ReplaceComparisonOperator_Gt_GtE",
    "ReplaceComparisonOperator_GtE_Gt",
    "ReplaceComparisonOperator_Is_IsNot",
    "ReplaceComparisonOperator_IsNot_Is",
]
UNNOTICEABLE_DECORATORS = ("dataclass", "cache", "lru_cache")


def planted_faults(modules: list[Path], number: int, seed: int) -> list[MutationSpec]:
    """At most `number` faults in these modules, the same for the same code and seed."""
    every = [fault for module in modules for fault in _faults_of(module)]
    random.Random(seed).shuffle(every)
    chosen: list[MutationSpec] = []
    for fault in every:
        if len(chosen) == number:
            break
        if _makes_a_difference(fault):
            chosen.append(fault)
    return chosen


def _faults_of(module: Path) -> Iterator[MutationSpec]:
    tree = get_ast_from_path(module)
    for name in OPERATORS:
        operator = get_operator(f"core/{name}")()
        places = (place for node in ast_nodes(tree) for place in operator.mutation_positions(node))
        for occurrence, (start, end) in enumerate(places):
            yield MutationSpec(module, f"core/{name}", occurrence, start, end)


def _makes_a_difference(fault: MutationSpec) -> bool:
    before = fault.module_path.read_text()
    after = mutate_code(before, get_operator(fault.operator_name)(), fault.occurrence)
    try:
        return after is not None and _what_runs(before) != _what_runs(after)
    except SyntaxError:  # the tool takes the star of `*names` for a multiplication
        return False


class _Bare(ast.NodeTransformer):
    """Takes away what never changes an answer."""

    def visit_arg(self, node: ast.arg) -> ast.arg:
        node.annotation = None
        return node

    def visit_arguments(self, node: ast.arguments) -> ast.arguments:
        """The tool takes the star before keywords for a multiplication; called by name, they are the same."""
        node.args = [*node.posonlyargs, *node.args, *node.kwonlyargs]
        node.defaults += [value for value in node.kw_defaults if value]
        node.posonlyargs, node.kwonlyargs, node.kw_defaults = [], [], []
        self.generic_visit(node)
        return node

    def visit_AnnAssign(self, node: ast.AnnAssign) -> ast.AnnAssign:
        node.annotation = ast.Constant(None)
        self.generic_visit(node)
        return node

    def visit_FunctionDef(self, node: ast.FunctionDef) -> ast.FunctionDef:
        node.returns = None
        self._without_decorators(node)
        return node

    def visit_ClassDef(self, node: ast.ClassDef) -> ast.ClassDef:
        self._without_decorators(node)
        return node

    def _without_decorators(self, node: ast.FunctionDef | ast.ClassDef) -> None:
        node.decorator_list = [
            decorator
            for decorator in node.decorator_list
            if ast.unparse(decorator).partition("(")[0] not in UNNOTICEABLE_DECORATORS
        ]
        self.generic_visit(node)


def _what_runs(code: str) -> str:
    return ast.dump(_Bare().visit(ast.parse(code)))
