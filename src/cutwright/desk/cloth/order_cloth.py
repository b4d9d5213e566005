"""What an order keeps of its cloth: which one, how wide and how it lies, what is pinned, and the last lay."""

from __future__ import annotations

from zlib import crc32

from pydantic import BaseModel, ValidationError

from cutwright.book import documents, orders
from cutwright.book.errors import ConflictError
from cutwright.book.nouns import Document, DocumentKind
from cutwright.desk.beginning import order_for
from cutwright.desk.cloth.lay_shown import ClothWish, ShownLay
from cutwright.desk.shop import Shop
from cutwright.desk.style.laid_out import LaidOut
from cutwright.lay.cuts import pieces_for
from cutwright.lay.from_pattern import lay_pieces
from cutwright.lay.need import need
from cutwright.lay.piece import LayPiece
from cutwright.lay.plan import Lay
from cutwright.lay.verify import faults
from cutwright.workshop.laying import LaidWork

CLOTH = "cloth"
TRIES = 4


class OrderCloth(BaseModel):
    """The cloth of an order as it was chosen, and the last lay on it."""

    wish: ClothWish
    lay: Lay | None = None
    pieces: str = ""
    """Tells whether the last lay is of the pieces as they are now."""


def order_of(shop: Shop, style: str, body: str) -> Document | None:
    """The newest order of a style for a body."""
    found = [
        order.document
        for line in orders.used_by(shop.book, style)
        if (order := orders.get(shop.book, line.entry.id)).body is not None
        and order.body.document_id == body
    ]
    return found[-1] if found else None


def cloth_of(shop: Shop, style: str, body: str) -> OrderCloth | None:
    """The cloth that an order keeps; None where none was chosen yet."""
    order = order_of(shop, style, body)
    try:
        raw = order.content["options"][CLOTH] if order else None
        return OrderCloth.model_validate(raw) if raw else None
    except (KeyError, TypeError, ValidationError):
        return None


def keep_cloth(shop: Shop, style: Document, body: Document, chosen: OrderCloth) -> None:
    """Let the order keep a cloth; where there is no order yet, as for a copy of a style, it is noted."""
    for _try in range(TRIES):
        order = order_of(shop, style.id, body.id)
        if order is None:
            order_for(shop, style, body)
            continue
        options = order.content.get("options") or {}
        content = {**order.content, "options": {**options, CLOTH: chosen.model_dump(mode="json")}}
        try:
            documents.save(shop.book, order.id, content, base=order.revision, group=CLOTH)
            return
        except ConflictError:  # another window chose meanwhile; the last one holds
            continue


def mark_of(pieces: tuple[LayPiece, ...]) -> str:
    """A mark that changes when a piece does."""
    return f"{crc32(repr(pieces).encode()):08x}"


def earlier_lay(
    kept: OrderCloth | None, wish: ClothWish, pieces: tuple[LayPiece, ...]
) -> Lay | None:
    """The last lay of an order where it is of this cloth and these pieces, looked through anew."""
    if kept is None or kept.lay is None or kept.wish != wish:
        return None
    if kept.pieces != mark_of(pieces):
        return None
    lay = kept.lay
    return None if faults(lay, pieces_for(pieces, lay.cloth), lay.cloth) else lay


def last_lay(shop: Shop, style: str, body: str, laid: LaidOut) -> LaidWork | None:
    """The lay that was found last for what is on the table, in this sitting or an earlier one."""
    if laid.trouble is not None:
        return None
    pieces = lay_pieces(laid.finished)
    found: ShownLay | None = shop.jobs.latest(style, body, "lay")
    if found is not None and mark_of(found.laid.pieces) == mark_of(pieces):
        return found.laid
    kept = cloth_of(shop, style, body)
    lay = earlier_lay(kept, kept.wish, pieces) if kept else None
    return LaidWork(laid.work, pieces, lay, need(lay)) if lay else None


def keep_lay(shop: Shop, style: str, body: str, found: ShownLay | None) -> None:
    """Let the order keep a lay, where it still wishes for just this one."""
    kept = cloth_of(shop, style, body)
    if found is None or kept is None or kept.lay == found.laid.lay:
        return
    if kept.wish == wish_of(found.wish):
        new = OrderCloth(wish=kept.wish, lay=found.laid.lay, pieces=mark_of(found.laid.pieces))
        keep_cloth(shop, *_table(shop, style, body), new)


def wish_of(wish: ClothWish) -> ClothWish:
    """What of a wish an order keeps."""
    return ClothWish.model_validate(wish.model_dump(include=set(ClothWish.model_fields)))


def _table(shop: Shop, style: str, body: str) -> tuple[Document, Document]:
    return shop.document(style, DocumentKind.STYLE), shop.document(body, DocumentKind.BODY)
