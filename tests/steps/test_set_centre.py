"""A centre on the fold or as a seam."""

from __future__ import annotations

import pytest

from cutwright.errors import StepError
from cutwright.geometry.path import is_straight
from cutwright.pattern.edge import EdgeKind, Ref
from cutwright.steps.cut_apart import CutApart
from cutwright.steps.set_centre import SetCentre
from cutwright.steps.waistband import Waistband
from cutwright.wording.figures import how
from tests.hand_pieces import NOBODY, dress, skirt
from tests.operations.rows import after
from tests.steps.test_reshape_neckline import inner_angle


def test_a_seam_is_cut_twice_and_sewn_to_its_mirror() -> None:
    pattern = SetCentre(pieces=("back",)).apply(dress(), NOBODY).pattern
    back = pattern.piece("back")
    assert (back.cut.copies, back.cut.mirrored) == (2, True)
    assert back.edge("centre back").kind is EdgeKind.CENTRE
    assert back.times == dress().piece("back").times
    ref = Ref("back", "centre back")
    (own,) = [s for s in pattern.seams if set(s.refs) == {ref}]
    assert not any(side.backwards for row in own.rows for side in row)


def test_back_to_the_fold_is_where_it_began() -> None:
    seamed = SetCentre(pieces=("back",), zip=30.0).apply(dress(), NOBODY).pattern
    again = SetCentre(pieces=("back",), on="fold").apply(seamed, NOBODY).pattern
    assert again == dress()


def test_asked_twice_it_is_sewn_once() -> None:
    once = SetCentre(pieces=("back",)).apply(dress(), NOBODY).pattern
    assert SetCentre(pieces=("back",)).apply(once, NOBODY).pattern == once


def test_the_hollow_is_taken_out_at_the_waist_and_below_the_hip_it_is_straight() -> None:
    before = dress().piece("back")
    back = SetCentre(pieces=("back",), hollow=2.0).apply(dress(), NOBODY).pattern.piece("back")
    for name, taken in (("waist", 2.0), ("hip", 0.0)):
        level, was = back.level(name), before.level(name)
        assert level is not None
        assert was is not None
        assert was.length - level.length == pytest.approx(taken, abs=1e-3)
    hip = next(c for c in back.edge("centre back").curves if c.start.imag > 90)
    assert is_straight((hip,))
    assert hip.end == pytest.approx(60j)


def test_a_skirt_loses_the_hollow_from_its_waist_edge() -> None:
    before = skirt().piece("skirt back")
    step = SetCentre(pieces=("skirt back",), hollow=1.5)
    back = step.apply(skirt(), NOBODY).pattern.piece("skirt back")
    assert before.edge_length("waist") - back.edge_length("waist") == pytest.approx(1.5)
    assert inner_angle(back, "centre back", "waist") == pytest.approx(90, abs=0.01)
    assert inner_angle(back, "hem", "centre back") == pytest.approx(90, abs=0.01)


def test_the_zip_ends_where_it_was_asked_to() -> None:
    back = SetCentre(pieces=("back",), zip=42.0).apply(dress(), NOBODY).pattern.piece("back")
    (mark,) = [m for m in back.marks if m.kind == "zip end"]
    assert (mark.edge, mark.amount) == ("centre back", 42.0)
    assert mark.at == pytest.approx(42j)


def test_a_zip_runs_on_from_piece_to_piece() -> None:
    cut = after(CutApart(pieces=("back",), lower=("lower back",), at="hip"), dress())
    step = SetCentre(pieces=("back", "lower back"), zip=70.0)
    result = step.apply(cut, NOBODY)
    assert not [m for m in result.pattern.piece("back").marks if m.kind == "zip end"]
    (mark,) = [m for m in result.pattern.piece("lower back").marks if m.kind == "zip end"]
    assert mark.at == pytest.approx(70j)
    zip_length, end = result.figures
    assert zip_length.value == 70.0
    assert how(end) == "opening 70.0 − back 60.0 = 10.0"


@pytest.mark.parametrize(
    ("asked", "why"),
    [
        ({"on": "fold", "zip": 20.0}, "fold"),
        ({"on": "fold", "hollow": 1.0}, "fold"),
        ({"zip": 79.0}, "at least 1 cm"),
    ],
)
def test_what_cannot_be_is_refused(asked: dict[str, object], why: str) -> None:
    step = SetCentre.model_validate({"pieces": ["skirt back"], **asked})
    with pytest.raises(StepError, match=why):
        step.apply(skirt(), NOBODY)


def test_a_shaped_centre_cannot_lie_on_the_fold() -> None:
    shaped = SetCentre(pieces=("back",), hollow=2.0).apply(dress(), NOBODY).pattern
    with pytest.raises(StepError, match="shaped"):
        SetCentre(pieces=("back",), on="fold").apply(shaped, NOBODY)


def test_a_hollow_that_parts_a_waist_seam_is_refused() -> None:
    edges = [{"piece": p, "edge": "waist"} for p in ("skirt back", "skirt front")]
    banded = Waistband.model_validate({"edges": edges}).apply(skirt(), NOBODY).pattern
    with pytest.raises(StepError, match="would not meet any more"):
        SetCentre(pieces=("skirt back",), hollow=1.5).apply(banded, NOBODY)
