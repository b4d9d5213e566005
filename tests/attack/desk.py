"""A desk in this very process with a filled book, asked as a browser would."""

from __future__ import annotations

import re
import warnings
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from cutwright.book import clients, documents, fittings, orders
from cutwright.book.book import Book
from cutwright.book.nouns import DocumentKind, Used
from cutwright.desk.app import make_app
from cutwright.desk.book.entering import checked_content
from cutwright.documents import read_json
from cutwright.workshop.gallery import know_all_steps, shipped

with warnings.catch_warnings():
    warnings.simplefilter("ignore")  # the test client speaks of its own next version
    from fastapi.testclient import TestClient


know_all_steps()


class Desk:
    """The desk on a book; a new book is filled with one client and her order."""

    def __init__(self, path: Path) -> None:
        self.app = make_app(path)
        self.web = TestClient(
            self.app,
            base_url="http://127.0.0.1",
            follow_redirects=False,
            raise_server_exceptions=False,
        )
        self.web.cookies.set(*self.app.state.house.cookie)
        if not orders.listed(self.book):
            fill(self.book)

    def __enter__(self) -> Desk:
        return self

    def __exit__(self, *_fault: object) -> None:
        self.close()

    @property
    def book(self) -> Book:
        """The open book."""
        book = self.app.state.shop.book
        assert isinstance(book, Book)
        return book

    def close(self) -> None:
        """Let go of the book."""
        self.app.state.shop.close()
        self.web.close()

    def get(self, path: str) -> Any:
        """A page; never a stumble, never a traceback."""
        answer = self.web.get(path)
        assert answer.status_code < 500, f"{answer.status_code} at {_without_numbers(path)}"
        assert "Traceback" not in answer.text
        return answer

    def pages_of_client(self, ident: str) -> None:
        """Every page about a client."""
        self.get(f"/book/client/{ident}")
        mine = documents.entries(self.book, client_id=ident)
        mine += documents.entries(self.book, client_id=ident, set_aside=True)
        styles = documents.entries(self.book, DocumentKind.STYLE)[:1]
        for entry in mine:
            if entry.kind is DocumentKind.ORDER:
                self.get(f"/book/order/{entry.id}")
                continue
            read = self.get(f"/body/{entry.id}").status_code == 200
            assert read, "a body was taken in that cannot be read"
            for style in styles:
                self.get(f"/table/{style.id}/{entry.id}")
            for revision in documents.revisions(self.book, entry.id):
                documents.at(self.book, entry.id, revision.number)
        self.get("/book")
        self.get("/")

    def every_page(self) -> None:
        """The pages of everything in the book."""
        for path in ("/", "/new", "/book", "/book/clients", "/book/styles", "/book/cloths"):
            self.get(path)
        for client in clients.listed(self.book):
            self.pages_of_client(client.id)
        for style in documents.entries(self.book, DocumentKind.STYLE):
            self.get(f"/book/style/{style.id}")

    def numbers(self) -> dict[str, list[str]]:
        """The numbers of what the book holds, by kind."""
        found: dict[str, list[str]] = {"client": [one.id for one in clients.listed(self.book)]}
        for kind in DocumentKind:
            found[kind.value] = [one.id for one in documents.entries(self.book, kind)]
        notes: Iterable[str] = (
            note.id for order in found["order"] for note in fittings.of_order(self.book, order)
        )
        return found | {"fitting": list(notes)}


def fill(book: Book) -> None:
    """One client with measures and an order, a style, a cloth and a fitting note."""
    who = clients.add(book, "Wren Attic", contact="by the mill", notes="likes pockets")
    made = {
        kind: documents.add(
            book,
            kind,
            checked_content(kind, read_json(shipped(folder)[name], name)),
            client_id=who.id if kind is DocumentKind.BODY else None,
        )
        for kind, folder, name in (
            (DocumentKind.BODY, "bodies", "the-rower"),
            (DocumentKind.STYLE, "styles", "circle-skirt"),
            (DocumentKind.CLOTH, "cloths", "plain-cotton-140"),
        )
    }
    used = {kind: Used(one.id, one.revision) for kind, one in made.items()}
    order = orders.place(
        book,
        {"format": 1, "name": "For spring"},
        body=used[DocumentKind.BODY],
        style=used[DocumentKind.STYLE],
        cloths=[used[DocumentKind.CLOTH]],
        client_id=who.id,
    )
    fittings.note(book, order.id, "the hem dips at the back")
    card = documents.get(book, made[DocumentKind.BODY].id).content
    documents.save(book, made[DocumentKind.BODY].id, card | {"notes": "taped again"}, base=1)


def _without_numbers(path: str) -> str:
    return re.sub(r"[0-9a-f]{32}", "…", path)
