"""What must be true of every drafted block, asked of the paper alone."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from math import degrees, pi

from cutwright.geometry.curve import Cubic, curvature
from cutwright.geometry.outline import polygon
from cutwright.geometry.path import end_direction, start_direction
from cutwright.geometry.point import angle_between
from cutwright.pattern.edge import Edge, EdgeKind
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece

ROUND = {EdgeKind.ARMHOLE, EdgeKind.NECKLINE, EdgeKind.WAIST, EdgeKind.HEM}
"""Edges on which no stretch may bend both ways."""


def corners(piece: Piece) -> dict[frozenset[str], float]:
    """The inner angle in degrees where two edges meet, by their names (dart legs left out)."""
    found: dict[frozenset[str], float] = {}
    for before, after in zip(piece.edges, (*piece.edges[1:], piece.edges[0]), strict=True):
        if EdgeKind.LEG in (before.kind, after.kind):
            continue
        turn = angle_between(end_direction(before.curves), start_direction(after.curves))
        found[frozenset((before.name, after.name))] = degrees(pi - turn)
    return found


def sums(pattern: Pattern, back: str, front: str) -> dict[str, float]:
    """Back corner plus front corner at the end of every seam between the two, in degrees."""
    behind, before = corners(pattern.piece(back)), corners(pattern.piece(front))
    return {
        " / ".join(sorted(pair)): angle + before[pair]
        for pair, angle in behind.items()
        if pair in before
    }


def centre_angles(piece: Piece) -> dict[str, float]:
    """The inner angle of each edge that meets the centre."""
    return {
        " / ".join(sorted(pair)): angle
        for pair, angle in corners(piece).items()
        if any(name.startswith("centre") for name in pair)
    }


def leg_angles(piece: Piece) -> Iterator[float]:
    """The angle between a waist edge and each dart leg that meets it, in degrees."""
    for before, after in zip(piece.edges, (*piece.edges[1:], piece.edges[0]), strict=True):
        if {before.kind, after.kind} == {EdgeKind.LEG, EdgeKind.WAIST}:
            turn = angle_between(end_direction(before.curves), start_direction(after.curves))
            yield degrees(pi - turn)


def bends(edge: Edge) -> int:
    """How often the edge changes the way it bends (straight stretches do not count)."""
    signs: list[int] = []
    for curve in edge.curves:
        if not isinstance(curve, Cubic):
            continue
        for step in range(1, 40):
            bend = curvature(curve, step / 40)
            if abs(bend) > 1e-6:
                signs.append(1 if bend > 0 else -1)
    return sum(a != b for a, b in pairwise(signs))


def gaps(piece: Piece) -> float:
    """Largest gap between the end of one edge and the start of the next, cm."""
    curves = piece.outline
    return max(abs(a.end - b.start) for a, b in zip(curves, (*curves[1:], curves[0]), strict=True))


def valid(piece: Piece) -> bool:
    """Whether the outline is a simple polygon that runs the right way round."""
    return piece.area > 0 and bool(polygon(piece.outline).is_valid)
