"""Pieces drawn by hand for the tests of finishing: a skirt half, a bodice front, strips, rings."""

from __future__ import annotations

from math import atan2, pi

from cutwright.geometry.curve import Cubic, Line
from cutwright.geometry.draw import circle_arc, hermite
from cutwright.geometry.path import reversed_path
from cutwright.geometry.point import Point
from cutwright.pattern.edge import Edge, EdgeKind, Ref
from cutwright.pattern.mark import MarkKind
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Cut, Dart, Diamond, Level, Mark, Piece
from cutwright.pattern.role import Role
from cutwright.pattern.seam import SeamKind, seam


def line(a: Point, b: Point) -> tuple[Line, ...]:
    """One straight line."""
    return (Line(a, b),)


def curve(a: Point, out: Point, b: Point, into: Point) -> tuple[Cubic, ...]:
    """One gentle curve."""
    return (hermite(a, out, b, into),)


def rectangle(width: float, height: float, kind: EdgeKind = EdgeKind.SEAM) -> Piece:
    """A rectangle with edges top, right, bottom, left."""
    p = [0j, width + 0j, complex(width, height), complex(0, height)]
    names = ("top", "right", "bottom", "left")
    edges = tuple(Edge(n, line(p[i], p[(i + 1) % 4]), kind) for i, n in enumerate(names))
    middle = complex(width / 2, 0)
    return Piece("rectangle", edges, (middle + 0.25j * height, middle + 0.75j * height))


def skirt_front(name: str = "skirt front") -> Piece:
    """Half a front on the fold: centre at x = 0 on the right, side at negative x, one waist dart."""
    waist_side, hip, hem_side = -19.4 - 1.0j, -24 + 20j, -26 + 59.2j
    a, b, tip = -10.6 + 0.15j, -8.4 + 0.05j, -9.4 + 10.0j
    b = tip + (b - tip) * abs(a - tip) / abs(b - tip)
    edges = (
        Edge("waist", curve(waist_side, 1 + 0.22j, a, 1 + 0.1j), EdgeKind.WAIST, (1,)),
        Edge("waist dart", line(a, tip), EdgeKind.LEG, (1,)),
        Edge("waist dart", line(tip, b), EdgeKind.LEG, (2,)),
        Edge("waist", curve(b, 1 + 0.02j, 0j + 0.2j, 1 + 0j), EdgeKind.WAIST, (2,)),
        Edge("centre front", line(0.2j, 60j), EdgeKind.FOLD),
        Edge("hem", curve(60j, -1 + 0j, hem_side, -1 - 0.06j), EdgeKind.HEM),
        Edge(
            "side",
            (
                *line(hem_side, hip + (hem_side - hip) * 0.1),
                *curve(hip + (hem_side - hip) * 0.1, hip - hem_side, waist_side, 0.35 - 1j),
            ),
            EdgeKind.SIDE,
        ),
    )
    return Piece(
        name,
        edges,
        (-12 + 20j, -12 + 50j),
        darts=(Dart("waist dart", tip, tip),),
        levels=(Level("hip", (hip, 20j)),),
        role=Role.FRONT,
    )


def skirt_back() -> Piece:
    """Half a back, centre back a seam with a zip at x = 0, side at positive x; a pair."""
    waist_side, hip, hem_side = 18.2 - 1.0j, 23 + 20j, 25 + 59.2j
    a, b, tip = 8.0 + 0.1j, 10.6 + 0.25j, 9.3 + 13.0j
    b = tip + (b - tip) * abs(a - tip) / abs(b - tip)
    edges = (
        Edge("waist", curve(0.4j, 1 + 0j, a, 1 + 0j), EdgeKind.WAIST, (1,)),
        Edge("waist dart", line(a, tip), EdgeKind.LEG, (1,)),
        Edge("waist dart", line(tip, b), EdgeKind.LEG, (2,)),
        Edge("waist", curve(b, 1 - 0.08j, waist_side, 1 - 0.2j), EdgeKind.WAIST, (2,)),
        Edge(
            "side",
            (
                *curve(waist_side, 0.35 + 1j, hip + (hem_side - hip) * 0.1, hem_side - hip),
                *line(hip + (hem_side - hip) * 0.1, hem_side),
            ),
            EdgeKind.SIDE,
        ),
        Edge("hem", curve(hem_side, -1 + 0.06j, 60j, -1 + 0j), EdgeKind.HEM),
        Edge("centre back", line(60j, 0.4j), EdgeKind.CENTRE),
    )
    return Piece(
        "skirt back",
        edges,
        (12 + 20j, 12 + 50j),
        Cut(2, mirrored=True),
        darts=(Dart("waist dart", tip, tip),),
        marks=(Mark(MarkKind.ZIP_END, 18j, edge="centre back"),),
        levels=(Level("hip", (20j, hip)),),
        role=Role.BACK,
    )


def dress_front() -> Piece:
    """Half a dress front on the fold with a bust dart at the shoulder and a diamond at the waist."""
    neck_side, neck_front = -7.2 - 0j, 8j
    end, under, waist, hip = -19.0 + 4.6j, -23.5 + 21j, -21 + 38j, -24.5 + 58j
    pivot = -9.2 + 27j
    along = (end - neck_side) / abs(end - neck_side)
    a = neck_side + along * 4.5
    opening = 0.24
    b = pivot + (a - pivot) * complex(1, -opening) / abs(complex(1, -opening))
    way = (a + b) / 2 - pivot
    tip = pivot + way / abs(way) * 2
    lower = b + (end - a)
    edges = (
        Edge("shoulder", line(lower, b), EdgeKind.SHOULDER, (1,)),
        Edge("bust dart", line(b, tip), EdgeKind.LEG, (1,)),
        Edge("bust dart", line(tip, a), EdgeKind.LEG, (2,)),
        Edge("shoulder", line(a, neck_side), EdgeKind.SHOULDER, (2,)),
        Edge("neckline", (Cubic(neck_side, -7.2 + 4.4j, -4 + 8j, neck_front),), EdgeKind.NECKLINE),
        Edge("centre front", line(neck_front, 97j), EdgeKind.FOLD),
        Edge("hem", curve(97j, -1 + 0j, -27 + 96.4j, -1 - 0.05j), EdgeKind.HEM),
        Edge(
            "side",
            (
                *curve(-27 + 96.4j, 0.06 - 1j, hip, 0.03 - 1j),
                *curve(hip, 0.03 - 1j, waist, -1j),
                *curve(waist, -1j, under, -0.2 - 1j),
            ),
            EdgeKind.SIDE,
        ),
        Edge(
            "armhole",
            (Cubic(under, under + 5.4 - 0.3j, lower + 3.2 + 8j, lower),),
            EdgeKind.ARMHOLE,
        ),
    )
    return Piece(
        "front",
        edges,
        (-14 + 40j, -14 + 90j),
        darts=(Dart("bust dart", pivot, tip),),
        diamonds=(Diamond("waist dart", -9.5 + 30j, -9.5 + 50j, -8.2 + 39j, -10.8 + 39j),),
        marks=(Mark(MarkKind.POINT, pivot, "bust point"),),
        levels=(Level("waist", (waist, 39j)), Level("hip", (hip, 58j))),
        role=Role.FRONT,
    )


def strip(length: float = 90.0, depth: float = 22.0, copies: int = 2) -> Piece:
    """A straight flounce: the top is gathered, the bottom hemmed, the ends sewn to each other."""
    p = [0j, length + 0j, complex(length, depth), complex(0, depth)]
    edges = (
        Edge("top", line(p[0], p[1]), EdgeKind.GATHERED),
        Edge("right end", line(p[1], p[2]), EdgeKind.SEAM),
        Edge("hem", line(p[2], p[3]), EdgeKind.HEM),
        Edge("left end", line(p[3], p[0]), EdgeKind.SEAM),
    )
    return Piece(
        "flounce", edges, (complex(length / 2, depth * 0.2), complex(length / 2, depth * 0.8)), Cut(copies),
        role=Role.FLOUNCE,
    )  # fmt: skip


def ring(inner: float = 10.0, depth: float = 12.0, turn: float = pi) -> Piece:
    """Half a circular flounce."""
    start = complex(0, -inner)
    top = circle_arc(0j, start, turn)
    outer = circle_arc(0j, start / inner * (inner + depth), turn)
    edges = (
        Edge("hem", outer, EdgeKind.HEM),
        Edge("right end", line(outer[-1].end, top[-1].end), EdgeKind.SEAM),
        Edge("top", reversed_path(top), EdgeKind.SEAM),
        Edge("left end", line(top[0].start, outer[0].start), EdgeKind.SEAM),
    )
    return Piece("ring", edges, (complex(inner + 2, 0), complex(inner + depth - 2, 0)), Cut(2))


def skirt() -> Pattern:
    """The skirt halves sewn at the side and the centre back."""
    front, back = skirt_front(), skirt_back()
    back = Piece(
        back.name, back.edges, back.grain, back.cut, back.darts, marks=back.marks,
        levels=back.levels, role=back.role,
    )  # fmt: skip
    return Pattern(
        (front, back),
        (
            seam(Ref("skirt front", "side"), Ref("skirt back", "side")),
            seam(Ref("skirt back", "centre back"), Ref("skirt back", "centre back"), same_way=True),
        ),
    )


def flounced_skirt() -> Pattern:
    """The skirt with a gathered strip at its hem, cut twice."""
    whole = skirt()
    half = sum(whole.length(Ref(p.name, "hem")) for p in whole.pieces)
    flounce = strip(half * 1.7)
    return whole.with_pieces(flounce).with_seams(
        seam(
            Ref("flounce", "top"),
            (Ref("skirt back", "hem"), Ref("skirt front", "hem")),
            ratio=1.7,
            kind=SeamKind.GATHERED,
        ),
        seam(Ref("flounce", "right end"), Ref("flounce", "left end"), kind=SeamKind.PLAIN),
    )


def slant(a: Point, b: Point) -> float:
    """The angle of a line, radians."""
    return atan2((b - a).imag, (b - a).real)
