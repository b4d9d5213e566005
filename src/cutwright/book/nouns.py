"""What the book hands out: frozen copies that stay as they were read."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum
from pathlib import Path
from typing import Any

Content = Mapping[str, Any]


class DocumentKind(StrEnum):
    """The four documents a user has."""

    BODY = "body"
    STYLE = "style"
    CLOTH = "cloth"
    ORDER = "order"


class OrderState(StrEnum):
    """How far an order has come."""

    DRAFTED = "drafted"
    CUT = "cut"
    FITTED = "fitted"
    FINISHED = "finished"


class CorrectionState(StrEnum):
    """What became of a change that a fitting proposed."""

    PROPOSED = "proposed"
    ACCEPTED = "accepted"
    REFUSED = "refused"


@dataclass(frozen=True, slots=True)
class Client:
    """A person the workshop sews for: a name or nickname, and as little else as possible."""

    id: str
    name: str
    contact: str
    notes: str
    version: int
    made_at: datetime
    changed_at: datetime


@dataclass(frozen=True, slots=True)
class Entry:
    """One line of the book's index: a document without its content."""

    id: str
    kind: DocumentKind
    title: str
    client_id: str | None
    dated: date | None
    revision: int
    made_at: datetime
    changed_at: datetime
    set_aside: bool


@dataclass(frozen=True, slots=True)
class Document:
    """A document as it stands: `revision` is the base that the next save must name."""

    entry: Entry
    content: dict[str, Any]
    can_undo: bool
    can_redo: bool

    @property
    def id(self) -> str:
        """Number of the document in the book."""
        return self.entry.id

    @property
    def revision(self) -> int:
        """The revision this content is."""
        return self.entry.revision


@dataclass(frozen=True, slots=True)
class Revision:
    """One saved state of a document; it never changes. `parent` is what it was made from."""

    document_id: str
    number: int
    parent: int | None
    title: str
    label: str
    made_at: datetime


@dataclass(frozen=True, slots=True)
class UndoStep:
    """One place in the undo history; `here` marks where the document stands."""

    position: int
    revision: int
    label: str
    made_at: datetime
    here: bool


@dataclass(frozen=True, slots=True)
class Used:
    """A document at one of its revisions, as an order uses it."""

    document_id: str
    revision: int


@dataclass(frozen=True, slots=True)
class Order:
    """A style for a body in one or more cloths, and how far it has come.

    `frozen` is the copy of what it used, under "body", "style" and "cloths". A link is None
    where nothing was chosen or where the document has since left the book.
    `version` counts changes of state, due date and links; the document has its own revisions.
    """

    document: Document
    state: OrderState
    state_at: datetime
    due: date | None
    body: Used | None
    style: Used | None
    cloths: tuple[Used, ...]
    frozen: dict[str, Any]
    version: int

    @property
    def id(self) -> str:
        """Number of the order in the book."""
        return self.document.id


@dataclass(frozen=True, slots=True)
class OrderLine:
    """An order in a list: state and due date without its documents."""

    entry: Entry
    state: OrderState
    due: date | None


@dataclass(frozen=True, slots=True)
class Cupboard:
    """A cloth in the cupboard and how much of it is left, in cm; None when not measured."""

    entry: Entry
    length: float | None


@dataclass(frozen=True, slots=True)
class Fitting:
    """What was seen when the garment was tried on."""

    id: str
    order_id: str
    held_on: date
    note: str
    version: int
    corrections: tuple[Correction, ...]


@dataclass(frozen=True, slots=True)
class Correction:
    """A change of a body or a style that a fitting note asks for.

    `revision` is the revision that came of it, once it was accepted.
    """

    id: str
    fitting_id: str
    document_id: str
    base: int
    proposed: dict[str, Any]
    why: str
    state: CorrectionState
    revision: int | None


@dataclass(frozen=True, slots=True)
class Hit:
    """Something the search found. `what` is "client", "fitting" or a kind of document."""

    what: str
    id: str
    title: str
    client_id: str | None
    client_name: str | None
    changed_at: datetime


@dataclass(frozen=True, slots=True)
class Forgotten:
    """What went when a client was deleted.

    `swept` is False when another program kept the file from being rewritten; the records are
    gone and overwritten all the same, and the next opening of the book does it. `copies` are files
    of damaged books, put aside by a restore, which may still hold the person: delete them too.
    """

    measure_sets: int
    orders: int
    backups: int
    swept: bool
    copies: tuple[Path, ...]
