"""Corners of offset lines: mitre with a limit, square, mirrored, stepped, trimmed."""

from __future__ import annotations

from cmath import rect
from math import cos, inf, radians, sin

import pytest

from cutwright.geometry.corner import mirrored, mitred, squared, squared_to_second, to_line
from cutwright.geometry.curve import Cubic, Line
from cutwright.geometry.offset import offset_path
from cutwright.geometry.path import Path, end_direction
from cutwright.geometry.point import Point


def corner_of(turn: float, a: float, b: float) -> tuple[Path, Path, Point]:
    """Two straight seams that meet at 0 with a turn (degrees), at allowances a and b."""
    way = rect(1, radians(turn))
    first, second = (Line(-20 + 0j, 0j),), (Line(0j, 20 * way),)
    return offset_path(first, a), offset_path(second, b), way


def met(pair: tuple[Path, Path]) -> Point:
    first, second = pair
    assert first[-1].end == second[0].start
    return first[-1].end


@pytest.mark.parametrize("turn", [30, 60, 90, 120])
def test_a_mitre_is_as_long_as_its_closed_form(turn: float) -> None:
    first, second, _way = corner_of(turn, 1.5, 1.5)
    point = met(mitred(first, second, 0j, inf))
    assert abs(point) == pytest.approx(1.5 / sin(radians(180 - turn) / 2))


def test_a_sharp_mitre_is_cut_off_at_the_limit() -> None:
    first, second, _way = corner_of(160, 1.5, 1.5)
    a, b = mitred(first, second, 0j, 3.75)
    blunt = a[-1]
    assert b[0].start == blunt.end
    middle = (blunt.start + blunt.end) / 2
    assert abs(middle) == pytest.approx(3.75)
    along = (blunt.end - blunt.start) / abs(blunt.end - blunt.start)
    assert abs((along * middle.conjugate()).real) < 1e-9  # square to the line from the corner


def test_unequal_allowances_at_an_obtuse_corner_are_trimmed() -> None:
    # 6 mm against nothing: the second line is the seam itself, run backwards until it is met
    first, second, _way = corner_of(40, 0.6, 0.0)
    a, b = mitred(first, second, 0j, inf)
    point = met((a, b))
    assert point.imag == pytest.approx(-0.6)
    assert point.real < 0  # the wider allowance is cut back behind the corner
    assert point.imag / point.real == pytest.approx(-sin(radians(40)) / -0.766044443, abs=1e-6)


def test_a_hollow_corner_is_trimmed_on_both_sides() -> None:
    first, second, _way = corner_of(-90, 1.5, 1.0)
    assert met(mitred(first, second, 0j, 3.0)) == pytest.approx(-1.0 - 1.5j)


def test_edges_in_line_with_different_allowances_get_a_step() -> None:
    first, second, _way = corner_of(0, 2.0, 1.0)
    a, b = mitred(first, second, 0j, 5.0)
    assert a[-1] == Line(-2j, -1j)
    assert b[0].start == -1j


def test_nearly_in_line_a_step_is_not_a_long_slant() -> None:
    first, second, _way = corner_of(4, 2.0, 1.0)
    a, b = mitred(first, second, 0j, 5.0)
    assert abs(a[-1].end - a[-1].start) < 1.1
    assert b[0].start == a[-1].end


@pytest.mark.parametrize("turn", [40, 60, 90, 120, 150])
def test_square_to_the_first_seam(turn: float) -> None:
    """The second allowance is cut off, or run back, to where the first seam, run on, meets it."""
    first, second, _way = corner_of(turn, 1.5, 1.0)
    a, b = squared(first, second, 0j, 1 + 0j, 6.0)
    end = a[-1]
    assert end.start.real == pytest.approx(end.end.real)  # square to the seam along x
    assert end.end.imag == pytest.approx(0.0)  # from the seam, run on
    assert end.start.imag == pytest.approx(-1.5)
    assert b[0].start == end.end
    assert end.end.real == pytest.approx(1.0 / sin(radians(turn)))


def test_square_to_the_second_seam_is_the_same_seen_from_behind() -> None:
    first, second, way = corner_of(60, 1.0, 1.5)
    _a, b = squared_to_second(first, second, 0j, way, 6.0)
    end = b[0]
    assert abs(((end.end - end.start) * way.conjugate()).real) < 1e-9


@pytest.mark.parametrize("slant", [70.0, 90.0, 110.0])
def test_what_is_turned_up_mirrors_what_it_is_turned_onto(slant: float) -> None:
    first, second, way = corner_of(slant, 1.5, 4.0)
    body, turned = mirrored(first, second, 0j, way)
    flap = turned[0]
    inside = end_direction(body)
    leave = (flap.end - flap.start) / abs(flap.end - flap.start)
    assert body[-1].end == pytest.approx(flap.start)
    mirror = way * (inside / way).conjugate()  # the direction mirrored about the fold line
    assert leave == pytest.approx(-mirror, abs=1e-9)
    depth = ((flap.end) * (way * -1j).conjugate()).real
    assert depth == pytest.approx(4.0)


def test_mirrored_follows_a_curve() -> None:
    side: Path = (Cubic(-20 + 0j, -12 - 0.5j, -6 - 0.5j, 0j),)
    hem: Path = (Line(0j, 20j),)
    body, turned = mirrored(offset_path(side, 1.5), offset_path(hem, 3.0), 0j, 1j)
    image = turned[0]
    assert isinstance(image, Cubic)
    # a point of the flap and its mirror image on the body lie equally far from the fold x = 0
    assert image.start == pytest.approx(body[-1].end, abs=1e-12)
    for t in (0.2, 0.5, 0.9):
        p = image.at(t)
        mirror = complex(-p.real, p.imag)
        last = body[-1]
        gap = min(abs(last.at(k / 2000) - mirror) for k in range(2001))
        assert gap < 0.01


def test_to_a_line_cuts_off_or_runs_on() -> None:
    path: Path = (Line(0j, 10 + 0j),)
    assert to_line(path, 4 + 3j, 1j)[-1].end == pytest.approx(4)
    assert to_line(path, 12 + 3j, 1j)[-1].end == pytest.approx(12)


@pytest.mark.parametrize("at", [3.0, 10.0, 14.0, 20.0])
def test_a_path_of_several_lines_is_cut_off_at_the_line_and_keeps_all_before_it(at: float) -> None:
    path: Path = (Line(0j, 10 + 0j), Line(10 + 0j, 20 + 0j))
    found = to_line(path, at + 3j, 1j)
    assert found[0].start == 0
    assert found[-1].end == pytest.approx(at)
    assert sum(abs(c.end - c.start) for c in found) == pytest.approx(at)


def test_a_shallow_inner_corner_is_cut_back_to_where_the_lines_cross() -> None:
    """Not joined by a step back, which would let the cut line cross itself."""
    first, second, way = corner_of(-1.0, 1.5, 1.5)
    cut = mitred(first, second, 0j, 6.0)
    assert abs(met(cut)) == pytest.approx(1.5 / cos(radians(0.5)))
    for path, along in zip(cut, (1 + 0j, way), strict=True):
        assert all((c.end - c.start).real * along.real > 0 for c in path)
