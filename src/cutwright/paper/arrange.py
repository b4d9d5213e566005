"""Pieces put on a sheet side by side: grain upright, none over another, few holes.

Each piece is felt from above and below in columns half a centimetre wide, so that a sleeve cap
nestles under a hem. A piece goes to the highest free place, leftmost first. Which piece goes next is
decided in a few ways (largest first, or the one that leaves the smallest hole) and the shortest
sheet is kept. What does not fit below the length limit goes on a further spread. The same pieces
always come out in the same places.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from math import ceil, inf, pi

import numpy as np
from numpy.lib.stride_tricks import as_strided, sliding_window_view
from numpy.typing import NDArray

from cutwright.drawing.primitives import Drawing, drawn_together
from cutwright.geometry.move import Move
from cutwright.paper.pieces import PlacedPiece
from cutwright.paper.traces import Points, ink_points

GAP = 0.6
"""Least clearance between two pieces, cm, sideways or up and down."""

STEP = 0.5
COARSE = 5
"""For feeling a piece every fifth of its points is enough: one in a quarter centimetre."""
_SAFE = STEP / 2
_GAP_COLUMNS = ceil(GAP / STEP) + 1
_TURN = Move.about(0j, pi / 2)

_Heights = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class ArrangedShape:
    """A piece as the arranging feels it: its points, its box, and its upper and lower rim.

    `move` takes the piece from its own frame to 0, 0 in the left upper corner of its box.
    """

    piece: PlacedPiece
    move: Move
    points: Points
    width: float
    height: float
    upper: _Heights
    lower: _Heights

    @staticmethod
    def of(piece: PlacedPiece) -> ArrangedShape:
        """Feel a piece with its grain upright."""
        return ArrangedShape._felt(piece, ink_points(piece.drawing), Move())

    def turned(self) -> ArrangedShape:
        """The piece turned by a quarter."""
        return ArrangedShape._felt(self.piece, self.points * _TURN.turn, self.move.then(_TURN))

    @staticmethod
    def _felt(piece: PlacedPiece, points: Points, move: Move) -> ArrangedShape:
        if len(points) == 0:
            points = np.zeros(1, dtype=np.complex128)
        corner = complex(points.real.min(), points.imag.min())
        points = points - corner
        upper, lower = _rims(points[::COARSE])
        wide, high = float(points.real.max()), float(points.imag.max())
        return ArrangedShape(piece, move.then(Move.by(-corner)), points, wide, high, upper, lower)

    @property
    def upright(self) -> bool:
        """Whether the grain stands upright."""
        return abs(self.move.turn - 1) < 1e-9


def _rims(points: Points) -> tuple[_Heights, _Heights]:
    """Highest and lowest ink in each column, widened by the gap to the right and downwards."""
    column = (points.real / STEP).astype(np.int64)
    count = int(column.max()) + 1
    upper, lower = np.full(count, inf), np.full(count, -inf)
    np.minimum.at(upper, column, points.imag)
    np.maximum.at(lower, column, points.imag)
    pads = np.full(_GAP_COLUMNS, inf)
    reach = _GAP_COLUMNS + 1
    upper = sliding_window_view(np.concatenate([pads, upper, pads]), reach).min(axis=1)
    lower = sliding_window_view(np.concatenate([-pads, lower, -pads]), reach).max(axis=1)
    return upper - _SAFE, lower + GAP + _SAFE


@dataclass(slots=True)
class _Open:
    """A spread that is being filled: how far down each column is taken."""

    sky: _Heights
    placed: list[tuple[ArrangedShape, complex]] = field(default_factory=list)

    def best(self, shape: ArrangedShape, width: float) -> complex:
        """The highest free place for a shape, leftmost of those."""
        places = int((width - shape.width) / STEP + 1e-9) + 1
        stride = self.sky.strides * 2
        taken = as_strided(self.sky, (places, len(shape.upper)), stride, writeable=False)
        tops = np.maximum((taken - shape.upper).max(axis=1), 0.0)
        where = int(tops.argmin())
        return complex(where * STEP, float(tops[where]))

    def hole(self, shape: ArrangedShape, at: complex) -> float:
        """How much free paper a shape would shut in above itself, cm2."""
        first = round(at.real / STEP)
        above = at.imag + shape.upper - self.sky[first : first + len(shape.upper)]
        return float(above[np.isfinite(above)].sum()) * STEP

    def put(self, shape: ArrangedShape, at: complex) -> None:
        """Take the place."""
        self.placed.append((shape, at))
        first = round(at.real / STEP)
        part = self.sky[first : first + len(shape.lower)]
        np.maximum(part, at.imag + shape.lower, out=part)


@dataclass(frozen=True, slots=True, eq=False)
class PaperSpread:
    """Pieces in their places on one stretch of paper; width and height in cm."""

    placed: tuple[tuple[ArrangedShape, complex], ...]
    width: float
    height: float

    def points(self, every: int = 1) -> list[Points]:
        """Where ink falls, a piece at a time; only every so many of the points if asked."""
        return [shape.points[::every] + at for shape, at in self.placed]

    def pieces(self) -> list[PlacedPiece]:
        """The pieces moved to their places."""
        return [shape.piece.moved(shape.move.then(Move.by(at))) for shape, at in self.placed]

    def drawing(self) -> Drawing:
        """All pieces as one drawing."""
        return drawn_together(piece.drawing for piece in self.pieces())

    def shifted(self, by: complex) -> PaperSpread:
        """The same spread with free room at its left and upper edge."""
        placed = tuple((shape, at + by) for shape, at in self.placed)
        return PaperSpread(placed, self.width + by.real, self.height + by.imag)


_ORDERS: tuple[Callable[[ArrangedShape], float], ...] = (
    lambda shape: -shape.height,
    lambda shape: -shape.height * shape.width,
    lambda shape: -shape.width,
)
_MORE = 48
_CHOICES = ((10.0, 1.0, 0.0), (20.0, 0.5, 20.0))
"""How much it counts, against 1 cm2 of hole, to lie 1 cm high up, to cover 1 cm2, to be 1 cm long."""


def arrange(
    shapes: Sequence[ArrangedShape],
    width: float,
    *,
    limit: float = inf,
    corner: ArrangedShape | None = None,
    thorough: bool = True,
) -> list[PaperSpread]:
    """Put shapes on spreads of a width, each no longer than a limit.

    Parameters
    ----------
    width, limit : of a spread, cm; a shape larger than that gets a spread of its own, as large as
        it needs
    corner : what stands in the left upper corner of every spread (the title)
    thorough : try every way; otherwise one, for a first look
    """
    fits = [s for s in shapes if s.width <= width + 1e-9 and s.height <= limit + 1e-9]
    large = [s for s in shapes if not (s.width <= width + 1e-9 and s.height <= limit + 1e-9)]
    orders, choices = (_ORDERS, _CHOICES) if thorough else (_ORDERS[:1], ())
    tried = [_fill(sorted(fits, key=order), width, limit, corner) for order in orders]
    tried += [_choose(fits, width, limit, corner, choice) for choice in choices]
    best = min(tried, key=_extent)
    if len(best) > 1:  # a page less is worth a longer look
        tried = [_fill(_mixed(fits, k), width, limit, corner) for k in range(_MORE)]
        best = min([best, *tried], key=_extent)
    return best + [_alone(shape, corner) for shape in large]


def _extent(spreads: Sequence[PaperSpread]) -> tuple[int, float]:
    return len(spreads), round(sum(spread.height for spread in spreads), 6)


def _mixed(shapes: Sequence[ArrangedShape], mix: int) -> list[ArrangedShape]:
    """The shapes from large to small, somewhat out of order; each number gives another order."""
    return [
        shape
        for _size, _index, shape in sorted(
            (-s.height * s.width * (0.1 + (i * i * 0.618034 + i * mix * 0.414214) % 1.0), i, s)
            for i, s in enumerate(shapes)
        )
    ]


def _fill(
    shapes: Sequence[ArrangedShape], width: float, limit: float, corner: ArrangedShape | None
) -> list[PaperSpread]:
    spreads: list[_Open] = []
    for shape in shapes:
        for spread in spreads:
            at = spread.best(shape, width)
            if at.imag + shape.height <= limit + 1e-9:
                spread.put(shape, at)
                break
        else:
            fresh = _fresh(width, corner)
            at = fresh.best(shape, width)
            if at.imag + shape.height > limit + 1e-9:  # only the title is in its way
                fresh = _fresh(width, None)
                at = fresh.best(shape, width)
            fresh.put(shape, at)
            spreads.append(fresh)
    return [_closed(spread, width) for spread in spreads]


def _choose(
    shapes: Sequence[ArrangedShape],
    width: float,
    limit: float,
    corner: ArrangedShape | None,
    weigh: tuple[float, float, float],
) -> list[PaperSpread]:
    """Fill spread after spread, each time with the shape that costs least."""
    high, cover, long = weigh
    left, spreads = list(shapes), []
    while left:
        spread, used = _fresh(width, corner), False
        while left:
            best: tuple[float, ArrangedShape, complex] | None = None
            for shape in left:
                at = spread.best(shape, width)
                if at.imag + shape.height > limit + 1e-9:
                    continue
                size = shape.width * shape.height
                cost = spread.hole(shape, at) + high * at.imag - cover * size - long * shape.height
                if best is None or cost < best[0]:
                    best = cost, shape, at
            if best is None:
                break
            spread.put(best[1], best[2])
            left.remove(best[1])
            used = True
        if used:
            spreads.append(_closed(spread, width))
        else:  # only the title is in the way of what is left
            return spreads + _fill(left, width, limit, corner)
    return spreads


def _fresh(width: float, corner: ArrangedShape | None) -> _Open:
    spread = _Open(np.zeros(ceil(width / STEP) + _GAP_COLUMNS + 3))
    if corner is not None:
        spread.put(corner, 0j)
    return spread


def _alone(shape: ArrangedShape, corner: ArrangedShape | None) -> PaperSpread:
    width = max(shape.width, corner.width if corner else 0.0)
    spread = _fresh(width, corner)
    spread.put(shape, spread.best(shape, width))
    return _closed(spread, width)


def _closed(spread: _Open, width: float) -> PaperSpread:
    height = max(at.imag + shape.height for shape, at in spread.placed)
    return PaperSpread(tuple(spread.placed), width, height)


def upright_or_turned(
    pieces: Sequence[PlacedPiece], width: float, limit: float
) -> list[ArrangedShape]:
    """Feel each piece with its grain upright, or turned by a quarter where only that fits."""
    shapes = []
    for piece in pieces:
        shape = ArrangedShape.of(piece)
        if shape.width > width or shape.height > limit:
            turned = shape.turned()
            if turned.width <= width and turned.height <= limit:
                shape = turned
        shapes.append(shape)
    return shapes
