"""Smooth lines through places, and what lies inside of a closed one."""

from __future__ import annotations

from cmath import phase, rect
from itertools import pairwise
from math import pi

import pytest

from cutwright.geometry.crossing import line_distances
from cutwright.geometry.curve import Cubic, Line
from cutwright.geometry.draw import circle_arc, corner_arc, smooth_through
from cutwright.geometry.outline import contains
from cutwright.geometry.path import end_direction, start_direction
from cutwright.geometry.point import unit


def test_two_places_straight_on_are_joined_by_a_line() -> None:
    assert smooth_through([1 + 1j, 4 + 5j], [3 + 4j, 6 + 8j]) == (Line(1 + 1j, 4 + 5j),)


@pytest.mark.parametrize("directions", [[3 + 4j, 1j], [1j, 3 + 4j], [-3 - 4j, 3 + 4j]])
def test_other_directions_bow_it(directions: list[complex]) -> None:
    (found,) = smooth_through([1 + 1j, 4 + 5j], directions)
    assert isinstance(found, Cubic)
    assert (found.start, found.end) == (1 + 1j, 4 + 5j)
    assert start_direction((found,)) == pytest.approx(unit(directions[0]))
    assert end_direction((found,)) == pytest.approx(unit(directions[1]))


def test_three_places_are_passed_without_a_corner() -> None:
    points, directions = [0j, 10 + 2j, 20 + 0j], [1 + 1j, 1 + 0j, 1 - 1j]
    path = smooth_through(points, directions)
    assert [c.start for c in path] + [path[-1].end] == points
    for one, other in pairwise(path):
        assert phase(start_direction((other,)) / end_direction((one,))) == pytest.approx(0)


@pytest.mark.parametrize("share", [0.985, 0.999, 1.001, 1.015])
def test_a_place_between_a_curve_and_its_chord_is_told_right(share: float) -> None:
    """A circle of radius 10 in arcs of half a radian: their chords lie up to 0.3 inside of it."""
    circle = circle_arc(3 + 2j, 13 + 2j, 2 * pi)
    for step in range(60):
        place = 3 + 2j + rect(10 * share, step / 60 * 2 * pi + 0.01)
        assert contains(circle, place) == (share < 1)


@pytest.mark.parametrize("start", [0j, 3 + 1j, -7 + 20j])
def test_an_arc_between_two_places_straight_on_runs_evenly_along_the_line(start: complex) -> None:
    found = corner_arc(start, 3 + 4j, start + 9 + 12j, 3 + 4j, 0.5)
    for t in (0.0, 0.25, 0.5, 1.0):
        assert found.at(t) == pytest.approx(start + (9 + 12j) * t)


@pytest.mark.parametrize("wide", [0.01, 0.4, 3.0])
def test_a_line_is_met_as_often_as_the_path_crosses_it(wide: float) -> None:
    """A zigzag of three lines; its middle places lie as near to each other as it is narrow."""
    path = (
        Line(-1j, wide + 1j),
        Line(wide + 1j, 2 * wide - 1j),
        Line(2 * wide - 1j, 3 * wide + 1j),
    )
    long = abs(wide + 2j)
    found = line_distances(path, 0j, 1 + 0j)
    assert found == pytest.approx([long / 2, 1.5 * long, 2.5 * long])
    low = line_distances(path, complex(0, 1 - 1e-3), 1 + 0j)  # just under the upper corner
    assert len(low) == 3
    assert low[1] - low[0] == pytest.approx(1e-3 * long)
