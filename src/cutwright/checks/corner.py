"""The corners of a piece as they are sewn: a dart on the way is folded before one looks on."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import pi

from cutwright.geometry.curve import Curve, Line
from cutwright.geometry.point import Point, angle_between, direction
from cutwright.memo import memoised
from cutwright.pattern.edge import Edge
from cutwright.pattern.mark import MarkKind
from cutwright.pattern.piece import Piece
from cutwright.pattern.sewing.rows import Stretch


def leaving(curve: Curve) -> Point:
    """The direction in which a curve leaves its start (any length)."""
    if isinstance(curve, Line):
        return curve.end - curve.start
    step = curve.first - curve.start
    return step if abs(step) > 1e-9 else curve.velocity(0.0)


def arriving(curve: Curve) -> Point:
    """The direction in which a curve arrives at its end (any length)."""
    if isinstance(curve, Line):
        return curve.end - curve.start
    step = curve.end - curve.second
    return step if abs(step) > 1e-9 else curve.velocity(1.0)


@dataclass(frozen=True, slots=True)
class Corner:
    """Where one edge ends and the next one begins, darts between them folded.

    `before` and `after` are the two edges in walking order of the outline; `turn` is the bend from
    one into the other in radians, positive clockwise to the eye; `darts` names what was folded.
    """

    before: Edge
    after: Edge
    turn: float
    at: Point
    darts: tuple[str, ...] = ()

    @property
    def inside(self) -> float:
        """The angle of the paper at this corner, radians."""
        return pi - self.turn

    def other(self, edge: Edge) -> Edge:
        """The edge that meets the given one here."""
        return self.after if edge is self.before else self.before


@dataclass(frozen=True, slots=True)
class Corners:
    """All corners of a piece, by the identity of the edge that ends or begins there."""

    _ending: dict[int, Corner]
    _beginning: dict[int, Corner]

    def ending(self, edge: Edge) -> Corner:
        """The corner at which an edge of the piece ends."""
        return self._ending[id(edge)]

    def beginning(self, edge: Edge) -> Corner:
        """The corner at which an edge of the piece begins."""
        return self._beginning[id(edge)]

    def all(self) -> Iterable[Corner]:
        """Every corner in the order of the outline."""
        return self._ending.values()


def _fold_turn(piece: Piece, legs: list[Edge]) -> float:
    """The turn that folds one dart shut, carrying what lies beyond it back (radians)."""
    name = legs[0].name
    tip = next((leg.end for leg in legs if leg.part[:1] == (1,)), legs[0].end)
    pivot = next((dart.pivot for dart in piece.darts if dart.name == name), tip)
    return angle_between(legs[-1].end - pivot, legs[0].start - pivot)


@memoised
def corners(piece: Piece) -> Corners:
    """Every corner of a piece with its darts folded; legs are passed over."""
    edges = piece.edges
    size = len(edges)
    sewn = [i for i in range(size) if not edges[i].taken_up]
    ending: dict[int, Corner] = {}
    beginning: dict[int, Corner] = {}
    for place, i in enumerate(sewn):
        j = sewn[(place + 1) % len(sewn)]
        turn, folded, k = 0.0, [], (i + 1) % size
        while k != j:
            name = edges[k].name
            legs = []
            while k != j and edges[k].name == name:
                legs.append(edges[k])
                k = (k + 1) % size
            turn += _fold_turn(piece, legs)
            folded.append(name)
        before, after = edges[i], edges[j]
        bend = angle_between(
            arriving(before.curves[-1]), leaving(after.curves[0]) * direction(turn)
        )
        corner = Corner(before, after, bend, before.end, tuple(folded))
        ending[id(before)] = corner
        beginning[id(after)] = corner
    return Corners(ending, beginning)


def entered_at(stretch: Stretch) -> Corner:
    """The corner at which a row enters an edge."""
    found = corners(stretch.piece)
    return found.ending(stretch.edge) if stretch.backwards else found.beginning(stretch.edge)


def left_at(stretch: Stretch) -> Corner:
    """The corner at which a row leaves an edge."""
    found = corners(stretch.piece)
    return found.beginning(stretch.edge) if stretch.backwards else found.ending(stretch.edge)


def wanted_point(piece: Piece, at: Point, edge: Edge) -> bool:
    """Whether a style asks for a corner here: a mark says so."""
    return any(
        mark.kind is MarkKind.CORNER
        and mark.edge is not None
        and edge.answers_to(mark.edge)
        and abs(mark.at - at) < 0.1
        for mark in piece.marks
    )
