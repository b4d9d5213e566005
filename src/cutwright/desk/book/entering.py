"""Documents from elsewhere: read, checked whole, and only then entered in the book."""

from __future__ import annotations

from typing import Any

from cutwright.body.card import card_from
from cutwright.body.resolve import resolve
from cutwright.book import documents
from cutwright.book.nouns import Document, DocumentKind
from cutwright.desk.shop import Shop
from cutwright.documents import parse_json, validated
from cutwright.errors import StoreError
from cutwright.style.document import parse_style
from cutwright.words import _


def checked_content(kind: DocumentKind, raw: object) -> dict[str, Any]:
    """The content of a document of a kind, as the program itself would write it."""
    if kind is DocumentKind.STYLE:
        return parse_style(raw).document()
    if kind is DocumentKind.BODY:
        card = card_from(raw)
        resolve(card)
        return card.model_dump(mode="json")
    if kind is DocumentKind.CLOTH:
        from cutwright.lay.cloth import Cloth

        cloth = validated(raw, Cloth, _("This cloth cannot be used:"))
        return cloth.model_dump(mode="json", exclude_defaults=True) | {"format": 1}
    raise StoreError(_("An order is placed at the table; it is not entered from a file."))


def entered(shop: Shop, kind: DocumentKind, raw: bytes) -> Document:
    """Enter the document in a file."""
    titles = {
        DocumentKind.STYLE: _("The style"),
        DocumentKind.BODY: _("The body card"),
        DocumentKind.CLOTH: _("The cloth"),
    }
    value = parse_json(raw, titles.get(kind, _("The file")))
    return documents.add(shop.book, kind, checked_content(kind, value))
