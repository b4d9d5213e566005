"""Level lines: broken where a dart is sewn out, one flowing line over opened gaps."""

from __future__ import annotations

from dataclasses import replace
from math import radians

from cutwright.drawing.level_lines import drawn_levels
from cutwright.geometry.path import path_length, polyline, start_direction
from cutwright.geometry.point import angle_between
from cutwright.pattern.piece import Level
from cutwright.pattern.shaping.truing import total_turn
from cutwright.steps.move_dart import MoveDart
from tests.hand_pieces import NOBODY, dress, skirt_front


def test_a_level_across_a_dart_is_drawn_on_both_sides_of_it() -> None:
    piece = skirt_front()
    dart = piece.darts[0]
    first, last = piece.mouth(dart)
    y = (0.5 * (first + last) + dart.tip).imag / 2
    level = Level("high hip", (complex(-40, y), complex(0, y)))
    lines = drawn_levels(piece, level)
    assert len(lines) == 2
    gone = level.length - sum(path_length(line) for line in lines)
    share = (dart.tip.imag - y) / (dart.tip.imag - first.imag)
    assert abs(gone - share * abs(last - first)) < 0.15 * abs(last - first)


def test_a_bust_line_stops_at_a_bust_dart_that_was_turned_through_it() -> None:
    moved = MoveDart.model_validate(
        {
            "piece": "front",
            "dart": "bust dart",
            "to": {"edge": "side", "near": "armhole", "distance": 6.0},
        }
    ).apply(dress(), NOBODY)
    piece = moved.pattern.piece("front")
    level = piece.level("bust")
    assert level is not None
    assert len(level.points) > 2
    for line in drawn_levels(piece, level):
        assert path_length(line) > 1


def test_gaps_that_lean_otherwise_do_not_make_it_zigzag() -> None:
    points = (
        *(0j, 5.9 + 0j, 6.66 + 0.11j, 9.0 + 0.21j),
        *(12.1 + 0.96j, 12.5 + 1.15j, 13.2 + 1.38j, 18.5 + 4.11j),
    )
    piece = replace(skirt_front(), darts=())
    (line,) = drawn_levels(piece, Level("hip", points))
    assert line[0].start == points[0]
    assert line[-1].end == points[-1]
    net = abs(angle_between(points[1] - points[0], points[-1] - points[-2]))
    assert total_turn(polyline(points)) > net + radians(18)
    assert total_turn(line) < net + radians(4)
    assert abs(angle_between(start_direction(line), points[1] - points[0])) < 1e-9


def test_a_plain_level_stays_one_straight_line() -> None:
    piece = skirt_front()
    level = piece.level("hip")
    assert level is not None
    (line,) = drawn_levels(replace(piece, darts=()), level)
    assert len(line) == 1
