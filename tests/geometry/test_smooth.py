"""Smooth lines through places."""

from __future__ import annotations

from cmath import phase
from itertools import pairwise

import pytest

from cutwright.geometry.curve import Cubic, Line
from cutwright.geometry.draw import smooth_through
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
