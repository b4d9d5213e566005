"""A neckline drawn anew is as wide, as deep and as square as was asked."""

from __future__ import annotations

from math import degrees

import pytest

from cutwright.errors import StepError
from cutwright.geometry.curve import Line, curvature
from cutwright.geometry.hollow import least_radius
from cutwright.geometry.path import (
    Path,
    end_direction,
    path_length,
    point_at,
    reversed_path,
    split_path,
    start_direction,
)
from cutwright.geometry.point import angle_between, distance_to_line
from cutwright.pattern.piece import Piece
from cutwright.pattern.shaping.necklines import EASY
from cutwright.steps.reshape_neckline import ReshapeNeckline
from tests.hand_pieces import NOBODY, dress

SHAPES = ("round", "square", "V", "boat")


def inner_angle(piece: Piece, before: str, after: str) -> float:
    """The angle of the paper where one edge ends and the next begins, degrees."""
    one, other = piece.edge_parts(before)[-1], piece.edge_parts(after)[0]
    return 180 - degrees(angle_between(end_direction(one.curves), start_direction(other.curves)))


def drawn(**asked: object) -> tuple[Piece, Piece]:
    result = ReshapeNeckline.model_validate(asked).apply(dress(), NOBODY)
    return result.pattern.piece("front"), result.pattern.piece("back")


@pytest.mark.parametrize("shape", SHAPES)
def test_shoulders_and_centres_lose_what_was_asked(shape: str) -> None:
    before = dress()
    front, back = drawn(shape=shape, wider=2.5, front_deeper=6, back_deeper=1.5)
    for piece, centre, deeper in ((front, "centre front", 6.0), (back, "centre back", 1.5)):
        was = before.piece(piece.name)
        assert was.edge_length("shoulder") - piece.edge_length("shoulder") == pytest.approx(2.5)
        assert was.edge_length(centre) - piece.edge_length(centre) == pytest.approx(deeper)


@pytest.mark.parametrize("shape", SHAPES)
def test_it_flows_over_the_shoulder_and_meets_the_fold_square(shape: str) -> None:
    front, back = drawn(shape=shape, wider=2.5, front_deeper=6, back_deeper=1.5)
    over = inner_angle(front, "shoulder", "neckline") + inner_angle(back, "neckline", "shoulder")
    assert over == pytest.approx(180, abs=0.01)
    assert inner_angle(back, "centre back", "neckline") == pytest.approx(90, abs=0.01)
    if shape != "V":
        assert inner_angle(front, "neckline", "centre front") == pytest.approx(90, abs=0.01)


@pytest.mark.parametrize("shape", ["round", "boat"])
def test_a_rounded_line_bends_one_way_only(shape: str) -> None:
    front, back = drawn(shape=shape, back_shape=shape, wider=3, front_deeper=2, back_deeper=1)
    for piece in (front, back):
        bends = [curvature(c, i / 20) for c in piece.edge("neckline").curves for i in range(21)]
        assert max(bends) <= 1e-9


BOTH = {"wider": 2.5, "front_deeper": 6, "back_deeper": 1.5}
WIDE = {"wider": 3.5, "front_deeper": 2, "back_deeper": 1}


@pytest.mark.parametrize("behind", SHAPES)
@pytest.mark.parametrize("shape", SHAPES)
def test_front_and_back_make_a_straight_line_at_the_shoulder(shape: str, behind: str) -> None:
    front, back = drawn(shape=shape, back_shape=behind, **BOTH)
    over = inner_angle(front, "shoulder", "neckline") + inner_angle(back, "neckline", "shoulder")
    assert over == pytest.approx(180, abs=0.01)


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("asked", [BOTH, WIDE])
def test_no_neckline_turns_more_tightly_than_can_be_sewn(
    shape: str, asked: dict[str, float]
) -> None:
    for piece in drawn(shape=shape, **asked):
        assert least_radius(piece.edge("neckline").curves) >= EASY


def bow_and_chord(path: Path) -> tuple[float, float]:
    """How far a line leaves the straight one between its ends, and the length of that."""
    a, b = path[0].start, path[-1].end
    points = [point_at(path, path_length(path) * i / 40) for i in range(41)]
    return max(distance_to_line(p, a, b) for p in points), abs(b - a)


def test_a_v_runs_straight_from_the_shoulder_and_the_back_takes_the_rest_of_the_angle() -> None:
    front, back = drawn(shape="V", **BOTH)
    (line,) = front.edge("neckline").curves
    assert isinstance(line, Line)
    assert inner_angle(back, "neckline", "shoulder") < 80  # no longer square to the shoulder


def test_a_v_whose_back_stays_is_slightly_hollow_all_the_way() -> None:
    front, _back = drawn(shape="V", front_deeper=3)
    path = front.edge("neckline").curves
    bow, chord = bow_and_chord(path)
    assert 0.1 < bow < chord / 12
    bends = [curvature(c, i / 20) for c in path for i in range(21)]
    assert max(bends) <= 1e-9 or min(bends) >= -1e-9
    assert max(map(abs, bends)) < 1 / 8  # no turn at the shoulder


def test_a_boat_turns_at_the_shoulder_and_runs_nearly_straight() -> None:
    for piece in drawn(
        shape="boat", back_shape="boat", wider=3.5, front_deeper=-2.5, back_deeper=0.5
    ):
        path = piece.edge("neckline").curves
        path = path if piece.name == "front" else reversed_path(path)
        bow, chord = bow_and_chord(split_path(path, path_length(path) * 0.3)[1])
        assert bow < chord / 12


def test_a_v_says_that_its_point_is_wanted() -> None:
    front, back = drawn(shape="V", front_deeper=12)
    (mark,) = [m for m in front.marks if m.kind == "corner"]
    assert (mark.kind, mark.edge) == ("corner", "neckline")
    assert mark.at == front.edge("centre front").start
    assert not [m for m in back.marks if m.edge == "neckline"]


def test_a_square_marks_its_corner_and_a_rounded_one_has_none() -> None:
    sharp, _back = drawn(shape="square", wider=2, front_deeper=5)
    (mark,) = [m for m in sharp.marks if m.kind == "corner"]
    assert mark.edge == "neckline"
    soft, _back = drawn(shape="square", wider=2, front_deeper=5, rounding=2)
    assert not [m for m in soft.marks if m.kind == "corner"]
    assert soft.edge("neckline").length < sharp.edge("neckline").length


def test_drawing_it_again_forgets_the_old_point() -> None:
    once = ReshapeNeckline(shape="V", front_deeper=8.0).apply(dress(), NOBODY).pattern
    front = ReshapeNeckline(shape="round", wider=2.0).apply(once, NOBODY).pattern.pieces[0]
    assert not [m for m in front.marks if m.kind == "corner"]


def test_the_back_stays_as_it_is_when_nothing_is_asked_of_it() -> None:
    _front, back = drawn(front_deeper=3)
    assert back == dress().piece("back")


def test_a_neckline_below_the_bust_takes_the_bust_level_away() -> None:
    front, back = drawn(shape="V", front_deeper=25)
    assert [x.name for x in front.levels] == ["waist", "hip"]
    assert [x.name for x in back.levels] == ["waist", "hip"]


def test_a_dart_in_the_way_is_named_with_what_to_do() -> None:
    with pytest.raises(StepError, match=r"bust dart.*4\.5 cm.*Move the dart.*at most 4\.0 cm"):
        drawn(wider=5)


def test_too_shallow_a_line_is_refused() -> None:
    with pytest.raises(StepError, match=r"bend both ways.*Make it deeper"):
        drawn(wider=3.9, back_deeper=-3)


def test_too_deep_a_line_for_its_width_is_refused() -> None:
    with pytest.raises(StepError, match=r"bend both ways.*Make it wider"):
        drawn(front_deeper=14)


def test_a_rounding_that_does_not_fit_is_refused() -> None:
    with pytest.raises(StepError, match="at most"):
        drawn(shape="square", wider=1, front_deeper=3, rounding=14)
