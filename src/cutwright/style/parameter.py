"""The kinds of parameter a step can have, each declared with its role, unit and bounds.

The role travels in the JSON schema as "role", so that a form, a sentence and the docs can be
made from the declaration alone.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Any

from pydantic import AfterValidator, BaseModel, ConfigDict, Field

from cutwright.errors import FormulaError
from cutwright.style.formula import check_formula
from cutwright.words import _


@dataclass(frozen=True, slots=True)
class Role:
    """What a parameter means to a cutter; lengths carry their bounds in cm."""

    name: str
    low: float | None = None
    high: float | None = None


def _readable(value: float | str) -> float | str:
    if isinstance(value, str):
        try:
            check_formula(value)
        except FormulaError as fault:
            raise ValueError(str(fault)) from None
    return value


def length(low: float = 0.0, high: float = 1000.0) -> Any:
    """A length in cm, or a sum that gives one; bounds are checked when it is worked out."""
    return Annotated[
        Annotated[float, Field(allow_inf_nan=False)] | Annotated[str, Field(max_length=200)],
        AfterValidator(_readable),
        Role("length", low, high),
        Field(json_schema_extra={"role": "length", "low": low, "high": high}),
    ]


def number(role: str, low: float, high: float) -> Any:
    """A plain number with bounds: role "ratio", "angle" (degrees) or "share"."""
    return Annotated[
        float,
        Role(role, low, high),
        Field(ge=low, le=high, allow_inf_nan=False, json_schema_extra={"role": role}),
    ]


def count(low: int, high: int) -> Any:
    """A whole number with bounds."""
    return Annotated[
        int, Role("count", low, high), Field(ge=low, le=high, json_schema_extra={"role": "count"})
    ]


def word(role: str, most: int = 60) -> Any:
    """A name in the cutter's words: role "piece", "edge", "dart", "text", "new piece" ..."""
    return Annotated[
        str, Role(role), Field(min_length=1, max_length=most, json_schema_extra={"role": role})
    ]


PieceName = word("piece")
NewName = word("new piece")
EdgeName = word("edge")
DartName = word("dart")
Ratio = number("ratio", 0.2, 10.0)
Angle = number("angle", -180.0, 360.0)
Share = number("share", 0.0, 1.0)
Flag = Annotated[bool, Role("flag"), Field(json_schema_extra={"role": "flag"})]


class EdgeOf(BaseModel):
    """An edge of a piece, written {"piece": "skirt front", "edge": "hem"}."""

    model_config = ConfigDict(
        frozen=True, extra="forbid", json_schema_extra={"role": "edge of piece"}
    )
    piece: PieceName  # type: ignore[valid-type]
    edge: EdgeName  # type: ignore[valid-type]

    def __str__(self) -> str:
        return f"{self.piece}: {self.edge}"


class Place(BaseModel):
    """A place on an edge: a distance in cm or a share of its length, from the end that meets `near`.

    `near` names the neighbouring edge ("side", "centre front"); left out, the place is counted
    from where the edge begins when the outline is walked clockwise.
    """

    model_config = ConfigDict(frozen=True, extra="forbid", json_schema_extra={"role": "place"})
    edge: EdgeName  # type: ignore[valid-type]
    near: str = Field(default="", max_length=60)
    distance: length(0.0, 1000.0) | None = None  # type: ignore[valid-type]
    share: Share | None = None  # type: ignore[valid-type]

    def __str__(self) -> str:
        if self.share is not None:
            where = _("{share} of the way along the {edge}").format(
                share=f"{self.share:g}", edge=self.edge
            )
        else:
            where = _("the {edge}, {distance} cm along").format(
                edge=self.edge,
                distance=f"{self.distance:g}"
                if isinstance(self.distance, float | int)
                else self.distance,
            )
        return (
            _("{place} from the {near}").format(place=where, near=self.near) if self.near else where
        )
