"""Clients: as little about them as possible, their measures over the years, and forgetting them wholly."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Form
from fastapi.responses import HTMLResponse, RedirectResponse, Response

from cutwright.body.measures import MEASURES
from cutwright.book import clients, exchange, measures, orders
from cutwright.book.forgetting import forget as forget_wholly
from cutwright.book.scraps import scrap_folder
from cutwright.desk.book.contents import client_words
from cutwright.desk.book.parts import book_page
from cutwright.desk.book.routes_book import sent
from cutwright.desk.web.parameters import Ident, TheShop
from cutwright.errors import StoreError
from cutwright.words import _

router = APIRouter(prefix="/book")
Line = Annotated[str, Form(max_length=4000)]
Version = Annotated[int, Form(ge=1, le=2_000_000_000)]


@router.get("/clients", response_class=HTMLResponse)
def every(shop: TheShop) -> HTMLResponse:
    """All clients by name."""
    return book_page("book_clients.html", "clients", clients=clients.listed(shop.book))


@router.post("/clients")
def add(shop: TheShop, name: Line = "", contact: Line = "", notes: Line = "") -> RedirectResponse:
    """Enter a client under a name or nickname."""
    made = clients.add(shop.book, name, contact=contact, notes=notes)
    return RedirectResponse(f"/book/client/{made.id}", 303)


@router.get("/client/{ident}", response_class=HTMLResponse)
def one(shop: TheShop, ident: Ident) -> HTMLResponse:
    """A client: measures by date, what changed between the dates, orders."""
    client = clients.get(shop.book, ident)
    changes = [
        (
            between,
            [
                (_(MEASURES[str(c.place[0])].name), c)
                for c in between.changes
                if c.place and str(c.place[0]) in MEASURES
            ],
        )
        for between in measures.changes(shop.book, ident)
    ]
    return book_page(
        "book_client.html",
        "clients",
        client=client,
        sets=measures.measure_sets(shop.book, ident),
        changes=changes,
        orders=orders.listed(shop.book, client_id=ident),
        holds=client_words(shop.book, ident),
    )


@router.post("/client/{ident}")
def change(
    shop: TheShop,
    ident: Ident,
    base: Version,
    name: Line = "",
    contact: Line = "",
    notes: Line = "",
) -> RedirectResponse:
    """Change what stands about a client."""
    clients.change(shop.book, ident, base=base, name=name, contact=contact, notes=notes)
    return RedirectResponse(f"/book/client/{ident}", 303)


@router.post("/client/{ident}/file")
def client_file(shop: TheShop, ident: Ident, named: Line = "") -> Response:
    """A client with everything that belongs to them in one file, without a name unless asked."""
    clients.get(shop.book, ident)
    with scrap_folder() as folder:
        path = folder / f"client-{ident[:8]}.json"
        exchange.export_client(shop.book, ident, path, with_name=bool(named))
        return sent(path, "application/json")


@router.post("/client/{ident}/forget", response_class=HTMLResponse)
def forget(shop: TheShop, ident: Ident, sure: Line = "") -> HTMLResponse:
    """Delete a client wholly: measures, orders, fittings, history, and what backups hold."""
    clients.get(shop.book, ident)
    if sure != "yes":
        raise StoreError(
            _("Tick the box to confirm that everything about this person is to be deleted.")
        )
    gone = forget_wholly(shop.book, ident)
    shop.forget()
    return book_page("book_forgotten.html", "clients", gone=gone)
