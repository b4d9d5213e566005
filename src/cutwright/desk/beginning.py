"""How a job begins: a body and a style laid on the table, and the order noted in the book."""

from __future__ import annotations

from dataclasses import dataclass

from cutwright.body.card import BodyCard, card_from
from cutwright.body.families import family_named
from cutwright.body.resolve import resolve
from cutwright.book import documents, orders
from cutwright.book.nouns import Document, DocumentKind, Used
from cutwright.desk.shop import Shop
from cutwright.desk.style.laid_out import GAP, lay_out, rows_for, table_places
from cutwright.drawing.primitives import Drawing, Ink, Words, drawn_together
from cutwright.drawing.svg import svg
from cutwright.errors import CutwrightError, StepError
from cutwright.geometry.move import Move
from cutwright.memo import memoised
from cutwright.style.document import Style, parse_style
from cutwright.style.registry import all_steps
from cutwright.wording.names import called
from cutwright.wording.sizes import size_asked
from cutwright.words import N_, _, current_language
from cutwright.workshop.gallery import load_body, load_card, load_style, shipped

DEMO_STYLE = "orchard-dress"
BLOCKS = {
    "draft_dress": N_("Dress block"),
    "draft_bodice": N_("Bodice block"),
    "draft_skirt": N_("Skirt block"),
    "draft_circle_skirt": N_("Circle skirt"),
    "draft_trousers": N_("Trouser block"),
}
_DRAWN = {Ink.PAPER, Ink.CUT, Ink.FOLD, Ink.STITCH, Ink.DART}


@dataclass(frozen=True, slots=True)
class Offered:
    """A style one can begin with: its word in the form, name, a line about it, a picture."""

    value: str
    name: str
    about: str
    picture: str


def gallery() -> list[Offered]:
    """The styles that ship, the demo first, with pictures."""
    names = sorted(shipped("styles"), key=lambda name: (name != DEMO_STYLE, name))
    out = []
    for name in names:
        try:
            style = load_style(name)
        except CutwrightError:
            continue
        words = called(style.name), called(style.about)
        out.append(
            Offered(
                f"gallery:{name}", *words, gallery_picture(name=name, language=current_language())
            )
        )
    return out


def blocks() -> list[Offered]:
    """The plain drafts one can begin with, with pictures."""
    known = all_steps()
    return [
        Offered(
            f"block:{tag}",
            _(name),
            _(known[tag].HELP),
            block_picture(tag=tag, language=current_language()),
        )
        for tag, name in BLOCKS.items()
        if tag in known
    ]


def block_style(tag: str) -> Style:
    """A style of one sentence: a plain draft."""
    if tag not in BLOCKS or tag not in all_steps():
        raise StepError(_("There is no block “{tag}”.").format(tag=tag[:60]))
    return parse_style({"format": 1, "name": _(BLOCKS[tag]), "about": "", "steps": [{"do": tag}]})


@memoised
def gallery_picture(*, name: str, language: str) -> str:
    """A style that ships as a picture of its pieces; empty where it cannot be drawn."""
    return picture(load_style(name))


@memoised
def block_picture(*, tag: str, language: str) -> str:
    """A block as a picture of its pieces."""
    return picture(block_style(tag))


def picture(style: Style) -> str:
    """The pieces of a style on a demo figure, small and without words."""
    laid = lay_out(style, load_body(family_named().pictured))
    if not laid.drawings:
        return ""
    bare = {
        name: Drawing(tuple(i for i in d.items if i.ink in _DRAWN and not isinstance(i, Words)))
        for name, d in laid.drawings.items()
    }
    spots, _size = table_places(bare, rows_for(bare, 1.5))
    moved = [d.moved(Move.by(complex(spots[n].x, spots[n].y))) for n, d in bare.items()]
    words = _("The pieces of {name}.").format(name=called(style.name))
    return svg(drawn_together(moved), title=words, margin=GAP / 2)


def style_wished(shop: Shop, wish: str) -> Document:
    """The style document that was chosen, entered in the book when it is not there yet."""
    kind, _colon, which = wish.partition(":")
    if kind == "book":
        return shop.document(which, DocumentKind.STYLE)
    if kind == "gallery" and which in shipped("styles"):
        return shop.add_style(load_style(which))
    if kind == "block":
        return shop.add_style(block_style(which))
    raise StepError(_("Choose a style to begin with."))


def body_wished(shop: Shop, wish: str) -> Document:
    """The body document that was chosen, entered in the book when it is not there yet."""
    kind, _colon, which = wish.partition(":")
    if kind == "book":
        return shop.document(which, DocumentKind.BODY)
    if kind == "gallery" and which in shipped("bodies"):
        return _known_card(shop, load_card(which))
    if kind == "size":
        return _known_card(shop, size_asked(which))
    raise StepError(_("Choose a body to draft for."))


def _known_card(shop: Shop, card: BodyCard) -> Document:
    """A card that ships is entered once; the same untouched one serves again."""
    for entry in documents.entries(shop.book, DocumentKind.BODY):
        if entry.title == card.name and entry.client_id is None:
            found = documents.get(shop.book, entry.id)
            if card_from(found.content) == card:
                return found
    return shop.add_card(card)


def order_for(shop: Shop, style: Document, body: Document) -> str:
    """Note an order in the book and give the address of its table."""
    resolve_first(body)
    name = _("{style} for {body}").format(
        style=called(style.entry.title), body=called(body.entry.title)
    )
    orders.place(
        shop.book,
        {"format": 1, "name": name[:200], "options": {}},
        body=Used(body.id, body.revision),
        style=Used(style.id, style.revision),
        client_id=body.entry.client_id,
    )
    return f"/table/{style.id}/{body.id}"


def resolve_first(body: Document) -> None:
    """Refuse a body that nothing can be drafted for, before anything is noted."""
    resolve(card_from(body.content))


def demo(shop: Shop) -> str:
    """The order that is ready made on a first visit; gives the address of its table."""
    named = DEMO_STYLE if DEMO_STYLE in shipped("styles") else next(iter(shipped("styles")), "")
    style = shop.add_style(load_style(named) if named else block_style("draft_dress"))
    return order_for(shop, style, body_wished(shop, f"gallery:{family_named().demo}"))
