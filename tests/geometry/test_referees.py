"""Lengths, areas, roots and crossings held against independent libraries: scipy and shapely."""

from __future__ import annotations

import itertools
from math import pi

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.optimize import brentq
from shapely import LineString

from cutwright.geometry.crossing import curve_parameters, line_distances
from cutwright.geometry.curve import (
    Cubic,
    Line,
    curvature,
    curve_length,
    nearest_parameter,
    parameter_at,
)
from cutwright.geometry.draw import arc, circle_arc, corner_arc, hermite
from cutwright.geometry.move import Move
from cutwright.geometry.outline import area, bounds, contains, flattened, polygon
from cutwright.geometry.path import nearest_distance, path_length, point_at, split_path
from cutwright.geometry.solve import root

spots = st.builds(complex, st.floats(-50, 50), st.floats(-50, 50))
cubics = st.builds(Cubic, spots, spots, spots, spots)


def by_scipy(curve: Cubic) -> float:
    """Arc length by adaptive quadrature on 16 parts."""
    stops = np.linspace(0, 1, 17)
    return sum(
        quad(lambda t: abs(curve.velocity(t)), a, b, epsabs=1e-11, limit=200)[0]
        for a, b in itertools.pairwise(stops)
    )


@given(cubics)
def test_lengths_agree_with_adaptive_quadrature(curve: Cubic) -> None:
    """Any curve without a cusp; no cutter draws one, and there the quadrature is a hair off."""
    speeds = [abs(curve.velocity(k / 256)) for k in range(257)]
    assume(min(speeds) > 0.02 * max(speeds))
    assert curve_length(curve) == pytest.approx(by_scipy(curve), abs=2e-5)


def test_an_armhole_is_exact_and_so_is_a_cusp() -> None:
    armhole = Cubic(0j, 1 + 9j, 4 + 15j, 11 + 17j)
    assert curve_length(armhole) == pytest.approx(by_scipy(armhole), abs=1e-9)
    cusp = Cubic(0j, 10 + 10j, 0 + 10j, 10 + 0j)
    assert curve_length(cusp) == pytest.approx(by_scipy(cusp), abs=1e-5)


@given(cubics, st.floats(0.01, 0.99))
def test_a_place_is_found_by_its_distance(curve: Cubic, share: float) -> None:
    """Any curve without a cusp, as above."""
    speeds = [abs(curve.velocity(k / 256)) for k in range(257)]
    assume(min(speeds) > 0.02 * max(speeds))
    whole = curve_length(curve)
    t = parameter_at(curve, share * whole)
    assert curve_length(curve.split(t)[0]) == pytest.approx(share * whole, abs=1e-5)


@given(st.lists(spots, min_size=3, max_size=6))
def test_areas_agree_with_shapely(points: list[complex]) -> None:
    ring = tuple(Line(a, b) for a, b in zip(points, [*points[1:], points[0]], strict=True))
    signed = sum(
        a.real * b.imag - a.imag * b.real
        for a, b in zip(points, [*points[1:], points[0]], strict=True)
    )
    assert area(ring) == pytest.approx(signed / 2, abs=1e-8)


def test_the_area_of_curves_agrees_with_a_fine_polygon() -> None:
    outline = (
        Line(0j, 20 + 0j),
        Cubic(20 + 0j, 24 + 8j, 16 + 20j, 22 + 30j),
        Cubic(22 + 30j, 15 + 34j, 6 + 28j, 0 + 30j),
        Line(0 + 30j, 0j),
    )
    assert area(outline) == pytest.approx(polygon(outline, 1e-6).area, abs=1e-3)
    assert contains(outline, 10 + 10j)
    assert not contains(outline, 30 + 10j)
    box = polygon(outline, 1e-6).bounds
    assert bounds(outline) == pytest.approx(box, abs=1e-3)


@given(cubics)
def test_chords_stay_within_their_tolerance(curve: Cubic) -> None:
    chords = LineString([(p.real, p.imag) for p in flattened((curve,), 0.01)])
    fine = LineString([(z.real, z.imag) for z in (curve.at(k / 997) for k in range(998))])
    assert chords.hausdorff_distance(fine) < 0.011 + curve_length(curve) / 997


@given(st.floats(-0.9, 5), st.floats(0.1, 3))
def test_roots_agree_with_scipy(shift: float, scale: float) -> None:
    def f(x: float) -> float:
        return float(np.tanh(scale * (x - shift)) + 0.1 * (x - shift))

    assert root(f, -2, 6) == pytest.approx(brentq(f, -2, 6, xtol=1e-13), abs=1e-9)


@given(cubics, cubics)
def test_crossings_lie_on_both_curves(a: Cubic, b: Cubic) -> None:
    for t, u in curve_parameters(a, b):
        assert abs(a.at(t) - b.at(u)) < 1e-6


def test_a_line_meets_a_circle_twice() -> None:
    ring = circle_arc(0j, 10 + 0j, 2 * pi)
    assert path_length(ring) == pytest.approx(20 * pi, abs=2e-5)
    hits = line_distances(ring, 0j, 1 + 1j)
    assert hits == pytest.approx([10 * pi / 4, 10 * 5 * pi / 4], abs=1e-4)


@given(cubics, spots)
def test_the_nearest_place_is_no_farther_than_any_sample(curve: Cubic, p: complex) -> None:
    found = abs(curve.at(nearest_parameter(curve, p)) - p)
    assert found <= min(abs(curve.at(k / 32) - p) for k in range(33)) + 1e-9


@given(cubics, st.floats(-pi, pi), spots, st.booleans())
def test_moves_keep_lengths_and_can_be_taken_back(
    curve: Cubic, angle: float, step: complex, mirrored: bool
) -> None:
    move = Move.about(3 + 4j, angle).then(Move.by(step))
    if mirrored:
        move = move.then(Move.mirror(1 + 0j, 2 + 5j))
    assert curve_length(curve.moved(move)) == pytest.approx(curve_length(curve), abs=1e-6)
    back = curve.moved(move).moved(move.inverse())
    assert all(abs(a - b) < 1e-9 for a, b in zip(back.controls, curve.controls, strict=True))


@given(st.floats(5, 60), st.floats(-1.2, 1.2))
def test_an_arc_has_the_length_and_the_turn_asked(size: float, turn: float) -> None:
    drawn = arc(2 + 1j, 1 + 0.3j, size, turn)
    assert curve_length(drawn) == pytest.approx(size, rel=1e-4)


@given(st.floats(5, 40), st.floats(5, 40), st.floats(0.2, 1.0))
def test_a_corner_arc_never_bends_both_ways(across: float, down: float, k: float) -> None:
    curve = corner_arc(0j, 1 + 0j, complex(across, down), 0.1 + 1j, k)
    signs = {curvature(curve, t / 20) > -1e-9 for t in range(21)}
    assert signs == {True}


def test_a_path_is_cut_where_it_is_measured() -> None:
    path = (Line(0j, 10 + 0j), hermite(10 + 0j, 1 + 0j, 20 + 6j, 0 + 1j))
    before, after = split_path(path, 13.0)
    assert path_length(before) == pytest.approx(13.0, abs=1e-8)
    assert path_length(before) + path_length(after) == pytest.approx(path_length(path), abs=1e-8)
    assert nearest_distance(path, point_at(path, 13.0)) == pytest.approx(13.0, abs=1e-6)
