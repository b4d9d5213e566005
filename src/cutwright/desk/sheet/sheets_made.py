"""The work sheet and the lesson of what lies on the table, for the page and to take along."""

from __future__ import annotations

from dataclasses import dataclass, replace

from cutwright.book.nouns import Document
from cutwright.desk.style.laid_out import LaidOut
from cutwright.errors import StoreError
from cutwright.wording.names import called
from cutwright.words import _
from cutwright.worksheet.html import html
from cutwright.worksheet.lesson import lesson_data
from cutwright.worksheet.pdf import pdf_bytes
from cutwright.worksheet.sheet import Section, Sheet
from cutwright.worksheet.whole import worksheet_data
from cutwright.workshop.laying import LaidWork
from cutwright.workshop.sheets import sheet_options

APART = ("answers", "notes")
"""Parts of a lesson that are not filled in on a screen."""


@dataclass(frozen=True, slots=True)
class Asked:
    """How a sheet is wished: for whom it is said to be, whether in large print, and with which lay."""

    who: str = ""
    large: bool = False
    lay: LaidWork | None = None


def sheet_of(laid: LaidOut, style: Document, lesson: bool, asked: Asked) -> Sheet:
    """The work sheet or the lesson of a table, dated today, in the language in force.

    Raises StoreError where the letter cannot be carried out to its end.
    """
    if laid.trouble is not None:
        raise StoreError(
            _("One step cannot be done, so there is no work sheet: {why}").format(why=laid.trouble)
        )
    options = replace(
        sheet_options(laid.work, asked.lay, asked.large),
        style=called(laid.work.style.name),
        who=asked.who or _("the wearer"),
        revision=str(style.revision),
    )
    made = lesson_data if lesson else worksheet_data
    return made(laid.work, options)


def lesson_parts(sheet: Sheet) -> tuple[Sheet, tuple[Section, ...]]:
    """A lesson as it is filled in on a screen, and its answers apart."""
    left = tuple(section for section in sheet.sections if section.key not in APART)
    return replace(sheet, sections=left), (sheet.section("answers"),)


def file_of(sheet: Sheet, what: str, paper: str) -> tuple[str, bytes, str]:
    """(name, content, type) of a sheet to take along: "pdf" or "html".

    The name of the file holds no name of a person.
    """
    stem = "lesson" if sheet.kind == "lesson" else "worksheet"
    if what == "html":
        return f"{stem}.html", html(sheet).encode(), "text/html; charset=utf-8"
    if what != "pdf":
        raise StoreError(_("A sheet is saved as PDF or as HTML."))
    return f"{stem}.pdf", pdf_bytes(sheet, paper)[0], "application/pdf"
