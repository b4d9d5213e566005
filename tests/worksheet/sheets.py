"""Every style of the gallery on every demo body, worked once for all tests."""

from __future__ import annotations

from functools import cache

from cutwright.worksheet.pdf import pdf_bytes
from cutwright.worksheet.sheet import Sheet
from cutwright.worksheet.whole import worksheet_data
from cutwright.workshop.gallery import load_body, load_style, shipped
from cutwright.workshop.work import Work, work

STYLES = tuple(shipped("styles"))
BODIES = tuple(shipped("bodies"))[:3]
EVERY = tuple((style, body) for style in STYLES for body in BODIES)


@cache
def worked(style: str, body: str) -> Work:
    """A style on a body; trouble is trouble for the test."""
    done = work(load_style(style), load_body(body))
    assert done.trouble is None, done.trouble
    return done


@cache
def sheet(style: str, body: str) -> Sheet:
    """Its work sheet in English."""
    return worksheet_data(worked(style, body))


@cache
def printed(style: str, body: str, paper: str = "a4") -> tuple[bytes, int]:
    """Its work sheet as a PDF file, with the number of pages."""
    return pdf_bytes(sheet(style, body), paper)
