"""The lines in which a level of the body is drawn: broken at darts, smooth over opened gaps."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from cutwright.geometry.curve import Line
from cutwright.geometry.draw import smooth_through
from cutwright.geometry.outline import flattened
from cutwright.geometry.path import Path, polyline
from cutwright.geometry.point import Point, angle_between, cross, unit
from cutwright.pattern.mark import MarkKind
from cutwright.pattern.piece import Level, Piece

BUST = "bust"
"""The level that turns with the darts about the bust point."""

_SHORT = 0.02
_FINE = 40
"""A run of more places than this is a curve already."""

Run = list[Point]


def drawn_levels(piece: Piece, level: Level) -> list[Path]:
    """The stretches of a level on cloth that stays when the darts are sewn, each drawn smooth.

    The bust level is one straight line through the bust point, or none: darts are moved about
    that point, and what was level before is not so after it.
    """
    if level.name == BUST:
        points = [m.at for m in piece.marks if m.kind is MarkKind.POINT and m.edge is None]
        if points:
            return _through(piece, points[0])
    runs: list[Run] = [list(level.points)]
    for dart in piece.darts:
        first, last = piece.mouth(dart)
        ring = (first, dart.pivot, last)
        runs = [part for run in runs for part in _outside(run, ring)]
    if level.name == BUST and len(runs) > 1:
        return []
    return [_smooth(run) for run in runs]


def _through(piece: Piece, place: Point) -> list[Path]:
    """A line across the grain through a place, from the centre to the first dart or the far edge."""
    along = unit(piece.grain[1] - piece.grain[0]) * 1j
    ring = [(p - place) * along.conjugate() for p in flattened(piece.outline, 0.05)]
    met = [
        (a + (b - a) * (a.imag / (a.imag - b.imag))).real
        for a, b in pairwise([*ring, ring[0]])
        if (a.imag < 0) != (b.imag < 0)
    ]
    before, after = [x for x in met if x < 0], [x for x in met if x >= 0]
    if not before or not after:
        return []
    return [(Line(place + along * max(before), place + along * min(after)),)]


def _outside(run: Run, ring: Sequence[Point]) -> Iterator[Run]:
    """The parts of a line of places that lie outside a triangle."""
    part: Run = [run[0]]
    for a, b in pairwise(run):
        low, high = _within(a, b, ring)
        if (high - low) * abs(b - a) < _SHORT:
            part.append(b)
            continue
        part.append(a + (b - a) * low)
        yield from _long(part)
        part = [a + (b - a) * high, b]
    yield from _long(part)


def _long(run: Run) -> Iterator[Run]:
    if sum(abs(b - a) for a, b in pairwise(run)) > _SHORT:
        yield [p for i, p in enumerate(run) if i == 0 or abs(p - run[i - 1]) > 1e-6]


def _within(a: Point, b: Point, ring: Sequence[Point]) -> tuple[float, float]:
    """The shares of the way from `a` to `b` at which a convex ring is entered and left."""
    turn = cross(ring[1] - ring[0], ring[2] - ring[1])
    low, high = 0.0, 1.0
    for p, q in zip(ring, (*ring[1:], ring[0]), strict=True):
        side = (q - p) if turn > 0 else (p - q)
        height, rise = cross(side, a - p), cross(side, b - a)
        if abs(rise) < 1e-12:
            if height < 0:
                return 0.0, 0.0
            continue
        share = -height / rise
        low, high = (max(low, share), high) if rise > 0 else (low, min(high, share))
    return (low, high) if high > low else (0.0, 0.0)


def _smooth(run: Run) -> Path:
    """A run as one flowing line: over a gap or a closed mouth it does not zigzag.

    It goes through the middles of the stretches in their own directions, those left out that turn
    the other way and back.
    """
    if len(run) < 4 or len(run) > _FINE:
        return polyline(run)
    rows = list(pairwise(run))
    while len(rows) > 2 and (odd := _zigzag(rows)) is not None:
        del rows[odd]
    points = [run[0], *((a + b) / 2 for a, b in rows), run[-1]]
    ways = [b - a for a, b in rows]
    return smooth_through(points, [ways[0], *ways, ways[-1]])


def _zigzag(rows: Sequence[tuple[Point, Point]]) -> int | None:
    """The shortest stretch that turns one way from the last and the other way to the next."""
    odd: list[int] = []
    for i in range(1, len(rows) - 1):
        before, here, after = (b - a for a, b in rows[i - 1 : i + 2])
        if angle_between(before, here) * angle_between(here, after) < -1e-9:
            odd.append(i)
    return min(odd, key=lambda i: abs(rows[i][1] - rows[i][0]), default=None)
