"""The sheet on paper: A4 or Letter, plain or large print, set with reportlab's platypus.

Lengths are cm until they reach a flowable, points there. The fonts are those of the package.
"""

from __future__ import annotations

from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING, Any

from cutwright.drawing.paper_sizes import PAPER_SIZES
from cutwright.drawing.type import FONTS, SANS
from cutwright.errors import StoreError
from cutwright.words import _
from cutwright.worksheet.fonts import styles
from cutwright.worksheet.sheet import Sheet

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

CM = 72 / 2.54
PAPERS = {name: (size.width, size.height) for name, size in PAPER_SIZES.items() if size.for_text}
"""Papers a sheet can be printed on: width and height in cm."""

PAGES_A_STEP = 1.5

MARGIN, TOP, FOOT = 1.8, 1.6, 1.7


def pdf(sheet: Sheet, path: Path, paper: str = "a4") -> int:
    """Write the sheet to a file and give the number of its pages."""
    data, pages = pdf_bytes(sheet, paper)
    try:
        path.write_bytes(data)
    except OSError as fault:
        raise StoreError(
            _('"{path}" cannot be written: {why}.').format(path=path, why=fault.strerror or fault)
        ) from None
    return pages


def pdf_bytes(sheet: Sheet, paper: str = "a4") -> tuple[bytes, int]:
    """The sheet as a PDF file and the number of its pages.

    A paper other than those in PAPERS is taken as A4. Where long words take a sheet of few steps over
    a page and a half a step, its type is set a little tighter.
    """
    register_fonts()
    size = PAPERS.get(paper, PAPERS["a4"])
    data, pages = _built(sheet, size, tight=False)
    steps = sum(section.level == 2 for section in sheet.sections)
    if sheet.kind == "sheet" and not sheet.large and steps and pages > PAGES_A_STEP * steps:
        return _built(sheet, size, tight=True)
    return data, pages


def _built(sheet: Sheet, size: tuple[float, float], tight: bool) -> tuple[bytes, int]:
    from reportlab.platypus import BaseDocTemplate, Frame, PageTemplate

    from cutwright.worksheet.flow import flowables

    width, height = size
    out = BytesIO()
    document = BaseDocTemplate(
        out,
        pagesize=(width * CM, height * CM),
        title=f"{sheet.title} · {sheet.subtitle}",
        author="Cutwright",
        lang=sheet.language,
        invariant=1,
        initialFontName=SANS[False],
        pageCompression=0,  # a page is small; packing it takes longer than drawing it
        displayDocTitle=1,
    )
    frame = Frame(
        MARGIN * CM,
        FOOT * CM,
        (width - 2 * MARGIN) * CM,
        (height - TOP - FOOT) * CM,
        leftPadding=0,
        rightPadding=0,
        topPadding=0,
        bottomPadding=0,
    )
    document.addPageTemplates([PageTemplate("page", [frame])])
    story = flowables(sheet, styles(sheet.large, tight), width - 2 * MARGIN)
    document.build(story, canvasmaker=_counting(sheet, width))
    return out.getvalue(), document.page


def register_fonts() -> None:
    """Make the shipped fonts known to reportlab, once."""
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    known = pdfmetrics.getRegisteredFontNames()
    for name in SANS.values():
        if name not in known:
            pdfmetrics.registerFont(TTFont(name, str(FONTS / f"{name}.ttf")))
    pdfmetrics.registerFontFamily(
        SANS[False], normal=SANS[False], bold=SANS[True], italic=SANS[False], boldItalic=SANS[True]
    )


def _counting(sheet: Sheet, width: float) -> Any:
    """A canvas that writes the foot of each page when it knows how many pages there are."""
    from reportlab.pdfgen.canvas import Canvas

    class Counting(Canvas):
        """Keeps its pages back until the last."""

        def __init__(self, *arguments: Any, **options: Any) -> None:
            super().__init__(*arguments, **options)
            self._kept: list[dict[str, Any]] = []

        def showPage(self) -> None:  # noqa: N802
            """Keep the page."""
            self._kept.append(dict(self.__dict__))
            self._startPage()  # type: ignore[attr-defined]

        def save(self) -> None:
            """Write every page with its foot."""
            for count, kept in enumerate(self._kept, start=1):
                self.__dict__.update(kept)
                _foot(self, sheet, width, count, len(self._kept))
                super().showPage()
            super().save()

    return Counting


def _foot(canvas: Canvas, sheet: Sheet, width: float, page: int, pages: int) -> None:
    canvas.setFont(SANS[False], 9 if sheet.large else 7.5)
    canvas.setFillGray(0.35)
    y = (FOOT - 0.9) * CM
    canvas.drawString(MARGIN * CM, y, sheet.foot)
    text = _("page {page} of {pages}").format(page=page, pages=pages)
    canvas.drawRightString((width - MARGIN) * CM, y, text)
