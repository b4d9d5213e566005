"""The work sheet and the lesson of a work, written as PDF and as one HTML file."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

from cutwright.documents import write_bytes
from cutwright.lay.cloth import Cloth, is_example
from cutwright.numerals import day_words
from cutwright.wording.names import called
from cutwright.words import _
from cutwright.worksheet.html import html
from cutwright.worksheet.lesson import lesson_data
from cutwright.worksheet.pdf import pdf_bytes
from cutwright.worksheet.sheet import Sheet
from cutwright.worksheet.whole import SheetOptions, worksheet_data
from cutwright.workshop.laying import LaidWork, NotLaid, example_words
from cutwright.workshop.packet import Written
from cutwright.workshop.work import Work


def sheet_options(
    work: Work, laid: LaidWork | NotLaid | None = None, large: bool = False
) -> SheetOptions:
    """What a sheet is told beside the work: the date, the lay, the size of print."""
    made = work.finished.options.made
    day = day_words(made) if made else ""
    if laid is None:
        return SheetOptions(date=day, large=large)
    if isinstance(laid, NotLaid):
        picture = (" ".join(laid.captions()), laid.drawing())
        cloth = cloth_words(laid.cloth)
        return SheetOptions(date=day, large=large, cloth=cloth, lay_pictures=(picture,))
    picture = (" ".join((laid.buy(), *example_words(laid.lay.cloth))), laid.drawing())
    cloth = cloth_words(laid.lay.cloth)
    return SheetOptions(
        date=day,
        large=large,
        cloth=cloth,
        lays=(laid.lay,),
        lay_pictures=(picture,),
        lay_tables=(laid.table(),),
    )


def cloth_words(cloth: Cloth) -> str:
    """What a cloth is called; one that ships is only an example."""
    name = called(cloth.name)
    return _("{cloth} (an example)").format(cloth=name) if is_example(cloth) else name


def write_worksheet(
    work: Work, folder: Path, options: SheetOptions | None = None, paper: str = "a4"
) -> Iterator[Written]:
    """Write worksheet.pdf and worksheet.html, telling each as it is done.

    Parameters
    ----------
    options : what the sheet is told beside the work; None takes what the work itself says
    paper : "a4" or "letter"
    """
    sheet = worksheet_data(work, _named(work, options or sheet_options(work)))
    yield from _write(sheet, folder, "worksheet", paper, _("the work sheet: every step and figure"))


def write_lesson(
    work: Work, folder: Path, options: SheetOptions, paper: str = "a4"
) -> Iterator[Written]:
    """Write lesson.pdf and lesson.html, with blanks for the student's own figures."""
    sheet = lesson_data(work, _named(work, options))
    yield from _write(sheet, folder, "lesson", paper, _("the lesson: blanks, then the answers"))


def _named(work: Work, options: SheetOptions) -> SheetOptions:
    """The options with the names of what ships in the language in force."""
    style = options.style or called(work.style.name)
    return replace(options, style=style, who=options.who or called(work.body.name))


def _write(sheet: Sheet, folder: Path, stem: str, paper: str, what: str) -> Iterator[Written]:
    data, pages = pdf_bytes(sheet, paper)
    path = folder / f"{stem}.pdf"
    write_bytes(path, data)
    yield Written(path, what, pages)
    path = folder / f"{stem}.html"
    write_bytes(path, html(sheet).encode())
    yield Written(path, _("the same for a phone or a browser"))
