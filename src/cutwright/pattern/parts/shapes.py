"""New pieces of paper: rectangles and parts of a ring."""

from __future__ import annotations

from math import pi

from cutwright.geometry.curve import Line
from cutwright.geometry.draw import circle_arc
from cutwright.geometry.move import Move
from cutwright.geometry.point import Point, direction
from cutwright.pattern.edge import Edge, EdgeKind
from cutwright.pattern.piece import Cut, Piece
from cutwright.pattern.role import Role

Names = tuple[str, str, str, str]
STRIP_NAMES: Names = ("top", "right end", "hem", "left end")
STRIP_KINDS = (EdgeKind.GATHERED, EdgeKind.SEAM, EdgeKind.HEM, EdgeKind.SEAM)


def rectangle(
    name: str,
    width: float,
    depth: float,
    cut: Cut,
    role: Role,
    names: Names = STRIP_NAMES,
    kinds: tuple[EdgeKind, EdgeKind, EdgeKind, EdgeKind] = STRIP_KINDS,
    lengthwise: bool = False,
) -> Piece:
    """A rectangle, top left at the origin; edges top, right, bottom, left, clockwise.

    The grain runs along the depth (strips lie across the cloth), or along the width if asked.

    Parameters
    ----------
    name : of the piece
    width, depth : cm
    cut : how it is cut
    role : what it is in the garment
    names, kinds : of the four edges, in their order
    lengthwise : whether the grain runs along the width

    Returns
    -------
    the piece, x to the right, y down
    """
    corners = [0j, complex(width, 0), complex(width, depth), complex(0, depth)]
    edges = tuple(
        Edge(names[i], (Line(corners[i], corners[(i + 1) % 4]),), kinds[i]) for i in range(4)
    )
    middle = complex(width / 2, depth / 2)
    reach = complex(width * 0.35, 0) if lengthwise else complex(0, depth * 0.35)
    return Piece(name, edges, (middle - reach, middle + reach), cut, role=role)


def ring_part(
    name: str,
    inner: float,
    depth: float,
    angle: float,
    cut: Cut,
    role: Role,
    names: Names = STRIP_NAMES,
) -> Piece:
    """A part of a ring, hanging down from its top.

    The inner arc is the top; the grain runs down the middle.

    Parameters
    ----------
    name : of the piece
    inner : radius of the inner arc, cm
    depth : from the inner arc to the outer, cm
    angle : of the part, radians; up to a whole turn
    cut : how it is cut
    role : what it is in the garment
    names : of the inner arc, the right end, the outer arc and the left end

    Returns
    -------
    the piece, the middle of its inner arc at the origin, y down
    """
    left, right = pi / 2 + angle / 2, pi / 2 - angle / 2

    def at(radius: float, where: float) -> Point:
        return direction(where) * radius

    outer = inner + depth
    edges = (
        Edge(names[0], circle_arc(0j, at(inner, left), -angle), STRIP_KINDS[0]),
        Edge(names[1], (Line(at(inner, right), at(outer, right)),), STRIP_KINDS[1]),
        Edge(names[2], circle_arc(0j, at(outer, right), angle), STRIP_KINDS[2]),
        Edge(names[3], (Line(at(outer, left), at(inner, left)),), STRIP_KINDS[3]),
    )
    low, high = complex(0, inner + depth * 0.15), complex(0, inner + depth * 0.85)
    piece = Piece(name, edges, (low, high), cut, role=role)
    return piece.moved(Move.by(-at(inner, pi / 2)))
