"""The parts of the book one can turn to."""

from __future__ import annotations

from typing import Any

from fastapi.responses import HTMLResponse

from cutwright.desk.web.head import SheetLink, bare_sheets
from cutwright.desk.web.pages import page
from cutwright.words import _


def book_page(template: str, here: str, **values: Any) -> HTMLResponse:
    """A page of the book with its parts at the side."""
    parts = (
        SheetLink("/book", _("Orders"), here == "orders"),
        SheetLink("/book/clients", _("Clients"), here == "clients"),
        SheetLink("/book/styles", _("Styles"), here == "styles"),
        SheetLink("/book/cloths", _("Cloths"), here == "cloths"),
        SheetLink("/book/safe", _("Backup and files"), here == "safe"),
    )
    return page(template, sheets=bare_sheets("book"), parts=parts, **values)
