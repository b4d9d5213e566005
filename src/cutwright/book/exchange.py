"""Documents out of the book and into it: one document, or a client with everything about her."""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path
from typing import cast

from sqlalchemy import select
from sqlalchemy.orm import Session

from cutwright.book import documents
from cutwright.book.book import Book
from cutwright.book.content import thaw
from cutwright.book.exchange_format import (
    ClientFile,
    CorrectionPart,
    DocumentPart,
    FittingPart,
    OrderPart,
    PersonPart,
    RevisionPart,
    UsedPart,
)
from cutwright.book.fold import fold
from cutwright.book.nouns import Client, Document, DocumentKind, Entry, Used
from cutwright.book.orders import as_order, load_order
from cutwright.book.revising import not_there
from cutwright.book.tables import ClientRow, CorrectionRow, DocumentRow, FittingRow, RevisionRow
from cutwright.book.unreadable import Check, unreadable
from cutwright.documents import read_json, read_large, validated, write_json
from cutwright.documents.text import MOST_VALUES
from cutwright.errors import DocumentError
from cutwright.words import _


@dataclass(frozen=True, slots=True)
class Imported:
    """A client who came from a file; `left_out` counts links to styles and cloths not in this book."""

    client: Client
    left_out: int


def file_name(entry: Entry, *, named: bool = False) -> str:
    """A name for the file of a document: kind and number, or its title if that is wanted."""
    plain = re.sub(r"[^\w]+", "-", fold(entry.title)).strip("-")[:60] if named else ""
    return f"{entry.kind.value}-{plain or entry.id[:8]}.json"


def export_document(book: Book, ident: str, to: Path) -> None:
    """Write a document as it stands to a file of its own."""
    write_json(to, documents.get(book, ident).content)


def import_document(
    book: Book, kind: DocumentKind, path: Path, *, client_id: str | None = None
) -> Document:
    """Enter the document in a file as a new body, style or cloth."""
    title = _("The file “{name}” cannot be taken into the book:").format(name=path.name)
    raw = read_json(path, title)
    if not isinstance(raw, dict):
        raise DocumentError(title, [("", _("it must be names and values in curly brackets."))])
    return documents.add(book, kind, raw, client_id=client_id, title=path.stem)


def export_client(book: Book, ident: str, to: Path, *, with_name: bool = True) -> None:
    """Write a client with measure sets, orders, fittings and all their revisions to one file.

    Without the name, contact and notes are left out too; what is written inside the documents
    themselves, such as the name on a body card, stays as it is.
    """
    with book.reading() as session:
        row = session.get(ClientRow, ident)
        if row is None:
            raise not_there(_("client"), ident)
        person = PersonPart(name=row.name, contact=row.contact, notes=row.notes)
        rows = list(
            session.scalars(
                select(DocumentRow)
                .where(DocumentRow.client_id == ident)
                .order_by(DocumentRow.made_at, DocumentRow.id)
            )
        )
        file = ClientFile(
            exported_at=book.clock(),
            client=person if with_name else PersonPart(),
            documents=[_document_part(session, one) for one in rows],
            fittings=_fitting_parts(session, [one.id for one in rows]),
        )
    write_json(to, file.model_dump(mode="json"))


def import_client(book: Book, path: Path, check: Check) -> Imported:
    """Enter a client from a file as a new one, whatever the book holds already.

    `check` raises a CutwrightError for a body, a style or a cloth that could not be read
    afterwards; the book itself does not know what stands in its documents.
    """
    from cutwright.book.exchange_in import contents, enter_client

    title = _("The client file “{name}” cannot be taken into the book:").format(name=path.name)
    file = validated(read_large(path, title), ClientFile, title, most=MOST_VALUES)
    problems = unreadable(contents(file), check)
    if problems:
        raise DocumentError(title, problems)
    client, left_out = enter_client(book, file)
    return Imported(client, left_out)


def _document_part(session: Session, row: DocumentRow) -> DocumentPart:
    revisions = session.scalars(
        select(RevisionRow).where(RevisionRow.document_id == row.id).order_by(RevisionRow.number)
    )
    return DocumentPart(
        id=row.id,
        kind="order" if row.kind == DocumentKind.ORDER else "body",
        dated=row.dated,
        current=row.current,
        set_aside_at=row.set_aside_at,
        revisions=[
            RevisionPart(
                number=one.number,
                parent=one.parent,
                title=one.title,
                label=one.label,
                made_at=one.made_at,
                content=thaw(one.content),
            )
            for one in revisions
        ],
        order=_order_part(session, row.id) if row.kind == DocumentKind.ORDER else None,
    )


def _order_part(session: Session, ident: str) -> OrderPart:
    order = as_order(session, load_order(session, ident))
    return OrderPart(
        state=order.state,
        state_at=order.state_at,
        due=order.due,
        body=_used_part(order.body),
        style=_used_part(order.style),
        cloths=[cast(UsedPart, _used_part(one)) for one in order.cloths],
        frozen=order.frozen,
    )


def _used_part(used: Used | None) -> UsedPart | None:
    return UsedPart(document=used.document_id, revision=used.revision) if used else None


def _fitting_parts(session: Session, orders: list[str]) -> list[FittingPart]:
    rows = session.scalars(
        select(FittingRow)
        .where(FittingRow.order_id.in_(orders))
        .order_by(FittingRow.made_at, FittingRow.id)
    )
    return [
        FittingPart(
            order=row.order_id,
            held_on=row.held_on,
            note=row.note,
            made_at=row.made_at,
            corrections=_correction_parts(session, row.id),
        )
        for row in rows
    ]


def _correction_parts(session: Session, fitting_id: str) -> list[CorrectionPart]:
    rows = session.scalars(
        select(CorrectionRow)
        .where(CorrectionRow.fitting_id == fitting_id)
        .order_by(CorrectionRow.made_at, CorrectionRow.id)
    )
    return [
        CorrectionPart.model_validate(
            {
                "document": row.document_id,
                "base": row.base,
                "proposed": thaw(row.proposed),
                "why": row.why,
                "state": row.state,
                "revision": row.revision,
                "made_at": row.made_at,
                "settled_at": row.settled_at,
            }
        )
        for row in rows
    ]
