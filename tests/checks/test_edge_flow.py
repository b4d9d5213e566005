"""Rules 2 and 3: edges run on across seams and folds, and have no corner of their own."""

from __future__ import annotations

from dataclasses import replace

import pytest

from cutwright.checks.proof import prove
from cutwright.geometry.curve import Cubic, Line
from cutwright.geometry.move import Move
from cutwright.pattern.edge import Edge, EdgeKind, Ref
from cutwright.pattern.mark import MarkKind
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Cut, Mark, Piece
from cutwright.pattern.role import Role
from cutwright.pattern.seam import seam
from tests.checks.hand import back, front, hem_dropped_at_side, skirt, with_edge
from tests.pattern.test_change import cut_across


def test_a_square_hem_flows() -> None:
    row = prove(skirt()).measured("edge-flow")
    assert row.count == 4  # hem and waist at the side, hem and waist at the centre back
    assert row.worst == pytest.approx(0, abs=1e-6)


def test_a_hem_that_dips_at_the_side_is_found() -> None:
    spoilt = skirt(hem_dropped_at_side(front(), 2.0), hem_dropped_at_side(back(), 2.0))
    found = [f for f in prove(spoilt).faults if f.code == "edge-flow"]
    assert "skirt front: hem / side ~ skirt back: hem / side" in [f.where for f in found]
    assert all(f.value is not None and f.value > 3 for f in found)


def tilted_waist(piece: Piece, by: float) -> Piece:
    """The waist at the centre drawn up by so much, so that it no longer meets it squarely."""
    waist = piece.edge("waist.2")
    centre = piece.edge("centre front" if piece.role is Role.FRONT else "centre back")
    top = -by * 1j
    if piece.role is Role.FRONT:
        waist = waist.with_curves((Line(waist.start, top),))
        centre = centre.with_curves((Line(top, centre.end),))
    else:
        waist = waist.with_curves((Line(top, waist.end),))
        centre = centre.with_curves((Line(centre.start, top),))
    return with_edge(with_edge(piece, waist.label, waist), centre.name, centre)


def test_a_peak_across_a_centre_seam_is_found() -> None:
    found = [f.where for f in prove(skirt(back_piece=tilted_waist(back(), 0.6))).faults]
    assert "skirt back: waist.2 / centre back" in found


@pytest.mark.parametrize(("by", "good"), [(0.1, True), (0.2, False)])
def test_what_meets_the_fold_is_square(by: float, good: bool) -> None:
    """0.1 in 9 is 0.6 degrees, 0.2 in 9 is 1.3 degrees."""
    found = {f.code for f in prove(skirt(tilted_waist(front(), by))).faults}
    assert ("fold-square" not in found) == good


def test_a_point_that_the_style_asks_for_passes() -> None:
    piece = tilted_waist(front(), 2.0)
    assert "fold-square" in {f.code for f in prove(skirt(piece)).faults}
    marked = replace(piece, marks=(Mark(MarkKind.CORNER, -2j, edge="waist"),))
    assert "fold-square" not in {f.code for f in prove(skirt(marked)).faults}
    elsewhere = replace(piece, marks=(Mark(MarkKind.CORNER, -9 + 0j, edge="waist"),))
    assert "fold-square" in {f.code for f in prove(skirt(elsewhere)).faults}


def test_a_fold_off_the_grain_is_found() -> None:
    leaning = replace(front(), grain=(-12 + 20j, -11 + 50j))
    fault = next(f for f in prove(skirt(leaning)).faults if f.code == "fold-on-grain")
    assert fault.value == pytest.approx(1.909, abs=0.001)
    assert "fold-on-grain" not in {f.code for f in prove(skirt()).faults}


def test_a_hollow_fold_is_found() -> None:
    piece = front()
    fold = piece.edge("centre front").with_curves((Cubic(0j, -0.5 + 20j, -0.5 + 40j, 60j),))
    assert "fold-on-grain" in {
        f.code for f in prove(skirt(with_edge(piece, fold.name, fold))).faults
    }


def test_a_corner_within_an_edge_is_found() -> None:
    piece = front()
    hem = piece.edge("hem")
    low = -13 + 61j
    kinked = with_edge(piece, "hem", hem.with_curves((Line(hem.start, low), Line(low, hem.end))))
    assert "edge-corner" in {f.code for f in prove(skirt(kinked)).findings}
    assert "edge-corner" not in {f.code for f in prove(skirt()).findings}
    wanted = replace(kinked, marks=(Mark(MarkKind.CORNER, low, edge="hem"),))
    assert "edge-corner" not in {f.code for f in prove(skirt(wanted)).findings}


def necked(*curves: Cubic) -> Pattern:
    """A piece whose upper edge is a neckline of the given curves from (0, 0) to (10, 8)."""
    edges = (
        Edge("neckline", curves, EdgeKind.NECKLINE),
        Edge("right", (Line(10 + 8j, 10 + 30j),), EdgeKind.FREE),
        Edge("bottom", (Line(10 + 30j, 30j),), EdgeKind.FREE),
        Edge("left", (Line(30j, 0j),), EdgeKind.FREE),
    )
    return Pattern((Piece("yoke", edges, (5 + 12j, 5 + 25j)),))


def test_a_neckline_that_waves_is_found() -> None:
    quarter = necked(Cubic(0j, 4.4j, 5.6 + 8j, 10 + 8j))
    wave = necked(Cubic(0j, 6 + 0j, 4 + 8j, 10 + 8j))
    assert "curve-wave" not in {f.code for f in prove(quarter).findings}
    assert "curve-wave" in {f.code for f in prove(wave).findings}


def shoulder_pair(back_angle: float, front_angle: float) -> Pattern:
    """Two pieces sewn at a shoulder 12 long; the armhole leaves each at the angle given."""
    from math import radians

    from cutwright.geometry.point import direction

    def piece(name: str, angle: float) -> Piece:
        end = 12 + 0j
        foot = end + 20 * direction(radians(180 - angle))
        edges = (
            Edge("shoulder", (Line(0j, end),), EdgeKind.SHOULDER),
            Edge("armhole", (Line(end, foot),), EdgeKind.ARMHOLE),
            Edge("bottom", (Line(foot, complex(0, foot.imag)),), EdgeKind.FREE),
            Edge("neckline", (Line(complex(0, foot.imag), 0j),), EdgeKind.NECKLINE),
        )
        return Piece(name, edges, (5 + 5j, 5 + 15j), Cut(2, True))

    pieces = (
        piece("back", back_angle),
        replace(piece("front", front_angle).moved(Move.mirror(0j, 1j)), name="front"),
    )
    return Pattern(pieces, (seam(Ref("back", "shoulder"), Ref("front", "shoulder")),))


@pytest.mark.parametrize(
    ("back_angle", "front_angle", "flow", "turned"),
    [
        (90, 90, True, True),
        (98, 82, True, True),
        (92.5, 90, True, True),
        (98, 86, False, True),
        (105, 75, True, False),
    ],
)
def test_a_shoulder_corner_may_be_turned(
    back_angle: float, front_angle: float, flow: bool, turned: bool
) -> None:
    found = {f.code for f in prove(shoulder_pair(back_angle, front_angle)).findings}
    assert ("edge-flow" not in found) == flow
    assert ("corner-turned" not in found) == turned


def test_a_slit_filled_with_a_wedge_is_no_bend() -> None:
    """A godet: where both edges of the slit end, each is sewn to the wedge, so nothing must flow."""
    tip, left, right = 10 + 10j, 9 + 40j, 11 + 40j
    outer = (
        Edge("top", (Line(0j, 20 + 0j),), EdgeKind.FREE),
        Edge("right", (Line(20 + 0j, 20 + 40j),), EdgeKind.FREE),
        Edge("hem", (Line(20 + 40j, right),), EdgeKind.HEM, (1,)),
        Edge("slit right", (Line(right, tip),), EdgeKind.SEAM),
        Edge("slit left", (Line(tip, left),), EdgeKind.SEAM),
        Edge("hem", (Line(left, 40j),), EdgeKind.HEM, (2,)),
        Edge("left", (Line(40j, 0j),), EdgeKind.FREE),
    )
    long = abs(right - tip)
    a, b = 0j, Move.about(0j, 0.9)(complex(0, long))
    wedge = (
        Edge("left", (Line(b, a),), EdgeKind.SEAM),
        Edge("right", (Line(a, complex(0, long)),), EdgeKind.SEAM),
        Edge("hem", (Line(complex(0, long), b),), EdgeKind.HEM),
    )
    pattern = Pattern(
        (Piece("skirt", outer, (3 + 5j, 3 + 30j)), Piece("godet", wedge, (5j, 20j))),
        (
            seam(Ref("skirt", "slit right"), Ref("godet", "right")),
            seam(Ref("skirt", "slit left"), Ref("godet", "left")),
        ),
    )
    where = [f.where for f in prove(pattern).faults if f.code == "edge-flow"]
    assert not any("slit left / slit right" in w or "slit right / slit left" in w for w in where)


def test_a_seam_of_several_pieces_is_looked_at_where_it_begins_and_ends() -> None:
    """Both sides cut apart at two heights: waist runs on into waist above, hem into hem below."""
    pattern = cut_across(12.0, 15.0)
    row = prove(pattern).measured("edge-flow")
    assert row.count == 2
    assert row.worst == pytest.approx(0.0)
    bent = pattern.piece("lower back")
    low = bent.edge("side").end + 3j
    changed = tuple(
        replace(e, curves=(Line(e.curves[0].start, low),)) if e.label == "side"
        else replace(e, curves=(Line(low, e.curves[0].end),)) if e.label == "hem" else e
        for e in bent.edges
    )  # fmt: skip
    spoilt = pattern.with_pieces(replace(bent, edges=changed))
    assert [f.where for f in prove(spoilt).faults if f.code == "edge-flow"] == [
        "lower front: hem / side ~ lower back: hem / side"
    ]
