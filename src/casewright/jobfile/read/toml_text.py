"""Read a TOML text: its values, and every line that is not valid TOML.

A text that is not valid TOML is split into statements and each is read by itself. The error nodes
of a grammar-based parser were tried in place of this: of 562 faults planted in the examples they
found 551 and took 811 sound lines with them (an open bracket swallows the next table's header);
reading by statements found 562 and lost none.

The limits below keep the reading time in proportion to the length of the text, which the TOML reader
by itself does not.
"""

from __future__ import annotations

import re
import tomllib
from bisect import bisect_right
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from ...errors import JobError, LengthError
from ...findings import Finding
from ...lengths.fractions_text import quoted
from ...lengths.length import Unit, parse_length

LONGEST_TEXT = 200_000  # characters; a job of a hundred cases has twenty thousand
MOST_FAULTS = 1000
DEEPEST = 20  # a job file needs nine
MOST_DOTS = 1000
"""In dotted keys and headings, all together: what changes a text in place takes time with their square, 20 s
for 16,000 in 40 kB. A job file with a heading for each table has a dozen."""

MOST_READ_AGAIN = 4_000_000
"""Characters. Statements that clash show up one at a time, each after reading the whole text again."""

# Possessive throughout: a line of forty thousand quotes or spaces is looked at once.
_NAME = r"""(?:[\w-]++|"(?:[^"\\\n]|\\.)*+"|'[^'\n]*+')[ \t]*+"""
_HEADER = re.compile(r"[ \t]*+\[{1,2}[ \t]*+[\w\"'][^\[\],={}]*+\]{1,2}[ \t]*+(?:#.*+)?")
# No entry of a list begins with a bracket and a bare word, but for the four words that TOML has.
_FAULTY_HEADER = re.compile(r"[ \t]*+\[{1,2}[ \t]*+(?!(?:true|false|inf|nan)\b)[A-Za-z_]")
_KEY = re.compile(rf"[ \t]*+{_NAME}(?:\.[ \t]*+{_NAME})*+=")
_DEEP_KEY = re.compile(rf"(?<![\w-])(?:[\w-]++[ \t]*+\.[ \t]*+){{{DEEPEST}}}")
_DOTTED = re.compile(r"(?<![\w-])(?:[\w-]++[ \t]*+\.[ \t]*+)++[\w-]++[ \t]*+[=\]]")
_PAIR = re.compile(r"\s*+([\w.-]{1,60})\s*+=(.*+)")
_HIDDEN = re.compile(r'"(?:[^"\\\n]|\\.)*+"|\'[^\'\n]*+\'|#.*|(?P<open>["\'].*)')
_AT = re.compile(r"\((?:at line (\d+), column \d+|at end of document)\)$")
_TOO_DEEP = f"it is nested more than {DEEPEST} deep"


@dataclass(frozen=True)
class ReadText:
    """The values of a text, and its faults. `sound` is the text with faulty lines blanked: valid TOML."""

    values: Mapping[str, Any]
    sound: str
    faults: tuple[Finding, ...]


def read_text(text: str) -> ReadText:
    """Read a TOML text; after each fault, reading goes on with the next sound line."""
    if len(text) > LONGEST_TEXT:
        return _nothing(
            "file-too-long",
            f"the text is longer than {LONGEST_TEXT:,} characters.",
            "Split the job into two files.",
        )
    text = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
    if re.search("[\ud800-\udfff]", text):
        return _nothing("not-text", "the file is not UTF-8 text.", "Save it as UTF-8 in your editor.")
    if not _has_deep_key(text):
        if (dots := _dots_in_keys(text)) > MOST_DOTS:
            return _nothing(
                "too-many-dots",
                f"the text has {dots} dots in its keys and headings, more than the {MOST_DOTS} allowed.",
                "Give each table a heading, and write its keys without dots below it.",
            )
        values, _ = _parse(text)
        if values is not None and not _depth_over(values, DEEPEST):
            return ReadText(values, text, ())
    return _Recovery(text.split("\n")).read()


@lru_cache(maxsize=64)
def values_of(text: str) -> Mapping[str, Any]:
    """What a text says, as plain values, to be read only. Raises JobError when it is no TOML."""
    read = read_text(text)
    if read.faults:
        raise JobError(read.faults)
    return read.values


def _nothing(code: str, text: str, fix: str) -> ReadText:
    return ReadText({}, "", (Finding(code, "file", text, fix, line=1, column=1),))


def _parse(text: str) -> tuple[dict[str, Any] | None, str]:
    """The values, or None with the reason they cannot be read."""
    try:
        return tomllib.loads(text), ""
    except RecursionError:
        return None, _TOO_DEEP
    except ValueError as error:  # also what int() says of thousands of digits
        return None, str(error)


def _depth_over(values: Any, most: int) -> bool:
    level = [values]
    for _ in range(most):
        tables = [one for one in level if isinstance(one, dict)]
        arrays = [one for one in level if isinstance(one, list)]
        level = [inner for one in tables for inner in one.values()] + [
            inner for one in arrays for inner in one
        ]
    return bool(level)


class _Recovery:
    """Reads the sound statements of a text that is not TOML; faulty ones are blanked in `lines`."""

    def __init__(self, lines: list[str]) -> None:
        self.lines = lines
        self.starts: list[int] = []
        self.faults: list[Finding] = []

    def read(self) -> ReadText:
        """The values of the sound statements, with every fault."""
        if self._read_each():
            length = sum(len(line) + 1 for line in self.lines)
            for _ in range(1 + MOST_READ_AGAIN // length):
                sound = "\n".join(self.lines)
                values, why = _parse(sound)
                if values is not None:
                    return ReadText(values, sound, tuple(self.faults))
                self._clash(why)
        end = max(self.faults[-1].line or 1, 1)
        text = "there are too many faults to read on from here."
        self.faults.append(
            Finding("not-toml", "file", text, "Correct the faults above first.", line=end, column=1)
        )
        return ReadText({}, "", tuple(self.faults))

    def _read_each(self) -> bool:
        """Read every statement by itself; False when there are too many faults to go on."""
        start = 0
        bad: list[tuple[int, int]] = []
        while start < len(self.lines) and len(bad) < MOST_FAULTS:
            end = self._end_of(start)
            self.starts.append(start)
            if why := _wrong_alone("\n".join(self.lines[start:end])):
                self.faults.append(_fault(self.lines[start:end], start + 1, why))
                bad.append((start, end))
            start = end
        for first, last in bad:
            self._blank(first, last)
        return start >= len(self.lines)

    def _end_of(self, start: int) -> int:
        """The line after a statement: more than the next only where brackets or long quotes are open."""
        lines, first = self.lines, self.lines[start]
        for quotes in ('"""', "'''"):
            if first.count(quotes) % 2:
                ends = (at + 1 for at in range(start + 1, len(lines)) if quotes in lines[at])
                return next(ends, start + 1)
        opened, end = _brackets(first), start + 1
        while opened > 0 and end < len(lines) and not _begins(lines[end]):
            opened += _brackets(lines[end])
            end += 1
        return end

    def _blank(self, first: int, last: int) -> None:
        """Blank a statement. A table's header takes its keys along: they would land in the table before."""
        if self.lines[first].lstrip().startswith("["):
            while last < len(self.lines) and not self.lines[last].lstrip().startswith("["):
                last += 1
        self.lines[first:last] = [""] * (last - first)

    def _clash(self, why: str) -> None:
        """Report and blank the statement that conflicts with those above it."""
        found = _AT.search(why)
        at = min(int(found[1]) if found and found[1] else len(self.lines), len(self.lines)) - 1
        while at > 0 and not self.lines[at].strip():
            at -= 1
        place = bisect_right(self.starts, at)
        first = self.starts[place - 1]
        last = self.starts[place] if place < len(self.starts) else len(self.lines)
        line = self.lines[first].strip()
        self.faults.append(
            Finding(
                "key-twice" if "twice" in why or "overwrite" in why.lower() else "not-toml",
                line.split("=")[0].strip()[:60] or "file",
                f"{quoted(line)} conflicts with the lines above it: {_mid_sentence(why)}.",
                "Keep one of the two, or give it another name.",
                line=first + 1,
                column=1,
            )
        )
        self._blank(first, last)


def _begins(line: str) -> bool:
    """Whether a line can only be the start of a statement."""
    return bool(_HEADER.fullmatch(line) or _FAULTY_HEADER.match(line) or _KEY.match(line))


def _wrong_alone(statement: str) -> str:
    """Why a statement is not TOML even by itself; empty when it is."""
    quotes = next((mark for mark in ('"""', "'''") if mark in statement), "\n\n")
    if _has_deep_key(statement.partition(quotes)[0]):
        return _TOO_DEEP
    values, why = _parse(statement)
    return why if values is None else _TOO_DEEP if _depth_over(values, DEEPEST) else ""


def _brackets(line: str) -> int:
    """How many square brackets a line leaves open, not counting quoted text and comments."""
    bare = _bare(line)
    return bare.count("[") - bare.count("]")


def _has_deep_key(text: str) -> bool:
    """Whether a dotted key is too long to read: the reader's time grows with the square of its length."""
    return bool(_DEEP_KEY.search(_bare(text)))


def _dots_in_keys(text: str) -> int:
    """One in a heading, as in [[runs.cases]], costs nothing and does not count."""
    dotted = (found[0] for found in _DOTTED.finditer(_bare(text)))
    return sum(one.count(".") - one.endswith("]") for one in dotted)


def _bare(text: str) -> str:
    """The text without comments, and a letter in place of each quoted string."""
    return _HIDDEN.sub(lambda found: found["open"] or "q", text)


def _fault(statement: list[str], line: int, why: str) -> Finding:
    """A finding for a statement that is not TOML, with what was probably meant."""
    first = statement[0]
    column = len(first) - len(first.lstrip()) + 1
    found = _PAIR.fullmatch(first)
    place = found[1] if found else "file"
    value = found[2].partition("#")[0].strip() if found else ""
    text = f"{quoted(first.strip())} cannot be read: {_mid_sentence(why)}."
    if why == _TOO_DEEP:
        fix = f"Use no more than {DEEPEST} levels of tables and lists."
    elif len(statement) == 1 and (meant := _meant(value)):
        text, fix = f"{quoted(value)} is missing its quotes.", f"Write {place} = {meant}."
    elif first.lstrip().startswith("["):
        fix = "Put the table's name in brackets on a line by itself: [shop], or [[runs]] for one of several."
    else:
        fix = 'Write one key per line, with text in quotes: width = "27 3/8".'
    return Finding("not-toml", place, text, fix, line=line, column=column)


def _meant(value: str) -> str | None:
    """The value as valid TOML, if it is a length with its quotes missing or doubled."""
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


def _mid_sentence(why: str) -> str:
    """The TOML reader's reason as part of a sentence, without the position, which the finding gives."""
    why = _AT.sub("", why).rstrip()
    return (why[:1].lower() + why[1:]).rstrip(".")
