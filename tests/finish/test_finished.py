"""The finished pattern: what is kept for the next time, what is said about how a piece is cut."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from math import pi
from types import SimpleNamespace
from typing import Any

import pytest
from shapely import LineString

from cutwright.errors import LookupFailed
from cutwright.finish.finished import finish
from cutwright.finish.grain import dart_lines, grain_line
from cutwright.finish.label import allowance_included, how_cut
from cutwright.finish.options import FinishOptions
from cutwright.geometry.draw import circle_arc
from cutwright.geometry.move import Move
from cutwright.geometry.outline import flattened, polygon
from cutwright.geometry.path import reversed_path
from cutwright.geometry.point import angle_between
from cutwright.pattern.edge import Edge, EdgeKind
from cutwright.pattern.parts import shapes
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Cut, Diamond, Material, Piece, in_interfacing
from cutwright.pattern.role import Role
from cutwright.wording.labels import label_words
from tests.finish.pieces import (
    dress_front,
    flounced_skirt,
    line,
    rectangle,
    skirt_back,
    skirt_front,
)

DAY = date(2026, 5, 12)
OPTIONS = FinishOptions(garment="Wren dress", cloths=(("main", "navy wool"),))


def test_an_unchanged_piece_is_the_same_object_again() -> None:
    pattern = flounced_skirt()
    before = finish(pattern, OPTIONS)
    flounce = pattern.piece("flounce")
    cut = replace(flounce, cut=Cut(2, material=Material.LINING))
    after = finish(pattern.with_pieces(cut), OPTIONS)
    assert after.piece("skirt front") is before.piece("skirt front")
    assert after.piece("flounce") is not before.piece("flounce")


def test_finishing_changes_nothing_of_the_pattern_but_its_marks() -> None:
    pattern = flounced_skirt()
    done = finish(pattern, OPTIONS)
    for before, after in zip(pattern.pieces, done.pattern.pieces, strict=True):
        assert replace(after, marks=before.marks) == before


@pytest.mark.parametrize(
    ("piece", "text"),
    [
        (skirt_front(), "Cut 1 on the fold in navy wool"),
        (skirt_back(), "Cut 1 pair in navy wool"),
        (replace(skirt_back(), cut=Cut(4, mirrored=True)), "Cut 2 pairs in navy wool"),
        (replace(rectangle(9, 9), cut=Cut(3)), "Cut 3 in navy wool"),
        (replace(rectangle(9, 9), cut=Cut(2, material=Material.LINING)), "Cut 2 in lining"),
    ],
)
def test_how_a_piece_is_cut(piece: Piece, text: str) -> None:
    assert str(how_cut(piece, OPTIONS)) == text
    stiff = replace(piece, also=(in_interfacing(piece.cut),))
    assert str(how_cut(stiff, OPTIONS)) == f"{text}, the same in interfacing"
    lined = replace(piece, also=(Cut(1, material=Material.INTERLINING),))
    assert str(how_cut(lined, OPTIONS)).startswith(f"{text} · Cut 1 ")


def test_the_label() -> None:
    options = replace(OPTIONS, who="size 40", order="Lee", made=DAY, revision="3")
    label = label_words(finish(flounced_skirt(), options).piece("skirt back").label)
    assert label.title == "Skirt back"
    assert label.lines == (
        "piece 2 of 3",
        "Wren dress",
        "size 40 · Lee",
        "Cut 1 pair in navy wool",
        "Allowance included: 1.5, hem 1, centre back 2 cm",
        "12 May 2026 · revision 3",
    )


def test_drill_holes_lie_short_of_the_points() -> None:
    front = finish(replace(flounced_skirt(), seams=()).with_pieces(dress_front())).piece("front")
    drills = [m for m in front.marks if m.kind == "drill"]
    dart = front.piece.darts[0]
    bust = next(m for m in drills if m.text == "bust dart")
    assert abs(bust.at - dart.tip) == pytest.approx(1.0)
    a, b = front.piece.mouth(dart)
    assert abs(abs(bust.at - a) - abs(bust.at - b)) < 1e-9  # on the crease
    diamond = front.piece.diamonds[0]
    assert isinstance(diamond, Diamond)
    inside = [m.at for m in drills if m.text == "waist dart"]
    assert len(inside) == 4
    assert min(abs(p - diamond.near) for p in inside) == pytest.approx(0.3)
    assert min(abs(p - diamond.top) for p in inside) == pytest.approx(1.0)


def test_a_piece_that_is_not_there() -> None:
    with pytest.raises(LookupFailed, match="sleeve"):
        finish(flounced_skirt()).piece("sleeve")


def neck(radius: float) -> Piece:
    """A piece with a quarter circle of a radius hollowed out of one corner."""
    arc = reversed_path(circle_arc(0j, complex(radius, 0), pi / 2))
    a, b = arc[0].start, arc[-1].end
    edges = (
        Edge("neckline", arc, EdgeKind.NECKLINE),
        Edge("shoulder", line(b, 20 + 0j), EdgeKind.SHOULDER),
        Edge("side", line(20 + 0j, 20 + 30j), EdgeKind.SIDE),
        Edge("hem", line(20 + 30j, 30j), EdgeKind.HEM),
        Edge("centre back", line(30j, a), EdgeKind.FOLD),
    )
    return Piece("back", edges, (10 + 5j, 10 + 25j))


@pytest.mark.parametrize(
    ("radius", "tight"), [(0.65, True), (0.9, True), (1.5, False), (6.0, False)]
)
def test_an_edge_that_turns_more_tightly_than_its_allowance_is_named(
    radius: float, tight: bool
) -> None:
    found = [
        f for f in finish(Pattern((neck(radius),))).findings if f.code == "allowance-too-tight"
    ]
    assert bool(found) is tight
    for finding in found:
        assert (finding.where, finding.level) == ("back: neckline", "warning")
        assert finding.value == pytest.approx(radius, abs=0.01)
        assert "1.0 cm" in str(finding.message)


@pytest.mark.parametrize(("long_sides", "usual"), [(2.0, 2.0), (1.0, 1.0)])
def test_of_two_allowances_the_label_names_that_of_the_longer_edges_first(
    long_sides: float, usual: float
) -> None:
    """Two edges of 30 with one allowance and two of 20 with another."""
    other = 3.0 - long_sides
    piece = shapes.rectangle("panel", 20.0, 30.0, Cut(), Role.PANEL)
    amounts = {edge.label: long_sides if edge.length > 25 else other for edge in piece.outer_edges}
    line: Any = SimpleNamespace(edge=lambda label: SimpleNamespace(allowance=amounts[label]))
    told = allowance_included(piece, line)
    assert told is not None
    amounts_told: Any = told.values["amounts"]
    first, *others = amounts_told
    assert float(first) == usual
    assert len(others) == 2


@pytest.mark.parametrize("turn", [0.0, 0.4, pi / 4, pi / 2])
def test_the_grain_line_lies_on_the_paper_clear_of_its_lines(turn: float) -> None:
    """At most 40 cm and six tenths of the piece long, 1.2 cm clear of outline and darts (common practice)."""
    for piece in (dress_front(), *flounced_skirt().pieces):
        moved = piece.moved(Move.about(5 + 5j, turn))
        start, end = grain_line(moved)
        along = moved.grain[1] - moved.grain[0]
        assert abs(angle_between(end - start, along)) < 1e-6
        reach = [(p / along * abs(along)).real for p in flattened(moved.outline, 0.1)]
        assert abs(end - start) <= min(40.0, 0.6 * (max(reach) - min(reach))) + 1e-6
        line = LineString([(p.real, p.imag) for p in (start, end)])
        paper = polygon(moved.outline)
        assert paper.contains(line)
        assert paper.exterior.distance(line) >= 1.15
        for dart in dart_lines(moved):
            assert LineString([(p.real, p.imag) for p in dart]).distance(line) >= 1.15
