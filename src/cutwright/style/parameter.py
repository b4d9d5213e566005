"""The kinds of parameter a step can have, each with its role, unit and bounds.

The role travels in the JSON schema as "role", so that a form, a sentence and the docs can be
made from the declaration alone. A field reads `by: Annotated[Length, Within(0, 40)] = Field(...)`.
"""

from __future__ import annotations

from contextlib import suppress
from dataclasses import dataclass
from typing import Annotated

from pydantic import AfterValidator, BaseModel, ConfigDict, Field, GetJsonSchemaHandler
from pydantic.json_schema import JsonSchemaValue
from pydantic_core import CoreSchema

from cutwright.errors import FormulaError, MeasureError
from cutwright.messages import N_, Message, Typed
from cutwright.style.formula import check_formula
from cutwright.units import parse_length


@dataclass(frozen=True, slots=True)
class Within:
    """The bounds of a length in cm, checked when it is worked out."""

    low: float
    high: float

    def __get_pydantic_json_schema__(
        self, core_schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> JsonSchemaValue:
        """Tell the bounds to whoever makes a form."""
        return {**handler(core_schema), "role": "length", "low": self.low, "high": self.high}


def _readable(value: float | str) -> float | str:
    if isinstance(value, str):
        if not value.strip()[-1:].isdigit():  # a unit may stand behind it: "24 1/2 in"
            with suppress(MeasureError):
                return round(parse_length(value, signed=True), 4)
        try:
            check_formula(value)
        except FormulaError as fault:
            raise ValueError(fault.message) from None
    return value


Length = Annotated[
    Annotated[float, Field(allow_inf_nan=False)] | Annotated[str, Field(max_length=200)],
    AfterValidator(_readable),
    Field(json_schema_extra={"role": "length"}),
]
"""A length in cm, a text with its unit ("24 1/2 in"), or a sum that gives one; `Within` tells its bounds."""

PlainLength = Annotated[float, Field(allow_inf_nan=False, json_schema_extra={"role": "length"})]
"""A length in cm that is a number and no sum."""

Ratio = Annotated[float, Field(allow_inf_nan=False, json_schema_extra={"role": "ratio"})]
Angle = Annotated[float, Field(allow_inf_nan=False, json_schema_extra={"role": "angle"})]
"""Degrees."""
Share = Annotated[
    float, Field(ge=0.0, le=1.0, allow_inf_nan=False, json_schema_extra={"role": "share"})
]
Count = Annotated[int, Field(json_schema_extra={"role": "count"})]
Flag = Annotated[bool, Field(json_schema_extra={"role": "flag"})]

PieceName = Annotated[str, Field(min_length=1, max_length=60, json_schema_extra={"role": "piece"})]
NewName = Annotated[
    str, Field(min_length=1, max_length=60, json_schema_extra={"role": "new piece"})
]
EdgeName = Annotated[str, Field(min_length=1, max_length=60, json_schema_extra={"role": "edge"})]
DartName = Annotated[str, Field(min_length=1, max_length=60, json_schema_extra={"role": "dart"})]


class EdgeOf(BaseModel):
    """An edge of a piece, written {"piece": "skirt front", "edge": "hem"}."""

    model_config = ConfigDict(
        frozen=True, extra="forbid", json_schema_extra={"role": "edge of piece"}
    )
    piece: PieceName
    edge: EdgeName

    def __str__(self) -> str:
        return f"{self.piece}: {self.edge}"


class Place(BaseModel):
    """A place on an edge: a distance in cm or a share of its length, from the end that meets `near`.

    `near` names the neighbouring edge ("side", "centre front"); left out, the place is counted
    from where the edge begins when the outline is walked clockwise.
    """

    model_config = ConfigDict(frozen=True, extra="forbid", json_schema_extra={"role": "place"})
    edge: EdgeName
    near: str = Field(default="", max_length=60)
    distance: Annotated[Length | None, Within(0.0, 1000.0)] = None
    share: Share | None = None

    def __str__(self) -> str:
        return str(self.message)

    @property
    def message(self) -> Message:
        """The place as it is said in a sentence."""
        if self.share is not None:
            where = Message(
                "share-of-edge",
                N_("{share} of the way along the {edge}"),
                share=Typed(f"{self.share:g}"),
                edge=self.edge,
            )
        else:
            far = self.distance
            where = Message(
                "along-edge",
                N_("the {edge}, {distance} cm along"),
                edge=self.edge,
                distance=Typed(f"{far:g}" if isinstance(far, float | int) else far),
            )
        if not self.near:
            return where
        return Message("place-from", N_("{place} from the {near}"), place=where, near=self.near)
