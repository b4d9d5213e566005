"""How a pattern will lie on the paper: the pieces in their places, the edges of the sheets, the bare ones left out."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape

from pydantic import BaseModel

from cutwright.drawing.paper_sizes import PAPER_SIZES
from cutwright.drawing.primitives import Drawing, Ink, Words
from cutwright.drawing.svg import svg_items
from cutwright.drawing.type import whole_box
from cutwright.errors import CutwrightError
from cutwright.paper.arrange import arrange, upright_or_turned
from cutwright.paper.grid import code
from cutwright.paper.pieces import PlacedPiece
from cutwright.paper.tiles import paper_called, tiling
from cutwright.words import _, ngettext

LONGEST = 1000.0
_PROJECTED = 120.0
"""How wide a picture on the table or in a file is shown, cm."""
_SHOWN = {Ink.PAPER, Ink.CUT, Ink.FOLD, Ink.STITCH}


class Preview(BaseModel):
    """A picture of the paper and what it comes to in words."""

    svg: str
    words: str


def preview(pieces: Sequence[PlacedPiece], paper: str) -> Preview:
    """The picture for a paper by its short name; one on a wall is shown like a sheet."""
    if not pieces:
        return Preview(svg="", words=_("There is nothing to print yet."))
    if paper in PAPER_SIZES and PAPER_SIZES[paper].joined:
        return _tiles(pieces, paper)
    return _sheet(pieces, _width(paper), paper)


def _width(paper: str) -> float:
    if paper.startswith("sheet:"):
        try:
            width = float(paper.partition(":")[2])
        except ValueError:
            width = 0.0
        if not 10 <= width <= 400:
            raise CutwrightError(_("A sheet may be from 10 to 400 cm wide."))
        return width
    return PAPER_SIZES[paper].width if paper in PAPER_SIZES else _PROJECTED


def _tiles(pieces: Sequence[PlacedPiece], paper: str) -> Preview:
    found = tiling(pieces, paper_called(paper))
    grid, sheets = found.grid, []
    for row in range(grid.rows):
        for column in range(grid.columns):
            place = (row, column)
            left, top, right, bottom = grid.window(place)
            look = "page" if place in found.places else "page bare"
            name = escape(code(place)) if place in found.places else ""
            sheets.append(
                f'<rect class="{look}" x="{left:.2f}" y="{top:.2f}" width="{right - left:.2f}" '
                f'height="{bottom - top:.2f}"/><text x="{(left + right) / 2:.2f}" '
                f'y="{(top + bottom) / 2:.2f}" text-anchor="middle">{name}</text>'
            )
    count = len(found.places)
    words = ngettext(
        "{count} sheet of {paper}, and one with the plan.",
        "{count} sheets of {paper}, and one with the plan.",
        count,
    ).format(count=count, paper=paper_called(paper).name)
    drawing = Drawing(tuple(i for p in found.spread.pieces() for i in p.drawing.items))
    last = grid.window((grid.rows - 1, grid.columns - 1))
    return Preview(svg=_svg(drawing, sheets, (0.0, 0.0, last[2], last[3]), words), words=words)


def _sheet(pieces: Sequence[PlacedPiece], width: float, paper: str) -> Preview:
    spreads = arrange(upright_or_turned(pieces, width - 2, LONGEST), width - 2, limit=LONGEST)
    items, pages, top = [], [], 0.0
    for spread in spreads:
        moved = spread.shifted(complex(1, top + 1))
        items += [i for p in moved.pieces() for i in p.drawing.items]
        high = spread.height + 2
        pages.append(
            f'<rect class="page" x="0" y="{top:.2f}" width="{width:.2f}" height="{high:.2f}"/>'
        )
        top += high + 4
    words = _("{length:.0f} cm of paper {width:g} cm wide.").format(length=top - 4, width=width)
    if paper.startswith("projector"):
        words = _("As one picture for the projector, with a square to set it by.")
    drawing = Drawing(tuple(items))
    return Preview(svg=_svg(drawing, pages, (0.0, 0.0, width, top - 4), words), words=words)


def _svg(
    drawing: Drawing, pages: Sequence[str], box: tuple[float, float, float, float], words: str
) -> str:
    bare = Drawing(tuple(i for i in drawing.items if i.ink in _SHOWN and not isinstance(i, Words)))
    a, b, c, d = whole_box(bare)
    left, top = min(a, box[0]) - 1, min(b, box[1]) - 1
    right, bottom = max(c, box[2]) + 1, max(d, box[3]) + 1
    return (
        f'<svg class="drawing sheets-drawn" viewBox="{left:.2f} {top:.2f} {right - left:.2f} '
        f'{bottom - top:.2f}" role="img" aria-label="{escape(words)}">{svg_items(bare)}'
        + "".join(pages)
        + "</svg>"
    )
