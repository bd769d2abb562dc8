"""Lengths are read as makers write them, refused where open to doubt, and printed to a mark."""

import math
import subprocess
import sys
import unicodedata
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from casewright.errors import LengthError
from casewright.lengths.length import MM, Mark, Unit, parse_length, show
from strategies import any_text, lengths, marks, on_mark, units

F = Fraction
THIN = "\u2009"

WRITTEN = [
    *(
        (text, F("219/8"))
        for text in ("27-3/8", "27 3/8", '27 3/8"', "27 3/8″", "27 3/8''", "27 3/8 in", "27⅜")
    ),
    *((text, F("219/8")) for text in ("2' 3 3/8\"", "2'-3 3/8\"", "2' - 3 3/8\"", "2′ 3⅜″", "2’3 3/8”")),
    *(
        (text, F("219/8"))
        for text in ("2 ft 3 3/8 in", "2ft. 3-3/8in.", "2 feet 3.375 inches", "27.375", "27.3750 IN")
    ),
    *(
        (text, F("219/8"))
        for text in ("27–3/8", "27 3⁄8", "27³⁄₈", "27-⅜", f"27{THIN}3/8", " 27 \u00a0 3/8 ")
    ),
    *((text, 695 * MM) for text in ("695mm", "695 mm", "695.0 MM", "69.5 cm", "0.695 m", "695 millimetres")),
    *((text, F(165, 4)) for text in ("41 ¼", "41¼", "41 1/4 inch")),
    ("3/4", F(3, 4)),
    ("⅞", F(7, 8)),
    ("-1/8", F(-1, 8)),
    ("− 1/8", F(-1, 8)),
    ("+1/8", F(1, 8)),
    ("-1' 6\"", F(-18)),
    ("5 1/2'", F(66)),
    ("8′", F(96)),
    (".5", F(1, 2)),
    ("0", F(0)),
    ("1.2 m", 1200 * MM),
]


@pytest.mark.parametrize(("text", "length"), WRITTEN)
def test_what_makers_write_is_read(text: str, length: Fraction) -> None:
    assert parse_length(text, Unit.INCH) == length


REFUSED = [
    ("27-3/8-1/4", "more than one size"),
    ("27 3/8 1/4", "more than one size"),
    ('27 3/8" 1/4"', "more than one size"),
    ("1 m 20 cm", "more than one size"),
    ("1' 20 mm", "more than one size"),
    ("½½", "more than one size"),
    ("½2", "more than one size"),  # not one twenty-second
    ("23-5", "a range, a subtraction or an incomplete fraction"),
    ("23-5 mm", "a range, a subtraction or an incomplete fraction"),
    ("23 5", "two pieces or an incomplete fraction"),
    ("1 200 mm", "two pieces or an incomplete fraction"),
    ("27 - 3/8", "join or subtract"),
    ("27 -3/8", "join or subtract"),
    ("23,5", "decimals or thousands"),
    ("1,200", "decimals or thousands"),
    ("3/0", "divides by zero"),
    ("5/4", "write 1 1/4, since 5/4 and the like are names of lumber"),
    ("4/4", "write 1,"),
    ("23 5/4", "write 24 1/4."),
    ("1/2/3", "two slashes"),
    ("1/½", "two slashes"),
    ("23 1/", "incomplete fraction"),
    ("/4", "incomplete fraction"),
    ("27 3/8mm", "a fraction of a metric unit"),
    ("27.5 3/8", "a fraction after a decimal"),
    ("1.5' 3\"", "a fraction of a foot"),
    ("1' 14\"", 'write 26"'),
    ("23 yd", "“yd” as its unit"),
    ("1e3", "“e” as its unit"),
    ("2x4", "looks like a calculation"),
    ("23 + 1/2", "looks like a calculation"),
    ("~27 3/8", "marked as rounded"),
    ("", "not a length"),
    (" \t", "not a length"),
    ("nan", "holds no number"),
    ("-inf", "holds no number"),
    ("٢٣", "holds no number"),
    ("--1", "cannot be read as one length"),
    ("9" * 61, "too long"),
    ("695 m", "more than 1000 ft"),
    ("0.0001 mm", "less than 0.001 mm"),
    (True, "“True” is not a length"),
    (None, "“None” is not a length"),
    ([23], "is not a length"),
    (math.nan, "“nan” is not a length"),
    (-math.inf, "“-inf” is not a length"),
    (1e300, "more than 1000 ft"),
    (Fraction(1, 10**9), "less than 0.001 mm"),
]


@pytest.mark.parametrize(("text", "reason"), REFUSED)
def test_what_is_open_to_doubt_is_refused_with_the_reason(text: str | float | Fraction, reason: str) -> None:
    with pytest.raises(LengthError, match=reason) as refused:
        parse_length(text, Unit.INCH)
    sentence = str(refused.value)
    assert sentence.endswith(".") and "\n" not in sentence and len(sentence) < 200
    if isinstance(text, str) and len(text) < 40:
        assert f"“{text.strip()}”" in sentence


@pytest.mark.parametrize(
    ("text", "length", "beyond"),
    [
        ("1000 ft", Fraction(12_000), "1000 ft 1/64 in"),
        ("-1000 ft", Fraction(-12_000), "-12000.001"),
        ("0.001 mm", Fraction(1, 25_400), "0.00099 mm"),
        ("-0.001 mm", Fraction(-1, 25_400), "-0.00099 mm"),
        ("0" * 59 + "1", Fraction(1), "0" * 60 + "1"),
    ],
)
def test_the_longest_and_the_finest_are_read_and_no_more(text: str, length: Fraction, beyond: str) -> None:
    assert parse_length(text, Unit.INCH) == length
    with pytest.raises(LengthError):
        parse_length(beyond, Unit.INCH)


def test_an_int_too_long_for_python_to_write_is_refused() -> None:
    with pytest.raises(LengthError, match="a number of thousands of digits comes to more than 1000 ft"):
        parse_length(10**5000, Unit.INCH)


def test_a_bare_number_counts_the_unit_of_the_job() -> None:
    for number in ("695", 695, 695.0, F(695)):
        assert parse_length(number, Unit.MM) == 695 * MM
        assert parse_length(number, Unit.INCH) == 695
    assert parse_length('27 3/8"', Unit.MM) == F("219/8")
    assert parse_length("695 mm", Unit.INCH) == 695 * MM


def test_a_bare_fraction_in_a_metric_job_is_refused() -> None:
    with pytest.raises(LengthError, match='write 27 3/8" for inches, or a decimal'):
        parse_length("27 3/8", Unit.MM)


def test_a_float_is_its_shortest_decimal() -> None:
    assert parse_length(0.1, Unit.INCH) == F(1, 10)
    assert parse_length(18.3, Unit.MM) == F("18.3") * MM


def test_the_inch_is_25_4_mm_exactly() -> None:
    # International yard and pound agreement, 1959.
    assert parse_length("25.4 mm", Unit.INCH) == 1 == F("25.4") * MM
    assert parse_length("2.54 cm", Unit.INCH) == parse_length("1 in", Unit.MM)
    assert parse_length("1 ft", Unit.MM) == F("304.8") * MM


@given(any_text, units)
@example("1" * 59 + "/" + "0", Unit.INCH)
@example("²/3", Unit.MM)
def test_any_text_is_a_length_or_refused(text: str, unit: Unit) -> None:
    try:
        length = parse_length(text, unit)
    except LengthError as refused:
        assert str(refused).endswith(".")
    else:
        assert isinstance(length, Fraction) and abs(length) <= 12_000


@given(st.one_of(st.floats(), st.integers(), st.booleans(), st.none(), st.fractions()), units)
def test_any_number_is_a_length_or_refused(number: Any, unit: Unit) -> None:
    try:
        assert parse_length(number, unit) == Fraction(
            repr(number) if isinstance(number, float) else number
        ) * (unit.length)
    except LengthError as refused:
        assert str(refused).endswith(".")


@given(st.data(), marks, st.booleans(), st.sampled_from([" ", THIN, "\u202f"]))
def test_what_is_printed_on_a_mark_reads_back_the_same(
    data: st.DataObject, mark: Mark, unit: bool, gap: str
) -> None:
    length = data.draw(on_mark(mark))
    shown = show(length, mark, unit=unit, gap=gap)
    assert not shown.rounded and shown.marked == shown.plain
    assert parse_length(shown.plain, mark.unit) == length == shown.value


@given(lengths(), marks)
def test_printing_says_when_and_by_how_much_it_rounded(length: Fraction, mark: Mark) -> None:
    shown = show(length, mark)
    assert parse_length(shown.plain, mark.unit) == shown.value == length + shown.off_by
    assert abs(shown.off_by) <= mark.step / 2
    assert shown.rounded == (shown.off_by != 0) == shown.marked.startswith("~")
    assert str(shown) == shown.marked


@given(lengths(), marks)
def test_an_offset_and_its_mirror_image_print_alike(length: Fraction, mark: Mark) -> None:
    there, back = show(length, mark), show(-length, mark)
    assert there.value == -back.value
    assert there.plain.lstrip("-") == back.plain.lstrip("-")


@pytest.mark.parametrize(
    ("length", "mark", "text"),
    [
        (F("219/8"), Mark.SIXTEENTH, "27 3/8"),
        (F("753/32"), Mark.THIRTY_SECOND, "23 17/32"),
        (F("753/32"), Mark.SIXTEENTH, "~23 9/16"),
        (F("-753/32"), Mark.SIXTEENTH, "~-23 9/16"),
        (F(1, 100), Mark.SIXTY_FOURTH, "~1/64"),
        (F(-1, 1000), Mark.SIXTY_FOURTH, "~0"),
        (F(-1, 8), Mark.SIXTEENTH, "-1/8"),
        (695 * MM, Mark.MILLIMETRE, "695"),
        (F("695.5") * MM, Mark.MILLIMETRE, "~696"),
        (F("695.5") * MM, Mark.HALF_MILLIMETRE, "695.5"),
        (F("18.3") * MM, Mark.TENTH_MILLIMETRE, "18.3"),
        (F("-0.3") * MM, Mark.TENTH_MILLIMETRE, "-0.3"),
        (F(27), Mark.TENTH_MILLIMETRE, "685.8"),
        (600 * MM, Mark.TENTH_MILLIMETRE, "600"),
    ],
)
def test_printing_to_the_mark(length: Fraction, mark: Mark, text: str) -> None:
    assert show(length, mark).marked == text


def test_unit_and_gap_are_for_the_typesetter() -> None:
    assert show(F("219/8"), Mark.SIXTEENTH, unit=True, gap=THIN).plain == f'27{THIN}3/8"'
    assert show(695 * MM, Mark.MILLIMETRE, unit=True).plain == "695 mm"


def test_a_mark_is_found_by_what_a_job_file_says() -> None:
    assert Mark("1/32 in") is Mark.THIRTY_SECOND
    assert (Mark("1/32 in").step, Mark("1/32 in").unit) == (F(1, 32), Unit.INCH)
    assert (Mark("0.5 mm").step, Mark("0.5 mm").unit) == (MM / 2, Unit.MM)


def test_lengths_load_nothing_from_outside() -> None:
    loaded = subprocess.run(
        [sys.executable, "-c", "import sys, casewright.lengths.length; print(*sys.modules)"],
        check=True,
        capture_output=True,
        text=True,
    ).stdout.split()
    outside = {"numpy", "highspy", "trimesh", "manifold3d", "ezdxf", "pydantic", "fastapi", "typst"}
    assert "casewright.lengths.length" in loaded
    assert not outside & set(loaded)


def test_each_one_sign_fraction_reads_as_its_unicode_name_says() -> None:
    # The Unicode Character Database gives each sign its numeric value, as a float.
    for sign in "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒":
        value = F(unicodedata.numeric(sign)).limit_denominator(10)
        assert parse_length(sign, Unit.INCH) == value
        assert parse_length(f"35{sign}", Unit.INCH) == 35 + value
