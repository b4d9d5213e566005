"""Rule 1: seams walk, and their balance marks meet."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cutwright.checks.proof import prove
from cutwright.finish.notches import notched
from cutwright.geometry.curve import Line
from cutwright.geometry.path import nearest_distance, point_at
from cutwright.pattern.edge import Edge, EdgeKind, Ref
from cutwright.pattern.mark import MarkKind
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Cut, Piece
from cutwright.pattern.seam import SeamKind, seam
from cutwright.steps.waistband import Waistband
from tests.checks.hand import back, body, hem_dropped_at_side, skirt

ONCE = Cut()


def strip(name: str, width: float, kind: EdgeKind, cut: Cut = ONCE) -> Piece:
    """A rectangle 20 deep with its sewn edge on top."""
    corners = (0j, width + 0j, width + 20j, 20j)
    kinds = {"top": kind, "right": EdgeKind.FREE, "hem": EdgeKind.HEM, "left": EdgeKind.FREE}
    edges = tuple(
        Edge(edge, (Line(corners[i], corners[(i + 1) % 4]),), kinds[edge])
        for i, edge in enumerate(kinds)
    )
    return Piece(name, edges, (5j, 15j), cut)


def codes(pattern: Pattern) -> set[str]:
    return {finding.code for finding in prove(pattern).findings}


def test_equal_edges_walk() -> None:
    row = prove(skirt()).measured("seam-walk")
    assert row.count == 2
    assert row.worst == pytest.approx(0, abs=1e-9)


@given(st.floats(0.0, 1.0))
def test_a_longer_side_is_found_beyond_half_a_millimetre(by: float) -> None:
    proof = prove(skirt(back_piece=hem_dropped_at_side(back(), by)))
    gap = proof.measured("seam-walk").worst
    assert gap == pytest.approx(by, abs=0.002)
    if abs(by - 0.05) > 0.002:
        assert ("seam-walk" in {f.code for f in proof.faults}) == (by > 0.05)


def test_the_finding_tells_both_lengths_and_the_place() -> None:
    proof = prove(skirt(back_piece=hem_dropped_at_side(back(), 0.5)))
    fault = next(f for f in proof.faults if f.code == "seam-walk")
    assert fault.value == pytest.approx(0.5, abs=0.001)
    assert "skirt front: side" in fault.where
    assert fault.at is not None
    assert "0.50 cm apart" in str(fault.message)


@pytest.mark.parametrize(("top", "good"), [(72.0, True), (72.04, True), (72.2, False)])
def test_a_gathered_edge_is_held_to_its_ratio(top: float, good: bool) -> None:
    flounce = strip("flounce", top, EdgeKind.GATHERED)
    skirt_piece = strip("skirt", 40.0, EdgeKind.HEM)
    joined = seam(Ref("flounce", "top"), Ref("skirt", "top"), ratio=1.8, kind=SeamKind.GATHERED)
    assert ("seam-walk" not in codes(Pattern((flounce, skirt_piece), (joined,)))) == good


def test_ease_is_taken_into_account() -> None:
    pieces = (strip("crown", 42.0, EdgeKind.SEAM), strip("armhole", 40.0, EdgeKind.SEAM))
    joined = seam(Ref("crown", "top"), Ref("armhole", "top"), ease=2.0, kind=SeamKind.EASED)
    assert "seam-walk" not in codes(Pattern(pieces, (joined,)))
    assert "seam-walk" in codes(Pattern(pieces, (joined.eased_times(0.95),)))


def test_ease_may_lie_on_the_other_side() -> None:
    """A row that is shorter than the one it is sewn to: 40 onto 42 is an ease of -2."""
    pieces = (strip("band", 40.0, EdgeKind.SEAM), strip("edge", 42.0, EdgeKind.SEAM))
    for ease, good in ((-2.0, True), (2.0, False)):
        joined = seam(Ref("band", "top"), Ref("edge", "top"), ease=ease, kind=SeamKind.EASED)
        assert ("seam-walk" not in codes(Pattern(pieces, (joined,)))) == good


def test_edges_count_as_often_as_they_are_cut() -> None:
    """A ring cut once is sewn to an edge that is cut twice."""
    pieces = (strip("ring", 80.0, EdgeKind.SEAM), strip("half", 40.0, EdgeKind.SEAM, Cut(2, True)))
    joined = seam(Ref("ring", "top"), Ref("half", "top"))
    assert "seam-walk" not in codes(Pattern(pieces, (joined,)))
    single = replace(pieces[1], cut=Cut(1))
    assert "seam-walk" in codes(Pattern((pieces[0], single), (joined,)))


def test_a_seam_with_a_lost_edge_is_a_fault_and_no_crash() -> None:
    pattern = skirt().with_seams(seam(Ref("skirt front", "yoke"), Ref("skirt back", "side")))
    fault = next(f for f in prove(pattern).faults if f.code == "seam-lost")
    assert "yoke" in str(fault.message)


def test_an_edge_that_must_be_sewn_but_is_not() -> None:
    pattern = replace(skirt(), seams=skirt().seams[1:])
    found = [f.where for f in prove(pattern).findings if f.code == "seam-missing"]
    assert found == ["skirt front: side", "skirt back: side"]
    assert "seam-missing" not in codes(skirt())


def moved(pattern: Pattern, name: str, edge: str, by: float | None) -> Pattern:
    """The marked pattern with the first notch of an edge moved along it, or rubbed out."""
    piece = pattern.piece(name)
    first = next(m for m in piece.marks if m.kind is MarkKind.NOTCH and m.edge == edge)
    marks = [m for m in piece.marks if m is not first]
    if by is not None:
        curves = piece.edge(edge).curves
        marks.append(replace(first, at=point_at(curves, nearest_distance(curves, first.at) + by)))
    return pattern.with_pieces(replace(piece, marks=tuple(marks)))


def fault_texts(pattern: Pattern) -> list[str]:
    return [str(f.message) for f in prove(pattern).faults if f.code == "notch-walk"]


def test_marks_as_they_are_made_meet() -> None:
    pattern = notched(skirt())
    assert prove(pattern).measured("notch-walk").count > 0
    assert fault_texts(pattern) == []


def test_a_mark_that_was_moved_meets_nothing_and_is_missed() -> None:
    texts = fault_texts(moved(notched(skirt()), "skirt front", "side", 0.3))
    assert any("meets nothing" in text and "0.30 cm" in text for text in texts)
    assert any("missing" in text for text in texts)


def test_a_side_without_its_marks_is_a_fault() -> None:
    """Where one row has notches the other must have them."""
    pattern = notched(skirt())
    bare = pattern.piece("skirt back")
    kept = tuple(m for m in bare.marks if m.kind is not MarkKind.NOTCH or m.edge != "side")
    texts = fault_texts(pattern.with_pieces(replace(bare, marks=kept)))
    assert any("meets nothing" in text for text in texts)


def test_marks_that_both_sides_lack_are_missed() -> None:
    pattern = moved(notched(skirt()), "skirt front", "side", None)
    assert fault_texts(moved(pattern, "skirt back", "side", None))


def test_notches_on_a_gathered_seam_are_held_to_shares() -> None:
    flounce, held = strip("flounce", 80.0, EdgeKind.GATHERED), strip("skirt", 40.0, EdgeKind.HEM)
    joined = seam(Ref("flounce", "top"), Ref("skirt", "top"), ratio=2.0, kind=SeamKind.GATHERED)
    pattern = notched(Pattern((flounce, held), (joined,)))
    assert fault_texts(pattern) == []
    assert fault_texts(moved(pattern, "skirt", "top", 0.5))


def test_a_band_that_misses_the_side_seam_is_found() -> None:
    """Every notch of a band meets a seam, a centre or a notch of the edge it is sewn to."""
    edges = [{"piece": p, "edge": "waist"} for p in ("skirt front", "skirt back")]
    step = Waistband.model_validate({"edges": edges})
    pattern = notched(step.apply(skirt(), body()).pattern)
    assert fault_texts(pattern) == []
    texts = fault_texts(moved(pattern, "waistband", "waist", 0.6))
    assert any("0.60 cm" in text for text in texts)
