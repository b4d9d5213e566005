"""The client file: one person with everything the book holds about her, as one JSON document."""

from __future__ import annotations

from datetime import date, datetime
from typing import Annotated, Any, Literal

from pydantic import AwareDatetime, BaseModel, ConfigDict, Field, model_validator
from pydantic_core import PydanticCustomError

from cutwright.book.content import MOST_REVISIONS
from cutwright.book.nouns import CorrectionState, OrderState
from cutwright.words import _

Json = dict[str, Any]
Number = Annotated[int, Field(ge=1, le=MOST_REVISIONS)]


class _Part(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)


def _wrong(text: str) -> PydanticCustomError:
    return PydanticCustomError("client_file", "{error}", {"error": text})


class PersonPart(_Part):
    """Who it is; the name is empty in a file exported without names."""

    name: str = ""
    contact: str = ""
    notes: str = ""


class RevisionPart(_Part):
    """One saved state of a document."""

    number: Number
    parent: Number | None = None
    title: str
    label: str = ""
    made_at: AwareDatetime
    content: Json


class UsedPart(_Part):
    """A document at a revision."""

    document: str
    revision: Number


class OrderPart(_Part):
    """What the book keeps of an order beside its document."""

    state: OrderState
    state_at: AwareDatetime
    due: date | None = None
    body: UsedPart | None = None
    style: UsedPart | None = None
    cloths: list[UsedPart] = Field(default_factory=list)
    frozen: Json


class DocumentPart(_Part):
    """A measure set or an order with every revision of it."""

    id: str = Field(min_length=1, max_length=40)
    kind: Literal["body", "order"]
    dated: date | None = None
    current: Number
    set_aside_at: AwareDatetime | None = None
    revisions: list[RevisionPart] = Field(min_length=1)
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

    document: str
    base: Number
    proposed: Json
    why: str = ""
    state: CorrectionState
    revision: Number | None = None
    made_at: AwareDatetime
    settled_at: AwareDatetime | None = None


class FittingPart(_Part):
    """A fitting note with its corrections."""

    order: str
    held_on: date
    note: str
    made_at: AwareDatetime
    corrections: list[CorrectionPart] = Field(default_factory=list)


class ClientFile(_Part):
    """One client, with measure sets, orders and fittings."""

    format: Literal[1] = 1
    kind: Literal["client"] = "client"
    exported_at: datetime
    client: PersonPart
    documents: list[DocumentPart] = Field(default_factory=list)
    fittings: list[FittingPart] = Field(default_factory=list)

    @model_validator(mode="after")
    def _once(self) -> ClientFile:
        if len({one.id for one in self.documents}) != len(self.documents):
            raise _wrong(_("two documents have the same number."))
        return self
