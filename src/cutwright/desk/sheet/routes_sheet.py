"""The work sheet of the open table and its lesson: to read, to fill in, to print and to take along."""

from __future__ import annotations

from dataclasses import replace
from typing import Annotated

from fastapi import APIRouter, Form, Query
from fastapi.responses import HTMLResponse, Response
from pydantic import BaseModel, ConfigDict, Field

from cutwright.desk.cloth.order_cloth import last_lay
from cutwright.desk.sheet.marks_shown import MarksShown, marks_shown
from cutwright.desk.sheet.sheet_css import framed, sheet_css
from cutwright.desk.sheet.sheets_made import Asked, file_of, lesson_parts, sheet_of
from cutwright.desk.shop import Shop
from cutwright.desk.web.head import head
from cutwright.desk.web.pages import page
from cutwright.desk.web.parameters import Ident, TheShop
from cutwright.desk.web.words_js import words_for_page
from cutwright.drawing.paper_sizes import PAPER_SIZES
from cutwright.numerals import Tape, measure_in
from cutwright.wording.message_text import message_text
from cutwright.wording.names import called
from cutwright.words import _
from cutwright.worksheet import html
from cutwright.worksheet.lesson_check import check_lesson

router = APIRouter()
PAPERS = {name: size.name for name, size in PAPER_SIZES.items() if size.for_text}
Short = Annotated[str, Form(max_length=120)]
Unit = Annotated[Tape, Query()]
Written = Annotated[str, Field(max_length=60)]


@router.get("/worksheet.css", include_in_schema=False)
def look() -> Response:
    """How a work sheet looks inside the page."""
    return Response(sheet_css(), media_type="text/css", headers={"cache-control": "no-cache"})


@router.get("/table/{style}/{body}/sheet", response_class=HTMLResponse)
def sheet(
    shop: TheShop, style: Ident, body: Ident, large: bool = False, unit: Unit = "cm"
) -> HTMLResponse:
    """The work sheet as the style stands now."""
    measure_in(unit)
    return _page(shop, style, body, False, large, unit)


@router.get("/table/{style}/{body}/lesson", response_class=HTMLResponse)
def lesson(shop: TheShop, style: Ident, body: Ident, large: bool = False) -> HTMLResponse:
    """The lesson, with fields to write the figures into."""
    return _page(shop, style, body, True, large, "cm")


def _page(
    shop: Shop, style: str, body: str, as_lesson: bool, large: bool, unit: Tape
) -> HTMLResponse:
    _table, laid, document, person = shop.laid(style, body)
    shown, answers = "", ""
    if laid.trouble is None:
        lay = last_lay(shop, style, body, laid)
        asked = Asked(called(person.entry.title), large, lay)
        made = sheet_of(laid, document, as_lesson, asked)
        if as_lesson:
            made, apart = lesson_parts(made)
            answers = framed(html.parts(apart))
        shown = framed(html.body(made, inputs=as_lesson))
    return page(
        "lesson.html" if as_lesson else "worksheet.html",
        head=head(shop, document, person, "sheet"),
        body_revision=person.revision,
        papers=[(key, _(words)) for key, words in PAPERS.items()],
        who="" if person.entry.client_id else called(person.entry.title),
        kind="lesson" if as_lesson else "sheet",
        large=large,
        unit=unit,
        shown=shown,
        answers=answers,
        trouble=message_text(laid.trouble) if laid.trouble else "",
        words=words_for_page(),
    )


@router.post("/table/{style}/{body}/sheet")
def take_sheet(
    shop: TheShop,
    style: Ident,
    body: Ident,
    what: Short = "pdf",
    paper: Short = "a4",
    who: Short = "",
    large: Short = "",
    unit: Annotated[Tape, Form()] = "cm",
) -> Response:
    """The work sheet as a file: "pdf" or "html"."""
    measure_in(unit)
    return _file(shop, style, body, False, what, paper, Asked(" ".join(who.split()), bool(large)))


@router.post("/table/{style}/{body}/lesson")
def take_lesson(
    shop: TheShop,
    style: Ident,
    body: Ident,
    what: Short = "pdf",
    paper: Short = "a4",
    who: Short = "",
    large: Short = "",
) -> Response:
    """The lesson as a file, with its answers on a page of their own."""
    return _file(shop, style, body, True, what, paper, Asked(" ".join(who.split()), bool(large)))


def _file(
    shop: Shop, style: str, body: str, as_lesson: bool, what: str, paper: str, asked: Asked
) -> Response:
    _table, laid, document, _person = shop.laid(style, body)
    asked = replace(asked, lay=last_lay(shop, style, body, laid))
    name, content, kind = file_of(sheet_of(laid, document, as_lesson, asked), what, paper)
    shown = {"content-disposition": f'attachment; filename="{name}"'}
    return Response(content, media_type=kind, headers=shown)


class Answers(BaseModel):
    """What a student wrote, by the key of each blank.

    `own`: the figures are the student's own. `style_revision`, `body_revision`: what the lesson
    was made from, so that a page that is behind can say so.
    """

    model_config = ConfigDict(extra="forbid")
    answers: dict[Written, Written] = Field(max_length=3000)
    own: bool = False
    style_revision: int = 0
    body_revision: int = 0


@router.post("/api/table/{style}/{body}/lesson")
def check(shop: TheShop, style: Ident, body: Ident, given: Answers) -> MarksShown:
    """Look through what was written; nothing of it is kept."""
    _table, laid, document, person = shop.laid(style, body)
    made = sheet_of(laid, document, True, Asked())
    stands = (document.revision, person.revision)
    changed = stands != (given.style_revision, given.body_revision)
    return marks_shown(check_lesson(made, given.answers, own=given.own), changed)
