"""A file to throw on the cloth with a projector: thick lines, a grid to calibrate by, dark or light.

The first page is only for calibrating: a border, squares of 10 cm, diagonals and a circle, so that a
slanting or stretched picture is seen. The grid lies faintly under the pieces as well, on a layer of
its own.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from cutwright.documents import write_bytes
from cutwright.drawing.inks import PROJECTOR, PROJECTOR_DARK
from cutwright.drawing.primitives import Dot, Drawing, Ink, Item, Layer, Stroke, Words
from cutwright.geometry.curve import Curve, Line
from cutwright.paper.furniture import drawn_rectangle, line
from cutwright.paper.pdf import Leaf, Plate, PlatePart, pdf_bytes
from cutwright.paper.pieces import PlacedPiece, Title
from cutwright.paper.sheet import Size, sheet_leaves
from cutwright.words import _

SQUARE = 10.0
"""Side of the squares of the grid, cm."""

WIDTH = 120.0
"""Default width of the picture, cm."""

_DARK = "#101010"
_PAGE = 60.0


def write_projector(
    pieces: Sequence[PlacedPiece],
    path: Path,
    title: Title | None = None,
    *,
    width: float = WIDTH,
    dark: bool = False,
) -> int:
    """Write the projector PDF; returns how many pages it has, the calibration page included."""
    title = title or Title()
    grid = Plate("grid", ground_grid(width, 500.0), box=(0.0, 0.0, width, 500.0))
    leaves = [calibration(width), *sheet_leaves(pieces, Size(width), title, extra=[grid])]
    pens = PROJECTOR_DARK if dark else PROJECTOR
    write_bytes(path, pdf_bytes(leaves, pens, title, ground=_DARK if dark else None))
    return len(leaves)


def ground_grid(width: float, height: float, start: complex = 0j) -> Drawing:
    """Lines every 10 cm over an area."""
    lines: list[Curve] = []
    for k in range(int(width // SQUARE) + 1):
        x = start.real + k * SQUARE
        lines.append(Line(complex(x, start.imag), complex(x, start.imag + height)))
    for k in range(int(height // SQUARE) + 1):
        y = start.imag + k * SQUARE
        lines.append(Line(complex(start.real, y), complex(start.real + width, y)))
    return Drawing((Stroke(tuple(lines), Ink.FRAME, Layer.HELP),))


def calibration(width: float) -> Leaf:
    """The page to calibrate by: as wide as the picture, 60 cm high, whole squares only."""
    wide = (width - 2) // SQUARE * SQUARE
    high = (_PAGE - 12) // SQUARE * SQUARE
    start = complex((width - wide) / 2, 10.0)
    end = start + complex(wide, high)
    middle = (start + end) / 2
    items: list[Item] = [
        *ground_grid(wide, high, start).items,
        drawn_rectangle(start.real, start.imag, wide, high, Ink.CUT),
        line(start, end, Ink.STITCH),
        line(complex(start.real, end.imag), complex(end.real, start.imag), Ink.STITCH),
        Dot(middle, 20.0, Ink.MARK, Layer.HELP, fill=False),
        Words(complex(start.real, 3.5), _("Calibrate with this page"), 1.4, bold=True),
        Words(
            complex(start.real, 6.0),
            _(
                "Set the picture so that every square measures 10 cm on the table in both directions"
            ),
            0.8,
        ),
        Words(
            complex(start.real, 8.2),
            _(
                "and the whole frame measures {wide:g} × {high:g} cm; the circle must be round."
            ).format(wide=wide, high=high),
            0.8,
        ),
    ]
    return Leaf(width, _PAGE, (PlatePart(Plate("grid", Drawing(tuple(items)))),))
