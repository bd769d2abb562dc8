"""The examples' texts, and the same with faults of every sort."""

from __future__ import annotations

import re
from pathlib import Path

from hypothesis import strategies as st

EXAMPLES = Path(__file__).parents[1] / "examples"
TEXTS = [
    (EXAMPLES / f"{name}.toml").read_text(encoding="utf-8") for name in ("pottery-studio", "ferry-canteen")
]
TOKENS = re.compile(r"\w+|\s+|.", re.DOTALL)
ODD = [
    *("[", "]", "{", "}", "=", '"', "'", "\n", "#", ",", "\\", '"""', "'''", "ü", "\x00"),
    *("-1", "1e400", "nan", "true", '""', "[[x]]", "[shop]", "0x7fffffffffffffffffff", "1979-05-27"),
    *("27 3/8", "12'6", "{ share = 0 }", "[1, [2, {a = 3}]]"),
]


@st.composite
def mutated(draw: st.DrawFn) -> str:
    """An example with some of its tokens dropped, doubled, swapped or replaced, or cut short."""
    tokens = TOKENS.findall(draw(st.sampled_from(TEXTS)))
    for _ in range(draw(st.integers(1, 4))):
        at = draw(st.integers(0, len(tokens) - 1))
        match draw(st.sampled_from(["drop", "double", "swap", "odd", "text", "cut"])):
            case "drop":
                del tokens[at]
            case "double":
                tokens.insert(at, tokens[at])
            case "swap":
                other = draw(st.integers(0, len(tokens) - 1))
                tokens[at], tokens[other] = tokens[other], tokens[at]
            case "odd":
                tokens[at] = draw(st.sampled_from(ODD))
            case "text":
                tokens[at] = draw(st.text(max_size=12))
            case "cut":
                tokens = tokens[: max(at, 4)]
    return "".join(tokens)


ALCOVE = """\
# Two cases in an alcove: prices, room left over, sizes that look alike, a short straightedge.
job = "Alcove"
unit = "in"

[materials.ply]
sheet = "hardwood ply 3/4"
readings = ["23/32"]
price = 96

[materials.thin]
sheet = "hardwood ply 1/4"
price = 41.5

[made_of]
case = "ply"
back = "thin"

[shop.hand_saw]
cut_length = 40

[[runs]]
name = "north"
opening = "60 3/8"
left_filler = { width = 2, scribe = "1/2" }

[[runs.cases]]
mark = "B1"
kind = "base"
width = "27 3/4"
bays = [{ fixed = [10], adjustable = 2 }]

[[runs.cases]]
mark = "B2"
kind = "base"
width = 28
bays = [{ adjustable = 1 }]
"""
