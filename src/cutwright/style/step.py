"""The declaration of a step: one class gives its sentence, form, file format, checks and docs."""

from __future__ import annotations

from typing import Any, ClassVar, Self

from pydantic import BaseModel, ConfigDict, Field

from cutwright.body.body import Body
from cutwright.errors import StepError
from cutwright.messages import N_, Message
from cutwright.pattern.edge import Ref
from cutwright.pattern.loop import Spot
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.pattern.places import spot_at
from cutwright.pattern.result import Result
from cutwright.pattern.sum import Chosen, Unit
from cutwright.style.formula import evaluate
from cutwright.style.parameter import Place, Within


class Step(BaseModel):
    """One sentence of a style. Subclasses declare fields, SENTENCE, HELP and WHY, and `apply`.

    A template that depends on how many has two forms, marked by `N_plural`; COUNTS names the field that
    decides between them.
    HELP tells how it is done, WHY what it is for and what goes wrong without it; CLOTH, where it
    depends on the cloth, what to choose for a heavier or a lighter one.
    `do` is the tag in the file. `name` is what the step is called on screen and paper.
    """

    model_config = ConfigDict(frozen=True, extra="forbid")
    SENTENCE: ClassVar[str | tuple[str, str]] = ""
    COUNTS: ClassVar[str] = ""
    HELP: ClassVar[str] = ""
    WHY: ClassVar[str] = ""
    CLOTH: ClassVar[str] = ""
    GROUP: ClassVar[str] = "paper"

    do: str
    name: str = Field(default="", max_length=60, json_schema_extra={"role": "step name"})

    def apply(self, pattern: Pattern, body: Body) -> Result:
        """Do it on the paper; the paper given is not changed."""
        raise NotImplementedError

    def clauses(self) -> tuple[str | tuple[str, str], ...]:
        """The sentence templates that apply, untranslated; by default the one SENTENCE."""
        return (self.SENTENCE,)

    @property
    def label(self) -> str:
        """What this step is called; several steps may be called alike."""
        return self.name or self.do.replace("_", " ")

    def row(self) -> Any:
        """The step as it is written in a document; fields left at their default are left out."""
        return {
            "do": self.do,
            **self.model_dump(mode="json", exclude_defaults=True, exclude={"do"}),
        }

    def cm(self, field: str, pattern: Pattern, body: Body) -> float:
        """The length in a field, cm: a number as it stands or a sum worked out, within its bounds."""
        value = length_value(getattr(self, field), pattern, body)
        return within(value, _bounds(type(self), field), field)

    def spot(self, place: Place, piece: Piece, pattern: Pattern, body: Body) -> Spot:
        """A place on an edge of a piece, its distance within its bounds."""
        distance = None
        if place.distance is not None:
            value = length_value(place.distance, pattern, body)
            distance = within(value, _bounds(Place, "distance"), "distance")
        return spot_at(piece, place.edge, place.near, distance, place.share)

    def chosen(self, field: str, pattern: Pattern, body: Body) -> Chosen:
        """The length in a field as it stands in a sum, with the text of the sum it may be itself."""
        wish = getattr(self, field)
        return Chosen(
            field, self.cm(field, pattern, body), Unit.CM, wish if isinstance(wish, str) else ""
        )

    def replaced(self, **fields: Any) -> Self:
        """The same step with some fields changed, validated again."""
        return type(self).model_validate({**self.model_dump(), **fields})


def _bounds(model: type[BaseModel], field: str) -> Within | None:
    """The bounds declared for a length."""
    metadata = model.model_fields[field].metadata
    return next((m for m in metadata if isinstance(m, Within)), None)


def within(value: float, bounds: Within | None, field: str) -> float:
    """The value, or StepError when it lies outside the bounds."""
    if bounds is not None and not bounds.low - 1e-9 <= value <= bounds.high + 1e-9:
        raise StepError(
            Message(
                "cm-may-cm",
                N_("{field} is {value:.2f} cm; it may be from {low:g} to {high:g} cm."),
                field=field.replace("_", " "),
                value=value,
                low=bounds.low,
                high=bounds.high,
            )
        )
    return value


def length_value(wish: float | str, pattern: Pattern, body: Body) -> float:
    """A length as it stands or a sum over measures and measured edges worked out, cm."""
    if not isinstance(wish, str):
        return float(wish)
    return evaluate(wish, body.value, lambda edge: pattern.length(Ref.parse(edge)))
