"""Slashing a piece into strips and putting them together again turned or moved.

This one operation serves every turn of paper: closing a dart into flare, moving a dart, slash
and spread. A slash runs from one stretch of outline (the near one) to another (the far one);
where it leaves the near stretch through a dart, the dart's wedge is left out.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass, replace

from shapely import LineString

from cutwright.errors import StepError
from cutwright.geometry.curve import Line
from cutwright.geometry.move import STAY, Move
from cutwright.geometry.outline import contains
from cutwright.geometry.path import Path, polyline
from cutwright.geometry.point import Point, cross
from cutwright.messages import N_, Message
from cutwright.pattern.edge import Edge
from cutwright.pattern.loop import Edges, Spot, run_between, spot_point, weld
from cutwright.pattern.piece import Dart, Diamond, Level, Mark, Piece

_STRAIGHT = 0.005
"""What a level may be off when its points are thinned, cm."""


@dataclass(frozen=True, slots=True)
class Slash:
    """A cut through the paper from the near stretch of outline to the far one.

    `leave` and `enter` are the ends of the strips before and after it on the near stretch (the
    two ends of a dart's mouth, or one and the same spot); `far` lies on the far stretch.
    `hinge` is the point about which the paper turns (the pivot of the dart, or the near end).
    """

    leave: Spot
    enter: Spot
    far: Spot
    hinge: Point


@dataclass(frozen=True, slots=True)
class Strip:
    """What lies between two slashes: its stretch of the near and of the far outline."""

    near: Edges
    far: Edges
    ring: Path


def take_apart(piece: Piece, slashes: Sequence[Slash]) -> tuple[Strip, ...]:
    """The strips of a piece in the walking order of the near stretch.

    The first strip's `near` and the last strip's `far` hold the rest of the outline too: walking
    far[0], near[0] .. near[n], far[n] .. far[0] goes round the piece.

    Parameters
    ----------
    piece : the paper before
    slashes : in walking order of the near stretch, at least one

    Returns
    -------
    one strip more than slashes
    """
    strips: list[Strip] = []
    last = len(slashes)
    for k in range(last + 1):
        before = slashes[k - 1] if k else None
        after = slashes[k] if k < last else None
        far: Edges = ()
        if before is None and after is not None:
            near = run_between(piece.edges, after.far, after.leave)
            ring = _ring(near, [after.hinge, spot_point(piece, after.far)])
        elif before is not None and after is None:
            near = run_between(piece.edges, before.enter, before.far)
            ring = _ring(near, [spot_point(piece, before.far), before.hinge])
        elif before is not None and after is not None:
            near = run_between(piece.edges, before.enter, after.leave)
            far = run_between(piece.edges, after.far, before.far)
            ring = _ring(near, [after.hinge], far, [before.hinge])
        else:
            raise AssertionError("at least one slash is needed")
        strips.append(Strip(near, far, ring))
    return tuple(strips)


def _ring(*parts: Edges | list[Point]) -> Path:
    points_and_paths: list[Path] = []
    here: Point | None = None
    for part in parts:
        if isinstance(part, list):
            path: Path = polyline(part)
            start = part[0]
        else:
            path = tuple(c for e in part for c in e.curves)
            start = path[0].start if path else here or 0j
        if here is not None and abs(here - start) > 1e-12:
            points_and_paths.append((Line(here, start),))
        points_and_paths.append(path)
        here = path[-1].end if path else start
    whole = tuple(c for path in points_and_paths for c in path)
    return (*whole, Line(whole[-1].end, whole[0].start))


def put_together(
    piece: Piece,
    strips: Sequence[Strip],
    moves: Sequence[Move],
    near_between: Edges = (),
    far_between: Edges = (),
) -> Piece:
    """The piece with each strip moved; gaps on an edge are bridged by straight lines in that edge.

    Darts, marks and levels go with the strip they lie in. A dart whose legs were left out is gone.
    With one slash, `near_between` and `far_between` are edges (dart legs) set into its two gaps.

    Parameters
    ----------
    piece : the paper before
    strips : of the piece, in the order of `take_apart`
    moves : one for each strip
    near_between, far_between : edges, walked clockwise, that are set into the gap of one slash

    Returns
    -------
    the piece after; its grain goes with the strip that stays

    Raises
    ------
    StepError : a slash runs through a two-point dart whose parts would go apart
    """
    near = [tuple(e.moved(m) for e in s.near) for s, m in zip(strips, moves, strict=True)]
    far = [tuple(e.moved(m) for e in s.far) for s, m in zip(strips, moves, strict=True)]
    edges = weld([near[0], near_between, *near[1:], *reversed(far[1:-1]), far_between])
    labels = {edge.label for edge in edges}
    home = _Home(strips, moves)
    return replace(
        piece,
        edges=edges,
        darts=tuple(_dart(d, strips, moves) for d in piece.darts if f"{d.name}.1" in labels),
        diamonds=tuple(home.diamond(d) for d in piece.diamonds),
        marks=tuple(home.mark(m) for m in piece.marks),
        levels=tuple(home.level(level) for level in piece.levels),
        grain=home.grain(piece.grain),
    )


def _dart(dart: Dart, strips: Sequence[Strip], moves: Sequence[Move]) -> Dart:
    for strip, move in zip(strips, moves, strict=True):
        if any(e.label == f"{dart.name}.1" for e in (*strip.near, *strip.far)):
            return dart.moved(move)
    return dart


class _Home:
    """Finds the strip in which a thing on the paper lies."""

    def __init__(self, strips: Sequence[Strip], moves: Sequence[Move]) -> None:
        self.strips, self.moves = strips, moves

    def index(self, p: Point) -> int:
        for k, strip in enumerate(self.strips):
            if contains(strip.ring, p):
                return k
        return min(range(len(self.strips)), key=lambda k: self._gap(k, p))

    def _gap(self, k: int, p: Point) -> float:
        """How far a strip lies from a place, cm; in a dart's mouth both sides are equally far."""
        places = (c.at(t) for c in self.strips[k].ring for t in (0.0, 0.25, 0.5, 0.75))
        return round(min(abs(place - p) for place in places), 6)

    def move(self, p: Point) -> Move:
        return self.moves[self.index(p)]

    def diamond(self, diamond: Diamond) -> Diamond:
        corners = (diamond.top, diamond.bottom, diamond.near, diamond.far)
        middle = sum(corners) / 4
        inner = {self.index(middle + (p - middle) * 0.98) for p in corners}
        if len({self.moves[k] for k in inner}) > 1:
            raise StepError(
                Message(
                    "cut-would-run-through-close",
                    N_(
                        'The cut would run through the "{dart}". Close it, leave it unsewn or cut through it '
                        "first."
                    ),
                    dart=diamond.name,
                )
            )
        return diamond.moved(self.moves[min(inner)])

    def mark(self, mark: Mark) -> Mark:
        return mark.moved(self.move(mark.at if mark.to is None else (mark.at + mark.to) / 2))

    def level(self, level: Level) -> Level:
        out: list[Point] = []
        for a, b in zip(level.points, level.points[1:], strict=False):
            places = sorted({0.0, 1.0, *self._crossings(a, b)})
            for s, t in itertools.pairwise(places):
                move = self.move(a + (b - a) * (s + t) / 2)
                out += [move(a + (b - a) * s), move(a + (b - a) * t)]
        kept = [p for i, p in enumerate(out) if i == 0 or abs(p - out[i - 1]) > 1e-9]
        return replace(level, points=_without_straight(kept))

    def _crossings(self, a: Point, b: Point) -> list[float]:
        """Where a straight stretch crosses the cuts, as shares of it."""
        found: list[float] = []
        for curve in (c for strip in self.strips for c in strip.ring if isinstance(c, Line)):
            along, gap = curve.end - curve.start, curve.start - a
            size = cross(b - a, along)
            if abs(size) < 1e-12:
                continue
            share, t = cross(gap, along) / size, cross(gap, b - a) / size
            if -1e-6 <= t <= 1 + 1e-6 and 1e-6 < share < 1 - 1e-6:
                found.append(round(share, 9))
        return found

    def grain(self, grain: tuple[Point, Point]) -> tuple[Point, Point]:
        stay = next((k for k, move in enumerate(self.moves) if move == STAY), 0)
        move = self.moves[stay]
        return move(grain[0]), move(grain[1])


def _without_straight(points: Sequence[Point]) -> tuple[Point, ...]:
    """A level without the points that lie on it anyway, so that it stays short however often it is cut."""
    line = LineString([(p.real, p.imag) for p in points]).simplify(
        _STRAIGHT, preserve_topology=False
    )
    return tuple(complex(x, y) for x, y in line.coords)


def strip_moves(opens: Sequence[Move], fixed: int) -> tuple[Move, ...]:
    """The move of every strip when each slash is opened; strip `fixed` stays on the table.

    `opens[k]` moves the paper after slash k against the paper before it, in the uncut paper. Each
    strip makes its own move first and then all moves between it and the fixed one.

    Parameters
    ----------
    opens : for each slash the move of the paper after it
    fixed : index of the strip that stays

    Returns
    -------
    one move for each strip, one more than slashes
    """
    moves: list[Move] = [STAY] * (len(opens) + 1)
    for k in range(fixed, len(opens)):
        moves[k + 1] = opens[k].then(moves[k])
    for k in range(fixed - 1, -1, -1):
        moves[k] = opens[k].inverse().then(moves[k + 1])
    return tuple(moves)


def hinge_moves(slashes: Sequence[Slash], angles: Sequence[float], fixed: int) -> tuple[Move, ...]:
    """The move of every strip when each slash turns about its hinge.

    Parameters
    ----------
    slashes : in the order of the strips
    angles : one for each slash, radians, positive clockwise to the eye: how the paper after it
        turns against the paper before it
    fixed : index of the strip that stays

    Returns
    -------
    one move for each strip, one more than slashes
    """
    opens = [Move.about(s.hinge, angle) for s, angle in zip(slashes, angles, strict=True)]
    return strip_moves(opens, fixed)


def replace_edge(piece: Piece, label: str, edge: Edge) -> Piece:
    """The piece with one edge drawn anew.

    Parameters
    ----------
    piece : the paper before
    label : full label of one edge; where there is none nothing changes
    edge : what stands in its place

    Returns
    -------
    the piece after
    """
    return replace(piece, edges=tuple(edge if e.label == label else e for e in piece.edges))
