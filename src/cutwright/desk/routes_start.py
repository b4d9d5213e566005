"""Where one comes in: the welcome, what was on the table lately, and how something new begins."""

from __future__ import annotations

from datetime import date
from typing import Annotated

from fastapi import APIRouter, Depends, Form, Request
from fastapi.responses import HTMLResponse, RedirectResponse, Response

from cutwright.body.card import card_from
from cutwright.body.families import FAMILIES
from cutwright.body.measures import MEASURES
from cutwright.body.tape import WOMEN, Tape
from cutwright.book import clients, documents, orders
from cutwright.book.nouns import Document, DocumentKind
from cutwright.desk import beginning
from cutwright.desk.shop import Shop
from cutwright.desk.web.head import bare_sheets
from cutwright.desk.web.ink_css import ink_css
from cutwright.desk.web.pages import page
from cutwright.desk.web.parameters import TheShop
from cutwright.numerals import day_words
from cutwright.wording.names import called
from cutwright.wording.sizes import size_choices
from cutwright.words import _
from cutwright.workshop.gallery import load_card, shipped

router = APIRouter()
Short = Annotated[str, Form(max_length=200)]


@router.get("/ink.css", include_in_schema=False)
def inks() -> Response:
    """The look of every ink on the page."""
    return Response(ink_css(), media_type="text/css", headers={"cache-control": "no-cache"})


@router.get("/", response_class=HTMLResponse)
def start(shop: TheShop) -> HTMLResponse:
    """What lies on the table; on a first visit the order that is ready made."""
    lately = recent(shop)
    if not lately and not documents.entries(shop.book, DocumentKind.STYLE):
        offered = beginning.gallery() or beginning.blocks()
        first = offered[0] if offered else None
        return page("welcome.html", sheets=bare_sheets("table"), first=first)
    return page("start.html", sheets=bare_sheets("table"), lately=lately)


@router.post("/demo")
def demo(shop: TheShop) -> RedirectResponse:
    """Lay the ready-made order on the table."""
    return RedirectResponse(beginning.demo(shop), 303)


def recent(shop: Shop) -> list[dict[str, str]]:
    """The orders there are, those touched last first, with the way to their tables."""
    out = []
    lines = sorted(orders.listed(shop.book), key=lambda line: line.entry.changed_at, reverse=True)
    for line in lines[:30]:
        order = orders.get(shop.book, line.entry.id)
        if order.style is None or order.body is None:
            continue
        out.append(
            {
                "href": f"/table/{order.style.document_id}/{order.body.document_id}",
                "title": called(line.entry.title),
                "state": _(line.state.value),
                "due": day_words(line.due) if line.due else "",
            }
        )
    return out


@router.get("/new", response_class=HTMLResponse)
def new(shop: TheShop, client: str = "") -> HTMLResponse:
    """Choose or enter a body, choose a style or a block."""
    book = shop.book
    names = {c.id: c.name for c in clients.listed(book)}
    entered = documents.entries(book, DocumentKind.BODY)
    own = [
        {"value": f"book:{e.id}", "name": called(e.title), "about": _about(e, names)}
        for e in entered
        if not client or e.client_id == client
    ]
    shown = (
        []
        if client
        else [
            {"value": f"gallery:{name}", "name": called(card.name), "about": called(card.notes)}
            for name in shipped("bodies")
            if (card := load_card(name)).name not in {e.title for e in entered}
        ]
    )
    return page(
        "new.html",
        sheets=bare_sheets("new"),
        own=own[:60],
        shown=shown,
        sizes=size_choices(),
        families=FAMILIES.values(),
        client=client if client in names else "",
        client_name=names.get(client, ""),
        needed=_needed(),
        styles=beginning.gallery(),
        blocks=beginning.blocks(),
        mine=documents.entries(book, DocumentKind.STYLE)[:60],
    )


def _about(entry: object, names: dict[str, str]) -> str:
    from cutwright.book.nouns import Entry

    assert isinstance(entry, Entry)
    parts = [names.get(entry.client_id or "", "")]
    if entry.dated:
        parts.append(_("measured {day}").format(day=day_words(entry.dated)))
    return ", ".join(part for part in parts if part)


def _needed() -> dict[str, Tape]:
    """The tapes that one is asked for first on a figure of any family, by the id of their measure."""
    found: dict[str, Tape] = {}
    for kind in FAMILIES.values():
        for name in kind.needed:
            found.setdefault(name, kind.tape(name))
    return found


async def _typed_measures(request: Request) -> dict[str, str]:
    """The measures that were typed in a form, by their id."""
    form = await request.form()
    typed = {name: form.get(name) for name in MEASURES}
    return {n: text[:200] for n, text in typed.items() if isinstance(text, str) and text.strip()}


TypedMeasures = Annotated[dict[str, str], Depends(_typed_measures)]


@router.post("/new")
def begin(
    shop: TheShop,
    measures: TypedMeasures,
    body: Short = "",
    style: Short = "",
    size: Short = "",
    name: Short = "",
    client: Short = "",
    family: Short = WOMEN,
) -> RedirectResponse:
    """Lay what was chosen on the table."""
    if body == "typed":
        person = _typed(shop, name, family, measures, client)
    else:
        person = beginning.body_wished(shop, f"size:{size}" if body == "size" else body)
    beginning.resolve_first(person)
    chosen = beginning.style_wished(shop, style)
    return RedirectResponse(beginning.order_for(shop, chosen, person), 303)


def _typed(shop: Shop, name: str, family: str, measures: dict[str, str], client: str) -> Document:
    from cutwright.body.resolve import resolve

    card = card_from(
        {
            "format": 1,
            "name": name.strip() or _("a new body"),
            "family": family,
            "measured_on": date.today().isoformat(),
            "measures": measures,
        },
        _("These measures cannot be used:"),
    )
    resolve(card)
    return shop.add_card(card, client or None)
