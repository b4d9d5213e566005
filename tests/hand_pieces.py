"""Pieces drawn by hand for the tests: dress and skirt halves with darts, sewn to each other.

Invented shapes of no particular size; the back lies with its centre at x = 0 and the side to the
right, the front with its side to the left, as every block does.
"""

from __future__ import annotations

from dataclasses import replace
from math import radians

from cutwright.body.body import Body
from cutwright.geometry.curve import Line
from cutwright.geometry.draw import corner_arc, hermite
from cutwright.geometry.move import Move
from cutwright.geometry.path import Path, end_direction, start_direction
from cutwright.geometry.point import Point, unit
from cutwright.pattern.edge import Edge, EdgeKind, Ref
from cutwright.pattern.mark import MarkKind
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Cut, Dart, Diamond, Level, Mark, Piece
from cutwright.pattern.role import Role
from cutwright.pattern.seam import seam

NOBODY = Body("nobody", ())


def square_arc(before: Path, after: Path, k: float = 0.5523) -> Path:
    """A curve from the end of one line to the start of another, square to both."""
    return (
        corner_arc(
            before[-1].end,
            end_direction(before) * 1j,
            after[0].start,
            start_direction(after) * -1j,
            k,
        ),
    )


def _side() -> Path:
    under, waist, hip = 23 + 21j, 20.5 + 40j, 24.5 + 60j
    return (
        hermite(under, unit(-0.12 + 1j), waist, 1j),
        hermite(waist, 1j, hip, unit(0.04 + 1j)),
        Line(hip, hip + unit(0.04 + 1j) * 40),
    )


def _mirrored(path: Path) -> Path:
    move = Move.mirror(0j, 1j)
    return tuple(c.moved(move).reversed() for c in reversed(path))


def _hem_end(side: Path) -> Point:
    return complex(0, side[-1].end.imag + 0.5)


def dress_back() -> Piece:
    """Half a back on the fold: shoulder dart, two-point waist dart."""
    neck, shoulder_end = 7 - 2j, 20 + 3j
    u = unit(shoulder_end - neck)
    m1, m2 = neck + u * 4.5, neck + u * 5.7
    tip = (m1 + m2) / 2 + u * 1j * 7
    side = _side()
    bottom = _hem_end(side)
    centre: Path = (Line(bottom, 0j),)
    one: Path = (Line(neck, m1),)
    two: Path = (Line(m2, shoulder_end),)
    return Piece(
        "back",
        (
            Edge("neckline", square_arc(centre, one), EdgeKind.NECKLINE),
            Edge("shoulder", one, EdgeKind.SHOULDER, (1,)),
            Edge("shoulder dart", (Line(m1, tip),), EdgeKind.LEG, (1,)),
            Edge("shoulder dart", (Line(tip, m2),), EdgeKind.LEG, (2,)),
            Edge("shoulder", two, EdgeKind.SHOULDER, (2,)),
            Edge("armhole", square_arc(two, side, 0.6), EdgeKind.ARMHOLE),
            Edge("side", side, EdgeKind.SIDE),
            Edge("hem", square_arc(side, centre, 0.62), EdgeKind.HEM),
            Edge("centre back", centre, EdgeKind.FOLD),
        ),
        (6 + 15j, 6 + 80j),
        Cut(1),
        darts=(Dart("shoulder dart", tip, tip),),
        diamonds=(Diamond("waist dart", 9 + 24j, 9 + 54j, 7.6 + 40j, 10.4 + 40j),),
        levels=_levels(1),
        role=Role.BACK,
    )


def _levels(way: int) -> tuple[Level, ...]:
    rows = (("bust", 23.0, 21.0), ("waist", 20.5, 40.0), ("hip", 24.5, 60.0))
    return tuple(Level(n, (complex(0, y), complex(way * x, y))) for n, x, y in rows)


def dress_front() -> Piece:
    """Half a front on the fold: bust dart at the shoulder, two-point waist dart."""
    neck, bust = -7.3 - 1j, -9.5 + 26j
    w = unit(-12.5 + 5.3j)
    whole = abs(13 + 5j) - 1.2
    turn = Move.about(bust, radians(-14))
    m1 = neck + w * 4.5
    m2, end = turn(m1), turn(neck + w * whole)
    tip = bust + unit((m1 + m2) / 2 - bust) * 2
    side = _mirrored(_side())
    top, bottom = 7.5j, _hem_end(_side())
    centre: Path = (Line(top, bottom),)
    one: Path = (Line(end, m2),)
    two: Path = (Line(m1, neck),)
    return Piece(
        "front",
        (
            Edge("shoulder", one, EdgeKind.SHOULDER, (1,)),
            Edge("bust dart", (Line(m2, tip),), EdgeKind.LEG, (1,)),
            Edge("bust dart", (Line(tip, m1),), EdgeKind.LEG, (2,)),
            Edge("shoulder", two, EdgeKind.SHOULDER, (2,)),
            Edge("neckline", square_arc(two, centre), EdgeKind.NECKLINE),
            Edge("centre front", centre, EdgeKind.FOLD),
            Edge("hem", square_arc(centre, side, 0.62), EdgeKind.HEM),
            Edge("side", side, EdgeKind.SIDE),
            Edge("armhole", square_arc(side, one, 0.6), EdgeKind.ARMHOLE),
        ),
        (-5 + 15j, -5 + 80j),
        Cut(1),
        darts=(Dart("bust dart", bust, tip),),
        diamonds=(Diamond("waist dart", -9.5 + 29j, -9.5 + 52j, -8.3 + 40j, -10.7 + 40j),),
        marks=(Mark(MarkKind.POINT, bust, "bust point"),),
        levels=_levels(-1),
        role=Role.FRONT,
    )


def dress() -> Pattern:
    """Front and back of a dress, sewn at shoulder and side."""
    return Pattern(
        (dress_front(), dress_back()),
        (
            seam(Ref("front", "shoulder"), Ref("back", "shoulder")),
            seam(Ref("front", "side"), Ref("back", "side")),
        ),
    )


def skirt_front() -> Piece:
    """Half a skirt front on the fold with one waist dart."""
    hip = -24 + 20j
    m1, m2, tip = -11.25 + 0.1j, -8.75 + 0.1j, -10 + 9.5j
    top = -20 - 0.8j
    side: Path = (
        Line(hip - 1.6 + 40j, hip),
        hermite(hip, unit(1.6 - 40j), top, unit(0.28 - 1j)),
    )
    centre: Path = (Line(0.6j, 60.6j),)
    one: Path = (hermite(top, end_direction(side) * 1j, m1, unit(1 + 0.08j)),)
    two: Path = (hermite(m2, unit(1 + 0.04j), 0.6j, 1 + 0j),)
    return Piece(
        "skirt front",
        (
            Edge("waist", one, EdgeKind.WAIST, (1,)),
            Edge("waist dart", (Line(m1, tip),), EdgeKind.LEG, (1,)),
            Edge("waist dart", (Line(tip, m2),), EdgeKind.LEG, (2,)),
            Edge("waist", two, EdgeKind.WAIST, (2,)),
            Edge("centre front", centre, EdgeKind.FOLD),
            Edge("hem", square_arc(centre, side, 0.62), EdgeKind.HEM),
            Edge("side", side, EdgeKind.SIDE),
        ),
        (-6 + 15j, -6 + 50j),
        Cut(1),
        darts=(Dart("waist dart", tip, tip),),
        levels=(Level("hip", (20j, hip)),),
        role=Role.FRONT,
    )


def skirt_back() -> Piece:
    """The skirt front turned over and named for the back."""
    turned = skirt_front().moved(Move.mirror(0j, 1j))
    edges = tuple(
        replace(e, name="centre back")
        if e.name == "centre front"
        else replace(e, part=(3 - e.part[0],))
        if e.name == "waist"
        else e
        for e in turned.edges
    )
    return replace(turned, name="skirt back", edges=edges, role=Role.BACK)


def skirt() -> Pattern:
    """Both halves of a skirt, sewn at the side."""
    return Pattern(
        (skirt_front(), skirt_back()),
        (seam(Ref("skirt front", "side"), Ref("skirt back", "side")),),
    )
