"""Curves that were cut are one again; what never was one stays apart."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cutwright.geometry.curve import Cubic, Line
from cutwright.geometry.path import path_length
from cutwright.geometry.rejoin import rejoined

BOW = Cubic(0j, 10 + 2j, 22 + 15j, 25 + 40j)


@given(st.lists(st.floats(0.05, 0.95), min_size=1, max_size=3))  # no crumbs
def test_a_cubic_cut_anywhere_is_whole_again(cuts: list[float]) -> None:
    parts = [BOW]
    for share in cuts:
        one, other = parts.pop().split(share)
        parts += [one, other]
    (whole,) = rejoined(parts)
    assert isinstance(whole, Cubic)
    assert all(abs(p - q) < 1e-6 for p, q in zip(whole.controls, BOW.controls, strict=True))


def test_lines_that_run_on_are_one_and_bends_stay() -> None:
    straight = [Line(complex(0, n), complex(0, n + 1)) for n in range(20)]
    assert rejoined([*straight, Line(20j, 1 + 21j)]) == (Line(0j, 20j), Line(20j, 1 + 21j))
    for turn_back in (3j, 4.9j, 4.999j):  # however short the way back
        back = (Line(0j, 5j), Line(5j, turn_back))
        assert rejoined(back) == back


def test_two_bows_that_only_meet_smoothly_stay_two() -> None:
    other = Cubic(BOW.end, BOW.end + (BOW.end - BOW.second) / 3, 40 + 70j, 41 + 90j)
    both = (BOW, other)
    assert rejoined(both) == both
    assert path_length(rejoined(both)) == pytest.approx(path_length(both))
