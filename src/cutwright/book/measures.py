"""A client's measure sets over the years, and what changed from each date to the next."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from itertools import pairwise

from sqlalchemy import select
from sqlalchemy.orm import Session

from cutwright.book.book import Book
from cutwright.book.compare import FieldChange, field_changes
from cutwright.book.content import thaw
from cutwright.book.nouns import DocumentKind, Entry
from cutwright.book.revising import as_entry, content_at
from cutwright.book.tables import DocumentRow

MEASURES = "measures"


@dataclass(frozen=True, slots=True)
class MeasureChange:
    """What changed from one measure set to the next; each change knows `by` how much, in cm."""

    earlier: Entry
    later: Entry
    changes: tuple[FieldChange, ...]


def measure_sets(book: Book, client_id: str) -> list[Entry]:
    """The measure sets of a client by the day they were taken, the earliest first."""
    with book.reading() as session:
        return [as_entry(row) for row in _sets(session, client_id)]


def changes(book: Book, client_id: str) -> list[MeasureChange]:
    """What changed in the measures from each set to the next one."""
    with book.reading() as session:
        rows = _sets(session, client_id)
        taken = [thaw(content_at(session, row.id, row.current)).get(MEASURES, {}) for row in rows]
        return [
            MeasureChange(as_entry(a), as_entry(b), tuple(field_changes(old, new)))
            for (a, old), (b, new) in pairwise(zip(rows, taken, strict=True))
        ]


def day_of(entry: Entry) -> date:
    """The day a set counts for: when it was taken, else when it was entered."""
    return entry.dated or entry.made_at.date()


def _sets(session: Session, client_id: str) -> list[DocumentRow]:
    rows = session.scalars(
        select(DocumentRow).where(
            DocumentRow.client_id == client_id,
            DocumentRow.kind == DocumentKind.BODY.value,
            DocumentRow.set_aside_at.is_(None),
        )
    )
    return sorted(rows, key=lambda row: (day_of(as_entry(row)), row.made_at, row.id))
