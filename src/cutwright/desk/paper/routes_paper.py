"""The paper sheet: how the pattern falls on the sheets, and its files to print or take along."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Form
from fastapi.responses import HTMLResponse, Response
from pydantic import BaseModel, ConfigDict, Field

from cutwright.book.nouns import DocumentKind
from cutwright.desk.paper.packing import named, one_file, packet, papers
from cutwright.desk.paper.preview import Preview, preview
from cutwright.desk.web.head import head
from cutwright.desk.web.pages import page
from cutwright.desk.web.parameters import Ident, TheShop
from cutwright.desk.web.words_js import words_for_page
from cutwright.documents import json_text
from cutwright.wording.message_text import message_text
from cutwright.wording.names import called
from cutwright.words import N_, _

router = APIRouter()

PAPERS = {
    "a4": N_("A4, to be joined"),
    "letter": N_("Letter, to be joined"),
    "a3": N_("A3, to be joined"),
    "a0": N_("A0 sheets"),
    "sheet:90": N_("a roll 90 cm wide"),
    "sheet:60": N_("a roll 60 cm wide"),
    "projector": N_("a projector over the table"),
    "projector:dark": N_("a projector, light on dark"),
}
_TYPES = {".pdf": "application/pdf", ".svg": "image/svg+xml", ".dxf": "image/vnd.dxf"}
Short = Annotated[str, Form(max_length=120)]


@router.get("/table/{style}/{body}/paper", response_class=HTMLResponse)
def paper_sheet(shop: TheShop, style: Ident, body: Ident) -> HTMLResponse:
    """Choose a paper, see the sheets, take the files."""
    _table, laid, document, person = shop.laid(style, body)
    who = "" if person.entry.client_id else called(person.entry.title)
    return page(
        "paper.html",
        head=head(shop, document, person, "paper"),
        papers=[(key, _(words)) for key, words in PAPERS.items()],
        who=who,
        faults=[message_text(f.message) for f in laid.work.faults],
        trouble=message_text(laid.trouble) if laid.trouble else "",
        words=words_for_page(),
    )


class PreviewWish(BaseModel):
    """Which paper is to be shown."""

    model_config = ConfigDict(extra="forbid")
    paper: str = Field(max_length=20)


@router.post("/api/table/{style}/{body}/preview")
def show(shop: TheShop, style: Ident, body: Ident, wish: PreviewWish) -> Preview:
    """The sheets of a paper with the pieces on them."""
    _table, laid, _document, _person = shop.laid(style, body)
    return preview(papers(laid), wish.paper.strip().casefold())


@router.post("/table/{style}/{body}/packet")
def take(
    shop: TheShop,
    style: Ident,
    body: Ident,
    paper: Short = "a4",
    who: Short = "",
    what: Short = "packet",
    measures: Short = "",
) -> Response:
    """The whole packet ("packet") or one file of it, such as "a4", "svg" or "dxf"."""
    _table, laid, document, _person = shop.laid(style, body)
    laid = named(laid, " ".join(who.split()), document.revision)
    if what == "packet":
        card = json_text(shop.document(body, DocumentKind.BODY).content) if measures else ""
        return _file("cutwright-packet.zip", packet(laid, paper, card), "application/zip")
    name, content = one_file(laid, what)
    kind = _TYPES.get(name[name.rfind(".") :], "application/octet-stream")
    return _file(name, content, kind)


def _file(name: str, content: bytes, kind: str) -> Response:
    return Response(
        content, media_type=kind, headers={"content-disposition": f'attachment; filename="{name}"'}
    )
