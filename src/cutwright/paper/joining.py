"""How sheets that belong together are joined: trim lines, dashed lines and crosses.

The right and the lower edge of a sheet repeat what its neighbours begin with. A neighbour loses
its left or upper margin and is laid up to the dashed line; then every cross is half on either.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import inf

from cutwright.drawing.primitives import Drawing, Ink, Item, Layer, Stroke, Words
from cutwright.drawing.type import text_width
from cutwright.geometry.curve import Curve, Line
from cutwright.geometry.point import Point
from cutwright.paper.furniture import line
from cutwright.paper.grid import Grid, Place, code
from cutwright.paper.pdf import Plate, PlatePart
from cutwright.paper.traces import Inked
from cutwright.words import _

ARM = 0.5
"""Length of each arm of a joining cross, cm."""

_SMALL = 0.18


class Joining:
    """The joining marks of all sheets of a grid; sheets with like neighbours share a plate."""

    def __init__(self, grid: Grid, printed: set[Place], inked: Inked) -> None:
        self._grid = grid
        self._inked = inked
        self._printed = printed
        self._box = (-1.0, -1.0, grid.wide + 1.0, grid.high + 1.0)
        self._lines: dict[Sides, Plate] = {}

    def parts(self, place: Place, at: Point, footer: str, *more: Words) -> list[PlatePart]:
        """What goes on one sheet, whose window has its left upper corner at `at` on the page."""
        sides = Sides.of(place, self._printed)
        if sides not in self._lines:
            lines = joining_lines(self._grid, sides)
            self._lines[sides] = Plate("joining", lines, box=self._box)
        names = Drawing(joining_names(self._grid, place, sides, footer, self._inked).items + more)
        return [
            PlatePart(self._lines[sides], at),
            PlatePart(Plate("joining", names, box=self._box), at),
        ]


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


def joining_names(grid: Grid, place: Place, sides: Sides, footer: str, inked: Inked) -> Drawing:
    """Which neighbour is laid where, and the line below the sheet."""
    row, column = place
    items: list[Item] = []
    if sides.right:
        items.append(_neighbour(grid, place, (row, column + 1), inked))
    if sides.below:
        items.append(_neighbour(grid, place, (row + 1, column), inked))
    foot = complex(grid.wide / 2, grid.high + 0.45)
    items.append(Words(foot, footer, _SMALL, ink=Ink.NOTE, anchor="middle"))
    return Drawing(tuple(items))


def _neighbour(grid: Grid, place: Place, other: Place, inked: Inked) -> Words:
    """The name of a neighbour in the strip it is laid over, between two crosses, clear of lines."""
    text = _("lay {sheet} up to the dashed line").format(sheet=code(other))
    size = _SMALL * 1.15
    long, strip = text_width(text, size) + 0.2, grid.overlap
    beside = other[0] == place[0]
    side = grid.down if beside else grid.across
    corner, best = grid.corner(place), (inf, 0j)
    for start, end in ((side / 2, side), (0.0, side / 2)):
        a, b = start + ARM + 0.2, end - ARM - 0.2
        if beside:
            box = (grid.across, a, grid.across + strip, b)
        else:
            box = (a, grid.down, b, grid.down + strip)
        shift = (corner.real, corner.imag) * 2
        wide, high = (strip, long) if beside else (long, strip)
        there = tuple(v + s for v, s in zip(box, shift, strict=True))
        at, met = inked.most_free((there[0], there[1], there[2], there[3]), wide, high)
        if met < best[0]:
            best = (met, at - corner)
    middle = strip / 2 + size / 2
    if beside:
        return _note(text, size, complex(grid.across + middle, best[1].imag + long), -1j)
    return _note(text, size, complex(best[1].real + 0.1, grid.down + middle), 1 + 0j)


def _note(text: str, size: float, at: Point, along: Point) -> Words:
    return Words(at, text, size, ink=Ink.NOTE, along=along)


def _trim(start: Point, along: Point, length: float, outward: Point) -> list[Item]:
    """A line along which the margin is cut off, said so in the margin."""
    at = start + along * length / 2 + outward
    text = _("cut off along this line")
    return [
        line(start, start + along * length, Ink.NOTE),
        Words(at, text, _SMALL, ink=Ink.NOTE, along=along, anchor="middle"),
    ]


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
