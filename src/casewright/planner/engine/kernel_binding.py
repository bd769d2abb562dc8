"""The compiled kernel's functions with their types. Calls release the interpreter lock."""

from __future__ import annotations

import ctypes
import sys
from ctypes import (
    POINTER,
    c_double,
    c_float,
    c_int16,
    c_int32,
    c_int64,
    c_uint8,
    c_uint32,
    c_uint64,
    c_void_p,
)
from functools import cache
from pathlib import Path

from ...errors import KernelError
from .fingerprint import fingerprint


class ItemType(ctypes.Structure):
    _fields_ = (("length", c_int32), ("width", c_int32), ("count", c_int32), ("may_turn", c_int32))


class BinType(ctypes.Structure):
    _fields_ = (
        ("length", c_int32),
        ("width", c_int32),
        ("count", c_int32),
        ("pad", c_int32),
        ("price", c_int64),
    )


class Rules(ctypes.Structure):
    _fields_ = (("stages", c_int32), ("first_cut", c_int32), ("restricted", c_int32))


class PricedItem(ctypes.Structure):
    _fields_ = (
        ("length", c_int32),
        ("width", c_int32),
        ("may_turn", c_int32),
        ("count", c_int32),
        ("worth", c_float),
    )


FLOATS = POINTER(c_float)
INTEGERS = POINTER(c_int32)
SHORTS = POINTER(c_int16)


class SeedType(ctypes.Structure):
    _fields_ = (("x", c_int32), ("y", c_int32), ("kind", c_int32), ("turned", c_int32))


class LineType(ctypes.Structure):
    _fields_ = (
        ("count", c_int32),
        ("even", c_int32),
        ("first", INTEGERS),
        ("pair", INTEGERS),
        ("across", INTEGERS),
    )


class GridType(ctypes.Structure):
    _fields_ = (
        ("x", LineType),
        ("y", LineType),
        ("seeds", c_int32),
        ("seed", POINTER(SeedType)),
        ("worth", FLOATS),
        ("digit", INTEGERS),
        ("digits", c_int32),
        ("weight", INTEGERS),
        ("radix", INTEGERS),
        ("states", c_int32),
        ("split_first", INTEGERS),
        ("split", INTEGERS),
        ("holds_from", INTEGERS),
        ("stride", c_int32),
    )


SIGNATURES: dict[str, tuple[object, tuple[object, ...]]] = {
    "search_new": (
        c_void_p,
        (c_int32, POINTER(ItemType), c_int32, POINTER(BinType), POINTER(Rules), c_uint64),
    ),
    "search_free": (None, (c_void_p,)),
    "search_set_goal": (None, (c_void_p, c_int64)),
    "search_set_pace": (None, (c_void_p, c_int32, c_int64)),
    "search_remember": (c_int32, (c_void_p, c_double, c_int32)),
    "search_learn": (None, (c_void_p, INTEGERS, c_int32)),
    "search_remembered": (c_int32, (c_void_p,)),
    "search_remembered_counts": (None, (c_void_p, c_int32, INTEGERS, c_int32, INTEGERS, SHORTS)),
    "search_remembered_code": (INTEGERS, (c_void_p, c_int32, INTEGERS)),
    "search_run": (c_int32, (c_void_p, c_int64, POINTER(c_int64))),
    "search_work": (c_int64, (c_void_p,)),
    "search_encode": (c_int32, (c_void_p,)),
    "search_kept": (POINTER(c_int32), (c_void_p,)),
    "search_kept_length": (c_int32, (c_void_p,)),
    "search_out_area": (c_int64, (c_void_p,)),
    "lay_line": (
        c_int32,
        (c_int32, POINTER(c_uint8), INTEGERS, INTEGERS, INTEGERS, c_int32, INTEGERS, INTEGERS),
    ),
    "price_tables": (c_float, (POINTER(GridType), FLOATS)),
    "price_rests": (c_int32, (POINTER(GridType), FLOATS, FLOATS)),
    "price_patterns": (
        c_int32,
        (POINTER(GridType), FLOATS, c_float, c_int32, INTEGERS, c_int32),
    ),
    "assemble_columns": (
        c_int32,
        (
            c_int32,
            c_int32,
            c_int32,
            POINTER(PricedItem),
            c_int32,
            c_int32,
            POINTER(GridType),
            INTEGERS,
            INTEGERS,
            FLOATS,
            c_float,
            c_int32,
            POINTER(c_int64),
            c_int32,
            c_int32,
            c_int32,
            INTEGERS,
            c_int32,
            INTEGERS,
        ),
    ),
}


def library_path() -> Path:
    suffix = {"win32": ".dll", "darwin": ".dylib"}.get(sys.platform, ".so")
    return Path(__file__).with_name("_kernel" + suffix)


def _is_current(library: ctypes.CDLL) -> bool:
    """A call into a library whose functions have changed would bring the interpreter down."""
    compiled = getattr(library, "kernel_sources", None)
    if compiled is None:
        return False
    compiled.restype = c_uint32
    return bool(compiled() == fingerprint(Path(__file__).with_name("kernel")))


@cache
def kernel() -> ctypes.CDLL:
    """The library that the installation compiled.

    Raises KernelError when it is not there, or was compiled from other sources than those beside
    it: the package was copied or changed, and not installed again.
    """
    path = library_path()
    if not path.exists():
        raise KernelError(f"{path.name} is missing: install the package (pip install .) to compile it.")
    try:
        library = ctypes.CDLL(str(path))
    except OSError as fault:
        raise KernelError(f"{path.name} cannot be loaded: {fault}; install the package again.") from fault
    if not _is_current(library):
        raise KernelError(f"{path.name} is older than its sources: install again (make, or pip install .).")
    for name, (result, arguments) in SIGNATURES.items():
        function = getattr(library, name)
        function.restype = result
        function.argtypes = list(arguments)
    return library
