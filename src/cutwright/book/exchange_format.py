"""The client file: one person with everything the book holds about her, as one JSON document."""

from __future__ import annotations

from datetime import UTC, date, datetime
from typing import Annotated, Any, Literal

from pydantic import AwareDatetime, BaseModel, ConfigDict, FailFast, Field, model_validator
from pydantic_core import PydanticCustomError

from cutwright.book.content import LONGEST_LINE, MOST_REVISIONS
from cutwright.book.nouns import CorrectionState, OrderState
from cutwright.words import _

Json = dict[str, Any]
Number = Annotated[int, Field(ge=1, le=MOST_REVISIONS)]
Ident = Annotated[str, Field(min_length=1, max_length=40, pattern=r"^[\x21-\x7e]*$")]
Line = Annotated[str, Field(max_length=LONGEST_LINE)]
Moment = Annotated[
    AwareDatetime,
    Field(ge=datetime(1900, 1, 1, tzinfo=UTC), le=datetime(2200, 1, 1, tzinfo=UTC)),
]
# A list ends at its first fault: a machine wrote it, and a fault in each entry would fill the memory.
Cloths = Annotated[list["UsedPart"], Field(max_length=200), FailFast()]
Revisions = Annotated[list["RevisionPart"], Field(min_length=1, max_length=100_000), FailFast()]
Documents = Annotated[list["DocumentPart"], Field(max_length=10_000), FailFast()]
Corrections = Annotated[list["CorrectionPart"], Field(max_length=1_000), FailFast()]
Fittings = Annotated[list["FittingPart"], Field(max_length=10_000), FailFast()]


class _Part(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)


def _wrong(text: str) -> PydanticCustomError:
    return PydanticCustomError("client_file", "{error}", {"error": text})


class PersonPart(_Part):
    """Who it is; the name is empty in a file exported without names."""

    name: Line = ""
    contact: Line = ""
    notes: Line = ""


class RevisionPart(_Part):
    """One saved state of a document."""

    number: Number
    parent: Number | None = None
    title: Line
    label: Line = ""
    made_at: Moment
    content: Json


class UsedPart(_Part):
    """A document at a revision."""

    document: Ident
    revision: Number


class OrderPart(_Part):
    """What the book keeps of an order beside its document."""

    state: OrderState
    state_at: Moment
    due: date | None = None
    body: UsedPart | None = None
    style: UsedPart | None = None
    cloths: Cloths = Field(default_factory=list)
    frozen: Json


class DocumentPart(_Part):
    """A measure set or an order with every revision of it."""

    id: Ident
    kind: Literal["body", "order"]
    dated: date | None = None
    current: Number
    set_aside_at: Moment | None = None
    revisions: Revisions
    order: OrderPart | None = None

    @model_validator(mode="after")
    def _together(self) -> DocumentPart:
        numbers = [one.number for one in self.revisions]
        if self.current not in numbers or len(set(numbers)) != len(numbers):
            raise _wrong(_("the current revision is missing, or a revision is there twice."))
        if (self.kind == "order") != (self.order is not None):
            raise _wrong(_("an order needs its state, and nothing else has one."))
        return self


class CorrectionPart(_Part):
    """A change that a fitting proposed."""

    document: Ident
    base: Number
    proposed: Json
    why: Line = ""
    state: CorrectionState
    revision: Number | None = None
    made_at: Moment
    settled_at: Moment | None = None


class FittingPart(_Part):
    """A fitting note with its corrections."""

    order: Ident
    held_on: date
    note: Line
    made_at: Moment
    corrections: Corrections = Field(default_factory=list)


class ClientFile(_Part):
    """One client, with measure sets, orders and fittings."""

    format: Literal[1] = 1
    kind: Literal["client"] = "client"
    exported_at: datetime
    client: PersonPart
    documents: Documents = Field(default_factory=list)
    fittings: Fittings = Field(default_factory=list)

    @model_validator(mode="after")
    def _once(self) -> ClientFile:
        if len({one.id for one in self.documents}) != len(self.documents):
            raise _wrong(_("two documents have the same number."))
        return self
