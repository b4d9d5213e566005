"""Smooth lines through places, and what lies inside of a closed one."""

from __future__ import annotations

from cmath import phase, rect
from itertools import pairwise
from math import pi

import pytest

from cutwright.geometry.curve import Cubic, Line
from cutwright.geometry.draw import circle_arc, smooth_through
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
