"""A waistband is as long as the waist it is sewn to, with its overlap beyond."""

from __future__ import annotations

from typing import Any

import pytest

from cutwright.errors import StepError
from cutwright.pattern.edge import Ref
from cutwright.pattern.mark import MarkKind
from cutwright.pattern.result import Result
from cutwright.steps.waistband import Waistband
from cutwright.wording.figures import how
from tests.hand_pieces import NOBODY, skirt

EDGES = [{"piece": p, "edge": "waist"} for p in ("skirt back", "skirt front")]


def banded(**asked: Any) -> Result:
    return Waistband.model_validate({"edges": EDGES, **asked}).apply(skirt(), NOBODY)


def waist_all_round() -> float:
    return 2 * sum(skirt().length(Ref(p, "waist")) for p in ("skirt back", "skirt front"))


def test_it_is_as_long_as_the_waist_and_twice_as_wide() -> None:
    band = banded(width=3.5, overlap=2.5).pattern.piece("waistband")
    assert band.edge_length("waist") == pytest.approx(waist_all_round())
    assert band.edge_length("overlap") == pytest.approx(2.5)
    assert band.edge_length("left end") == pytest.approx(7.0)
    (fold,) = [m for m in band.marks if m.kind == "line"]
    assert fold.at.imag == pytest.approx(3.5)


def test_the_ease_is_held_in() -> None:
    pattern = banded(ease=2.0).pattern
    (sewn,) = [s for s in pattern.seams if s.kind == "waistband"]
    waist, band = pattern.seam_lengths(sewn)
    assert waist - band == pytest.approx(2.0)
    assert sewn.ease == 2.0


def test_without_overlap_there_is_no_overlap_edge() -> None:
    assert "overlap" not in banded(overlap=0).pattern.piece("waistband").edge_names()


def test_the_overlap_is_marked_with_its_amount() -> None:
    band = banded(overlap=2.5).pattern.piece("waistband")
    (mark,) = [m for m in band.marks if m.kind is MarkKind.OVERLAP]
    assert mark.at == pytest.approx(complex(waist_all_round(), 0))
    assert mark.amount == 2.5
    without = banded(overlap=0).pattern.piece("waistband")
    assert not [m for m in without.marks if m.kind is MarkKind.OVERLAP]


def test_a_faced_one_comes_with_its_facing() -> None:
    pattern = banded(folded=False).pattern
    band, facing = pattern.piece("waistband"), pattern.piece("waistband facing")
    assert band.edges == facing.edges
    assert band.edge_length("left end") == pytest.approx(3.0)


def test_the_sum_is_written_out() -> None:
    figure = banded(ease=1.5, overlap=3).figures[0]
    assert how(figure) == (
        "skirt back 17.58 + skirt front 17.58 = 35.16; 35.16 × 2 all round = 70.32 → 70.3; "
        "70.3 − eased in 1.5 + overlap 3.0 = 71.8"
    )
    assert figure.value == 71.8


def test_edges_that_do_not_follow_each_other_are_refused() -> None:
    apart = [{"piece": "skirt back", "edge": "waist"}, {"piece": "skirt front", "edge": "hem"}]
    with pytest.raises(StepError, match="do not follow"):
        banded(edges=apart)
