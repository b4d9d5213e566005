"""Body values held against figures that others have published; the source stands at each check.

Only single values are quoted. Tolerances say how far our own smooth chart may be from them.
"""

from __future__ import annotations

import pytest

from cutwright.body import BodyCard, family_named, resolve
from cutwright.body.measures.trunk_girths import HIP, WAIST
from cutwright.body.size_charts import chart_of, size

IN = 2.54


class TestSizeRows:
    """The chart beside single values of other charts."""

    @pytest.mark.parametrize(
        ("bust", "curvy", "straight"),
        [
            (31 + 1 / 8, 23 + 7 / 8, 25 + 3 / 8),
            (37 + 1 / 4, 29.0, 30.5),
            (46.0, 39.0, 40.5),
        ],
    )
    def test_waist_lies_by_the_two_figure_types(
        self, bust: float, curvy: float, straight: float
    ) -> None:
        """ASTM D5585-11e1, misses, Table 1: sizes 00, 10, 20, curvy and straight waist. 1.5 cm."""
        waist = size(max(76, bust * IN)).measures["waist_girth"]
        assert curvy * IN - 1.5 <= waist <= straight * IN + 1.5

    @pytest.mark.parametrize(
        ("bust", "neck_base", "neck", "underbust"),
        [
            (31 + 1 / 8, 13 + 1 / 4, 12 + 3 / 8, 25 + 3 / 4),
            (37 + 1 / 4, 14 + 7 / 8, 13 + 7 / 8, 31.0),
            (46.0, 16 + 3 / 8, 16.0, 39 + 5 / 8),
        ],
    )
    def test_neck_and_underbust(
        self, bust: float, neck_base: float, neck: float, underbust: float
    ) -> None:
        """ASTM D5585-11e1, misses, Table 1: sizes 00, 10 and 20. Within 1.2 cm."""
        m = size(bust * IN).measures
        assert m["neck_base_girth"] == pytest.approx(neck_base * IN, abs=1.2)
        assert m["neck_girth"] == pytest.approx(neck * IN, abs=1.2)
        assert m["underbust_girth"] == pytest.approx(underbust * IN, abs=1.2)

    @pytest.mark.parametrize("number", [38, 40, 46])
    def test_sizes_of_the_trade_are_rows(self, number: int) -> None:
        """German women's sizes: number = bust / 2 - 6 (style-engineers.com, 2012)."""
        assert size(2 * (number + 6)).measures["bust_girth"] == 2 * (number + 6)

    def test_heights_of_the_three_rows(self) -> None:
        """German women's sizes: 168 normal, 160 short, 176 long (style-engineers.com, 2012)."""
        assert chart_of(family_named()).rows == {"short": 160, "regular": 168, "tall": 176}

    def test_back_length_per_height(self) -> None:
        """Rosenfeld, The Practical Designer (1918): 1/4 in of waist length to 1 in of height, which
        the survey of 2012 (0.195 to 0.207) shows a little steep; ours lies between."""
        short, tall = (size(88, row).measures["back_waist_length"] for row in ("short", "tall"))
        assert 0.195 <= (tall - short) / 16 <= 0.25


class TestSurveyMeans:
    """A body of the survey's mean height, bust and hip estimates the survey's means.

    ANSUR II (2012), 1,986 women: stature 162.8, bust 94.7, hip 102.1 cm.
    """

    MEAN = resolve(
        BodyCard(name="mean", measures={"stature": 162.8, "bust_girth": 94.7, "hip_girth": 102.1})
    )

    @pytest.mark.parametrize(
        ("name", "mean", "spread"),
        [
            ("neck_girth", 33.0, 2.56),
            ("neck_base_girth", 37.1, 2.76),
            ("shoulder_length", 13.5, 1.88),
            ("shoulder_breadth", 36.5, 2.98),
            ("back_width", (2 * 37.3 + 39.6) / 3, None),
            ("back_waist_length", (2 * 38.0 + 42.5) / 3, None),
            ("bust_depth", 22.4 + 4.6, 4.36),
            ("inside_leg", 78.2, 4.62),
            ("knee_height", 44.9, 2.8),
            ("waist_to_hip", 19.2 - 4.6 / 3, None),
            ("waist_to_knee", 57.7 - 4.6 / 3, None),
            ("waist_to_floor", 102.6 - 4.6 / 3, None),
            ("body_rise", 24.4 - 4.6 / 3 + 2, None),
            ("crotch_length", 62.1 + 2 * 2 * 4.6 / 3, None),
            ("arm_length", 54.4, 3.58),
            ("upper_arm_length", 31.1, 2.06),
            ("back_neck_to_wrist", 80.7, 4.26),
            ("upper_arm_girth", 30.6 - 1.5, 3.46),
            ("forearm_girth", 26.4, 2.48),
            ("wrist_girth", 15.5, 1.14),
            ("hand_girth", 18.7, 1.48),
            ("thigh_girth", 61.6, 3.8),
            ("calf_girth", 37.3, 3.84),
            ("ankle_girth", 21.6, 2.46),
            ("head_girth", 56.1, 3.62),
        ],
    )
    def test_means_and_twice_the_scatter(
        self, name: str, mean: float, spread: float | None
    ) -> None:
        """A least-squares line passes through the means; 0.1 cm for the rounding of both."""
        reading = self.MEAN.reading(name)
        assert reading.value == pytest.approx(mean, abs=0.1)
        if spread is not None:
            assert reading.spread == pytest.approx(spread)

    def test_hip_on_height_and_bust(self) -> None:
        assert HIP.at(162.8, 94.7) == pytest.approx(102.1, abs=0.1)

    def test_waist_is_the_narrow_one(self) -> None:
        """Heinz et al. 2003, 260 active women: narrowest waist 69.8, navel 83.7 on the mean; the
        survey's navel girth is 86.1, whose bridge 16.52 + 0.6362 x 86.1 gives 71.3. The line on hip
        and height gives 76.1: the two ways differ by about one scatter (4.4) of either."""
        assert self.MEAN.value("waist_girth") == pytest.approx(71.3, abs=5)
        assert self.MEAN.value("waist_girth") < 80
        assert WAIST.scatter == 4.4

    def test_rules_of_thumb_that_held_on_the_survey(self) -> None:
        """ANSUR II women: arm = stature / 3 (bias -0.07), shoulder = stature / 12 (+0.03)."""
        assert self.MEAN.value("arm_length") == pytest.approx(162.8 / 3, abs=0.2)
        assert self.MEAN.value("shoulder_length") == pytest.approx(162.8 / 12, abs=0.2)

    def test_neck_base_against_a_chart(self) -> None:
        """ASTM D5585-11e1 size 10: bust 37 1/4, neck base 14 7/8 in; the line on bust alone gives
        371 mm, the chart 378: within one scatter (1.4 cm)."""
        body = resolve(
            BodyCard(
                name="x", measures={"bust_girth": 37.25 * IN, "hip_girth": 102, "stature": 165}
            )
        )
        assert body.value("neck_base_girth") == pytest.approx(14.875 * IN, abs=1.4)
