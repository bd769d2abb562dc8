"""The line and column of each key in a TOML text, by its path through the tables."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache

import tree_sitter_toml
from tree_sitter import Language, Node, Parser

from ...errors import library_call

Path = tuple[str | int, ...]


@dataclass(frozen=True)
class Place:
    """A line and column in a text, both counted from 1; columns count characters."""

    line: int
    column: int


@cache
def _language() -> Language:
    return Language(tree_sitter_toml.language())


def find_places(text: str) -> Mapping[Path, Place]:
    """The place of every key and array entry of a well-formed TOML text, and of every table.

    A table's place is its header, or the first key that creates it.
    """
    source = text.encode("utf-8", "replace")
    lines = source.split(b"\n")
    found: dict[Path, Place] = {(): Place(1, 1)}
    for path, node in _walk(_grammar_tree(source)):
        row, column = node.start_point
        place = Place(row + 1, len(lines[row][:column].decode("utf-8", "replace")) + 1)
        for length in range(1, len(path) + 1):
            found.setdefault(path[:length], place)
    return found


def find_values(text: str) -> Mapping[Path, tuple[int, int]]:
    """Where each text, number or date of a well-formed TOML text stands: from one byte of its UTF-8 up to
    another."""
    found: dict[Path, tuple[int, int]] = {}
    for path, node in _walk(_grammar_tree(text.encode("utf-8"))):
        pair = node.parent if node.parent is not None and node.parent.type == "pair" else None
        value = pair.named_children[1] if pair is not None and pair.named_children[0] == node else node
        if value.type not in ("table", "table_array_element", "inline_table", "array"):
            found[path] = (value.start_byte, value.end_byte)
    return found


def has_comments(text: str) -> bool:
    """Whether there is a comment anywhere in a well-formed TOML text."""
    return "(comment)" in str(_grammar_tree(text.encode("utf-8", "replace")))


def _grammar_tree(source: bytes) -> Node:
    with library_call("tree-sitter", "finding the lines of a job file"):
        # A parser of its own for each text: one holds the state of its parse, and threads read jobs at once.
        return Parser(_language()).parse(source).root_node


def nearest_place(found: Mapping[Path, Place], path: Path) -> Place:
    """The place of a path, or of the innermost table around it that the text has."""
    for length in range(len(path), 0, -1):
        if path[:length] in found:
            return found[path[:length]]
    return Place(1, 1)


def _walk(root: Node) -> Iterator[tuple[Path, Node]]:
    numbers: dict[Path, int] = {}  # how many entries an array of tables has so far
    for node in root.named_children:
        if node.type == "pair":
            yield from _pair((), node)
        elif node.type in ("table", "table_array_element"):
            yield from _table(node, numbers)


def _table(node: Node, numbers: dict[Path, int]) -> Iterator[tuple[Path, Node]]:
    keys = _keys(node.named_children[0])
    path: Path = ()
    for key in keys[:-1]:
        path = _latest((*path, key), numbers)
    path = (*path, keys[-1])
    if node.type == "table_array_element":
        yield path, node
        numbers[path] = numbers.get(path, -1) + 1
    path = _latest(path, numbers)
    yield path, node
    for child in node.named_children[1:]:
        if child.type == "pair":
            yield from _pair(path, child)


def _latest(path: Path, numbers: Mapping[Path, int]) -> Path:
    """The path into the last entry, where it names an array of tables."""
    return (*path, numbers[path]) if path in numbers else path


def _pair(under: Path, node: Node) -> Iterator[tuple[Path, Node]]:
    key, *values = node.named_children
    path = (*under, *_keys(key))
    yield path, key
    for value in values:
        yield from _value(path, value)


def _value(path: Path, node: Node) -> Iterator[tuple[Path, Node]]:
    if node.type == "inline_table":
        for child in node.named_children:
            if child.type == "pair":
                yield from _pair(path, child)
    elif node.type == "array":
        entries = [child for child in node.named_children if child.type != "comment"]
        for index, child in enumerate(entries):
            yield (*path, index), child
            yield from _value((*path, index), child)


def _keys(node: Node) -> Path:
    """The names in a key, dotted or not."""
    if node.type == "dotted_key":
        return tuple(name for child in node.named_children for name in _keys(child))
    text = (node.text or b"").decode("utf-8", "replace")
    if node.type == "bare_key":
        return (text,)
    return (next(iter(tomllib.loads(f"{text} = 0"))),)
