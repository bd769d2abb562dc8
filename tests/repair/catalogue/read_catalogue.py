"""Read the catalogue of mishaps from the TOML files of this folder, and refuse what cannot be meant."""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass
from fnmatch import fnmatchcase
from fractions import Fraction
from pathlib import Path
from typing import Any, NoReturn

from repair.catalogue.mishap import (
    Cure,
    Damaged,
    FeatureWrong,
    GluedWithout,
    Labelled,
    Lost,
    MadeAs,
    Measures,
    Mishap,
    OfMaterial,
    Report,
    Wood,
    WoodFlawed,
    WoodGone,
    WorkedAs,
    Wrong,
)

FOLDER = Path(__file__).parent
HELD_OUT = FOLDER / "held_out"
FURTHER = FOLDER / "further"
FRONTS = FOLDER / "fronts"
REPOSITORY = FOLDER.parents[2]
JUDGEMENT = "common practice, no source"
PER_INCH = {"in": Fraction(1), "mm": Fraction(254, 10)}

Row = Mapping[str, Any]


class CatalogueError(ValueError):
    """A row of the catalogue that cannot be meant, in one sentence."""


@dataclass(frozen=True)
class JobParts:
    """What the reader must know of a job: its unit, and of every part its features and its material."""

    unit: str
    features: Mapping[str, Collection[str]]
    material: Mapping[str, str]


def read_catalogue(parts_of: Callable[[str], JobParts], folder: Path = FOLDER) -> tuple[Mishap, ...]:
    """All mishaps of a folder, in the order of its files; `parts_of` knows a job by its path in the
    repository."""
    found: list[Mishap] = []
    for path in sorted(folder.glob("*.mishaps.toml")):
        found += read_mishaps(path.read_text(), parts_of)
    names = [one.name for one in found]
    if twice := {name for name in names if names.count(name) > 1}:
        raise CatalogueError(f"{min(twice)}: the name is used twice.")
    return tuple(found)


def read_mishaps(text: str, parts_of: Callable[[str], JobParts]) -> tuple[Mishap, ...]:
    """The mishaps of one file."""
    whole = tomllib.loads(text)
    if whole.get("source") != JUDGEMENT:
        raise CatalogueError(f"The file must say source = “{JUDGEMENT}”.")
    job = parts_of(whole["job"])
    return tuple(_Reader(row, job).mishap(whole["job"]) for row in whole["mishap"])


class _Reader:
    """Reads one row; every complaint names the mishap."""

    needed = ("name", "stage", "happened", "report", "answer", "why")
    fields = frozenset((*needed, "wood", "uncut", "worked", "glued", "or", "buys"))

    def __init__(self, row: Row, job: JobParts) -> None:
        self.row = row
        self.job = job
        if unknown := row.keys() - self.fields:
            self.refuse(f"“{min(unknown)}” is not a field")

    def refuse(self, what: str) -> NoReturn:
        raise CatalogueError(f"{self.row.get('name', 'A mishap without a name')}: {what}.")

    def mishap(self, job: str) -> Mishap:
        row = self.row
        for field in self.needed:
            if not row.get(field):
                self.refuse(f"“{field}” is missing")
        uncut = self.parts(row.get("uncut", ()))
        wood = tuple(self.wood(one, uncut) for one in row.get("wood", ()))
        lying = [mark for one in wood for mark in one.planned]
        if sorted(lying) != sorted(uncut):
            self.refuse(f"uncut parts and parts on wood differ: {sorted({*lying} ^ {*uncut})}")
        answer, buys = Cure(row["answer"]), bool(row.get("buys", False))
        acceptable = tuple(Cure(one) for one in row.get("or", ()))
        if buys != (answer is Cure.BUY) or answer in acceptable:
            self.refuse("“buys” and “or” do not go with “answer”")
        return Mishap(
            row["name"],
            job,
            row["stage"],
            row["happened"],
            tuple(self.report(one, {piece.name for piece in wood}) for one in row["report"]),
            wood,
            self.parts(row.get("worked", ())),
            tuple(self.case(one) for one in row.get("glued", ())),
            answer,
            acceptable,
            row["why"],
            buys,
        )

    def parts(self, patterns: Collection[str], among: Collection[str] | None = None) -> tuple[str, ...]:
        """The parts that any of the patterns means, in the order of the job."""
        marks = self.job.features if among is None else among
        for pattern in patterns:
            if not any(fnmatchcase(mark, pattern) for mark in marks):
                self.refuse(f"no such part: {pattern}")
        return tuple(
            mark
            for mark in self.job.features
            if mark in marks and any(fnmatchcase(mark, p) for p in patterns)
        )

    def wood(self, row: Row, uncut: Collection[str]) -> Wood:
        material = row["material"]
        if material not in self.job.material.values():
            self.refuse(f"no part is cut from “{material}”")
        of_it = [mark for mark in uncut if self.job.material[mark] == material]
        length, width = (None, None) if row.get("sheet") else self.size(row["size"])
        return Wood(row["name"], material, length, width, self.parts(row.get("for", ()), of_it))

    def report(self, row: Row, wood: Collection[str]) -> Report:
        if "wood" in row:
            if row["wood"] not in wood:
                self.refuse(f"no wood is called “{row['wood']}”")
            if "flaw" in row:
                hits = self.parts(row["hits"])
                return WoodFlawed(row["wood"], *self.size(row["flaw"]), *self.size(row["size"]), hits)
            return WoodGone(row["wood"], bool(row.get("bad")))
        if "case" in row:
            return GluedWithout(self.case(row["case"]), self.part(row["without"]))
        report = self.of_part(self.part(row["part"]), row)
        return report or self.refuse(f"the report on {row['part']} says nothing that is known")

    def of_part(self, part: str, row: Row) -> Report | None:
        match row:
            case {"measures": size}:
                return Measures(part, *self.size(size))
            case {"lost": True}:
                return Lost(part)
            case {"feature": feature, "wrong": wrong}:
                by = self.length(row["by"]) if "by" in row else None
                return FeatureWrong(part, self.feature(part, feature), Wrong(wrong), by)
            case {"worked_as": other}:
                some = tuple(self.feature(part, one) for one in row.get("features", ()))
                return WorkedAs(part, self.part(other), some)
            case {"damage": place, "size": size}:
                return Damaged(part, place, self.length(size))
            case {"material": material}:
                return OfMaterial(part, material, self.length(row.get("thinner", "0")))
            case {"labelled": other}:
                return Labelled(part, self.part(other), bool(row.get("worked")))
            case {"made_as": other}:
                return MadeAs(part, self.part(other))
        return None

    def part(self, mark: str) -> str:
        if mark not in self.job.features:
            self.refuse(f"no such part: {mark}")
        return mark

    def case(self, mark: str) -> str:
        self.parts([f"{mark}-*"])  # refuses a case without parts
        return mark

    def feature(self, part: str, feature: str) -> str:
        if feature not in self.job.features[part]:
            self.refuse(f"{part} has no {feature}")
        return feature

    def size(self, text: str) -> tuple[Fraction, Fraction]:
        length, cross, width = text.partition(" x ")
        if not cross:
            self.refuse(f"“{text}” is not a length and a width")
        return self.length(length), self.length(width)

    def length(self, text: str) -> Fraction:
        """In inches, from the unit of the job: `33 1/2`, `-11/16`, `535.5`."""
        sign = -1 if text.startswith("-") else 1
        try:
            number = sum((Fraction(word) for word in text.removeprefix("-").split()), Fraction(0))
        except ValueError:
            self.refuse(f"“{text}” is not a length")
        return sign * number / PER_INCH[self.job.unit]
