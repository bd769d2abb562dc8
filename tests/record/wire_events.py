"""Events as a bench, a broken tablet or a stranger may send them, from a seed."""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum
from typing import Any

from casewright.app.shop.kept_events import LEAP
from casewright.record.event_json import KINDS
from casewright.record.events import GREATEST_COUNT


class Sort(Enum):
    """How an event was made."""

    SOUND = "sound"
    NEARLY = "nearly sound"  # one field of a sound event is odd
    HOSTILE = "hostile"


@dataclass(frozen=True)
class World:
    """What exists: the steps, parts and sizes of the work handed out, and ids of another job's events."""

    steps: tuple[str, ...]
    parts: tuple[str, ...]
    sizes: tuple[str, ...]
    elsewhere: tuple[str, ...]


TEXTS = ("", " ", "\0", "\x1b[2J", "\ud800", "a\udfffb", "\u202ereversed", "²", "<script>", "'; --", "=1+1")
LENGTHS = (
    *(
        "0",
        "-1",
        "-12000",
        "12000",
        "1e3000",
        "1e10000000",
        "1E-400",
        "NaN",
        "Infinity",
        "1/0",
        "1_0",
        "１２",
    ),
    *("9" * 400, "1/" + "9" * 1999, "0." + "3" * 1500, "1/" + "7" * 900, "1 1/2", "187/8 in", "0x10", "+5"),
)
NUMBERS = (
    *(0, -1, 1, 0.5, LEAP, GREATEST_COUNT, GREATEST_COUNT + 1, 2**63 - 1, 2**63, 10**400, -(10**400)),
    *(float("nan"), float("inf"), -float("inf"), 5e-324, 1e308, 1e7, 10**7),
)
DATES = ("0000-01-01T00:00:00Z", "9999-12-31T24:00:00Z", "-1", "2026-02-30", "soon", "\ud800")
LONG = "x" * 1_000_000
MANY = 100_000


def wire_events(seed: int, world: World) -> Iterator[tuple[Sort, Any]]:
    """Endless events, every kind again and again; the same for the same seed."""
    maker = _Maker(random.Random(seed), world)
    for number in range(10**9):
        kind = tuple(KINDS)[number % len(KINDS)]
        sort = maker.rng.choices(tuple(Sort), (5, 4, 2))[0]
        yield sort, maker.event(kind, sort)


class _Maker:
    def __init__(self, rng: random.Random, world: World) -> None:
        self.rng = rng
        self.world = world
        self.ids = ["unheard of"]
        self.seq = 0

    def event(self, kind: str, sort: Sort) -> Any:
        if sort is Sort.HOSTILE and self.rng.random() < 0.2:
            return self._anything()
        identity = f"w{self.rng.getrandbits(64):x}"
        self.seq += self.rng.choice((0, 1, 1, 1, 2))
        plain = {
            "id": identity,
            "bench": self.rng.choice(("saw", "bench", "tablet")),
            "seq": max(0, self.seq - self.rng.choice((0, 0, 0, 3))),
            "at": "2026-11-25T10:00:00Z",
            "kind": kind,
            **self._what(kind),
        }
        self.ids.append(identity)
        odd = {Sort.SOUND: 0, Sort.NEARLY: 1, Sort.HOSTILE: self.rng.randint(2, 4)}[sort]
        for _ in range(odd):
            self._spoil(plain)
        return plain

    def _what(self, kind: str) -> dict[str, Any]:
        pick, world = self.rng.choice, self.world
        some_parts = self.rng.sample(world.parts, self.rng.randint(0, 3))
        some_steps = self.rng.sample(world.steps, self.rng.randint(0, 4))
        length = f"{self.rng.randint(1, 96 * 64)}/64"
        name = pick(("B1", "offcut 1", "offcut 2"))
        size = pick(world.sizes)
        by_kind: dict[str, dict[str, Any]] = {
            "claimed": {"parts": some_parts},
            "released": {"parts": some_parts},
            "setting": {"setting": pick(world.steps), "distance": length},
            "done": {"steps": some_steps},
            "measured": {"name": size, "tool": pick(("rule", "caliper", "")), **self._value(length)},
            "spoiled": {
                "part": pick(world.parts),
                "how": "bored from the wrong edge",
                "harms": [
                    {"fault": pick(("end", "face", "large")), "feature": pick(("dado-bottom", "none such"))},
                    {"fault": "damage", "side": pick(("front", "up", "")), "deep": length},
                ][: self.rng.randint(0, 2)],
            },
            "assembled": {"name": name, "parts": some_parts},
            "found": {"name": name, "material": pick(("ply", "thin")), "length": length, "width": length},
            "flawed": {
                "material": pick(("ply", "thin")),
                "sheet": self.rng.randint(0, 4),
                **dict.fromkeys(("x", "y", "length", "width"), length),
            },
            "lost": {"name": pick((*world.parts, name))},
            "stocked": {"material": pick(("ply", "thin")), "sheets": self.rng.randint(0, 9)},
            "time": {"steps": some_steps, "minutes": self.rng.choice((0, 1, 2.5, 60))},
            "decided": {
                "title": "narrower",
                "inputs": [[pick(world.sizes), length]],
                "again": some_parts,
                "given_up": self.rng.sample(world.parts, 1) if self.rng.random() < 0.1 else [],
            },
            "tested": {"blank": pick(("strip 1", "dado 2", name)), "value": length, "number": length},
            "dry-fit": {"joint": pick((name, size)), "how": pick(("by hand", "clamp", "eased", "remade"))},
            "undo": {"event": pick(self.ids[-30:])},
        }
        return by_kind[kind]

    def _value(self, length: str) -> dict[str, str]:
        """Read by the program, or as the maker typed it."""
        return self.rng.choice(({"value": length}, {"said": length}))

    def _spoil(self, plain: dict[str, Any]) -> None:
        field = self.rng.choice((*plain, *plain, "said", "unknown", "what"))
        if self.rng.random() < 0.15:
            plain.pop(field, None)
        elif field == "id" and self.rng.random() < 0.5:
            plain["id"] = self.rng.choice((*self.world.elsewhere, *self.ids[-5:]))
        elif field == "kind" and self.rng.random() < 0.5:
            plain["kind"] = self.rng.choice((*KINDS, "issue", "danced", "Done"))
        elif field == "seq" and self.rng.random() < 0.5:
            plain["seq"] = self.rng.choice(NUMBERS)
        elif field in ("value", "said", "distance", "length", "width") and self.rng.random() < 0.8:
            plain[field] = self.rng.choice(LENGTHS)
        elif field == "at":
            plain["at"] = self.rng.choice(DATES)
        elif field in ("parts", "steps", "again", "given_up") and self.rng.random() < 0.5:
            plain[field] = self._odd_names()
        elif field == "inputs" and self.rng.random() < 0.8:
            plain[field] = [[self.rng.choice((*self.world.sizes, "no.size")), self.rng.choice(LENGTHS)]]
        else:
            plain[field] = self._anything()

    def _odd_names(self) -> list[str]:
        pick = self.rng.choice
        if self.rng.random() < 0.05:
            return ["x"] * MANY
        odd = (*TEXTS, "B9-Z", "no such step", "ply 99 cut 1", "B1 shell", LONG[:3_000])
        named = [pick((*odd, *self.world.parts, *self.world.steps)) for _ in range(self.rng.randint(1, 4))]
        return named * self.rng.choice((1, 1, 2))

    def _anything(self) -> Any:
        draw = self.rng.random()
        if draw < 0.02:
            return LONG
        if draw < 0.3:
            return self.rng.choice(TEXTS)
        if draw < 0.6:
            return self.rng.choice(NUMBERS)
        if draw < 0.7:
            return self.rng.choice(LENGTHS)
        if draw < 0.8:
            return self.rng.choice((None, True, False, [], {}, [[]], [None], {"a": 1}, [["B1.width"]]))
        return [self.rng.choice((*TEXTS, *NUMBERS)) for _ in range(self.rng.randint(1, 3))]
