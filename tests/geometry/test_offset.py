"""Offset curves against closed forms and against shapely, an independent referee."""

from __future__ import annotations

from cmath import rect
from math import pi

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from cutwright.geometry.curve import Cubic, Line
from cutwright.geometry.draw import circle_arc, corner_arc
from cutwright.geometry.offset import TOLERANCE, offset_path, offset_paths
from cutwright.geometry.outline import flattened
from cutwright.geometry.path import Path, end_direction, path_length, reversed_path
from cutwright.geometry.point import angle_between, dot, unit


def farthest(path: Path, base: Path, amount: float) -> float:
    """How far a line strays from the distance it should keep to another, cm."""
    points = flattened(base, 1e-5)
    line = shapely.LineString([(p.real, p.imag) for p in points])
    spots = np.array([c.at(t) for c in path for t in np.linspace(0, 1, 41)])
    gaps = shapely.distance(shapely.points(spots.real, spots.imag), line)
    return float(np.max(np.abs(gaps - abs(amount))))


ARMHOLE = (Cubic(0j, 5.4 - 0.3j, 9.5 - 6j, 8 - 17j),)


@pytest.mark.parametrize("amount", [1.0, 1.5, 3.5, -1.0])
def test_keeps_its_distance(amount: float) -> None:
    found = offset_path(ARMHOLE, amount)
    assert all(isinstance(c, Cubic) for c in found)
    assert farthest(found, ARMHOLE, amount) < 0.005


def test_the_comparison_can_fail() -> None:
    assert farthest(offset_path(ARMHOLE, 1.0), ARMHOLE, 1.02) > 0.005


@pytest.mark.parametrize("amount", [1.5, -1.5])
def test_an_arc_has_the_length_of_the_next_arc(amount: float) -> None:
    # closed form: radius r, angle t, offset length t (r + a) outside
    arc = circle_arc(0j, 20 + 0j, 1.2)
    assert path_length(offset_path(arc, amount)) == pytest.approx(1.2 * (20 + amount), abs=1e-4)


def test_out_and_in_again_is_the_seam() -> None:
    out = offset_path(ARMHOLE, 1.5)
    back = offset_path(out, -1.5)
    assert farthest(back, ARMHOLE, 0.0) < 0.005
    assert back[0].start == pytest.approx(ARMHOLE[0].start, abs=1e-9)
    assert back[-1].end == pytest.approx(ARMHOLE[0].end, abs=1e-9)


def test_a_line_stays_a_line() -> None:
    assert offset_path((Line(0j, 10 + 0j),), 1.5) == (Line(-1.5j, 10 - 1.5j),)


def test_nothing_asked_nothing_done() -> None:
    assert offset_path(ARMHOLE, 0.0) is ARMHOLE


def test_a_corner_inside_a_chain_is_closed() -> None:
    path: Path = (Line(0j, 10 + 0j), Line(10 + 0j, 10 + 10j))
    found = offset_path(path, 1.0)
    assert [c.start for c in found] == [-1j, 11 - 1j]
    inner = offset_path(reversed_path(path), 1.0)
    assert inner[0].end == pytest.approx(9 + 1j)


def test_several_at_once_are_what_each_is_alone() -> None:
    paths: list[Path] = [ARMHOLE, circle_arc(0j, 12 + 0j, 1.0), (Line(0j, 3 + 4j),)]
    together = offset_paths(paths, [1.0, 2.0, 0.5])
    alone = [offset_path(p, a) for p, a in zip(paths, [1.0, 2.0, 0.5], strict=True)]
    for a, b in zip(together, alone, strict=True):
        for c, d in zip(a, b, strict=True):
            assert np.allclose(c.controls, d.controls, atol=1e-9)


@pytest.mark.parametrize("amount", [1.0, 1.4])
@pytest.mark.parametrize("eighth", range(8))
def test_tighter_than_the_hollow_it_is_taken_from_a_polygon(amount: float, eighth: int) -> None:
    # a hollow of radius 0.84 between two straight runs, whichever way it lies; allowance beyond the radius
    hollow = circle_arc(0j, rect(0.84, eighth * pi / 4), -pi * 0.9)
    into = unit(hollow[0].velocity(0.0))
    out = unit(hollow[-1].velocity(1.0))
    base: Path = (
        Line(hollow[0].start - into * 8, hollow[0].start),
        *hollow,
        Line(hollow[-1].end, hollow[-1].end + out * 8),
    )
    found = offset_path(base, amount)
    border = shapely.LineString([(p.real, p.imag) for p in flattened(found)])
    seam = shapely.LineString([(p.real, p.imag) for p in flattened(base, 1e-4)])
    assert border.is_simple
    assert border.distance(seam) > amount - 0.005
    assert farthest(found, base, amount) < 0.01


@pytest.mark.parametrize("backwards", [False, True])
def test_where_an_end_is_too_tight_the_line_still_goes_on_as_its_chain_does(
    backwards: bool,
) -> None:
    # a shallow back neck that turns with a radius of 0.35 just before the shoulder
    neck: Path = (corner_arc(0j, 1 + 0j, 10 - 0.7j, unit(0.31 - 0.95j), 0.8, 0.9),)
    base, amount = (reversed_path(neck), -1.0) if backwards else (neck, 1.0)
    found = offset_path(base, amount)
    if backwards:
        found = reversed_path(found)
    assert abs(angle_between(end_direction(found), end_direction(neck))) < 1e-6
    aside = found[-1].end - neck[-1].end
    assert dot(aside, end_direction(neck) * -1j) == pytest.approx(1.0, abs=0.005)
    assert found[0].start == pytest.approx(-1j)
    seam = shapely.LineString([(p.real, p.imag) for p in flattened(base, 1e-4)])
    border = shapely.LineString([(p.real, p.imag) for p in flattened(found)])
    assert border.distance(seam) > 1.0 - 0.01


@given(
    st.floats(-2, 2), st.floats(0.5, 6), st.floats(-2, 2), st.floats(0.5, 6), st.floats(-2.5, 2.5)
)
def test_any_gentle_curve(
    turn_in: float, first: float, turn_out: float, second: float, amount: float
) -> None:
    curve = Cubic(0j, complex(first, turn_in), complex(18 - second, turn_out), 18 + 0j)
    found = offset_path((curve,), amount)
    strays = farthest(found, (curve,), amount)
    if all(isinstance(c, Cubic) for c in found):
        # where no point of the curve comes nearer, the offset is exact
        line = shapely.LineString([(p.real, p.imag) for p in flattened(found, 1e-4)])
        if line.is_simple:
            assert strays < TOLERANCE * 2.5
    assert found[-1].end == pytest.approx(
        18 + unit(curve.velocity(1.0)) * -1j * amount, abs=1e-6
    ) or any(isinstance(c, Line) for c in found)
