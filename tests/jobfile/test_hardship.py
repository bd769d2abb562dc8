"""Whatever is written in a job file, the answer is a job or findings, never a traceback."""

from __future__ import annotations

import re
import tomllib

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from casewright.casework.project import draw_up
from casewright.errors import JobError
from casewright.findings import Finding
from casewright.jobfile.read.key_places import find_places
from casewright.jobfile.read.read_job import read_job
from casewright.jobfile.read.toml_text import DEEPEST, MOST_FAULTS, read_text
from job_texts import TEXTS, mutated
from strategies import any_text


def judged(text: str) -> tuple[Finding, ...]:
    """The findings of reading a text and drawing it up; anything else raised fails the test."""
    try:
        return draw_up(read_job(text)).findings
    except JobError as refused:
        assert refused.findings
        return refused.findings


def sound(text: str, findings: tuple[Finding, ...]) -> None:
    for finding in findings:
        assert finding.place and finding.text.endswith(".") and finding.fix[-1] in ".?", finding
        assert "Traceback" not in finding.text and "\n" not in str(finding)
        if finding.line is not None:
            assert 1 <= finding.line <= text.count("\n") + text.count("\r") + 1


@settings(deadline=None, max_examples=150)
@given(mutated())
def test_a_mutated_job_file_gives_findings(text: str) -> None:
    sound(text, judged(text))


@settings(deadline=None, max_examples=100)
@given(st.text(max_size=400))
def test_any_text_at_all_gives_findings(text: str) -> None:
    found = judged(text)
    assert found
    sound(text, found)


LENGTH_KEYS = [
    "opening",
    "ceiling",
    "lift",
    "width",
    "trim",
    "height",
    "depth",
    "dado_play",
    "kerf",
    "length",
]


@settings(deadline=None, max_examples=150)
@given(
    st.sampled_from(TEXTS),
    st.sampled_from(LENGTH_KEYS),
    any_text,
)
def test_a_length_nobody_can_read_is_named_where_it_stands(text: str, key: str, said: str) -> None:
    written = "".join(f"\\U{ord(sign):08X}" for sign in said if not 0xD800 <= ord(sign) < 0xE000)
    changed, times = re.subn(rf"(?m)^{key} = .*$", lambda _: f'{key} = "{written}"', text, count=1)
    found = judged(changed)
    sound(changed, found)
    if times and found and found[0].code == "length":
        line = next(
            n for n, row in enumerate(changed.split("\n"), 1) if row.startswith(f'{key} = "{written}"')
        )
        assert line in {finding.line for finding in found}


KINDS: list[object] = [True, 7, -2.5, "seven", [], [1], {}, {"a": 1}, float("nan"), float("inf")]


def paths(values: object, path: tuple[str | int, ...] = ()) -> list[tuple[str | int, ...]]:
    """Every path into a document."""
    inner: list[tuple[str | int, object]] = []
    if isinstance(values, dict):
        inner = list(values.items())
    elif isinstance(values, list):
        inner = list(enumerate(values))
    return [path, *(one for step, value in inner for one in paths(value, (*path, step)))]


@settings(deadline=None, max_examples=150)
@given(st.sampled_from(TEXTS), st.data())
def test_a_value_of_another_type_is_told_by_its_own_place(text: str, data: st.DataObject) -> None:
    """Every scalar line of an example, with a value of another type in its place."""
    lines = text.split("\n")
    numbers = [n for n, line in enumerate(lines) if re.match(r"\w+ = ", line)]
    number = data.draw(st.sampled_from(numbers))
    kind = data.draw(st.sampled_from(KINDS))
    key = lines[number].split(" = ")[0]
    lines[number] = f"{key} = {toml(kind)}"
    changed = "\n".join(lines)
    found = judged(changed)
    sound(changed, found)


def toml(value: object) -> str:
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{key} = {toml(inner)}" for key, inner in value.items()) + " }"
    if isinstance(value, list):
        return f"[{', '.join(toml(inner) for inner in value)}]"
    if isinstance(value, str):
        return f'"{value}"'
    return repr(value).lower()


letters = st.text(st.characters(codec="ascii", categories=["L"]), max_size=5)
keys = st.sampled_from(["a", "b-c", "d e", "é", "f.g"])
plain = st.recursive(
    st.one_of(st.booleans(), st.integers(-99, 99), letters),
    lambda inner: st.one_of(st.lists(inner, max_size=3), st.dictionaries(keys, inner, max_size=3)),
    max_leaves=12,
)


@st.composite
def documents(draw: st.DrawFn) -> str:
    """Small TOML texts with tables, arrays of tables, dotted keys, comments and quoted keys."""
    lines: list[str] = []
    for name in draw(
        st.lists(st.sampled_from(["x", "y.z", "[r]", "[r.c]", "[r.c.d]", '"q w"']), unique=True)
    ):
        if name.startswith("[r.") and "[[r]]" not in lines:
            continue
        if name.startswith("[r.c.d") and "[[r.c]]" not in lines:
            continue
        for _ in range(draw(st.integers(1, 2)) if name.startswith("[") else 1):
            lines.append(f"[{name}]")
            for key in draw(st.lists(st.sampled_from(["k", "l.m", '"n o"', "'p'"]), unique=True)):
                lines.append(f"{key} = {quoted_keys(draw(plain))}  # why")
            lines.append("")
    return "\n".join(lines)


def quoted_keys(value: object) -> str:
    if isinstance(value, dict):
        return "{ " + ", ".join(f'"{key}" = {quoted_keys(inner)}' for key, inner in value.items()) + " }"
    if isinstance(value, list):
        return f"[{', '.join(quoted_keys(inner) for inner in value)}]"
    return toml(value)


@settings(deadline=None)
@given(documents())
def test_every_value_has_a_place_and_every_place_a_value(text: str) -> None:
    """Against the standard library's own reading of the text."""
    assert set(find_places(text)) == set(paths(tomllib.loads(text)))


def test_places_are_where_the_keys_are() -> None:
    text = '# é\na = 1\n[t."u v"]\n b = [10, 20,\n   30]\n[[r]]\n[[r]]\nc = { d = 4 }\n'
    found = find_places(text)
    at = {path: (place.line, place.column) for path, place in found.items()}
    assert at[("a",)] == (2, 1)
    assert at[("t", "u v")] == (3, 1)
    assert at[("t", "u v", "b")] == (4, 2)
    assert at[("t", "u v", "b", 2)] == (5, 4)
    assert at[("r", 1)] == (7, 1)
    assert at[("r", 1, "c", "d")] == (8, 7)


LONG = 20_000
DEEP = {
    "open lists": "a = " + "[" * LONG,
    "lists": "a = " + "[" * LONG + "]" * LONG,
    "tables in tables": "a = " + "{ a = " * LONG + "1" + " }" * LONG,
    "a dotted key": "a." * LONG + "b = 1",
    "a dotted header": "[" + "a." * LONG + "b]",
    "a dotted key in braces": "a = { " + "b." * LONG + "c = 1 }",
    "a key of quoted names": '"=".' * LONG + "b = 1",
    "one level too many": "a." * DEEPEST + "b = 1",
}


@pytest.mark.parametrize("deep", DEEP.values(), ids=DEEP.keys())
def test_a_text_nested_out_of_all_measure_is_refused_with_the_limit(deep: str) -> None:
    """The TOML reader takes time with the square of a dotted key's length: 14 s for 20 000 names."""
    (finding,) = read_text(f"# first\n{deep}\n").faults
    assert (finding.line, finding.column) == (2, 1)
    assert f"nested more than {DEEPEST} deep" in finding.text and str(DEEPEST) in finding.fix
    assert len(str(finding)) < 400


def test_dots_in_text_and_comments_are_no_deep_key() -> None:
    text = f'notes = """\nsee\n{"a." * 40}\n""" # {"b." * 40}\nmoney = "{"c." * 40}"\n'
    assert read_text(text).values == tomllib.loads(text) and not read_text(text).faults


HOSTILE = {
    "bad lines": "width 3\n" * 8000,
    "keys twice": "a = 1\n" * 8000,
    "tables twice": "[a]\n" * 8000,
    "open lists": "a = [\n" * 8000,
    "open long quotes": 'a = """\nx\n' * 4000,
    "open quotes": 'a = "x\n' * 8000,
    "escaped quotes": 'a = "' + '\\"' * 19_999,
    "blanks": f"a = x{' ' * 40_000}y z",
    "quotes of both sorts": "\"'" * 20_000,
    "signs": "]}\"'[{=#.,\n" * 4000,
}


@pytest.mark.parametrize("text", HOSTILE.values(), ids=HOSTILE.keys())
def test_thousands_of_faults_have_a_line_each_up_to_a_limit(text: str) -> None:
    found = read_text(text).faults
    sound(text, found)
    assert 1 <= len(found) <= MOST_FAULTS + 1
    places = [(fault.line, fault.column) for fault in found if "read on from here" not in fault.text]
    assert len(set(places)) == len(places) and all(line and column for line, column in places)


def spoilt(line: str) -> list[str]:
    """A line with a fault that leaves it no TOML, in all the ways that apply."""
    found = [f"{line} ?!"] if line and "#" not in line else []
    if "=" in line:
        found.append(re.sub("= .*", "= 27 3/8", line))
    if "]" in line:
        found.append(line.replace("]", "", 1))
    return found


@st.composite
def with_faults(draw: st.DrawFn) -> tuple[str, set[int]]:
    """An example with one to five lines spoilt, and their numbers."""
    lines = draw(st.sampled_from(TEXTS)).split("\n")
    able = [number for number, line in enumerate(lines, 1) if not line.startswith("#") and spoilt(line)]
    bad = draw(st.sets(st.sampled_from(able), min_size=1, max_size=5))
    for number in bad:
        lines[number - 1] = draw(st.sampled_from(spoilt(lines[number - 1])))
    return "\n".join(lines), bad


@settings(deadline=None, max_examples=60)
@given(with_faults())
@example(("bays = [{ adjustable = 1 }\n\n[[runs.cases]] ?!\nmark = 1\n", {1, 3}))
@example(('optional = ["B4-A1", "T2-A3"\n\n[materials.maple\n', {1, 3}))
@example(("bays = [\n  [ runs ?!\n", {1, 2}))
@example(("rows = [\n  [true,\n  [inf ?!\n]\n", {1}))
def test_each_of_several_faults_is_found_at_its_line_and_none_elsewhere(
    faulty: tuple[str, set[int]],
) -> None:
    text, bad = faulty
    assert {fault.line for fault in read_text(text).faults if fault.code == "not-toml"} == bad


@pytest.mark.parametrize("sign", ["\t", "\n", "\x00", "\x7f", "\x85", "\u202e", "\u2066", "\u2028", "\ufeff"])
def test_a_control_character_in_a_name_is_refused(sign: str) -> None:
    said = f"\\u{ord(sign):04x}"
    found = judged(TEXTS[0].replace('job = "Pottery', f'job = "Pottery{said}'))
    assert [(one.code, one.place) for one in found] == [("bad-name", "job")]
    assert "control characters" in found[0].fix


@pytest.mark.parametrize("key", ["money", "notes"])
def test_a_control_character_in_a_text_is_refused(key: str) -> None:
    found = judged(re.sub(rf"(?m)^{key} = .*$", rf'{key} = "\\u0007"', TEXTS[0]))
    assert [(one.code, one.place) for one in found] == [("bad-name", key)]
    assert "control characters" in found[0].fix
    lines = re.sub(r"(?m)^notes = .*$", r'notes = "one\\n\\ttwo"', TEXTS[0])
    assert not [one for one in judged(lines) if one.code == "bad-name"]


def test_a_text_of_three_million_characters_is_refused() -> None:
    (finding,) = judged("#" * 3_000_000)
    assert finding.code == "file-too-long"
