"""What stands at the head of every sheet: what lies on the table and where else one can go."""

from __future__ import annotations

from dataclasses import dataclass

from cutwright.book.nouns import Document
from cutwright.desk.shop import Shop
from cutwright.numerals import day_words
from cutwright.wording.names import called
from cutwright.words import _


@dataclass(frozen=True, slots=True)
class SheetLink:
    """A sheet one can turn to."""

    href: str
    words: str
    here: bool


@dataclass(frozen=True, slots=True)
class Head:
    """The head of a sheet: the style, for whom, and the sheets there are."""

    title: str
    about: str
    style_id: str
    body_id: str
    body_name: str
    sheets: tuple[SheetLink, ...]
    revision: int


def head(shop: Shop, style: Document, body: Document, here: str) -> Head:
    """The head for a style on a body."""
    at = f"/table/{style.id}/{body.id}"
    sheets = (
        SheetLink(at, _("Style"), here == "style"),
        SheetLink(f"{at}/body", _("Body"), here == "body"),
        SheetLink(f"{at}/paper", _("Paper"), here == "paper"),
        SheetLink(f"{at}/cloth", _("Cloth"), here == "cloth"),
        SheetLink(f"{at}/sheet", _("Work sheet"), here == "sheet"),
        SheetLink("/book", _("Book"), here == "book"),
    )
    dated = body.entry.dated
    name = called(body.entry.title)
    about = (
        _("for {name}, measured {day}").format(name=name, day=day_words(dated))
        if dated
        else _("for {name}").format(name=name)
    )
    return Head(called(style.entry.title), about, style.id, body.id, name, sheets, style.revision)


def bare_sheets(here: str) -> tuple[SheetLink, ...]:
    """The sheets there are while nothing lies on the table."""
    return (
        SheetLink("/", _("Table"), here == "table"),
        SheetLink("/new", _("Begin"), here == "new"),
        SheetLink("/book", _("Book"), here == "book"),
    )
