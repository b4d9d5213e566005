"""The style sheet and its commands."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial
from typing import Annotated, Any

from fastapi import APIRouter, Query, Request
from fastapi.responses import HTMLResponse, RedirectResponse, Response

from cutwright.book import documents, history
from cutwright.book.nouns import Document, DocumentKind
from cutwright.desk.shop import Shop
from cutwright.desk.style.commands import (
    BringBack,
    Change,
    Redo,
    Undo,
    Whole,
    Wish,
    content_of,
)
from cutwright.desk.style.merging import MergedChange, attempts, places_now, set_on_style
from cutwright.desk.style.proof_words import proof_rows
from cutwright.desk.style.table import Picture, Shown
from cutwright.desk.web.head import head
from cutwright.desk.web.in_turn import in_turn, takes_lines
from cutwright.desk.web.pages import fragment, page
from cutwright.desk.web.parameters import Ident, TheShop
from cutwright.desk.web.words_js import words_for_page
from cutwright.style.document import Style, parse_style, stored_style
from cutwright.style.unread import Unread
from cutwright.wording.sizes import few_sizes
from cutwright.words import _

router = APIRouter()
MOST = 2_000_000_000


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
        others=[e for e in documents.entries(shop.book, DocumentKind.BODY) if e.id != body][:40],
        sizes=few_sizes(laid.body.kind),
        words=words_for_page(),
    )


@router.get("/api/table/{style}/{body}")
def look(
    shop: TheShop, style: Ident, body: Ident, since: Annotated[int, Query(ge=0, le=MOST)] = 0
) -> Shown:
    """Where a style stands now, whole; with `since`, where the sentences of that revision went."""
    table, laid, document, _person = shop.laid(style, body)
    shown = table.shown(laid, document, ())
    if since and since != document.revision:
        read = stored_style(documents.at(shop.book, style, since))
        shown.went = places_now(read, laid.style)
    return shown


@router.post("/api/table/{style}/{body}/command", response_model=Shown)
async def command(
    request: Request, shop: TheShop, style: Ident, body: Ident, wish: Wish
) -> Response:
    """Do one thing to a style; the answer holds what changed on the page.

    A page that takes lines is sent the picture first, and only then, once it is saved, the answer.
    """
    return await in_turn(request, _answers(shop, style, body, wish, takes_lines(request)))


def _answers(shop: Shop, style: str, body: str, wish: Wish, lines: bool) -> Iterator[Picture]:
    """The picture of what was wished for; then, when it is on the disk, everything the page needs.

    `lines`: the page is sent both, so that what was in the picture need not be sent again.
    """
    person = shop.document(body, DocumentKind.BODY)
    table = shop.tables.table(style, body)
    table.person(person)  # what cannot be drafted for is refused before anything is saved
    asked, have, went = wish.command, set(wish.have), None
    if isinstance(asked, Undo | Redo | BringBack):
        document = _gone(shop, style, wish.base, asked)
        yield (picture := table.picture(table.sketch(document.content, person), have))
    else:
        stands = shop.document(style, DocumentKind.STYLE)
        setting = partial(_wished, asked)
        for attempt in attempts(shop.book, stands, wish.base, wish.group, setting):
            sketch = table.sketch(attempt.wanted.content, person)
            yield (picture := table.picture(sketch, have))
            attempt.save(shop.book, style, wish.group or None)
        assert attempt.document is not None
        document, went = attempt.document, attempt.wanted.went
    if went is not None:  # sentences have moved: the page needs every one of them
        have = set()
    if lines:
        have |= {piece.outline.mark for piece in picture.pieces}
    shown = table.shown(table.lay(document.content, person), document, have)
    shown.went = went
    yield shown


def _gone(shop: Shop, ident: str, base: int, asked: Undo | Redo | BringBack) -> Document:
    """Go along the history of a style."""
    shop.document(ident, DocumentKind.STYLE)
    if isinstance(asked, BringBack):
        return history.bring_back(shop.book, ident, asked.revision, base=base)
    step = history.undo if isinstance(asked, Undo) else history.redo
    return step(shop.book, ident, base=base)


def _wished(
    asked: Change | Whole, stands: dict[str, Any], before: dict[str, Any] | None
) -> MergedChange:
    """The document as it is to be saved, and a few words on what was done."""
    if isinstance(asked, Whole):
        there = stands.get("steps", ())
        content = _whole(content_of(asked), lambda row: row in there).document()
        return MergedChange(content, "", clash=before is not None and content != stands)
    style, read = stored_style(stands), stored_style(before) if before is not None else None
    changed, label, clash = set_on_style(style, read, asked)
    went = places_now(read, style) if read else None
    return MergedChange(changed.document(), label, clash, went)


def _whole(content: Any, stood: Callable[[Any], bool]) -> Style:
    """A whole style from a page; of what cannot be read, only sentences that stood in the book are taken."""
    style = stored_style(content)
    unread = [step.row() for step in style.steps if isinstance(step, Unread)]
    if not unread or len(style.steps) != len(content["steps"]) or not all(map(stood, unread)):
        return parse_style(content)
    rows = [row for row in content["steps"] if row not in unread]
    parse_style({**content, "steps": rows})
    return style


def _stood_once(shop: Shop, ident: str) -> Callable[[Any], bool]:
    """Tells whether a sentence stands in a style, or stood there at any of its revisions."""

    def stood(row: Any) -> bool:
        numbers = reversed([one.number for one in documents.revisions(shop.book, ident)])
        return any(row in documents.at(shop.book, ident, n).get("steps", ()) for n in numbers)

    return stood


@router.get("/api/table/{style}/{body}/revision")
def revision(shop: TheShop, style: Ident, body: Ident) -> dict[str, int]:
    """The revisions both documents stand at, so that a page knows whether it is behind."""
    return {
        "style": shop.document(style, DocumentKind.STYLE).revision,
        "body": shop.document(body, DocumentKind.BODY).revision,
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
    old = shop.document(style, DocumentKind.STYLE)
    shop.document(body, DocumentKind.BODY)
    name = _("{name}, again").format(name=old.entry.title)[:120]
    made = documents.duplicate(shop.book, style, name)
    return RedirectResponse(f"/table/{made.id}/{body}", 303)


@router.post("/api/table/{style}/{body}/keep-apart")
async def keep_apart(request: Request, style: Ident, body: Ident) -> dict[str, str]:
    """Save what was refused in a conflict as a style of its own."""
    from fastapi.concurrency import run_in_threadpool

    from cutwright.documents import parse_json

    shop: Shop = request.app.state.shop
    raw = parse_json(await request.body(), _("The style"))

    def keep() -> str:
        shop.document(style, DocumentKind.STYLE)
        shop.document(body, DocumentKind.BODY)
        return shop.add_style(_whole(raw, _stood_once(shop, style))).id

    made = await run_in_threadpool(keep)
    return {"href": f"/table/{made}/{body}"}
