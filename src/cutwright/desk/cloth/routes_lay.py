"""The cloth sheet: choose a cloth, watch the lay get shorter, pin pieces, compare, take the files."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Form, Path, Query
from fastapi.responses import HTMLResponse, Response
from pydantic import Field

from cutwright.book.nouns import DocumentKind
from cutwright.desk.cloth import cloths, laying
from cutwright.desk.cloth.lay_compared import (
    Compared,
    ComparedShown,
    compared,
    compared_shown,
    widths_of,
)
from cutwright.desk.cloth.lay_shown import ClothWish, LayShown, ShownLay, lay_shown
from cutwright.desk.cloth.lay_words import lay_words
from cutwright.desk.cloth.laying import LayWish
from cutwright.desk.cloth.order_cloth import (
    OrderCloth,
    cloth_of,
    earlier_lay,
    keep_cloth,
    keep_lay,
    wish_of,
)
from cutwright.desk.cloth.searches import Job
from cutwright.desk.shop import Shop
from cutwright.desk.web.head import head
from cutwright.desk.web.pages import page
from cutwright.desk.web.parameters import Ident, TheShop
from cutwright.documents import json_text
from cutwright.errors import StoreError
from cutwright.lay.cloth import Cloth
from cutwright.numerals import by_custom
from cutwright.wording.message_text import message_text
from cutwright.words import _

router = APIRouter()
Number = Annotated[str, Path(min_length=1, max_length=64, pattern="^[0-9a-f]+$")]
Seen = Annotated[int, Query(ge=0, le=2_000_000_000)]
_FIRST, _NEXT = 0.9, 0.6
"""Seconds an answer waits for the first lay, and for a better one."""


@router.get("/table/{style}/{body}/cloth", response_class=HTMLResponse)
def cloth_sheet(
    shop: TheShop, style: Ident, body: Ident, cloth: Annotated[str, Query(max_length=80)] = ""
) -> HTMLResponse:
    """The cloths there are and the pieces laid on one of them."""
    _table, laid, document, person = shop.laid(style, body)
    own, ships = cloths.offered(shop)
    keys = {offer.key: offer for offer in (*own, *ships)}
    kept = cloth_of(shop, style, body)
    first = next((o.key for o in own if o.cloth.material == "main"), cloths.USUAL)
    chosen = keys.get(cloth) or keys.get(kept.wish.cloth if kept else "") or keys[first]
    wish = kept.wish if kept and kept.wish.cloth == chosen.key else ClothWish(cloth=chosen.key)
    return page(
        "cloth.html",
        head=head(shop, document, person, "cloth"),
        body_revision=person.revision,
        own=own,
        ships=ships,
        chosen=chosen,
        width=wish.width or by_custom(f"{round(chosen.cloth.width, 1):g}"),
        fold=wish.fold or chosen.cloth.fold,
        nap=wish.nap or chosen.cloth.nap,
        pins=json_text([pin.model_dump(mode="json") for pin in wish.pins]),
        folds=[(key, _(words)) for key, words in cloths.FOLDS.items()],
        naps=[(key, _(words)) for key, words in cloths.NAPS.items()],
        trouble=message_text(laid.trouble) if laid.trouble else "",
        words=lay_words(),
    )


def _cloth(shop: TheShop, wish: ClothWish) -> tuple[Cloth, float | None]:
    """The cloth that was wished for, and how much of it is left."""
    offer = cloths.chosen(shop, wish.cloth)
    return cloths.changed(offer.cloth, wish.width, wish.fold or "", wish.nap or ""), offer.left


@router.post("/api/table/{style}/{body}/lay")
def begin(shop: TheShop, style: Ident, body: Ident, wish: LayWish) -> LayShown:
    """Begin to lay; the answer holds the first lay if it comes at once."""
    _table, laid, document, person = shop.laid(style, body)
    cloth, left = _cloth(shop, wish)
    kept, asked = cloth_of(shop, style, body), wish_of(wish)
    earlier = earlier_lay(kept, asked, laying.pieces_of(laid))
    source = laying.search_for(laid, cloth, wish, left, earlier)
    if kept is None or kept.wish != asked:
        keep_cloth(shop, document, person, OrderCloth(wish=asked))
    job = shop.jobs.begin(style, body, "lay", source)
    job.look(wait=_FIRST)
    return _shown(shop, style, body, job, 0)


def _shown(shop: Shop, style: str, body: str, job: Job[ShownLay], after: int) -> LayShown:
    """Where a search stands; once it is over its order keeps what it found."""
    shown = lay_shown(job, after)
    if job.over:
        keep_lay(shop, style, body, job.latest)
    return shown


@router.get("/api/table/{style}/{body}/lay/{job}")
def look(shop: TheShop, style: Ident, body: Ident, job: Number, after: Seen = 0) -> LayShown:
    """A better lay if there is one, or soon will be."""
    found: Job[ShownLay] = shop.jobs.find(style, body, "lay", job)
    found.look(after, _NEXT)
    return _shown(shop, style, body, found, after)


@router.post("/api/table/{style}/{body}/{kind}/{job}/stop")
def stop(
    shop: TheShop,
    style: Ident,
    body: Ident,
    kind: Annotated[str, Path(pattern="^(lay|compare)$")],
    job: Number,
) -> dict[str, str]:
    """End a search; what it found stays."""
    found = shop.jobs.find(style, body, kind, job)
    found.stop()
    if kind == "lay":
        keep_lay(shop, style, body, found.latest)
    return {"job": found.ident}


@router.post("/table/{style}/{body}/lay/{job}/file")
def take(
    shop: TheShop,
    style: Ident,
    body: Ident,
    job: Number,
    what: Annotated[str, Form(max_length=20)] = "pdf",
) -> Response:
    """A lay as a file: "pdf", "svg", "json", or "marker" for the full size."""
    shop.document(style, DocumentKind.STYLE)
    found: Job[ShownLay] = shop.jobs.find(style, body, "lay", job)
    if found.latest is None:
        raise StoreError(_("There is no lay yet; wait for the first one."))
    name, content, kind = laying.file_of(found.latest.laid, what)
    shown = {"content-disposition": f'attachment; filename="{name}"'}
    return Response(content, media_type=kind, headers=shown)


class CompareWish(ClothWish):
    """Which widths are to be compared, as they were typed: "110, 140, 60 in"."""

    widths: str = Field(default="", max_length=200)
    places: int | None = Field(default=None, ge=0, le=4_000_000)


@router.post("/api/table/{style}/{body}/compare")
def begin_comparing(shop: TheShop, style: Ident, body: Ident, wish: CompareWish) -> ComparedShown:
    """Begin to compare widths and folds; this ends a search for a lay."""
    _table, laid, _document, _person = shop.laid(style, body)
    cloth, _left = _cloth(shop, wish)
    pieces, widths = laying.pieces_of(laid), widths_of(wish.widths, cloth)
    places = {} if wish.places is None else {"places": wish.places}
    job = shop.jobs.begin(style, body, "compare", compared(pieces, cloth, widths, **places))
    job.look(wait=_FIRST)
    return compared_shown(job, 0)


@router.get("/api/table/{style}/{body}/compare/{job}")
def look_compared(
    shop: TheShop, style: Ident, body: Ident, job: Number, after: Seen = 0
) -> ComparedShown:
    """What has been compared so far."""
    found: Job[Compared] = shop.jobs.find(style, body, "compare", job)
    found.look(after, _NEXT)
    return compared_shown(found, after)
