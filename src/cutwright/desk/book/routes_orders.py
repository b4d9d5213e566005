"""Orders: how far each has come, when it is due, and what was seen at the fittings."""

from __future__ import annotations

from datetime import date
from typing import Annotated, Any

from fastapi import APIRouter, Form
from fastapi.responses import HTMLResponse, RedirectResponse

from cutwright.body.measures import MEASURES
from cutwright.book import clients, documents, fittings, orders
from cutwright.book.nouns import DocumentKind, Order, OrderState, Used
from cutwright.desk.body.measures_shown import changed_card
from cutwright.desk.book.parts import book_page
from cutwright.desk.shop import Shop
from cutwright.desk.style.typed import changed
from cutwright.desk.web.parameters import Ident, TheShop
from cutwright.errors import StoreError
from cutwright.style.document import Style, stored_style
from cutwright.wording.sentences import sentence, sentence_parts
from cutwright.words import N_, _

router = APIRouter(prefix="/book")
Line = Annotated[str, Form(max_length=4000)]
Version = Annotated[int, Form(ge=1, le=2_000_000_000)]
STATES = {
    OrderState.DRAFTED: N_("drafted"),
    OrderState.CUT: N_("cut out"),
    OrderState.FITTED: N_("fitted"),
    OrderState.FINISHED: N_("finished"),
}


@router.get("", response_class=HTMLResponse)
def every(shop: TheShop, state: str = "") -> HTMLResponse:
    """Orders by due date; those that are finished on request."""
    wanted = next((s for s in OrderState if s.value == state), None)
    rows = orders.listed(shop.book, state=wanted)
    if wanted is None:
        rows = [r for r in rows if r.state is not OrderState.FINISHED]
    names = {c.id: c.name for c in clients.listed(shop.book)}
    return book_page(
        "book_orders.html",
        "orders",
        rows=rows,
        names=names,
        states=STATES,
        state=state,
        today=date.today(),
    )


@router.get("/order/{ident}", response_class=HTMLResponse)
def one(shop: TheShop, ident: Ident) -> HTMLResponse:
    """An order: its state, its day, its fittings and what they asked for."""
    order = orders.get(shop.book, ident)
    return book_page(
        "book_order.html",
        "orders",
        order=order,
        client=_client_name(shop, order),
        states=STATES,
        fittings=fittings.of_order(shop.book, ident),
        measures=[(m.id, _(m.name)) for m in MEASURES.values()],
        words=_numbers_of(shop, order),
        behind=_behind(shop, order),
    )


def _client_name(shop: Shop, order: Order) -> str:
    ident = order.document.entry.client_id
    return clients.get(shop.book, ident).name if ident else ""


def _numbers_of(shop: Shop, order: Order) -> list[tuple[str, str]]:
    """The numbers of the letter that a fitting may correct, as (place, words)."""
    if order.style is None:
        return []
    from cutwright.desk.style.editors import editors

    style = stored_style(documents.get(shop.book, order.style.document_id).content)
    out = []
    for index, step in enumerate(style.steps):
        known = editors(type(step))
        for text, field in sentence_parts(step):
            if field in known and known[field].numeric:
                where = _("sentence {number}: {what} ({now})").format(
                    number=index + 1, what=known[field].words, now=text
                )
                out.append((f"{index}/{field}", where))
    return out


def _behind(shop: Shop, order: Order) -> bool:
    """Whether body or style went on since the order froze its copy."""
    return any(
        used is not None and documents.get(shop.book, used.document_id).revision != used.revision
        for used in (order.body, order.style)
    )


@router.post("/order/{ident}/state")
def move(shop: TheShop, ident: Ident, state: Line, base: Version) -> RedirectResponse:
    """Note how far an order has come."""
    wanted = next((s for s in OrderState if s.value == state), None)
    if wanted is None:
        raise StoreError(_("An order is drafted, cut, fitted or finished."))
    orders.move(shop.book, ident, wanted, base=base)
    return RedirectResponse(f"/book/order/{ident}", 303)


@router.post("/order/{ident}/due")
def due(shop: TheShop, ident: Ident, base: Version, day: Line = "") -> RedirectResponse:
    """Note the day an order is due."""
    try:
        when = date.fromisoformat(day) if day else None
    except ValueError:
        raise StoreError(_("Write the day like 2026-05-14.")) from None
    orders.set_due(shop.book, ident, when, base=base)
    return RedirectResponse(f"/book/order/{ident}", 303)


@router.post("/order/{ident}/take-over")
def take_over(shop: TheShop, ident: Ident, base: Version) -> RedirectResponse:
    """Let the order use body and style as they stand now."""
    order = orders.get(shop.book, ident)
    body, style = (_newest(shop, used) for used in (order.body, order.style))
    orders.use(shop.book, ident, base=base, body=body, style=style, cloths=order.cloths)
    return RedirectResponse(f"/book/order/{ident}", 303)


def _newest(shop: Shop, used: Used | None) -> Used | None:
    if used is None:
        return None
    return Used(used.document_id, documents.get(shop.book, used.document_id).revision)


@router.post("/order/{ident}/fitting")
def fitted(shop: TheShop, ident: Ident, note: Line = "") -> RedirectResponse:
    """Write down what was seen when the garment was tried on."""
    fittings.note(shop.book, ident, note)
    return RedirectResponse(f"/book/order/{ident}#fittings", 303)


@router.get("/fitting/{ident}")
def to_fitting(shop: TheShop, ident: Ident) -> RedirectResponse:
    """The order a fitting belongs to."""
    return RedirectResponse(f"/book/order/{fittings.get(shop.book, ident).order_id}#fittings", 303)


@router.post("/fitting/{ident}/body")
def correct_body(shop: TheShop, ident: Ident, measure: Line, value: Line) -> RedirectResponse:
    """Propose another measure after a fitting."""
    order = orders.get(shop.book, fittings.get(shop.book, ident).order_id)
    if order.body is None:
        raise StoreError(_("This order has no body that could be corrected."))
    body = shop.document(order.body.document_id, DocumentKind.BODY)
    card = changed_card(body.content, {measure: value}, "cm")
    why = _("{what} {value}").format(what=_name_of(measure), value=value[:40])
    _propose(shop, ident, body.id, card.model_dump(mode="json"), body.revision, why)
    return RedirectResponse(f"/book/order/{order.id}#fittings", 303)


def _name_of(measure: str) -> str:
    return _(MEASURES[measure].name) if measure in MEASURES else measure[:60]


@router.post("/fitting/{ident}/style")
def correct_style(shop: TheShop, ident: Ident, place: Line, value: Line) -> RedirectResponse:
    """Propose another number in the letter after a fitting."""
    order = orders.get(shop.book, fittings.get(shop.book, ident).order_id)
    if order.style is None:
        raise StoreError(_("This order has no style that could be corrected."))
    document = shop.document(order.style.document_id, DocumentKind.STYLE)
    style = stored_style(document.content)
    number, _slash, field = place.partition("/")
    if not (number.isdigit() and len(number) < 5 and int(number) < len(style.steps)):
        raise StoreError(_("There is no such sentence on the page."))
    index = int(number)
    steps = list(style.steps)
    steps[index] = changed(steps[index], field, value)
    proposed = Style(style.name, tuple(steps), style.about).document()
    _propose(shop, ident, document.id, proposed, document.revision, sentence(steps[index])[:300])
    return RedirectResponse(f"/book/order/{order.id}#fittings", 303)


def _propose(
    shop: Shop, fitting: str, document: str, content: dict[str, Any], base: int, why: str
) -> None:
    fittings.propose(shop.book, fitting, document, content, base=base, why=why)


@router.post("/correction/{ident}")
def settle(shop: TheShop, ident: Ident, order: Line, do: Line = "accept") -> RedirectResponse:
    """Make a proposed correction, or leave it be."""
    if do == "accept":
        fittings.accept(shop.book, ident)
    else:
        fittings.refuse(shop.book, ident)
    if not order.isalnum():
        order = ""
    return RedirectResponse(f"/book/order/{order}#fittings" if order else "/book", 303)
