"""The body sheet: measures typed, estimated, doubted, in centimetres or inches."""

from __future__ import annotations

from datetime import date
from functools import partial
from typing import Annotated, Any

from fastapi import APIRouter, Cookie, Query, Request
from fastapi.concurrency import run_in_threadpool
from fastapi.responses import HTMLResponse, RedirectResponse
from pydantic import BaseModel, ConfigDict, Field

from cutwright.body.card import card_from
from cutwright.body.families import FAMILIES
from cutwright.body.resolve import resolve
from cutwright.book import documents, history
from cutwright.book.nouns import DocumentKind
from cutwright.desk.body.figure import figure_svg
from cutwright.desk.body.measures_shown import (
    BodyShown,
    LengthUnit,
    body_shown,
    changed_card,
    groups,
    line_of,
)
from cutwright.desk.shop import Shop
from cutwright.desk.style.merging import MergedChange, attempts
from cutwright.desk.web.head import Head, bare_sheets, head
from cutwright.desk.web.pages import page
from cutwright.desk.web.parameters import Ident, TheShop
from cutwright.desk.web.words_js import words_for_page
from cutwright.documents import parse_json
from cutwright.words import _

router = APIRouter()
UNIT_COOKIE = "cutwright_unit"
_YEAR = 365 * 24 * 3600
Unit = Annotated[LengthUnit, Query()]
UnitWish = Annotated[LengthUnit | None, Query()]
UnitKept = Annotated[str, Cookie(alias=UNIT_COOKIE)]
Line = Annotated[str, Field(max_length=4000)]


@router.get("/table/{style}/{body}/body", response_class=HTMLResponse)
def body_at_table(
    shop: TheShop, style: Ident, body: Ident, unit: UnitWish = None, kept: UnitKept = ""
) -> HTMLResponse:
    """The measures of the body on the table."""
    at = head(
        shop,
        shop.document(style, DocumentKind.STYLE),
        shop.document(body, DocumentKind.BODY),
        "body",
    )
    return _sheet(shop, body, unit, kept, at)


@router.get("/body/{body}", response_class=HTMLResponse)
def body_alone(
    shop: TheShop, body: Ident, unit: UnitWish = None, kept: UnitKept = ""
) -> HTMLResponse:
    """The measures of a body in the book."""
    return _sheet(shop, body, unit, kept, None)


def _sheet(
    shop: Shop, body: str, wish: LengthUnit | None, kept: str, at: Head | None
) -> HTMLResponse:
    """The sheet in the unit asked for, which is remembered; else in the one asked for before."""
    document = shop.document(body, DocumentKind.BODY)
    unit: LengthUnit = wish or ("in" if kept == "in" else "cm")
    kind = card_from(document.content).kind
    answer = page(
        "body.html",
        head=at,
        sheets=bare_sheets("book"),
        body_id=body,
        shown=body_shown(document, unit),
        groups=groups(kind),
        kind=kind.name if len(FAMILIES) > 1 else "",
        unit=unit,
        figure=figure_svg(kind),
        words=words_for_page(),
    )
    if wish:
        answer.set_cookie(UNIT_COOKIE, wish, max_age=_YEAR, samesite="strict", httponly=True)
    return answer


class BodyWish(BaseModel):
    """Lines of a body card as they were typed, or one step back or forward."""

    model_config = ConfigDict(extra="forbid")
    base: int = Field(ge=1, le=2_000_000_000)
    fields: dict[Annotated[str, Field(max_length=60)], Line] = Field(
        default_factory=dict, max_length=60
    )
    whole: dict[str, Any] | None = None
    """A whole card in the place of what stands, where it was chosen in a conflict."""
    go: str = Field(default="", pattern="^(undo|redo|)$")
    group: str = Field(default="", max_length=60)
    unit: LengthUnit = "cm"


@router.post("/api/body/{body}/command")
def command(shop: TheShop, body: Ident, wish: BodyWish) -> BodyShown:
    """Change a body card."""
    stands = shop.document(body, DocumentKind.BODY)
    if wish.go:
        step = history.undo if wish.go == "undo" else history.redo
        return body_shown(step(shop.book, body, base=wish.base), wish.unit)

    setting = partial(_wished, wish)
    for attempt in attempts(shop.book, stands, wish.base, wish.group, setting):
        attempt.save(shop.book, body, wish.group or None)
    assert attempt.document is not None
    return body_shown(attempt.document, wish.unit)


def _wished(wish: BodyWish, stands: dict[str, Any], before: dict[str, Any] | None) -> MergedChange:
    """The card as it is to be saved; lines changed elsewhere stay so unless they are the same ones."""
    if wish.whole is not None:
        card = card_from(wish.whole, _("This does not fit there:"))
        resolve(card)
        content = card.model_dump(mode="json")
        return MergedChange(content, "whole", clash=before is not None and content != stands)
    card = changed_card(stands, wish.fields, wish.unit)
    content = card.model_dump(mode="json")
    clash = before is not None and any(
        line_of(stands, name) not in (line_of(before, name), line_of(content, name))
        for name in wish.fields
    )
    return MergedChange(content, ", ".join(sorted(wish.fields))[:200], clash)


@router.post("/api/body/{body}/keep-apart")
async def keep_apart(request: Request, body: Ident) -> dict[str, str]:
    """Save what was refused in a conflict as a card of its own, of the same person."""
    shop: Shop = request.app.state.shop
    raw = parse_json(await request.body(), _("The body card"))

    def keep() -> str:
        old = shop.document(body, DocumentKind.BODY)
        card = card_from(raw, _("This does not fit there:"))
        resolve(card)
        content = card.model_dump(mode="json")
        return documents.add(
            shop.book, DocumentKind.BODY, content, client_id=old.entry.client_id
        ).id

    return {"href": f"/body/{await run_in_threadpool(keep)}"}


@router.get("/api/body/{body}")
def look(shop: TheShop, body: Ident, unit: Unit = "cm") -> BodyShown:
    """Where a body card stands."""
    return body_shown(shop.document(body, DocumentKind.BODY), unit)


@router.post("/body/{body}/again")
def again(shop: TheShop, body: Ident, style: str = "") -> RedirectResponse:
    """Begin a new set of measures of the same person, dated today, the old one kept."""
    old = shop.document(body, DocumentKind.BODY)
    content = {**old.content, "measured_on": date.today().isoformat()}
    made = documents.add(shop.book, DocumentKind.BODY, content, client_id=old.entry.client_id)
    if style:
        shop.document(style, DocumentKind.STYLE)
        return RedirectResponse(f"/table/{style}/{made.id}/body", 303)
    return RedirectResponse(f"/body/{made.id}", 303)
