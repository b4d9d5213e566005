"""A dart's mouth, proved by folding the paper the way the dart is pressed."""

from __future__ import annotations

from cmath import phase, rect
from dataclasses import replace
from math import pi, radians

import pytest
import shapely
from shapely.affinity import affine_transform
from shapely.geometry.base import BaseGeometry

from cutwright.finish.allowances import Allowances, treatments
from cutwright.finish.cut_line import CutLine, cut_line
from cutwright.finish.dart_mouth import pressed_to_first
from cutwright.finish.finished import finish
from cutwright.geometry.move import Move
from cutwright.geometry.outline import polygon
from cutwright.geometry.point import Point, unit
from cutwright.pattern.edge import Edge, EdgeKind
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Dart, Piece
from tests.finish.pieces import dress_front, line, skirt_back, skirt_front


def cut_of(piece: Piece) -> CutLine:
    found = treatments(Pattern((piece,)), Allowances())
    return cut_line(piece, {label: t for (_n, label), t in found.items()}, Allowances())


def sector(tip: Point, a: Point, b: Point) -> shapely.Polygon:
    """The wedge of the plane between two rays from the tip."""
    ring = [tip, tip + unit(a) * 200, tip + unit(b) * 200]
    return shapely.Polygon([(p.real, p.imag) for p in ring])


def moved(shape: BaseGeometry, move: Move) -> BaseGeometry:
    """The shape after a rigid move."""
    zero, x, y = move(0j), move(1 + 0j) - move(0j), move(1j) - move(0j)
    return affine_transform(shape, [x.real, y.real, x.imag, y.imag, zero.real, zero.imag])


def folded_mismatch(piece: Piece, dart: Dart, paper: BaseGeometry) -> float:
    """Area by which the folded intake and the paper it lies on differ, cm2."""
    first, last = piece.mouth(dart)
    if not pressed_to_first(piece, dart, (first, last)):
        first, last = last, first
    tip = dart.tip
    opening = phase((last - tip) * (first - tip).conjugate())
    half = Move.about(tip, opening / 2)
    crease = half(first) - tip
    near = paper.intersection(sector(tip, first - tip, crease))
    far = paper.intersection(sector(tip, crease, last - tip))
    back = Move.about(tip, -opening / 2)(first) - tip
    under = paper.intersection(sector(tip, back, first - tip))
    one = moved(near, Move.mirror(tip, first))
    other = moved(far, Move.about(tip, -opening))
    return max(
        float(one.symmetric_difference(under).area), float(other.symmetric_difference(under).area)
    )


@pytest.mark.parametrize(
    "piece", [skirt_front(), skirt_back(), dress_front()], ids=lambda p: p.name
)
def test_the_folded_intake_ends_where_the_paper_under_it_ends(piece: Piece) -> None:
    dart = piece.darts[0]
    paper = polygon(cut_of(piece).outline, 1e-5)
    assert folded_mismatch(piece, dart, paper) < 1e-4


def test_a_straight_line_over_the_mouth_would_not() -> None:
    piece = dress_front()
    dart = piece.darts[0]
    paper = polygon(cut_of(piece).outline, 1e-5)
    a, b = piece.mouth(dart)
    out_a, out_b = a + unit(a - dart.tip) * 1.5, b + unit(b - dart.tip) * 1.5
    ring = [dart.tip, out_a, out_b]
    straight = shapely.Polygon([(p.real, p.imag) for p in ring])
    wedge = sector(dart.tip, a - dart.tip, b - dart.tip)
    assert folded_mismatch(piece, dart, paper.difference(wedge).union(straight)) > 0.3


def test_waist_and_shoulder_darts_are_pressed_towards_the_centre() -> None:
    front, back, bodice = skirt_front(), skirt_back(), dress_front()
    # the centre of a front lies after the mouth, that of a back before it
    assert not pressed_to_first(front, front.darts[0], front.mouth(front.darts[0]))
    assert pressed_to_first(back, back.darts[0], back.mouth(back.darts[0]))
    assert not pressed_to_first(bodice, bodice.darts[0], bodice.mouth(bodice.darts[0]))


def test_bust_darts_at_the_side_are_pressed_down() -> None:
    piece = dress_front()
    dart = piece.darts[0]
    quarter = Move.about(dart.tip, -1.5707963)
    turned = piece.moved(quarter)
    at_side = turned.darts[0]
    a, b = turned.mouth(at_side)
    assert abs(((a + b) / 2 - at_side.tip).real) > abs(((a + b) / 2 - at_side.tip).imag)
    assert pressed_to_first(turned, at_side, (a, b)) == (a.imag > b.imag)


def test_without_a_centre_line_a_dart_is_pressed_away_from_the_side() -> None:
    """A panel of a front has a side and no centre: its waist dart goes the other way."""
    for piece, first in ((skirt_front(), False), (skirt_back(), True)):
        bare = replace(
            piece,
            edges=tuple(
                replace(e, kind=EdgeKind.SEAM, name="panel") if e.name.startswith("centre") else e
                for e in piece.edges
            ),
        )
        assert pressed_to_first(bare, bare.darts[0], bare.mouth(bare.darts[0])) == first


def slanted(slant: float) -> Piece:
    """A side with a dart of 4 cm whose legs meet it at so many degrees from square."""
    tip, leg, turn = 0j, 16.0, radians(slant)
    a, b = tip + leg * rect(1.0, -0.125), tip + leg * rect(1.0, 0.125)
    up, down = rect(1.0, -0.125 - pi / 2 + turn), rect(1.0, 0.125 + pi / 2 + turn)
    top, low = a + up * 14, b + down * 14
    edges = (
        Edge("side", line(top, a), EdgeKind.SIDE, (1,)),
        Edge("bust dart", line(a, tip), EdgeKind.LEG, (1,)),
        Edge("bust dart", line(tip, b), EdgeKind.LEG, (2,)),
        Edge("side", line(b, low), EdgeKind.SIDE, (2,)),
        Edge("hem", line(low, -40 + 40j), EdgeKind.HEM),
        Edge("centre front", line(-40 + 40j, -40 - 40j), EdgeKind.FOLD),
        Edge("top", line(-40 - 40j, top), EdgeKind.SEAM),
    )
    dart = Dart("bust dart", tip, tip)
    return Piece("front", edges, (-20 - 10j, -20 + 10j), darts=(dart,))


def stands_out(piece: Piece) -> float:
    """How far the cut line reaches beyond the mouth of the first dart, cm."""
    over = cut_of(piece).edge(piece.darts[0].name).curves
    a, b = piece.mouth(piece.darts[0])
    return max(min(abs(c.at(t) - a), abs(c.at(t) - b)) for c in over for t in (0.0, 0.5, 1.0)
               if abs(c.at(t) - piece.darts[0].tip) > abs(a - piece.darts[0].tip))  # fmt: skip


@pytest.mark.parametrize(
    ("slant", "away"), [(0.0, False), (45.0, False), (-10.0, False), (-50.0, True), (-60.0, True)]
)
def test_a_fold_that_would_make_a_beak_is_cut_away_and_told(slant: float, away: bool) -> None:
    piece = slanted(slant)
    found = [f for f in finish(Pattern((piece,))).findings if f.code == "dart-cut-away"]
    assert bool(found) is away
    assert bool(cut_of(piece).trimmed) is away
    assert stands_out(piece) < 4.0
    if away:
        whole = replace(piece, darts=(replace(piece.darts[0], kept=0.0),))
        assert stands_out(whole) > stands_out(piece) + 0.2
        assert (found[0].where, found[0].level) == ("front: bust dart", "note")
        assert found[0].value is not None
        assert found[0].value > 2.0


@pytest.mark.parametrize("kept", [1.0, 1.5])
def test_what_is_left_beside_a_leg_ends_where_the_paper_under_it_ends(kept: float) -> None:
    piece = slanted(-30.0)
    piece = replace(piece, darts=(replace(piece.darts[0], kept=kept),))
    line_ = cut_of(piece)
    paper = polygon(line_.outline, 1e-5)
    first, last = piece.mouth(piece.darts[0])
    legs = [shapely.LineString([(0, 0), (p.real, p.imag)]) for p in (first, last)]
    wedge = sector(0j, first, last).intersection(paper)
    beside = shapely.union_all([leg.buffer(kept, cap_style="flat") for leg in legs])
    inside = wedge.intersection(shapely.Point(0, 0).buffer(14))
    assert inside.difference(beside.buffer(1e-3)).area < 0.6  # but for the corner at the point
    assert finish(Pattern((piece,))).findings == ()
