"""Full-size sheets: a roll of any width, or A0 and A1, one piece beside another.

A roll sheet is as long as it needs to be and breaks between pieces before 5 m, because many
readers of the file stop there. A piece that no page can hold is shown through windows with
joining crosses, as on home tiles.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from cutwright.documents import write_bytes
from cutwright.drawing.inks import PRINT
from cutwright.drawing.paper_sizes import PAPER_SIZES
from cutwright.drawing.primitives import Drawing, Ink, Words
from cutwright.paper.arrange import ArrangedShape, PaperSpread, arrange, upright_or_turned
from cutwright.paper.errors import PaperError
from cutwright.paper.furniture import corner_block
from cutwright.paper.grid import OVERLAP, Grid, Place, code, count_along
from cutwright.paper.joining import Joining
from cutwright.paper.pdf import LONGEST, Leaf, Plate, PlatePart, layer_plates, pdf_bytes
from cutwright.paper.pieces import PlacedPiece, Title
from cutwright.paper.traces import Inked
from cutwright.words import _

MARGIN = 1.0
"""Free paper at each edge of a sheet, cm."""

NARROWEST, WIDEST = 25.0, LONGEST


@dataclass(frozen=True, slots=True)
class Size:
    """A page: its width, its greatest length, and whether it always has that length; cm."""

    width: float
    longest: float = LONGEST
    fixed: bool = False


LARGE = {
    name: Size(size.width, size.height, fixed=True)
    for name, size in PAPER_SIZES.items()
    if not size.joined
}
"""The papers of a copy shop, by their short names."""


def write_sheet(
    pieces: Sequence[PlacedPiece], size: Size | float, path: Path, title: Title | None = None
) -> int:
    """Write a full-size PDF on paper of a width (cm) or of a size; returns how many pages it has."""
    leaves = sheet_leaves(pieces, size if isinstance(size, Size) else Size(size), title or Title())
    write_bytes(path, pdf_bytes(leaves, PRINT, title or Title()))
    return len(leaves)


def sheet_leaves(
    pieces: Sequence[PlacedPiece], size: Size, title: Title, *, extra: Sequence[Plate] = ()
) -> list[Leaf]:
    """The pages of a full-size sheet; `extra` plates lie under the pieces on each of them."""
    refuse_nothing(pieces)
    if not NARROWEST <= size.width <= WIDEST:
        raise PaperError(
            _(
                "A sheet of {width:g} cm cannot be made: its width must lie between {least:g} and {most:g} cm."
            ).format(width=size.width, least=NARROWEST, most=WIDEST)
        )
    wide, high = size.width - 2 * MARGIN, size.longest - 2 * MARGIN
    block = corner_block(title, wide)
    corner = ArrangedShape.of(PlacedPiece("", block))
    shapes = upright_or_turned(pieces, wide, high)
    views = [_view(s, size, wide, high) for s in arrange(shapes, wide, limit=high, corner=corner)]
    return _pages(views, size, title, extra)


def refuse_nothing(pieces: Sequence[PlacedPiece]) -> None:
    """Nothing to draw is a slip that is told, not an empty sheet."""
    if not any(piece.drawing.items for piece in pieces):
        raise PaperError(_("There is nothing to put on paper: no piece has a drawing."))


@dataclass(frozen=True, slots=True)
class _View:
    """A spread, the windows through which it is seen, and what is seen."""

    spread: PaperSpread
    grid: Grid
    places: set[Place]
    plates: list[Plate]


def _view(spread: PaperSpread, size: Size, wide: float, high: float) -> _View:
    if not size.fixed:  # pages of equal length instead of a short last one
        rows = count_along(spread.height, high, OVERLAP)
        high = (spread.height + (rows - 1) * OVERLAP) / rows
    grid = Grid.over(spread.width, spread.height, wide, high)
    box = (-MARGIN, -MARGIN, spread.width + MARGIN, spread.height + MARGIN)
    pieces = spread.pieces()
    plates = layer_plates([p for p in pieces if p.name], box)
    plates += [Plate("title", p.drawing, box=box) for p in pieces if not p.name]
    return _View(spread, grid, grid.inked(spread.points()), plates)


def _pages(views: Sequence[_View], size: Size, title: Title, extra: Sequence[Plate]) -> list[Leaf]:
    total = sum(len(view.places) for view in views)
    leaves: list[Leaf] = []
    for view in views:
        inked = Inked(view.spread.points(), view.spread.width, view.spread.height)
        joining = Joining(view.grid, view.places, inked)
        for place in sorted(view.places):
            number = _("Sheet {number} of {total}").format(number=len(leaves) + 1, total=total)
            footer = " · ".join(text for text in (number, title.line()) if text)
            leaves.append(_page(view, joining, place, size, footer, extra))
    return leaves


def _page(
    view: _View, joining: Joining, place: Place, size: Size, footer: str, extra: Sequence[Plate]
) -> Leaf:
    grid, alone = view.grid, len(view.places) == 1
    height = size.longest if size.fixed else grid.high + 2 * MARGIN
    at = complex(MARGIN, MARGIN)
    clip = None if alone else (MARGIN, MARGIN, MARGIN + grid.wide, MARGIN + grid.high)
    parts = [PlatePart(plate, 0j, (0.0, 0.0, size.width, height)) for plate in extra]
    parts += [PlatePart(plate, at - grid.corner(place), clip) for plate in view.plates]
    if alone:
        foot = Words(complex(0.0, height - 2 * MARGIN + 0.55), footer, 0.2, ink=Ink.NOTE)
        parts.append(PlatePart(Plate("title", Drawing((foot,))), at))
    else:
        parts += joining.parts(place, at, f"{code(place)} · {footer}")
    return Leaf(size.width, height, tuple(parts))
