"""Balance marks meet: walked from the same end of both rows they lie at the same place."""

from __future__ import annotations

import itertools
from dataclasses import replace

import pytest

from cutwright.checks.proof import prove
from cutwright.finish.notches import notched
from cutwright.geometry.draw import circle_arc
from cutwright.geometry.path import nearest_distance, point_at
from cutwright.pattern.edge import Edge, EdgeKind, Ref
from cutwright.pattern.mark import MarkKind
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Cut, Mark, Piece
from cutwright.pattern.role import Role
from cutwright.pattern.seam import Seam, SeamKind, Side, layers_of, seam
from cutwright.pattern.sewing.mark_places import NotchRules
from cutwright.pattern.sewing.rows import Row, rows_of
from tests.finish.pieces import flounced_skirt, line, skirt, strip


def places(row: Row) -> list[float]:
    """Where the notches of a row lie, walked from its beginning."""
    found: list[float] = []
    for s in row.stretches:
        for mark in s.piece.marks:
            if mark.kind == "notch" and mark.edge == s.edge.label:
                own = nearest_distance(s.edge.curves, mark.at)
                assert abs(point_at(s.edge.curves, own) - mark.at) < 1e-6
                found.append(s.begin + (s.length - own if s.backwards else own))
    return sorted(found)


def both(pattern: Pattern, one: Seam) -> tuple[list[float], list[float], Row, Row]:
    a, b = rows_of(pattern, one)
    return places(a), places(b), a, b


def test_side_seams_are_marked_at_the_hip_at_equal_distances() -> None:
    pattern = notched(skirt())
    a, b, _ra, _rb = both(pattern, pattern.seams[0])
    assert len(a) >= 1
    assert a == pytest.approx(b, abs=0.001)
    hip = pattern.piece("skirt front").level("hip")
    assert hip is not None
    assert any(
        abs(m.at - hip.points[0]) < 0.1
        for m in pattern.piece("skirt front").marks
        if m.kind == "notch"
    )


def test_behind_there_are_two() -> None:
    pattern = notched(skirt())
    texts = {m.edge: m.text for m in pattern.piece("skirt back").marks if m.kind == "notch"}
    assert texts == {"side": "1", "centre back": "2"}


def test_a_gathered_seam_has_equal_shares_and_its_joint() -> None:
    pattern = notched(flounced_skirt())
    marks = [m for m in pattern.piece("flounce").marks if m.edge == "top"]
    wide = pattern.piece("flounce").edge_length("top")
    everywhere = sorted(m.at.real / wide for m in marks if not m.copies)
    assert everywhere == pytest.approx([0.25, 0.75])
    # the side seam comes elsewhere on the second strip, which is walked on from the first
    sides = {m.copies: m.at.real / wide for m in marks if m.copies}
    assert {m.meets for m in marks if m.copies} == {"side"}
    assert sides[(1,)] + sides[(2,)] == pytest.approx(1)


def test_strips_on_a_ring_of_half_pieces_meet_all_round() -> None:
    whole = skirt()
    half = sum(whole.length(Ref(p.name, "hem")) for p in whole.pieces)
    for copies in (2, 3, 5):
        flounce = strip(half * 2 * 1.5 / copies, copies=copies)
        ring = seam(
            Ref("flounce", "top"),
            (Ref("skirt back", "hem"), Ref("skirt front", "hem")),
            ratio=1.5,
            kind=SeamKind.GATHERED,
        )
        pattern = notched(whole.with_pieces(flounce).with_seams(ring))
        assert "notch-walk" not in {f.code for f in prove(pattern).faults}
        assert [m for m in pattern.piece("flounce").marks if m.kind is MarkKind.NOTCH]


@pytest.mark.parametrize("wider", [0.0, 0.06, 0.15, 0.29, 0.45, 0.8, 1.5])
@pytest.mark.parametrize("ratio", [1.0, 1.5])
def test_a_side_seam_is_marked_on_a_ring_cut_twice_however_little_the_front_is_wider(
    wider: float, ratio: float
) -> None:
    """On the second copy the side seam lies elsewhere by what the front is wider than the back."""
    front = Piece("front", _half(42 + wider, EdgeKind.FOLD), (5 + 2j, 5 + 6j), role=Role.FRONT)
    back = Piece(
        "back", _half(42, EdgeKind.CENTRE), (5 + 2j, 5 + 6j), Cut(2, mirrored=True), role=Role.BACK
    )
    flounce = strip((84 + wider) * ratio, copies=2)
    seams = (
        seam(Ref("front", "side"), Ref("back", "side")),
        seam(Ref("back", "centre"), Ref("back", "centre"), same_way=True),
        Seam(layers_of((Side(Ref("flounce", "top"), False),), (Side(Ref("back", "hem"), False), Side(Ref("front", "hem"), True)),
            SeamKind.GATHERED if ratio > 1 else SeamKind.PLAIN, ratio)),
        seam(Ref("flounce", "right end"), Ref("flounce", "left end")),
    )  # fmt: skip
    pattern = notched(Pattern((front, back, flounce), seams))
    assert "notch-walk" not in {f.code for f in prove(pattern).faults}
    sides = [m for m in pattern.piece("flounce").marks if m.meets == "side"]
    assert sides, "the side seam is marked on the flounce"
    if wider <= 0.15:
        assert [m.copies for m in sides] == [()], "one notch does for both copies"
    for one, other in itertools.combinations(pattern.piece("flounce").marks, 2):
        assert abs(one.at - other.at) >= 0.5, "two notches that cannot be told apart"


def test_a_stretch_that_is_drawn_up_is_marked_at_its_ends() -> None:
    """Outside it both rows are marked at the same distances; the difference lies between."""
    ease = Mark(MarkKind.EASE, 20 + 0j, to=30 + 0j, edge="top", amount=3.0)
    one = Piece("one", _box(63), (2 + 2j, 2 + 6j), marks=(ease,))
    other = Piece("other", _box(60), (2 + 2j, 2 + 6j))
    joined = seam(
        Ref("one", "top"), Ref("other", "top"), ease=3.0, kind=SeamKind.EASED, same_way=True
    )
    a, b, _ra, _rb = both(notched(Pattern((one, other), (joined,))), joined)
    assert a == pytest.approx([20, 30])
    assert b == pytest.approx([20, 27])


def test_two_seams_on_one_edge_keep_their_marks_apart() -> None:
    """A facing's marks and those of another seam on the same edge are the same or well apart."""
    one = Piece("one", _box(60), (2 + 2j, 2 + 6j))
    halves = [Piece(n, _box(w), (2 + 2j, 2 + 6j)) for n, w in (("left", 29.7), ("right", 30.3))]
    facing = Piece("facing", _box(60), (2 + 2j, 2 + 6j))
    seams = (
        seam(Ref("one", "top"), (Ref("left", "top"), Ref("right", "top")), same_way=True),
        seam(Ref("one", "top"), Ref("facing", "top"), same_way=True, kind=SeamKind.FACING),
    )
    pattern = notched(Pattern((one, *halves, facing), seams))
    places = sorted(m.at.real for m in pattern.piece("one").marks)
    assert places[0] == pytest.approx(29.7)
    assert len(places) == 2
    assert places[1] - places[0] >= 1.0
    assert "notch-walk" not in {f.code for f in prove(pattern).faults}


def test_a_short_straight_seam_has_none() -> None:
    one = Piece("one", _box(12), (2 + 2j, 2 + 6j))
    other = replace(one, name="other")
    pattern = notched(Pattern((one, other), (seam(Ref("one", "top"), Ref("other", "top")),)))
    assert not pattern.piece("one").marks


def test_a_long_seam_has_no_stretch_without_a_mark() -> None:
    one = Piece("one", _box(130), (2 + 2j, 2 + 6j))
    pattern = notched(
        Pattern((one, replace(one, name="other")), (seam(Ref("one", "top"), Ref("other", "top")),))
    )
    a, b, _ra, _rb = both(pattern, pattern.seams[0])
    assert a == pytest.approx(b, abs=0.001)
    ends = [0.0, *a, 130.0]
    assert max(y - x for x, y in itertools.pairwise(ends)) <= NotchRules().widest


def test_an_armhole_is_single_in_front_and_double_behind() -> None:
    front = Piece("front", _arm("front"), (2 + 2j, 2 + 6j), role=Role.FRONT)
    back = Piece("back", _arm("back"), (2 + 2j, 2 + 6j), Cut(2, mirrored=True), role=Role.BACK)
    sleeve = Piece("sleeve", _box(44), (2 + 2j, 2 + 6j), Cut(2, mirrored=True), role=Role.SLEEVE)
    arm = seam(Ref("sleeve", "top"), (Ref("back", "armhole"), Ref("front", "armhole")), ease=1.0)
    front = replace(front, cut=Cut(2, mirrored=True))
    pattern = notched(Pattern((front, back, sleeve), (arm,)))
    a, b, ra, rb = both(pattern, arm)
    b = [
        d for d in b if 0.1 < d < rb.length - 0.1
    ]  # where the paper runs straight on, the end is marked
    assert {m.text for m in pattern.piece("front").marks} == {"1"}
    assert {m.text for m in pattern.piece("back").marks} == {"2"}
    assert sorted(m.text for m in pattern.piece("sleeve").marks) == ["1", "1", "2"]
    # outside the zone of ease: equal distances from the nearer end; the joint marks the sleeve
    assert a[0] == pytest.approx(b[0], abs=0.001)
    assert ra.length - a[-1] == pytest.approx(rb.length - b[-1], abs=0.001)
    assert len(a) == len(b) + 1


def test_marks_that_are_there_already_are_not_doubled() -> None:
    once = notched(skirt())
    assert notched(once) == once


def test_a_mark_of_the_draft_stays() -> None:
    pattern = skirt()
    front = pattern.piece("skirt front")
    own = Mark(MarkKind.NOTCH, front.edge("side").start, "1", edge="side")
    pattern = pattern.with_pieces(replace(front, marks=(own,)))
    assert own in notched(pattern).piece("skirt front").marks


def _box(width: float) -> tuple[Edge, ...]:
    p = [0j, width + 0j, width + 10j, 10j]
    names = ("top", "right", "bottom", "left")
    return tuple(Edge(n, line(p[i], p[(i + 1) % 4]), EdgeKind.SEAM) for i, n in enumerate(names))


def _half(width: float, middle: EdgeKind) -> tuple[Edge, ...]:
    """Half of a skirt, walked from the middle at x = 0 along the hem to the side."""
    p = [0j, width + 0j, width + 60j, 60j]
    names = ("hem", "side", "waist", "centre")
    kinds = (EdgeKind.HEM, EdgeKind.SIDE, EdgeKind.WAIST, middle)
    return tuple(Edge(n, line(p[i], p[(i + 1) % 4]), kinds[i]) for i, n in enumerate(names))


def _arm(name: str) -> tuple[Edge, ...]:
    curve = circle_arc(0j, 14j, -1.5)
    start, end = curve[0].start, curve[-1].end
    return (
        Edge("armhole", tuple(c.reversed() for c in reversed(curve)), EdgeKind.ARMHOLE),
        Edge("side", line(start, start - 20 + 0j), EdgeKind.SIDE),
        Edge("centre", line(start - 20, end - 40j), EdgeKind.CENTRE),
        Edge("shoulder", line(end - 40j, end), EdgeKind.SHOULDER),
    )
