"""Room inside an outline: a block that is said to fit does, with its clearance."""

from __future__ import annotations

from cmath import rect

import pytest
import shapely

from cutwright.geometry.curve import Line
from cutwright.geometry.draw import circle_arc
from cutwright.geometry.outline import polygon
from cutwright.geometry.path import Path, polyline
from cutwright.geometry.room import room_in

SQUARE: Path = polyline([0j, 20 + 0j, 20 + 20j, 20j, 0j])


def block(middle: complex, width: float, height: float, along: complex) -> shapely.Polygon:
    corners = [(x, y) for x, y in ((-1, -1), (1, -1), (1, 1), (-1, 1))]
    spots = [middle + along * complex(x * width / 2, y * height / 2) for x, y in corners]
    return shapely.Polygon([(p.real, p.imag) for p in spots])


@pytest.mark.parametrize("turn", [0.0, 0.5, 1.5707963])
def test_a_block_that_fits_keeps_its_clearance(turn: float) -> None:
    along = rect(1, turn)
    outline = (*circle_arc(0j, 12 + 0j, 3.14159265), Line(-12 + 0j, 12 + 0j))
    room = room_in(outline, along, 0.5)
    middle = room.fits(8, 3, 5j)
    assert middle is not None
    shape = block(middle, 8, 3, along)
    paper = polygon(outline)
    assert paper.covers(shape)
    assert paper.exterior.distance(shape) >= 0.5 - 1e-9


def test_too_large_a_block_does_not() -> None:
    assert room_in(SQUARE, 1 + 0j, 1.0).fits(18.5, 2, 10 + 10j) is None
    assert room_in(SQUARE, 1 + 0j, 1.0).fits(30, 2, 10 + 10j) is None


def test_what_is_taken_is_kept_clear_of() -> None:
    room = room_in(SQUARE, 1 + 0j, 0.5).without([[3 + 3j, 17 + 14j], [2 + 18j, 18 + 18j]], 0.4)
    middle = room.fits(5, 3, 10 + 9j)
    assert middle is not None
    shape = block(middle, 5, 3, 1 + 0j)
    for line in ([(3, 3), (17, 14)], [(2, 18), (18, 18)]):
        assert shapely.LineString(line).distance(shape) >= 0.4
    assert room.is_free(middle, 5, 3)
    assert not room.is_free(10 + 8.5j, 5, 3)
    assert not room.is_free(1 + 1j, 5, 3)
