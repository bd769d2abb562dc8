"""A mypy plugin that refuses sums on lengths in the layers that only show them.

A length is a `Fraction`, or a form (`Affine`) over named sizes. The core works lengths out; drawings, pages,
commands and tools read them. A drawing turns lengths into coordinates with `float` and may add those up, but
a view never makes a length of a coordinate and writes none as text. So every figure that it prints is a size
that the core knows. The other layers do not even turn a length into a float. Lengths may be compared and
sorted: pictures are laid out so.

Weights, prices and times are fractions as well, and the same holds for them.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import PurePath

from mypy.plugin import FunctionContext, MethodContext, Plugin
from mypy.types import Type

DRAWS = "drawings"
SHOWS = {DRAWS, "packet", "app", "web", "cli", "tools"}
LENGTHS = ("fractions.Fraction", "casewright.sizes.affine.Affine")
SUMS = {
    *(
        f"__{way}{name}__"
        for name in ("add", "sub", "mul", "truediv", "floordiv", "mod", "divmod", "pow")
        for way in ("", "r")
    ),
    *("__neg__", "__pos__", "__abs__", "__round__", "limit_denominator"),
}
FUNCTIONS = {"builtins.sum", "builtins.abs", "builtins.round", "builtins.divmod", "math.fsum", "math.hypot"}
REFUSAL = "a length is worked out here; work it out in the core and read it off"


def layer_of(path: str) -> str:
    """The layer that a file belongs to; empty for a file of none."""
    parts = PurePath(path).parts
    if "casewright" in parts:
        return parts[parts.index("casewright") + 1].removesuffix(".py")
    return "tools" if "tools" in parts[:-1] else ""


def is_length(kind: Type) -> bool:
    """Whether a value of this type is a length, or holds some."""
    return any(name in str(kind) for name in LENGTHS)


class NoSums(Plugin):
    """Refuses each operator and function that makes a number of lengths."""

    def get_method_hook(self, fullname: str) -> Callable[[MethodContext], Type] | None:
        owner, _, method = fullname.rpartition(".")
        if fullname == "builtins.str.format":  # mypy's own reading of every f-string
            return _refuse_as_text
        return _refuse if owner in LENGTHS and method in SUMS else None

    def get_function_hook(self, fullname: str) -> Callable[[FunctionContext], Type] | None:
        if fullname in FUNCTIONS:
            return _refuse_of_lengths
        return {
            "fractions.Fraction": _refuse_of_float,
            "builtins.float": _refuse_as_float,
            "builtins.str": _refuse_as_text,
        }.get(fullname)


def _refuse(context: MethodContext | FunctionContext) -> Type:
    if layer_of(context.api.path) in SHOWS:
        context.api.fail(REFUSAL, context.context)
    return context.default_return_type


def _refuse_where(holds: bool, context: MethodContext | FunctionContext) -> Type:
    return _refuse(context) if holds else context.default_return_type


def _refuse_of_lengths(context: FunctionContext) -> Type:
    return _refuse_where(any(map(is_length, _given(context))), context)


def _refuse_of_float(context: FunctionContext) -> Type:
    return _refuse_where(any("float" in str(kind) for kind in _given(context)), context)


def _refuse_as_float(context: FunctionContext) -> Type:
    drawn = layer_of(context.api.path) == DRAWS
    return _refuse_where(not drawn and any(map(is_length, _given(context))), context)


def _refuse_as_text(context: MethodContext | FunctionContext) -> Type:
    view = f"/{DRAWS}/views/" in PurePath(context.api.path).as_posix()
    return _refuse_where(view and any("float" in str(kind) for kind in _given(context)), context)


def _given(context: MethodContext | FunctionContext) -> list[Type]:
    return [kind for kinds in context.arg_types for kind in kinds]


def plugin(version: str) -> type[Plugin]:
    """What mypy asks this file for."""
    return NoSums
