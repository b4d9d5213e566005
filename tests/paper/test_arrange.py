"""Pieces side by side on a sheet: whole, apart, upright, and the same every time."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon

from cutwright.drawing.primitives import Ink, Stroke
from cutwright.geometry.outline import flattened
from cutwright.paper.arrange import ArrangedShape, PaperSpread, arrange, upright_or_turned
from cutwright.paper.pieces import PlacedPiece
from tests.paper.pieces import bodice, garment, piece, skirt, sleeve, strip

sizes = st.tuples(st.sampled_from("bkst"), st.floats(6, 55), st.floats(8, 80))


def made(index: int, kind: str, wide: float, high: float) -> PlacedPiece:
    outline = {
        "b": lambda: bodice(max(wide, 22), max(high, 30)),
        "k": lambda: skirt(wide / 2, wide, max(high, 10)),
        "s": lambda: sleeve(max(wide, 20), max(high, 20)),
        "t": lambda: strip(wide, high),
    }[kind]()
    return piece(f"piece {index}", outline)


def outlines(spread: PaperSpread) -> list[Polygon]:
    found = []
    for placed in spread.pieces():
        cut = next(i for i in placed.drawing.items if isinstance(i, Stroke) and i.ink is Ink.CUT)
        found.append(Polygon([(p.real, p.imag) for p in flattened(cut.path)]))
    return found


@settings(max_examples=25, deadline=None)
@given(st.lists(sizes, min_size=1, max_size=9), st.sampled_from([60.0, 88.0, 148.0]))
def test_no_piece_lies_over_another_or_over_the_edge(
    kinds: list[tuple[str, float, float]], width: float
) -> None:
    pieces = [made(i, *kind) for i, kind in enumerate(kinds)]
    spreads = arrange(upright_or_turned(pieces, width, 160.0), width, limit=160.0)
    assert sorted(p.name for s in spreads for p in s.pieces()) == sorted(p.name for p in pieces)
    for spread in spreads:
        assert spread.height <= 160.0 + 1e-6
        shapes = outlines(spread)
        for index, a in enumerate(shapes):
            left, top, right, bottom = a.bounds
            assert left >= -0.01
            assert top >= -0.01
            assert right <= width + 0.01
            assert bottom <= spread.height + 0.01
            assert all(a.distance(b) > 0.5 for b in shapes[index + 1 :])


def test_grain_stays_upright_unless_the_piece_is_wider_than_the_sheet() -> None:
    belt, panel = piece("belt", strip(120.0, 7.0)), piece("panel", strip(50.0, 20.0))
    turned, upright = upright_or_turned([belt, panel], 88.0, 500.0)
    assert not turned.upright
    assert (round(turned.width, 6), round(turned.height, 6)) == (7.0, 120.0)
    assert upright.upright
    assert upright_or_turned([belt], 148.0, 500.0)[0].upright


def test_pieces_nestle() -> None:
    wedge = [made(i, "k", 50.0, 70.0) for i in range(2)]
    apart = 2 * 70.0
    assert arrange([ArrangedShape.of(p) for p in wedge], 60.0)[0].height < apart + 4


def test_the_sheet_is_not_much_longer_than_the_boxes_need() -> None:
    shapes = upright_or_turned(garment(), 88.0, 498.0)
    boxes = sum(s.width * s.height for s in shapes) / 88.0
    assert arrange(shapes, 88.0)[0].height < 1.35 * boxes


def test_the_same_pieces_come_out_in_the_same_places() -> None:
    places = [
        [
            at
            for s in arrange(upright_or_turned(garment(), 82.0, 116.0), 82.0, limit=116.0)
            for _x, at in s.placed
        ]
        for _time in range(2)
    ]
    assert places[0] == places[1]


def test_a_piece_longer_than_the_limit_has_a_spread_of_its_own() -> None:
    long = piece("train", strip(40.0, 620.0))
    spreads = arrange([ArrangedShape.of(long), ArrangedShape.of(garment()[0])], 88.0, limit=498.0)
    assert [len(s.placed) for s in spreads] == [1, 1]
    assert spreads[1].height > 498
