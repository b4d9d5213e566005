"""Rule 4: darts close. And outlines are simple."""

from __future__ import annotations

from cmath import rect
from dataclasses import replace
from math import radians

import pytest

from cutwright.checks.proof import prove
from cutwright.geometry.curve import Line
from cutwright.pattern.edge import EdgeKind
from cutwright.pattern.mark import MarkKind
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Dart, Diamond, Mark, Piece
from tests.checks.hand import TIP, front, skirt, with_edge


def found(piece: Piece) -> dict[str, str]:
    return {f.code: f.level for f in prove(skirt(piece)).findings}


def with_tip(piece: Piece, tip: complex) -> Piece:
    """The waist dart sewn to another point; it still closes about the old one."""
    one, two = piece.legs(piece.darts[0])
    piece = with_edge(piece, one.label, one.with_curves((Line(one.start, tip),)))
    piece = with_edge(piece, two.label, two.with_curves((Line(tip, two.end),)))
    return replace(piece, darts=(Dart("waist dart", TIP, tip),))


def test_a_good_dart_passes() -> None:
    proof = prove(skirt())
    assert proof.findings == ()
    assert proof.measured("dart-legs").count == 2
    assert proof.measured("dart-intake").worst == pytest.approx(2 * 12 * 0.119712, abs=0.001)


def test_unequal_legs_are_found() -> None:
    assert found(with_tip(front(), TIP + 0.5)).get("dart-legs") == "fault"
    one, _two = front().legs(front().darts[0])
    middle = (one.start + (-9 + 0j)) / 2
    straight_on = TIP + (TIP - middle) / abs(TIP - middle)
    assert "dart-legs" not in found(with_tip(front(), straight_on))


def test_legs_that_miss_the_point_are_found() -> None:
    piece = replace(front(), darts=(Dart("waist dart", TIP, TIP + 0.3j),))
    assert found(piece).get("dart-legs") == "fault"


def test_a_dart_without_legs_is_found() -> None:
    piece = replace(front(), darts=(*front().darts, Dart("lost dart", TIP, TIP)))
    assert found(piece).get("dart-legs") == "fault"


def test_a_mouth_cut_straight_across_is_found() -> None:
    """A dart drawn into a straight waist, its mouth not shaped: folded, the waist has a dip."""
    piece = front()
    waist = piece.edge("waist.1")
    straight = waist.with_curves((Line(waist.start - 1.5j, waist.end),))
    side = piece.edge("side")
    low = side.curves[-1]
    piece = with_edge(piece, "waist.1", straight)
    moved = side.with_curves((*side.curves[:-1], Line(low.start, straight.start)))
    piece = with_edge(piece, "side", moved)
    assert found(piece).get("dart-mouth") == "fault"


@pytest.mark.parametrize(("bend", "good"), [(2.5, True), (3.5, False)])
def test_a_mouth_may_bend_by_three_degrees(bend: float, good: bool) -> None:
    """With the dart folded the waist runs on; the outer part is turned down by so many degrees."""
    piece = front()
    waist, side = piece.edge("waist.1"), piece.edge("side")
    top = waist.end + (waist.start - waist.end) * rect(1.0, -radians(bend))
    low = side.curves[-1]
    piece = with_edge(piece, "waist.1", waist.with_curves((Line(top, waist.end),)))
    piece = with_edge(piece, "side", side.with_curves((*side.curves[:-1], Line(low.start, top))))
    assert ("dart-mouth" not in found(piece)) == good


def bust(piece: Piece, at: complex, *diamonds: Diamond) -> Piece:
    return replace(piece, marks=(Mark(MarkKind.POINT, at, "bust point"),), diamonds=diamonds)


@pytest.mark.parametrize(
    ("short", "level"), [(2.0, None), (2.6, None), (1.4, "note"), (0.4, "fault"), (-1.0, "fault")]
)
def test_a_bust_dart_stops_short(short: float, level: str | None) -> None:
    one, two = front().legs(front().darts[0])
    middle = (one.start + two.end) / 2
    down = (TIP - middle) / abs(TIP - middle)
    piece = bust(with_tip(front(), TIP - short * down), TIP)
    assert found(piece).get("dart-short-of-bust-point") == level


def test_on_a_whole_front_each_dart_is_held_to_the_bust_point_of_its_own_half() -> None:
    past = with_tip(front(), TIP + 0.5 * (TIP - sum(front().mouth(front().darts[0])) / 2))
    other = Mark(MarkKind.POINT, TIP + 18, "bust point")
    whole = replace(bust(past, TIP), marks=(other, *bust(past, TIP).marks))
    assert found(whole).get("dart-short-of-bust-point") == "fault"


def test_a_waist_dart_stays_away_from_the_bust_point() -> None:
    near = Diamond("second dart", -5 + 10j, -5 + 30j, -4.5 + 20j, -5.5 + 20j)
    assert found(bust(front(), -5 + 9.5j, near)).get("dart-short-of-bust-point") == "fault"
    assert "dart-short-of-bust-point" not in found(bust(front(), -5 + 7j, near))


def test_a_dart_that_takes_too_much_is_mentioned() -> None:
    wide = Diamond("second dart", -5 + 10j, -5 + 30j, -3 + 20j, -7.2 + 20j)
    assert found(replace(front(), diamonds=(wide,))).get("dart-intake") == "warning"
    assert "dart-intake" not in found(front())


def test_only_waist_darts_are_held_to_the_largest_intake() -> None:
    """A dart with its mouth at the side, or one that turns about the bust point, may take more."""
    one, two = front().legs(front().darts[0])
    took = abs(two.end - one.start)
    assert prove(skirt(front())).measured("dart-intake").worst == pytest.approx(took)
    seam = replace(
        front(),
        edges=tuple(
            replace(e, kind=EdgeKind.SEAM) if e.kind is EdgeKind.WAIST else e for e in front().edges
        ),
    )
    assert prove(Pattern((seam,))).measured("dart-intake").count == 0
    assert prove(Pattern((bust(front(), TIP),))).measured("dart-intake").count == 0


def test_an_outline_that_crosses_itself_is_found() -> None:
    piece = front()
    hem = piece.edge("hem")
    knot = (Line(hem.start, -20 + 30j), Line(-20 + 30j, 5 + 40j), Line(5 + 40j, hem.end))
    assert found(with_edge(piece, "hem", hem.with_curves(knot))).get("outline-simple") == "fault"


def test_an_open_outline_is_found() -> None:
    piece = front()
    hem = piece.edge("hem")
    opened = with_edge(piece, "hem", hem.with_curves((Line(hem.start + 0.1, hem.end),)))
    fault = next(f for f in prove(skirt(opened)).faults if f.code == "outline-simple")
    assert fault.value == pytest.approx(0.1)


def test_an_outline_the_wrong_way_round_is_found() -> None:
    piece = front()
    wrong = replace(piece, edges=tuple(e.reversed() for e in reversed(piece.edges)))
    assert found(wrong).get("outline-simple") == "fault"


def test_a_name_that_occurs_twice_is_found() -> None:
    piece = front()
    twice = with_edge(piece, "hem", replace(piece.edge("hem"), name="side"))
    assert found(twice).get("name-twice") == "fault"
