"""Numbers as they are pencilled on a board: 27-3/8, 27 3/8, 3/4, 41¼, 18.875."""

from __future__ import annotations

import re
from fractions import Fraction

from ..errors import LengthError

# Either a dash or a space may separate a whole number from its fraction, never both.
NUMBER = r"(?:[0-9]+(?:\s+|-)[0-9]+\s*/\s*[0-9]+|[0-9]+\s*/\s*[0-9]+|[0-9]+\.[0-9]*|\.[0-9]+|[0-9]+)"

_SAME = str.maketrans(
    {
        **dict.fromkeys("′‵’‘ʼʹ´`＇", "'"),
        **dict.fromkeys("″‶”“„‟ʺˮ＂", '"'),
        **dict.fromkeys("⁄∕／", "/"),
        **dict.fromkeys("‐‑‒–—−﹣－", "-"),
    }
)
_ONE_SIGN = {
    sign: f"{upper}/{lower}"
    for lower, signs in {
        2: "½",
        3: "⅓⅔",
        4: "¼ ¾",
        5: "⅕⅖⅗⅘",
        6: "⅙   ⅚",
        7: "⅐",
        8: "⅛ ⅜ ⅝ ⅞",
        9: "⅑",
        10: "⅒",
    }.items()
    for upper, sign in enumerate(signs, 1)
    if sign != " "
}
_RAISED, _LOWERED = "⁰¹²³⁴⁵⁶⁷⁸⁹", "₀₁₂₃₄₅₆₇₈₉"
_LEVEL = str.maketrans(_RAISED + _LOWERED, "0123456789" * 2)
_TYPESET = re.compile(rf"([0-9]?)([{''.join(_ONE_SIGN)}]|[{_RAISED}]+/[{_LOWERED}]+)")


def plain_text(text: str) -> str:
    """The text in lower case with one kind of dash, slash and prime, and typeset fractions written out."""
    text = text.translate(_SAME).replace("''", '"').lower()
    return _TYPESET.sub(_spelt_out, text).strip()


def _spelt_out(found: re.Match[str]) -> str:
    digit, sign = found.groups()
    fraction = _ONE_SIGN.get(sign) or sign.translate(_LEVEL)
    # The trailing space keeps a digit that follows out of the denominator: "½2" is not 1/22.
    return f"{digit} {fraction} " if digit else f"{fraction} "


def quoted(value: object) -> str:
    """The value for use in a sentence: in quotes, on one line, shortened if long."""
    try:
        text = str(value)
    except ValueError:  # Python will not write out an int of thousands of digits
        return "a number of thousands of digits"
    text = "".join(sign if sign.isprintable() else "\N{REPLACEMENT CHARACTER}" for sign in text)
    return f"“{text if len(text) <= 40 else text[:39] + '…'}”"


def read_number(number: str, said: str) -> Fraction:
    """The value of a text that `NUMBER` matches; `said` is the maker's full text, quoted in errors.

    Raises LengthError for division by zero and for an improper fraction.
    """
    if "/" not in number:
        return Fraction(number)
    *whole, upper, lower = (int(digits) for digits in re.findall("[0-9]+", number))
    if lower == 0:
        raise LengthError(
            f"{quoted(said)} divides by zero; correct the lower number of the fraction, as in 3/4."
        )
    value = Fraction(sum(whole)) + Fraction(upper, lower)
    if upper < lower:
        return value
    lumber = "" if whole else ", since 5/4 and the like are names of lumber, not sizes"
    raise LengthError(f"{quoted(said)} has a fraction of one or more; write {mixed(value)}{lumber}.")


def mixed(value: Fraction, gap: str = " ") -> str:
    """A whole number and a proper fraction in lowest terms, `gap` between them: 27 3/8, -1/8, 0."""
    sign = "-" if value < 0 else ""
    whole, upper = divmod(abs(value.numerator), value.denominator)
    if not upper:
        return f"{sign}{whole}"
    fraction = f"{upper}/{value.denominator}"
    return f"{sign}{whole}{gap}{fraction}" if whole else f"{sign}{fraction}"
