"""Where a curve meets a straight line, against an independent root finder."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from cutwright.geometry.crossing import line_parameters
from cutwright.geometry.curve import Cubic, Line

places = st.complex_numbers(max_magnitude=50, allow_nan=False, allow_infinity=False)


@given(places, places, places, places, places, st.floats(0, 6.28))
def test_every_crossing_is_found(
    a: complex, b: complex, c: complex, d: complex, p: complex, turn: float
) -> None:
    along = complex(np.cos(turn), np.sin(turn))
    h = [(along.conjugate() * (q - p)).imag for q in (a, b, c, d)]
    poly = [
        h[3] - 3 * h[2] + 3 * h[1] - h[0],
        3 * (h[2] - 2 * h[1] + h[0]),
        3 * (h[1] - h[0]),
        h[0],
    ]
    found = line_parameters(Cubic(a, b, c, d), p, along)
    scale = max(1.0, *(abs(x) for x in poly))
    for t in found:
        assert abs(np.polyval(poly, t)) < 1e-7 * scale
    dense = np.polyval(poly, np.linspace(0, 1, 2001))
    changes = int(np.sum(np.sign(dense[:-1]) * np.sign(dense[1:]) < 0))
    if min(abs(dense)) < 1e-6 * scale:
        return  # touches or ends on the line: the count depends on rounding
    assert len(found) >= changes


def test_three_crossings() -> None:
    curve = Cubic(0j, 1 + 30j, 2 - 30j, 3 + 1j)
    found = line_parameters(curve, 0.4j, 1 + 0j)
    assert len(found) == 3
    assert [curve.at(t).imag for t in found] == pytest.approx([0.4] * 3, abs=1e-9)


def test_a_curve_that_only_touches() -> None:
    curve = Cubic(-1 + 1j, -1 / 3 - 1j / 3, 1 / 3 - 1j / 3, 1 + 1j)  # y = x^2
    found = line_parameters(curve, 0j, 1 + 0j)
    assert len(found) == 1
    assert found[0] == pytest.approx(0.5, abs=1e-6)


def test_a_straight_line() -> None:
    assert line_parameters(Line(0j, 4j), 1j, 1 + 0j) == [0.25]
    assert line_parameters(Line(0j, 4 + 0j), 1j, 1 + 0j) == []
