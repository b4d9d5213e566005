"""Invented people, styles and cloths for the tests of the book."""

from __future__ import annotations

from typing import Any

from cutwright.book import clients, documents, orders
from cutwright.book.book import Book
from cutwright.book.nouns import Client, Document, DocumentKind, Order, Used


def body(**measures: float) -> dict[str, Any]:
    taken = {"bust": 92.0, "waist": 74.5, "hip": 99.0} | measures
    return {"format": 1, "name": "Brackenridge", "measured_on": "2031-03-14", "measures": taken}


def style(ease: float = 4.0) -> dict[str, Any]:
    return {
        "format": 1,
        "name": "Heron skirt",
        "steps": [
            {"do": "draft skirt block", "ease": ease},
            {"do": "close dart", "dart": "skirt front: waist dart"},
            {"do": "lengthen", "by": 6},
        ],
    }


def cloth() -> dict[str, Any]:
    return {"format": 1, "name": "Moss wool twill", "width": 150, "notes": "from the winter sale"}


def used(document: Document) -> Used:
    return Used(document.id, document.revision)


def full_order(book: Book, name: str = "Brackenridge") -> tuple[Client, Order]:
    """A client with a measure set and an order that uses it, a style and a cloth."""
    client = clients.add(book, name, contact="by the bridge", notes="likes pockets")
    measured = documents.add(book, DocumentKind.BODY, body(), client_id=client.id)
    drawn = documents.add(book, DocumentKind.STYLE, style())
    wool = documents.add(book, DocumentKind.CLOTH, cloth())
    order = orders.place(
        book,
        {"format": 1, "name": "Skirt for spring", "options": {"lining": True}},
        body=used(measured),
        style=used(drawn),
        cloths=[used(wool)],
    )
    return client, order
