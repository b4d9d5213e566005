"""What the book holds, in words: said before any of it is deleted or replaced."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from cutwright.book import clients, documents, fittings
from cutwright.book.book import Book
from cutwright.book.health import made_when
from cutwright.book.nouns import DocumentKind
from cutwright.book.restore import looked_into
from cutwright.errors import CutwrightError
from cutwright.numerals import day_words
from cutwright.words import _, ngettext


def book_words(book: Book) -> str:
    """How many clients, measure sets, styles, cloths and orders there are, with what is archived."""
    counts = {kind: len(_every(book, kind)) for kind in DocumentKind}
    people = len(clients.listed(book))
    persons = ngettext("{count} client", "{count} clients", people).format(count=people)
    return ", ".join([persons, *_counted(counts)])


def backup_words(backup: Path) -> str:
    """Of when an automatic backup is and what it holds; the day alone where it cannot be read."""
    made = made_when(backup)
    when = f"{day_words(made.date())}, {made:%H:%M} UTC" if made else backup.name
    try:
        with looked_into(backup) as book:
            return _("{when}: {what}").format(when=when, what=book_words(book))
    except (CutwrightError, OSError):
        return when


def client_words(book: Book, client: str) -> str:
    """What is kept of one client."""
    every = {kind: _every(book, kind, client) for kind in (DocumentKind.BODY, DocumentKind.ORDER)}
    seen = sum(len(fittings.of_order(book, entry)) for entry in every[DocumentKind.ORDER])
    tried = ngettext("{count} fitting", "{count} fittings", seen).format(count=seen)
    counts = {kind: len(found) for kind, found in every.items()}
    return ", ".join([_("name and contact"), *_counted(counts), tried])


def _every(book: Book, kind: DocumentKind, client: str | None = None) -> list[str]:
    return [
        entry.id
        for aside in (False, True)
        for entry in documents.entries(book, kind, client_id=client, set_aside=aside)
    ]


def _counted(counts: Mapping[DocumentKind, int]) -> list[str]:
    n = {kind: counts.get(kind, 0) for kind in DocumentKind}
    words = {
        DocumentKind.BODY: ngettext(
            "{count} set of measures", "{count} sets of measures", n[DocumentKind.BODY]
        ),
        DocumentKind.STYLE: ngettext("{count} style", "{count} styles", n[DocumentKind.STYLE]),
        DocumentKind.CLOTH: ngettext("{count} cloth", "{count} cloths", n[DocumentKind.CLOTH]),
        DocumentKind.ORDER: ngettext("{count} order", "{count} orders", n[DocumentKind.ORDER]),
    }
    return [words[kind].format(count=n[kind]) for kind in counts]
