"""The style sheet and its commands."""

from __future__ import annotations

from typing import Any

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse, RedirectResponse

from cutwright.book import documents, history
from cutwright.book.nouns import Document, Kind
from cutwright.desk.asked import Ident, TheShop
from cutwright.desk.commands import BringBack, Redo, Undo, Whole, Wish, carried_out, content_of
from cutwright.desk.heads import head
from cutwright.desk.pages import fragment, page
from cutwright.desk.proof_words import proof_rows
from cutwright.desk.shop import Shop
from cutwright.desk.table import Shown
from cutwright.desk.words_js import words_for_page
from cutwright.errors import CutwrightError
from cutwright.style.document import parse_style

router = APIRouter()


@router.get("/table/{style}/{body}", response_class=HTMLResponse)
def style_sheet(shop: TheShop, style: Ident, body: Ident) -> HTMLResponse:
    """The letter, the paper and the proof."""
    table, laid, document, person = shop.laid(style, body)
    shown = table.shown(laid, document, ())
    return page(
        "style.html",
        head=head(shop, document, person, "style"),
        shown=shown,
        steps=laid.style.steps,
        others=[e for e in documents.entries(shop.book, Kind.BODY) if e.id != body][:40],
        words=words_for_page(),
    )


@router.get("/api/table/{style}/{body}")
def look(shop: TheShop, style: Ident, body: Ident) -> Shown:
    """Where a style stands now, whole."""
    table, laid, document, _person = shop.laid(style, body)
    return table.shown(laid, document, ())


@router.post("/api/table/{style}/{body}/command")
def command(shop: TheShop, style: Ident, body: Ident, wish: Wish) -> Shown:
    """Do one thing to a style; the answer holds what changed on the page."""
    shop.document(body, Kind.BODY)
    document = _done(shop, style, wish)
    table = shop.tables.table(style, body)
    laid = table.lay(document, shop.document(body, Kind.BODY))
    return table.shown(laid, document, set(wish.have))


def _done(shop: Shop, ident: str, wish: Wish) -> Document:
    """Carry a command out in the book; when this returns it is on the disk."""
    asked = wish.command
    stands = shop.document(ident, Kind.STYLE)
    if isinstance(asked, Undo):
        return history.undo(shop.book, ident, base=wish.base)
    if isinstance(asked, Redo):
        return history.redo(shop.book, ident, base=wish.base)
    if isinstance(asked, BringBack):
        return history.bring_back(shop.book, ident, asked.revision, base=wish.base)
    content: dict[str, Any]
    if isinstance(asked, Whole):
        content, label = parse_style(content_of(asked)).document(), ""
    else:
        at = (
            stands.content
            if wish.base == stands.revision
            else documents.at(shop.book, ident, wish.base)
        )
        style, label = carried_out(parse_style(at), asked)
        content = style.document()
    return documents.save(
        shop.book, ident, content, base=wish.base, group=wish.group or None, label=label
    )


@router.get("/api/table/{style}/{body}/revision")
def revision(shop: TheShop, style: Ident, body: Ident) -> dict[str, int]:
    """The revisions both documents stand at, so that a page knows whether it is behind."""
    return {
        "style": shop.document(style, Kind.STYLE).revision,
        "body": shop.document(body, Kind.BODY).revision,
    }


@router.get("/api/table/{style}/{body}/proof")
def proof(shop: TheShop, style: Ident, body: Ident) -> dict[str, Any]:
    """What holds, what does not, and by how much."""
    _table, laid, document, _person = shop.laid(style, body)
    rows = proof_rows(laid)
    return {
        "revision": document.revision,
        "html": fragment("proof.html", proof=rows),
        "faults": len(rows.faults),
    }


@router.post("/table/{style}/{body}/duplicate")
def duplicate(shop: TheShop, style: Ident, body: Ident) -> RedirectResponse:
    """A copy of the style on the same body."""
    from cutwright.words import _

    old = shop.document(style, Kind.STYLE)
    shop.document(body, Kind.BODY)
    name = _("{name}, again").format(name=old.entry.title)[:120]
    made = documents.duplicate(shop.book, style, name)
    return RedirectResponse(f"/table/{made.id}/{body}", 303)


@router.post("/api/table/{style}/{body}/keep-apart")
async def keep_apart(request: Request, style: Ident, body: Ident) -> dict[str, str]:
    """Save what was refused in a conflict as a style of its own."""
    from fastapi.concurrency import run_in_threadpool

    from cutwright.documents import parse_json
    from cutwright.words import _

    shop: Shop = request.app.state.shop
    raw = parse_json(await request.body(), _("The style"))

    def keep() -> str:
        shop.document(style, Kind.STYLE)
        shop.document(body, Kind.BODY)
        return shop.add_style(parse_style(raw)).id

    made = await run_in_threadpool(keep)
    return {"href": f"/table/{made}/{body}"}


__all__ = ["CutwrightError", "router"]
