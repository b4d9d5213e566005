"""The chart of sizes: smooth, complete, and named by what it measures."""

from __future__ import annotations

from itertools import pairwise

import pytest

from cutwright.body import family_named, resolve
from cutwright.body.size_charts import chart_of, size, sizes
from cutwright.errors import MeasureError

CHART = chart_of(family_named())
BUSTS = CHART.girths
DRAWN = [name for name, tape in family_named().tapes.items() if tape.chart]


def test_three_rows_of_heights_and_a_name_that_says_the_measures() -> None:
    assert len(sizes()) == len(set(sizes())) == 3 * len(BUSTS)
    assert {row for _bust, row in sizes()} == {"short", "regular", "tall"}
    card = size(88)
    assert card.name == "bust 88, regular"
    assert card.measures["bust_girth"] == 88
    assert card.measures["stature"] == 168


def test_the_figure_of_the_middle_size() -> None:
    """Bust 88, waist 70, hip 96, height 168: the figure the trade's ranges are told for."""
    m = size(88, "regular").measures
    assert (m["waist_girth"], m["hip_girth"]) == (70, 96)
    assert 20.5 <= m["armhole_depth"] <= 22.5
    assert 33 <= m["back_width"] <= 37


@pytest.mark.parametrize("row", CHART.rows)
def test_every_measure_grows_smoothly(row: str) -> None:
    cards = [size(bust, row).measures for bust in range(BUSTS[0], BUSTS[-1] + 1)]
    for name in DRAWN:
        steps = [b[name] - a[name] for a, b in pairwise(cards)]
        assert min(steps) >= 0
        assert max(steps) - min(steps) <= 0.2 + 1e-9  # a millimetre of rounding at either end


def test_taller_is_longer_and_not_rounder() -> None:
    short, tall = size(92, "short").measures, size(92, "tall").measures
    for name in ("back_waist_length", "front_waist_length", "arm_length", "waist_to_hip"):
        assert tall[name] > short[name]
    for name in ("waist_girth", "hip_girth", "upper_arm_girth"):
        assert tall[name] == short[name]


def test_a_size_resolves_without_asking() -> None:
    for bust, row in sizes():
        assert resolve(size(bust, row)).notes == ()


def test_sizes_between_and_heights_between() -> None:
    assert size(89.5, 171.0).name == "bust 89.5, height 171.0"
    for wrong in (70, 150):
        with pytest.raises(MeasureError, match="runs from bust 76 to 140"):
            size(wrong)
    for row in ("petite", 120.0):
        with pytest.raises(MeasureError, match="short, regular, tall"):
            size(88, row)
