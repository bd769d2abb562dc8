"""A plan as JSON. The models here are its form: `casewright schema answer` publishes it."""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, Any

from pydantic import (
    BaseModel,
    ConfigDict,
    Field,
    PlainValidator,
    ValidationInfo,
    WithJsonSchema,
    field_validator,
)

from ..findings import Weight
from .plan import PieceRole, Plan, PlanStatus, Purpose
from .problem import Direction, Edge, Problem


def _number(value: Fraction) -> int | float:
    """Whole numbers as such; others as the nearest decimal JSON can carry."""
    return int(value) if value.denominator == 1 else float(value)


Number = Annotated[int | float, PlainValidator(_number), WithJsonSchema({"type": "number"})]


class _Written(BaseModel):
    """Taken from the fields of a plan that have the same names."""

    model_config = ConfigDict(extra="forbid", frozen=True, from_attributes=True)


class CutJson(_Written):
    order: int = Field(description="Counts from 1 within the sheet.", ge=1)
    tool: str
    direction: Direction = Field(description="A rip lies at one y, a crosscut at one x.")
    at: Number = Field(description="Where the kerf begins.")
    kerf: Number
    setting: Number = Field(
        description="From the reference edge to the blade: the size of the piece kept (for a trim: "
        "what it takes off)."
    )
    reference: Edge
    purpose: Purpose


class PieceJson(_Written):
    """A piece and what it is cut into; the pieces lie in order with one kerf between neighbours."""

    role: PieceRole
    x: Number
    y: Number
    length: Number
    width: Number
    item: str | None = Field(None, description="Of a part only.")
    turned: bool | None = Field(None, description="Of a part only.")
    cuts: tuple[CutJson, ...] = Field((), exclude_if=lambda cuts: not cuts)
    pieces: tuple[PieceJson, ...] = Field((), validation_alias="children", exclude_if=lambda found: not found)

    @field_validator("turned")
    @classmethod
    def _of_a_part_only(cls, turned: bool, info: ValidationInfo) -> bool | None:
        return None if info.data["item"] is None else turned


class PartJson(_Written):
    item: str
    x: Number
    y: Number
    length: Number
    width: Number


class SheetJson(_Written):
    bin: str
    parts: tuple[PartJson, ...]
    cuts: PieceJson = Field(validation_alias="root")


class FiguresJson(_Written):
    sheets: int
    money: Number
    leftover_worth: Number
    largest_offcut: Number
    settings: int
    cuts: int
    turns: int
    used: Number


class UnplacedJson(_Written):
    item: str
    count: int = Field(ge=1)


class FindingJson(_Written):
    code: str
    place: str
    text: str
    fix: str
    weight: Weight


class AnswerJson(_Written):
    """Positions are from the sheet's left near corner, x along its length; numbers count the problem's
    unit."""

    status: PlanStatus = Field(
        description="optimal: the money for sheets is proved least; open: the bound says what might be "
        "saved; impossible: some parts could not be placed."
    )
    bound: Number = Field(
        description="No plan of this kind needs less: sheets where all kinds of sheet cost the same, "
        "else money."
    )
    bound_sheets: int = Field(ge=0)
    bound_money: Number
    seconds: float | None = Field(None, description="How long the search took, where it was timed.")
    statement: str
    figures: FiguresJson
    sheets: tuple[SheetJson, ...]
    unplaced: tuple[UnplacedJson, ...]
    findings: tuple[FindingJson, ...]


def answer(problem: Problem, plan: Plan, seconds: float | None = None) -> dict[str, Any]:
    """The plan as the published answer.

    `bound` is in sheets where all kinds of sheet cost the same, else in money.
    """
    one_cost = len({bin_.cost for bin_ in problem.bins}) == 1
    made = AnswerJson.model_validate(
        {
            **vars(plan),
            "bound": Fraction(plan.bound_sheets) if one_cost else plan.bound,
            "bound_money": plan.bound,
            "seconds": None if seconds is None else round(seconds, 3),
            "statement": plan.statement(),
        }
    )
    return made.model_dump(mode="json", exclude_none=True)
