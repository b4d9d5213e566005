"""A side drawn anew over the hip, and the sewn edge above it kept as long as it was.

A side that was cut from a dress is hollow at the waist; below a waist seam, or turned outwards by
flare, that hollow would be a bend the style did not ask for.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import atan2, cos, radians, sin

from cutwright.errors import GeometryError, StepError
from cutwright.geometry.curve import Line
from cutwright.geometry.draw import corner_arc, hermite
from cutwright.geometry.path import Path, end_direction, path_length, reversed_path
from cutwright.geometry.point import Point, dot, unit
from cutwright.geometry.solve import root_within
from cutwright.messages import N_, Message
from cutwright.pattern.edge import Edge
from cutwright.pattern.piece import Level, Piece
from cutwright.pattern.shaping.redraw import (
    EdgePlace,
    cut_back,
    edge_place,
    kept_end,
    kept_start,
    redrawn,
)
from cutwright.pattern.shaping.truing import bow, one_way

_LEAVES = 1.75
"""How much more steeply than its chord a side leaves the waist, as in the skirt block."""
_SHARE = 0.6
_STEEPEST = radians(50)
_MOST_UP, _MOST_DOWN = 8.0, 4.0
_MOST_CENTRE = 2.0
_EXACT = 1e-4


@dataclass(frozen=True, slots=True)
class SideLine:
    """A side walked from its upper end down: its path, the way out of the paper, its sewn edge."""

    piece: Piece
    edge: Edge
    upwards: bool
    """Whether the outline walks it from the hem up."""
    top: str
    """The edge that meets it at its upper end."""
    foot: str
    """The edge that meets it at its lower end."""

    @property
    def down(self) -> Path:
        """The side from its upper end."""
        return reversed_path(self.edge.curves) if self.upwards else self.edge.curves

    @property
    def hollow(self) -> bool:
        """Whether it bends both ways."""
        return not one_way(self.down)


def side_of(piece: Piece, label: str) -> SideLine:
    """The side of a piece with what meets it above and below.

    Parameters
    ----------
    piece : the paper
    label : name of the side

    Returns
    -------
    the side, walked down

    Raises
    ------
    LookupFailed : the piece has no such edge
    StepError : a dart divides it
    """
    place = edge_place(piece, label)
    grain = piece.grain[1] - piece.grain[0]
    fall = dot(grain, place.edge.end - place.edge.start) * (1 if grain.imag > 0 else -1)
    upwards = fall < 0
    ends = (place.after, place.before) if upwards else (place.before, place.after)
    return SideLine(piece, place.edge, upwards, ends[0].name, ends[1].name)


def _lower(side: SideLine) -> tuple[Point, Point, Path]:
    """Where the straight of the side begins, its direction, and that straight."""
    path = side.down
    if isinstance(path[-1], Line):
        return path[-1].start, unit(path[-1].velocity(0.0)), path[-1:]
    return path[-1].end, end_direction(path), ()


def _bulge(side: SideLine) -> tuple[float, float, Point]:
    """How far the hip stands out beyond the upper end, how far below it lies, and the way out."""
    place, along, _below = _lower(side)
    out = along * (1j if side.upwards else -1j)
    chord = place - side.down[0].start
    return dot(out, chord), dot(along, chord), out


def bowed(side: SideLine, up: float = 0.0) -> Path:
    """The side as one bow to the hip, its upper end run up (outwards where the hip lies so).

    It leaves the waist 1.75 times as steeply as its chord, as the skirt block does (own method,
    docs/drafting.md, section 6).

    Parameters
    ----------
    side : the side as it was
    up : how far its upper end goes up, cm; down where negative

    Returns
    -------
    the side walked down: the bow and, where it ended straight, that line
    """
    place, along, below = _lower(side)
    bulge, tall, out = _bulge(side)
    start = side.down[0].start - _leaving(bulge, tall, along, out) * up
    bulge, tall = dot(out, place - start), dot(along, place - start)
    try:
        arc = corner_arc(start, _leaving(bulge, tall, along, out), place, along, _SHARE)
    except GeometryError:
        arc = hermite(start, place - start, place, along)
    return (arc, *below)


def _leaving(bulge: float, tall: float, along: Point, out: Point) -> Point:
    lean = max(-_STEEPEST, min(atan2(_LEAVES * bulge, tall), _STEEPEST))
    return along * cos(lean) + out * sin(lean)


@dataclass(frozen=True, slots=True)
class _Upper:
    """The sewn edge above a side: its place, and which of its neighbours is the side."""

    side: SideLine
    place: EdgePlace

    @property
    def centre(self) -> Edge:
        """The neighbour at the other end."""
        return self.place.before if self.side.upwards is False else self.place.after

    def drawn(self, up: float, drop: float, target: float | None = None) -> tuple[Path, Path, Path]:
        """Neighbour before, sewn edge, neighbour after, for a side run up and a centre dropped."""
        path = bowed(self.side, up)
        side = reversed_path(path) if self.side.upwards else path
        centre = cut_back(self.place, self.centre, drop)
        before, after = (side, centre) if self.side.upwards else (centre, side)
        place = self.place
        middle = bow(
            before[-1].end,
            kept_start(place, before),
            after[0].start,
            kept_end(place, after),
            target,
        )
        return before, middle, after

    def miss(self, up: float, drop: float) -> float:
        """How much longer than it was the sewn edge comes out, cm."""
        return path_length(self.drawn(up, drop)[1]) - self.place.edge.length


def sides_bowed(sides: Sequence[SideLine]) -> tuple[Piece, ...]:
    """The pieces with their sides as bows and the edges above as long as they were.

    All sides are run up alike, so that they go on walking against each other: as far as suits their
    sewn edges on the mean. What is left each centre takes by a little drop (at most 2 cm), or the
    fullness of the curve does. Own method.

    Parameters
    ----------
    sides : those that are sewn to each other, at least one

    Returns
    -------
    one piece for each side

    Raises
    ------
    StepError : no such curve keeps the length of the edge above, or a dart divides that edge
    """
    uppers = [_Upper(side, edge_place(side.piece, side.top)) for side in sides]
    ups = [_run_up(upper) for upper in uppers]
    up = sum(ups) / len(ups)
    return tuple(_bowed(upper, up) for upper in uppers)


def _run_up(upper: _Upper) -> float:
    found = root_within(lambda up: upper.miss(up, 0.0), -_MOST_DOWN, _MOST_UP, 1e-9)
    return 0.0 if found is None else found


def _bowed(upper: _Upper, up: float) -> Piece:
    target = upper.place.edge.length
    before, middle, after = upper.drawn(up, 0.0, target)
    if abs(path_length(middle) - target) > _EXACT:
        drop = root_within(lambda d: upper.miss(up, d), -_MOST_CENTRE, _MOST_CENTRE, 1e-9)
        if drop is None:
            raise StepError(
                Message(
                    "cannot-keep-cm-side-drawn",
                    N_(
                        'The "{edge}" of "{piece}" cannot keep its {length:.1f} cm with the side drawn as one '
                        "curve. Close its darts first, or leave this side as it is."
                    ),
                    edge=upper.side.top,
                    piece=upper.side.piece.name,
                    length=target,
                )
            )
        before, middle, after = upper.drawn(up, drop)
    piece = redrawn(upper.place, before, middle, after)
    return replace(piece, levels=tuple(x for x in piece.levels if not _is_edge(x, upper.place)))


def _is_edge(level: Level, place: EdgePlace) -> bool:
    """Whether a level was the edge itself, which is now redrawn and stands for it."""
    ends = place.edge.start, place.edge.end
    tips = level.points[0], level.points[-1]
    return all(min(abs(tip - end) for end in ends) < 0.5 for tip in tips)
