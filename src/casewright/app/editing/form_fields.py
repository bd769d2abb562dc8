"""Fields to fill in for any table of a job file, drawn from the job file's own published schema.

A field shows what the maker typed. What is typed goes into the text as it stands, and reading the
text says what is wrong with it: there is no second set of rules here.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from enum import Enum
from functools import cache
from math import isfinite
from typing import Any

from ...jobfile.catalogue import packaged_catalogue
from ...jobfile.read.edging_entries import BARE
from ...jobfile.tables import JobTable
from .text_edits import Path, SetEntry, look_up

SCHEMA_OF_A_KEY = "^[a-z][a-z0-9_-]{0,30}$"
SHARES = re.compile(r"([0-9]+(?:\.[0-9]+)?)\s*shares?")
NUMBER = re.compile(r"-?(?:0|[1-9][0-9]*)(\.[0-9]+)?")
MANY = ";"

FITTINGS = {"hinge": "hinges", "divider_hinge": "hinges", "slide": "slides"}
"""Where what a case is fitted with is listed in the job."""

FITTING_TABLES = tuple(dict.fromkeys(FITTINGS.values()))
"""Those lists: hinges and slides."""


class FieldKind(Enum):
    """What a field holds, where that changes how it is typed or shown."""

    TEXT = "text"
    NOTE = "note"  # several lines
    LENGTH = "length"  # for the width of a filler, also "rest"
    WIDTH = "width"  # a length, "rest", or "2 shares"
    AMOUNT = "amount"
    COUNT = "count"
    CHOICE = "choice"
    YES_NO = "yes or no"
    LENGTHS = "lengths"
    NAMES = "names"


@dataclass(frozen=True)
class Field:
    """One entry of a form. `typed` is the maker's text, `usual` what holds while it is empty.

    `theirs` is what another device has put there since, where the maker typed something else: a question.
    `asked` says that what was typed looks like a slip and stands only when the maker is sure.
    """

    path: Path
    label: str
    help: str
    kind: FieldKind
    typed: str = ""
    usual: str = ""
    choices: tuple[str, ...] = ()
    required: bool = False
    faults: tuple[str, ...] = ()
    theirs: str | None = None
    asked: bool = False

    @property
    def name(self) -> str:
        """The field's name in a form: its path with dots."""
        return ".".join(str(step) for step in self.path)


def fields_at(values: Mapping[str, Any], path: Path, keys: Iterable[str]) -> tuple[Field, ...]:
    """A field for each of `keys` of the table at `path`, holding what the job's text says there."""
    table = _table(path)
    required = set(table.get("required", ()))
    found = []
    for key in keys:
        node = table["properties"][key]
        said = look_up(values, (*path, key))
        kind, choices = _kind(node, (*path, key), values)
        found.append(
            Field(
                (*path, key),
                field_label(key),
                str(node.get("description", "")),
                kind,
                as_typed(said),
                choices=choices,
                required=key in required,
            )
        )
    return tuple(found)


def field_label(key: str) -> str:
    """What a field for an entry of this key is called."""
    return _LABELS.get(key, key.replace("_", " "))


@cache
def longer_keys() -> frozenset[str]:
    """Every key of a job file that is put together of several words, as in `pin_pitch`."""
    tables = (_schema(), *_schema()["$defs"].values())
    return frozenset(key for table in tables for key in table.get("properties", ()) if "_" in key)


def keys_at(path: Path) -> tuple[str, ...]:
    """Every key the table at `path` may hold."""
    return tuple(_table(path)["properties"])


def as_typed(said: Any) -> str:
    """A value of the job's text as one would type it into a field."""
    match said:
        case None:
            return ""
        case bool():
            return "yes" if said else "no"
        case {"share": weight}:
            return f"{as_typed(weight)} share{'' if weight == 1 else 's'}"
        case list():
            return f"{MANY} ".join(as_typed(one) for one in said)
        case float() if isfinite(said):
            return format(Decimal(repr(said)), "f")  # 0.00001, which nobody types as 1e-05
    return str(said)


def parse_typed(typed: str, kind: FieldKind) -> Any:
    """The value a field's text stands for: a number where it is one, else the text itself.

    None where nothing is entered; separators with nothing between them enter nothing.
    """
    typed = typed.strip()
    if not typed:
        return None
    match kind:
        case FieldKind.YES_NO:
            return {"yes": True, "no": False}.get(typed, typed)
        case FieldKind.LENGTHS | FieldKind.NAMES:
            # A comma with a blank behind it parts sizes; without one it may be a decimal comma, and is asked.
            apart = rf"[{MANY}\n]|,\s" if kind is FieldKind.LENGTHS else rf"[{MANY}\n]"
            parts = [part.strip() for part in re.split(apart, typed) if part.strip()]
            return [_number_or_text(part) if kind is FieldKind.LENGTHS else part for part in parts] or None
        case FieldKind.WIDTH if shares := SHARES.fullmatch(typed.lower()):
            return {"share": _number_or_text(shares[1])}
        case FieldKind.LENGTH | FieldKind.WIDTH | FieldKind.AMOUNT | FieldKind.COUNT:
            return _number_or_text(typed)
    return typed


def changes(before: Iterable[Field], after: Iterable[Field]) -> list[SetEntry]:
    """One edit for each field whose text changed."""
    return [
        SetEntry(new.path, parse_typed(new.typed, new.kind))
        for old, new in zip(before, after, strict=True)
        if parse_typed(old.typed, old.kind) != parse_typed(new.typed, new.kind)
    ]


@cache
def _schema() -> dict[str, Any]:
    return JobTable.model_json_schema()


def _table(path: Path) -> dict[str, Any]:
    """The schema of the table at `path`."""
    here = _schema()
    for step in path:
        if isinstance(step, int):
            here = _plain(here["items"])
        elif "properties" in here:
            here = _plain(here["properties"][step])
        else:
            here = _plain(next(iter(here["patternProperties"].values())))
    return here


def _plain(node: dict[str, Any]) -> dict[str, Any]:
    """A schema node with its reference resolved and `null` taken out of its choices."""
    description = node.get("description")
    while True:
        if "$ref" in node:
            node = _schema()["$defs"][node["$ref"].rsplit("/", 1)[1]]
            continue
        told = [one for one in node.get("anyOf", ()) if one.get("type") != "null"]
        if len(told) != 1:
            return {**node, "description": description} if description else node
        node = told[0]


def _kind(node: dict[str, Any], path: Path, values: Mapping[str, Any]) -> tuple[FieldKind, tuple[str, ...]]:
    node, key = _plain(node), path[-1]
    if "enum" in node:
        return FieldKind.CHOICE, tuple(node["enum"])
    if node.get("pattern") == SCHEMA_OF_A_KEY:
        if {"edged", "edging_of"} & set(path):
            return FieldKind.CHOICE, (BARE, *values.get("edging", ()))
        named = FITTINGS[str(key)] if "fitted_with" in path else "materials"
        return FieldKind.CHOICE, tuple(values.get(named, ()))
    if key in ("sheet", "use", "like"):
        return FieldKind.CHOICE, _stock(path)
    if "anyOf" in node:
        shares = any(one.get("type") == "object" for one in node["anyOf"])
        return FieldKind.WIDTH if shares else FieldKind.LENGTH, ()
    if key == "notes":
        return FieldKind.NOTE, ()
    match node.get("type"):
        case "boolean":
            return FieldKind.YES_NO, ("yes", "no")
        case "integer":
            return FieldKind.COUNT, ()
        case "number":
            return FieldKind.AMOUNT, ()
        case "array":
            return (
                FieldKind.NAMES if _plain(node["items"]).get("type") == "string" else FieldKind.LENGTHS
            ), ()
        case ["string", "number"]:
            return FieldKind.LENGTH, ()
    return FieldKind.TEXT, ()


def _stock(path: Path) -> tuple[str, ...]:
    """The names in the shop's list that an entry may start from."""
    stock = packaged_catalogue()
    lists: dict[str | int, Mapping[str, Any]] = {
        "hand_saw": stock.hand_saws,
        "table_saw": stock.table_saws,
        "dado_stack": stock.dado_stacks,
        "pin_jig": stock.pin_jigs,
        "hinges": stock.hinges,
        "slides": stock.slides,
    }
    return tuple(lists.get(path[0] if path[-1] == "like" else path[-2], stock.sheets))


def _number_or_text(text: str) -> int | float | str:
    found = NUMBER.fullmatch(text)
    if not found or len(text) > 15:
        return text
    return float(text) if found[1] else int(text)


_LABELS = {
    "sheet": "from the shop's list",
    "use": "from the shop's list",
    "usual": "usual thickness",
    "nominal": "sold as",
    "size": "sheet size",
    "readings": "caliper readings",
    "fixed": "fixed shelves",
    "adjustable": "shelves on pins",
    "deviation": "spread of thickness",
    "lift": "lift above the floor",
    "along": "from the wall's left end",
    "gap": "gap at open ends",
    "money": "money sign",
    "toe": "toe kick",
    "frame": "face frame",
    "frame_stile": "stile width",
    "frame_rail": "rail width",
    "frame_mullion": "mullion width",
    "frame_past": "stile overhang past the sides",
    "frame_with_left": "shares a face frame with the case at its left",
    "left_scribe": "scribe on the left stile",
    "right_scribe": "scribe on the right stile",
    "frame_dowel": "dowel diameter",
    "frame_dowel_depth": "dowel hole depth",
    "frame_tenon": "tenon length",
    "frame_mortise": "mortise width",
    "front": "doors and drawer fronts",
    "panel": "door panels",
    "drawer": "drawer boxes",
    "hung": "hinge side of the door",
    "box_height": "drawer box height",
    "fronts": "overlay or inset fronts",
    "front_gap": "gap between fronts",
    "front_lap": "overlay of partial overlay fronts",
    "front_top": "case top to the fronts",
    "front_off": "gap behind overlay fronts",
    "front_grain": "grain over the fronts of a bay",
    "drawer_grain": "grain of drawer fronts",
    "door": "door construction",
    "door_stile": "stile width of doors",
    "door_rail": "rail width of doors",
    "door_tongue": "tongue length of door rails",
    "panel_play": "play of door panels",
    "drawer_joint": "corners of drawer boxes",
    "drawer_bottom": "drawer bottoms",
    "drawer_cut": "drawer joint depth",
    "drawer_tongue": "dado width of locked rabbets",
    "drawer_up": "height of the drawer bottom's groove",
    "drawer_play": "play of drawer bottoms",
    "drawer_tail": "half-blind tail length",
    "drawer_proud": "end grain left proud",
    "drawer_pitch": "pitch of the dovetail jig",
    "hinge": "hinges",
    "divider_hinge": "hinges on dividers",
    "slide": "drawer slides",
    "like": "from the shop's list",
    "cup": "cup hole diameter",
    "cup_depth": "cup hole depth",
    "cup_edge": "cup hole from the door's edge",
    "reach": "overlay without plate or bend",
    "crank": "overlay lost by the arm's bend",
    "plate": "plate thickness",
    "plate_setback": "plate holes from the case's front",
    "plate_holes": "distance between plate holes",
    "plate_pilot": "plate hole diameter",
    "plate_pilot_depth": "plate hole depth",
    "screws": "distance between cup screws",
    "screws_back": "cup screws behind the cup's center",
    "cup_pilot": "cup screw pilot hole diameter",
    "inset": "for inset doors",
    "from_end": "nearest cup from the door's end",
    "lengths": "lengths sold",
    "narrower": "box narrower than the opening by",
    "from_inside": "measured inside the drawer box",
    "lower": "box lower than the opening by",
    "below": "clearance under the box",
    "behind": "clearance behind the slide",
    "recess": "bottom above the sides' lower edges",
    "thickest": "thickest drawer side",
    "least_side": "least height of a drawer side",
    "screw_height": "screws above the lower edge of the box",
    "screw_setback": "first screw from the case's front",
    "screw_step": "spacing of the slide's holes",
    "screw_pilot": "screw hole diameter",
    "screw_depth": "screw hole depth",
    "bored": "bore for the screws",
    "drop": "hangs below the shelf",
    "holds": "shelves hold",
    "load": "your own load figure",
    "sag": "sag limit",
    "wall_gaps": "gaps from a level line to the wall",
    "left_gaps": "gaps from a plumb line to the left wall",
    "right_gaps": "gaps from a plumb line to the right wall",
    "first": "center of the first stud",
    "every": "stud spacing, center to center",
    "studs": "centers of the studs, one by one",
    "stud_width": "stud width",
    "lining": "wallboard thickness",
    "toe_depth": "toe kick set back",
    "toe_height": "toe kick height",
    "stick": "length of a stick or roll",
    "taken_off": "taken off the panel",
    "shop": "in the shop",
    "house_dry": "house at its driest",
    "house_damp": "house at its dampest",
    "markup": "markup on materials, %",
    "other_hours": "hours away from the bench",
    "pin": "one shelf pin",
    "screw": "one screw",
    "dowel": "one dowel",
    "rough": "rough thickness",
    "end_trim": "cut off each end of a board",
    "over_length": "extra length until planed",
    "over_width": "extra width until planed",
    "first_edge": "taken off by jointing the first edge",
    "glue_edge": "taken off each glued edge",
    "widest_piece": "widest part in one piece",
    "widest_strip": "widest strip of a glue-up",
    "at_hand": "boards at hand",
    "covers": "area it covers",
    "per_hour": "area coated in an hour",
    "not_on": "materials left unfinished",
    "lasts": "length of cut per sharpening",
}
