"""Home tiles: the pattern on A4, Letter or A3, with a first sheet that shows how they join.

The pieces are arranged for several numbers of columns and the arrangement with the fewest sheets
is kept; a sheet on which nothing would be printed is left out and crossed out on the plan.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf
from pathlib import Path

from cutwright.documents import write_bytes
from cutwright.drawing.inks import PRINT
from cutwright.drawing.primitives import Ink, Words
from cutwright.drawing.type import text_width
from cutwright.paper.arrange import COARSE, ArrangedShape, PaperSpread, arrange
from cutwright.paper.errors import PaperError
from cutwright.paper.furniture import SQUARE, scale_square
from cutwright.paper.grid import OVERLAP, PAPERS, Grid, Paper, Place, code
from cutwright.paper.joining import Joining
from cutwright.paper.pdf import Leaf, Plate, PlatePart, layer_plates, pdf_bytes
from cutwright.paper.pieces import PlacedPiece, Title
from cutwright.paper.plan import plan_parts
from cutwright.paper.sheet import refuse_nothing
from cutwright.paper.traces import Inked
from cutwright.words import _

EDGE = 0.3
"""Free room between the outermost sheets' edges and the pieces, cm."""

_MORE_COLUMNS = 6
_CODE = 0.7


@dataclass(frozen=True, slots=True)
class Tiling:
    """A spread, the windows over it, and the places that are printed."""

    spread: PaperSpread
    grid: Grid
    places: set[Place]


def write_tiles(
    pieces: Sequence[PlacedPiece], paper: str, path: Path, title: Title | None = None
) -> int:
    """Write the tiled PDF on "A4", "Letter" or "A3"; returns how many sheets it has, plan included."""
    leaves = tile_leaves(pieces, paper_called(paper), title or Title())
    write_bytes(path, pdf_bytes(leaves, PRINT, title or Title()))
    return len(leaves)


def paper_called(name: str) -> Paper:
    """The paper of a name, whatever its case."""
    for known, paper in PAPERS.items():
        if known.casefold() == name.strip().casefold():
            return paper
    raise PaperError(
        _("There is no home paper called “{name}”; there are {papers}.").format(
            name=name, papers=", ".join(PAPERS)
        )
    )


def tile_leaves(pieces: Sequence[PlacedPiece], paper: Paper, title: Title) -> list[Leaf]:
    """The plan and one page for each place that has ink, row by row."""
    refuse_nothing(pieces)
    return leaves_of(tiling(pieces, paper), paper, title)


def leaves_of(tiling: Tiling, paper: Paper, title: Title) -> list[Leaf]:
    """The pages of pieces that have been arranged."""
    spread, grid = tiling.spread, tiling.grid
    moved = spread.pieces()
    plates = layer_plates(moved, (0.0, 0.0, grid.columns * grid.wide, grid.rows * grid.high))
    inked = Inked(spread.points(), grid.columns * grid.wide, grid.rows * grid.high)
    square_place, square_at = _place_for_square(tiling, inked)
    inked.fill(grid.corner(square_place) + square_at, SQUARE)
    joining = Joining(grid, tiling.places, inked)
    at = complex(paper.margin, paper.margin)
    clip = (paper.margin, paper.margin, paper.margin + grid.wide, paper.margin + grid.high)
    plan = plan_parts(spread, moved, grid, tiling.places, paper, title)
    leaves = [Leaf(paper.width, paper.height, tuple(plan))]
    total = len(tiling.places) + 1
    for place in sorted(tiling.places):
        number = _("sheet {number} of {total}").format(number=len(leaves) + 1, total=total)
        footer = " · ".join(text for text in (code(place), number, title.line()) if text)
        parts = [PlatePart(plate, at - grid.corner(place), clip) for plate in plates]
        parts += joining.parts(place, at, footer, _code_words(tiling, place, inked))
        if square_place == place:
            parts.append(PlatePart(Plate("title", scale_square()), at + square_at))
        leaves.append(Leaf(paper.width, paper.height, tuple(parts)))
    return leaves


def tiling(pieces: Sequence[PlacedPiece], paper: Paper) -> Tiling:
    """Arrange the pieces so that few sheets are needed; of equals, the one that is nearest square."""
    shapes = [ArrangedShape.of(piece) for piece in pieces]
    least = Grid.over(max(s.width for s in shapes) + 2 * EDGE, 1.0, paper.wide, paper.high).columns
    more = _MORE_COLUMNS if len(shapes) > 1 else 1
    tried = range(least, least + more)
    looks = {columns: _arranged(shapes, columns, paper, thorough=False) for columns in tried}
    best = min(tried, key=lambda columns: _cost(_tiled(looks[columns], paper, every=COARSE)))
    again = (looks[best], _arranged(shapes, best, paper, thorough=True))
    return min((_tiled(spread, paper) for spread in again), key=_cost)


def _cost(tiling: Tiling) -> tuple[int, int, float]:
    grid = tiling.grid
    uneven = abs(grid.rows * grid.high - grid.columns * grid.wide)
    return len(tiling.places), grid.rows * grid.columns, uneven


def _arranged(
    shapes: Sequence[ArrangedShape], columns: int, paper: Paper, *, thorough: bool
) -> PaperSpread:
    width = columns * (paper.wide - OVERLAP) + OVERLAP - 2 * EDGE
    return arrange(shapes, width, limit=inf, thorough=thorough)[0].shifted(complex(EDGE, EDGE))


def _tiled(spread: PaperSpread, paper: Paper, *, every: int = 1) -> Tiling:
    wide = max(at.real + shape.width for shape, at in spread.placed) + EDGE
    grid = Grid.over(wide, spread.height + EDGE, paper.wide, paper.high)
    return Tiling(spread, grid, grid.inked(spread.points(every)))


def _place_for_square(tiling: Tiling, inked: Inked) -> tuple[Place, complex]:
    """A place with room for the scale square, and where on it; over the fewest lines if need be."""
    side = SQUARE + 0.6
    best: tuple[int, Place, complex] | None = None
    for place in sorted(tiling.places):
        at, met = inked.most_free(_cell(tiling.grid, place), side, side)
        if best is None or met < best[0]:
            best = (met, place, at - tiling.grid.corner(place) + complex(0.3, 0.3))
        if met == 0:
            break
    if best is None:
        raise PaperError(_("There is nothing to put on paper: no piece has a drawing."))
    return best[1], best[2]


def _cell(grid: Grid, place: Place) -> tuple[float, float, float, float]:
    """The part of a window that no neighbour covers, a little in from its edges."""
    left, top, _right, _bottom = grid.window(place)
    return left + 0.6, top + 0.6, left + grid.across - 0.6, top + grid.down - 0.6


def _code_words(tiling: Tiling, place: Place, inked: Inked) -> Words:
    """The name of a sheet, large, where it is in the way of least."""
    text = code(place)
    wide = text_width(text, _CODE, bold=True)
    at, _met = inked.most_free(_cell(tiling.grid, place), wide + 0.4, _CODE + 0.6)
    where = at - tiling.grid.corner(place) + complex(0.2, _CODE + 0.2)
    return Words(where, text, _CODE, ink=Ink.LEVEL, bold=True)
