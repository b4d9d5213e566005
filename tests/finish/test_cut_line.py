"""The cut line: exact areas, corners that lie right when folded, and what happens when they cannot."""

from __future__ import annotations

from dataclasses import replace
from math import pi

import pytest
import shapely

from cutwright.errors import GeometryError
from cutwright.finish.allowances import Allowances, Treatment, treatments
from cutwright.finish.cut_line import CutLine, cut_line
from cutwright.geometry.curve import Line
from cutwright.geometry.draw import circle_arc
from cutwright.geometry.move import Move
from cutwright.geometry.outline import area, bounds, flattened, polygon
from cutwright.geometry.path import path_length
from cutwright.pattern.edge import Edge, EdgeKind
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from tests.finish.pieces import (
    dress_front,
    line,
    rectangle,
    ring,
    skirt_back,
    skirt_front,
    strip,
)

TABLE = Allowances()
PIECES = [skirt_front(), skirt_back(), dress_front(), strip(), ring()]


def cut_of(piece: Piece, table: Allowances = TABLE) -> CutLine:
    found = treatments(Pattern((piece,)), table)
    return cut_line(piece, {label: t for (_name, label), t in found.items()}, table)


def all_at(piece: Piece, amount: float) -> CutLine:
    amounts = {
        e.label: Treatment(amount if e.kind is not EdgeKind.LEG else 0.0) for e in piece.edges
    }
    return cut_line(piece, amounts, TABLE)


def test_a_rectangle_with_mitres_has_its_exact_area() -> None:
    # closed form (w + 2a)(h + 2a): 330 x 430
    assert area(all_at(rectangle(300, 400), 15).outline) == pytest.approx(141_900, abs=1e-6)


def test_uneven_allowances_of_a_rectangle() -> None:
    amounts = {"top": 1.0, "right": 1.5, "bottom": 4.0, "left": 0.0}
    cut = cut_line(rectangle(30, 40), {name: Treatment(a) for name, a in amounts.items()}, TABLE)
    assert area(cut.outline) == pytest.approx(31.5 * 45)


@pytest.mark.parametrize("piece", PIECES, ids=lambda p: p.name)
def test_every_cut_line_is_closed_plain_and_holds_its_piece(piece: Piece) -> None:
    cut = cut_of(piece)
    outline = cut.outline
    for a, b in zip(outline, (*outline[1:], outline[0]), strict=True):
        assert abs(a.end - b.start) < 1e-9
    paper = polygon(outline)
    assert paper.is_valid
    assert paper.buffer(0.002).covers(polygon(piece.outline))
    assert not cut.rounded


@pytest.mark.parametrize("piece", PIECES, ids=lambda p: p.name)
def test_the_middle_of_each_edge_keeps_its_allowance(piece: Piece) -> None:
    cut = cut_of(piece)
    for edge in piece.edges:
        if edge.kind is EdgeKind.LEG:
            continue
        found = cut.edge(edge.label)
        middle = edge.curves[len(edge.curves) // 2].at(0.5)
        border = shapely.LineString([(p.real, p.imag) for p in flattened(found.curves)])
        gap = border.distance(shapely.Point(middle.real, middle.imag))
        assert gap == pytest.approx(found.allowance, abs=0.005)


def test_round_trip_against_shapely() -> None:
    # the same amount all round a piece without darts, taken off again by an independent buffer
    piece = ring()
    grown = polygon(all_at(piece, 1.5).outline, 1e-4)
    back = grown.buffer(-1.5, join_style="mitre", quad_segs=64)
    assert back.symmetric_difference(polygon(piece.outline, 1e-4)).area < 0.02


def test_a_hem_lies_flat_when_it_is_turned_up() -> None:
    """Fold the allowance of a straight hem up: it covers the paper it lies on, to the hair."""
    corners = [0j, 20 + 0j, 26 + 30j, -4 + 30j]  # flared on the right, and on the left
    names = [
        ("top", EdgeKind.WAIST),
        ("right", EdgeKind.SIDE),
        ("hem", EdgeKind.HEM),
        ("left", EdgeKind.SIDE),
    ]
    edges = tuple(
        Edge(n, line(corners[i], corners[(i + 1) % 4]), k) for i, (n, k) in enumerate(names)
    )
    piece = Piece("flared", edges, (10 + 5j, 10 + 25j))
    paper = polygon(cut_of(piece).outline, 1e-5)
    assert mismatch_of_hem(paper, 30.0) < 1e-6
    plain = cut_line(
        piece, {e.label: Treatment(3.5 if e.name == "hem" else 1.5) for e in edges}, TABLE
    )
    assert mismatch_of_hem(polygon(plain.outline, 1e-5), 30.0) > 0.5  # a mitre would stick out


def mismatch_of_hem(paper: shapely.Polygon, fold: float, depth: float = 3.5) -> float:
    """Area by which the turned-up allowance and the paper under it differ, cm2."""
    low = paper.intersection(shapely.box(-99, fold, 99, 99))
    turned = shapely.transform(low, lambda xy: xy * [1, -1] + [0, 2 * fold])
    under = paper.intersection(shapely.box(-99, fold - depth, 99, fold))
    return float(turned.symmetric_difference(under).area)


def test_the_fold_is_run_on_and_gets_nothing() -> None:
    cut = cut_of(skirt_front()).edge("centre front")
    assert cut.allowance == 0
    assert isinstance(cut.curves[0], Line)
    assert {p.real for c in cut.curves for p in c.controls} == {0.0}
    assert cut.curves[0].start.imag == pytest.approx(0.2 - 1.5)
    assert cut.curves[-1].end.imag == pytest.approx(63.5)


def test_a_seam_with_a_zip_has_more() -> None:
    cut = cut_of(skirt_back())
    assert bounds(cut.edge("centre back").curves)[0] == pytest.approx(-2.0)


def test_a_slanting_seam_ends_square_so_that_both_pieces_match() -> None:
    corners = [0j, 30 + 0j, 30 + 20j, 12 + 20j]
    kinds = [EdgeKind.ARMHOLE, EdgeKind.SIDE, EdgeKind.WAIST, EdgeKind.SEAM]
    edges = tuple(
        Edge(k.value, line(corners[i], corners[(i + 1) % 4]), k) for i, k in enumerate(kinds)
    )
    cut = cut_of(Piece("panel", edges, (15 + 5j, 15 + 15j)))
    seam = cut.edge("seam").curves
    way = edges[3].end - edges[3].start
    end = seam[-1]
    assert abs(((end.end - end.start) * way.conjugate()).real) < 1e-6


def test_a_hollow_sharper_than_its_allowance_still_gets_a_cut_line() -> None:
    notch_arc = circle_arc(10 + 0j, 10.8 + 0j, -pi)
    assert abs(notch_arc[-1].end - 9.2) < 1e-6
    top = (
        *line(0j, 9.2 + 0j),
        *[c.reversed() for c in reversed(notch_arc)],
        *line(10.8 + 0j, 20 + 0j),
    )
    hollow = tuple(c.moved(Move.mirror(0j, 1 + 0j)) for c in top)
    edges = (
        Edge("top", hollow, EdgeKind.SEAM),
        Edge("right", line(20 + 0j, 20 + 15j), EdgeKind.SEAM),
        Edge("bottom", line(20 + 15j, 15j), EdgeKind.SEAM),
        Edge("left", line(15j, 0j), EdgeKind.SEAM),
    )
    piece = Piece("hollow", edges, (5 + 3j, 5 + 12j))
    assert polygon(piece.outline).is_valid
    paper = polygon(cut_of(piece).outline)
    assert paper.is_valid
    assert paper.buffer(0.002).covers(polygon(piece.outline))


def test_an_edge_shorter_than_its_neighbours_allowance_falls_back_to_round_corners() -> None:
    corners = [0j, 10 + 0j, 10 + 5j, 10.4 + 5j, 10.4 + 0j, 20 + 0j, 20 + 20j, 20j]
    edges = tuple(
        Edge(f"edge {i}", line(corners[i], corners[(i + 1) % 8]), EdgeKind.SEAM) for i in range(8)
    )
    piece = Piece("slit", edges, (5 + 3j, 5 + 12j))
    cut = cut_of(piece)
    paper = polygon(cut.outline)
    assert paper.is_valid
    assert paper.buffer(0.002).covers(polygon(piece.outline))
    expected = polygon(piece.outline).buffer(1.5, quad_segs=32)
    assert cut.rounded
    assert paper.symmetric_difference(expected).area < 0.1


def test_a_crossed_stitch_line_is_refused_with_its_corner() -> None:
    corners = [0j, 20 + 0j, 0j + 20j, 20 + 20j]
    names = ["top", "cross", "bottom", "back"]
    edges = tuple(
        Edge(n, line(corners[i], corners[(i + 1) % 4]), EdgeKind.SEAM) for i, n in enumerate(names)
    )
    with pytest.raises(GeometryError, match=r'"twisted".*corner .* / '):
        cut_of(Piece("twisted", edges, (5 + 3j, 5 + 12j)))


def test_an_edges_own_wish_wins() -> None:
    piece = rectangle(30, 40)
    wished = replace(piece, edges=(replace(piece.edges[0], allowance=0.5), *piece.edges[1:]))
    cut = cut_of(wished)
    assert cut.edge("top").allowance == 0.5
    assert path_length(cut.edge("top").curves) == pytest.approx(33)
