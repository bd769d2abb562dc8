"""From a TOML text to its values, or to every place where it is not TOML."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from ...errors import LengthError
from ...findings import Finding
from ...lengths.fractions_text import quoted
from ...lengths.length import Unit, parse_length

LONGEST_TEXT = 2_000_000
MOST_FAULTS = 50
DEEPEST = 20  # a job file needs nine

_HEADER = re.compile(r"\s*\[{1,2}\s*[\w\"'][^\[\],={}]*\]{1,2}\s*(?:#.*)?")
_KEY = re.compile(r"""\s*(?:[\w-]+|"[^"]*"|'[^']*')(?:\s*\.\s*(?:[\w-]+|"[^"]*"|'[^']*'))*\s*=""")
_PLAIN_PAIR = re.compile(r"\s*([\w.-]+)\s*=\s*(.*?)\s*(?:#.*)?")
_AT = re.compile(r"\s*\((?:at line (\d+), column (\d+)|at end of document)\)$")


@dataclass(frozen=True)
class ReadText:
    """What a text holds. `sound` is the text with every faulty line blanked; it is TOML."""

    values: Mapping[str, Any]
    sound: str
    faults: tuple[Finding, ...]


def read_text(text: str) -> ReadText:
    """Read a TOML text, going on after each fault with the lines that are sound."""
    if len(text) > LONGEST_TEXT:
        return _nothing("file-too-long", "the text is longer than two million characters.", "Split the job.")
    text = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
    if re.search("[\ud800-\udfff]", text):
        return _nothing("not-text", "the file is not UTF-8 text.", "Save it as UTF-8.")
    values, why = _parse(text)
    if values is not None:
        return ReadText(values, text, ())
    lines = text.split("\n")
    bad = _unreadable(lines)[:MOST_FAULTS]
    faults = [_fault("\n".join(lines[first:last]), first + 1) for first, last in bad]
    for first, last in bad:
        _scrap(lines, first, last)
    while len(faults) < MOST_FAULTS:
        values, why = _parse("\n".join(lines))
        if values is not None:
            return ReadText(values, "\n".join(lines), tuple(faults))
        number, finding = _clash(why, lines)
        faults.append(finding)
        if not lines[number]:
            break
        _scrap(lines, number, number + 1)
    return ReadText({}, "", tuple(faults))


def _nothing(code: str, text: str, fix: str) -> ReadText:
    return ReadText({}, "", (Finding(code, "file", text, fix, line=1, column=1),))


def _parse(text: str) -> tuple[dict[str, Any] | None, str]:
    """The values, or None and why not."""
    try:
        values = tomllib.loads(text)
    except RecursionError:
        return None, "it is nested too deep"
    except ValueError as error:  # also what int() says of thousands of digits
        return None, str(error)
    return (None, "it is nested too deep") if _depth_over(values, DEEPEST) else (values, "")


def _depth_over(values: Any, most: int) -> bool:
    level = [values]
    for _ in range(most):
        tables = [one for one in level if isinstance(one, dict)]
        arrays = [one for one in level if isinstance(one, list)]
        level = [inner for one in tables for inner in one.values()] + [
            inner for one in arrays for inner in one
        ]
    return bool(level)


def _unreadable(lines: list[str]) -> list[tuple[int, int]]:
    """The statements, as half-open ranges of lines, that are no TOML even when read alone."""
    bad = []
    start = 0
    while start < len(lines):
        end = _statement_end(lines, start)
        if _parse("\n".join(lines[start:end]))[0] is None:
            bad.append((start, end))
        start = end
    return bad


def _statement_end(lines: list[str], start: int) -> int:
    """The line after a statement: more than the next only where brackets or long quotes are open."""
    first = lines[start]
    for quotes in ('"""', "'''"):
        if first.count(quotes) % 2:
            for end in range(start + 1, len(lines)):
                if quotes in lines[end]:
                    return end + 1
            return start + 1
    opened = _brackets(first)
    end = start + 1
    while (
        opened > 0 and end < len(lines) and not _HEADER.fullmatch(lines[end]) and not _KEY.match(lines[end])
    ):
        opened += _brackets(lines[end])
        end += 1
    return end


def _scrap(lines: list[str], first: int, last: int) -> None:
    """Blank a statement; with a table's header go its keys, which would fall to the table before."""
    if lines[first].lstrip().startswith("["):
        while last < len(lines) and not lines[last].lstrip().startswith("["):
            last += 1
    lines[first:last] = [""] * (last - first)


def _brackets(line: str) -> int:
    """How many square brackets a line leaves open, leaving out quoted text and comments."""
    bare = re.sub(r'"(?:[^"\\]|\\.)*"|\'[^\']*\'|#.*', "", line)
    return bare.count("[") - bare.count("]")


def _fault(statement: str, line: int) -> Finding:
    """What is wrong with a statement that is no TOML, and what its maker probably meant."""
    shown = quoted(statement.strip().split("\n")[0])
    found = _PLAIN_PAIR.fullmatch(statement)
    column = len(statement) - len(statement.lstrip()) + 1
    if found and found[2]:
        key, value = found[1], found[2]
        if meant := _meant(value):
            text, fix = f"{quoted(value)} stands without its quotes.", f"Write {key} = {meant}."
            return Finding("not-toml", key, text, fix, line=line, column=column)
    why = _small(_AT.sub("", _parse(statement)[1]))
    fix = 'Write one key to a line, like width = "27 3/8", with text in quotes.'
    if statement.lstrip().startswith("["):
        fix = "Write a table's name alone on its line, in brackets: [shop], or [[runs]] for one of several."
    place = found[1] if found else "file"
    return Finding("not-toml", place, f"{shown} cannot be read: {why}.", fix, line=line, column=column)


def _meant(value: str) -> str | None:
    """The value as TOML, where it is a length that only lacks its quotes or has too many."""
    bare = value.strip("\"' ")
    for said in (value, value.removesuffix('"'), value[1:-1], bare):
        quote = "'" if '"' in said else '"'
        if _is_length(said) and quote not in said:
            return f"{quote}{said}{quote}"
    return None


def _is_length(text: str) -> bool:
    if not any(sign.isdigit() for sign in text):
        return False
    try:
        parse_length(text, Unit.INCH)
    except LengthError:
        return False
    return True


def _clash(why: str, lines: list[str]) -> tuple[int, Finding]:
    """The line, from 0, at which sound statements do not go together, and what to say of it."""
    found = _AT.search(why)
    number = min(int(found[1]) if found and found[1] else len(lines), len(lines)) - 1
    while number > 0 and not lines[number].strip():
        number -= 1
    return number, Finding(
        "key-twice" if "twice" in why or "overwrite" in why.lower() else "not-toml",
        lines[number].split("=")[0].strip() or "file",
        f"{quoted(lines[number].strip())} does not go with the lines above it: {_small(_AT.sub('', why))}.",
        "Keep one of the two, or give it a name of its own.",
        line=number + 1,
        column=1,
    )


def _small(why: str) -> str:
    return (why[:1].lower() + why[1:]).rstrip(".")
