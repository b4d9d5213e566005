"""Whether every row of a book is one that this program could have written."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date, datetime
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, BaseModel, ConfigDict, Field, ValidationError
from pydantic_core import PydanticCustomError

from cutwright.book.content import LONGEST_LINE, MOST_REVISIONS, check_frozen
from cutwright.book.seal import seal_of, sealed
from cutwright.book.tables import Base
from cutwright.documents import Problem, problems_of
from cutwright.errors import StoreError
from cutwright.words import _

Rows = Sequence[Mapping[str, Any]]
MOST_TOLD = 40


def _wrong(text: str) -> PydanticCustomError:
    return PydanticCustomError("row", "{error}", {"error": text})


def _plain(text: str) -> str:
    if "\x00" in text:
        raise _wrong(_("it holds a sign that is no letter."))
    return text


def _document(text: str) -> str:
    try:
        check_frozen(text)
    except StoreError as fault:
        raise _wrong(str(fault)) from None
    return text


def _moment(text: str) -> str:
    try:
        aware = datetime.fromisoformat(text).utcoffset() is not None
    except ValueError:
        aware = False
    if not aware:
        raise _wrong(_("this is no moment of universal time."))
    return text


def _day(text: str) -> str:
    try:
        date.fromisoformat(text)
    except ValueError:
        raise _wrong(_("this must be a date such as 2026-03-14.")) from None
    return text


Ident = Annotated[str, Field(pattern="^[0-9a-f]{32}$")]
Line = Annotated[str, Field(max_length=LONGEST_LINE), AfterValidator(_plain)]
Long = Annotated[str, AfterValidator(_plain)]
Moment = Annotated[str, Field(max_length=32), AfterValidator(_moment)]
Day = Annotated[str, Field(max_length=10), AfterValidator(_day)]
Json = Annotated[str, AfterValidator(_document)]
Number = Annotated[int, Field(strict=True, ge=1, le=MOST_REVISIONS)]
Place = Annotated[int, Field(strict=True, ge=0, le=MOST_REVISIONS)]


class _Row(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)
    seal: str


class _Client(_Row):
    id: Ident
    version: Number
    name: Line
    contact: Line
    notes: Line
    made_at: Moment
    changed_at: Moment
    sought: Long


class _Document(_Row):
    id: Ident
    kind: Literal["body", "style", "cloth", "order"]
    client_id: Ident | None
    title: Line
    dated: Day | None
    current: Number
    last: Number
    position: Place
    made_at: Moment
    changed_at: Moment
    set_aside_at: Moment | None
    sought: Long


class _Revision(_Row):
    document_id: Ident
    number: Number
    parent: Number | None
    title: Line
    label: Line
    content: Json
    made_at: Moment


class _History(_Row):
    document_id: Ident
    position: Place
    number: Number
    group_key: Line | None


class _Stock(_Row):
    cloth_id: Ident
    length: float = Field(ge=0, allow_inf_nan=False)


class _Order(_Row):
    id: Ident
    version: Number
    state: Literal["drafted", "cut", "fitted", "finished"]
    state_at: Moment
    due: Day | None
    body_id: Ident | None
    body_revision: Number | None
    style_id: Ident | None
    style_revision: Number | None
    frozen: Json


class _OrderCloth(_Row):
    order_id: Ident
    position: Place
    cloth_id: Ident | None
    cloth_revision: Number


class _Fitting(_Row):
    id: Ident
    order_id: Ident
    version: Number
    held_on: Day
    note: Line
    made_at: Moment
    changed_at: Moment
    sought: Long


class _Correction(_Row):
    id: Ident
    fitting_id: Ident
    document_id: Ident
    base: Number
    proposed: Json
    why: Line
    state: Literal["proposed", "accepted", "refused"]
    revision: Number | None
    made_at: Moment
    settled_at: Moment | None


_MODELS: dict[str, type[_Row]] = {
    "client": _Client,
    "document": _Document,
    "revision": _Revision,
    "history": _History,
    "stock": _Stock,
    "orders": _Order,
    "order_cloth": _OrderCloth,
    "fitting": _Fitting,
    "correction": _Correction,
}


def unsound(tables: Mapping[str, Rows]) -> list[Problem]:
    """What no Cutwright would have written into these rows of today's schema; 40 problems at most."""
    found: list[Problem] = []
    for problem in _every(tables):
        found.append(problem)
        if len(found) == MOST_TOLD:
            break
    return found


def altered(tables: Mapping[str, Rows]) -> tuple[str, ...]:
    """Whose rows were altered since they were written: titles and names, or of what kind a row is; 40 at most."""
    found = {
        str(row.get("title") or row.get("name") or name): None
        for name in _MODELS
        for row in tables[name]
        if not _seal_holds(name, row)
    }
    return tuple(found)[:MOST_TOLD]


def _seal_holds(name: str, row: Mapping[str, Any]) -> bool:
    columns = [one.name for one in sealed(Base.metadata.tables[name])]
    return bool(row["seal"] == seal_of(name, [row[one] for one in columns]))


def _every(tables: Mapping[str, Rows]) -> Iterator[Problem]:
    for name, model in _MODELS.items():
        for number, row in enumerate(tables[name], 1):
            place = f"{name} {number}"
            try:
                model.model_validate(row)
            except ValidationError as fault:
                for inner, text in problems_of(fault):
                    yield f"{place}, {inner}", text
                continue
            if not _seal_holds(name, row):
                yield place, _("what stands here was altered since it was written.")
    yield from _links(tables)


def _links(tables: Mapping[str, Rows]) -> Iterator[Problem]:
    """Links that no table of the database looks after."""
    revisions = {(row["document_id"], row["number"]) for row in tables["revision"]}
    places = {(row["document_id"], row["position"]): row["number"] for row in tables["history"]}
    orders = {row["id"] for row in tables["orders"]}
    for number, row in enumerate(tables["document"], 1):
        ident, current = row["id"], row["current"]
        whole = (ident, current) in revisions and places.get((ident, row["position"])) == current
        if not whole or (row["kind"] == "order") != (ident in orders):
            yield f"document {number}", _("a part of it is missing.")
    for number, row in enumerate(tables["history"], 1):
        if (row["document_id"], row["number"]) not in revisions:
            yield f"history {number}", _("a part of it is missing.")
