"""How sheets that belong together are joined: trim lines, dashed lines and crosses.

The right and the lower edge of a sheet repeat what its neighbours begin with. A neighbour loses
its left or upper margin and is laid up to the dashed line; then every cross is half on either.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from cutwright.drawing.primitives import Drawing, Ink, Item, Layer, Stroke, Words
from cutwright.geometry.curve import Curve, Line
from cutwright.geometry.point import Point
from cutwright.paper.furniture import line
from cutwright.paper.grid import Grid, Place, code
from cutwright.paper.pdf import Part, Plate
from cutwright.words import _

ARM = 0.5
"""Length of each arm of a joining cross, cm."""

_SMALL = 0.18


class Joining:
    """The joining marks of all sheets of a grid; sheets with like neighbours share a plate."""

    def __init__(self, grid: Grid, printed: set[Place]) -> None:
        self._grid = grid
        self._printed = printed
        self._box = (-1.0, -1.0, grid.wide + 1.0, grid.high + 1.0)
        self._lines: dict[Sides, Plate] = {}

    def parts(self, place: Place, at: Point, footer: str, *more: Words) -> list[Part]:
        """What goes on one sheet, whose window has its left upper corner at `at` on the page."""
        sides = Sides.of(place, self._printed)
        if sides not in self._lines:
            lines = joining_lines(self._grid, sides)
            self._lines[sides] = Plate("joining", lines, box=self._box)
        names = Drawing(joining_names(self._grid, place, sides, footer).items + more)
        return [Part(self._lines[sides], at), Part(Plate("joining", names, box=self._box), at)]


def crosses(places: Iterable[Point], wide: float, high: float) -> Stroke:
    """Joining crosses, with only the arms that lie on the sheet (from 0, 0 to wide, high)."""
    arms: list[Curve] = []
    for at in places:
        x, y = at.real, at.imag
        arms.append(Line(complex(max(x - ARM, 0.0), y), complex(min(x + ARM, wide), y)))
        arms.append(Line(complex(x, max(y - ARM, 0.0)), complex(x, min(y + ARM, high))))
    return Stroke(tuple(arms), Ink.MARK, Layer.TEXT)


@dataclass(frozen=True, slots=True)
class Sides:
    """On which sides of a sheet a neighbour is printed."""

    left: bool
    above: bool
    right: bool
    below: bool

    @staticmethod
    def of(place: Place, printed: set[Place]) -> Sides:
        """The sides of a sheet among those that are printed."""
        row, column = place
        return Sides(
            (row, column - 1) in printed,
            (row - 1, column) in printed,
            (row, column + 1) in printed,
            (row + 1, column) in printed,
        )


def joining_lines(grid: Grid, sides: Sides) -> Drawing:
    """Trim lines, lines to lay a neighbour against, and crosses of which each sheet shows half.

    Drawn in the frame of the sheet's window: 0, 0 is its left upper corner.
    """
    wide, high = grid.wide, grid.high
    trims: list[Item] = []
    if sides.left:
        trims += _trim(complex(0, high), -1j, high, complex(-0.2, 0))
    if sides.above:
        trims += _trim(0j, 1 + 0j, wide, complex(0, -0.2))
    dashed: list[Curve] = []
    if sides.right:
        dashed.append(Line(complex(grid.across, 0), complex(grid.across, high)))
    if sides.below:
        dashed.append(Line(complex(0, grid.down), complex(wide, grid.down)))
    lays = [Stroke(tuple(dashed), Ink.GONE, Layer.TEXT)] if dashed else []
    return Drawing((*lays, *trims, crosses(_crossings(grid, sides), wide, high)))


def joining_names(grid: Grid, place: Place, sides: Sides, footer: str) -> Drawing:
    """Which neighbour is laid where, and the line below the sheet."""
    row, column = place
    strip = grid.overlap / 2 + _SMALL / 2
    items: list[Item] = []
    if sides.right:
        at = complex(grid.across + strip, grid.down * 0.72)
        items.append(_neighbour((row, column + 1), at, -1j))
    if sides.below:
        at = complex(grid.across * 0.72, grid.down + strip)
        items.append(_neighbour((row + 1, column), at, 1 + 0j))
    foot = complex(grid.wide / 2, grid.high + 0.45)
    items.append(Words(foot, footer, _SMALL, ink=Ink.NOTE, anchor="middle"))
    return Drawing(tuple(items))


def _trim(start: Point, along: Point, length: float, outward: Point) -> list[Item]:
    """A line along which the margin is cut off, said so in the margin."""
    at = start + along * length / 2 + outward
    text = _("cut off along this line")
    return [
        line(start, start + along * length, Ink.NOTE),
        Words(at, text, _SMALL, ink=Ink.NOTE, along=along, anchor="middle"),
    ]


def _neighbour(place: Place, at: Point, reading: Point) -> Words:
    text = _("lay {sheet} up to the dashed line").format(sheet=code(place))
    return Words(at, text, _SMALL * 1.15, ink=Ink.NOTE, along=reading, anchor="middle")


def _crossings(grid: Grid, sides: Sides) -> list[Point]:
    x, y = grid.across, grid.down
    found: dict[Point, None] = {}
    for near, at in ((sides.left, 0.0), (sides.right, x)):
        if near:
            found |= dict.fromkeys(complex(at, down) for down in (0.0, y / 2, y))
    for near, at in ((sides.above, 0.0), (sides.below, y)):
        if near:
            found |= dict.fromkeys(complex(along, at) for along in (0.0, x / 2, x))
    return list(found)
