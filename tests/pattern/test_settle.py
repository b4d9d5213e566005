"""After an outline was redrawn: darts stay inside the paper, levels end on it, lost marks are gone."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from cutwright.errors import StepError
from cutwright.geometry.curve import Line
from cutwright.pattern.edge import Edge, EdgeKind
from cutwright.pattern.mark import MarkKind
from cutwright.pattern.piece import Diamond, Level, Mark, Piece
from cutwright.pattern.shaping.settle import settled
from cutwright.steps.shape_hem import ShapeHem
from tests.hand_pieces import NOBODY, dress

WIDE, DEEP = 20.0, 50.0


def panel(
    *diamonds: Diamond, marks: tuple[Mark, ...] = (), levels: tuple[Level, ...] = ()
) -> Piece:
    corners = (0j, WIDE + 0j, complex(WIDE, DEEP), complex(0, DEEP))
    names = {
        "top": EdgeKind.WAIST,
        "side": EdgeKind.SIDE,
        "hem": EdgeKind.HEM,
        "centre": EdgeKind.FOLD,
    }
    edges = tuple(
        Edge(edge, (Line(corners[i], corners[(i + 1) % 4]),), kind)
        for i, (edge, kind) in enumerate(names.items())
    )
    return Piece("panel", edges, (5j, 30j), diamonds=diamonds, marks=marks, levels=levels)


WITHIN = Diamond("waist dart", 10 + 10j, 10 + 40j, 8 + 25j, 12 + 25j)


def test_a_dart_inside_the_paper_stays() -> None:
    assert settled(panel(WITHIN), "Redrawing", "hem").diamonds == (WITHIN,)


@pytest.mark.parametrize(
    ("corner", "place"),
    [("top", 10 - 1j), ("bottom", 10 + 51j), ("near", -0.5 + 25j), ("far", 20.5 + 25j)],
)
def test_a_dart_of_which_one_point_lies_outside_is_refused(corner: str, place: complex) -> None:
    outside: dict[str, Any] = {corner: place}
    with pytest.raises(StepError, match="waist dart"):
        settled(panel(replace(WITHIN, **outside)), "Redrawing", "hem")


def test_a_hem_raised_above_the_dart_is_refused_and_one_below_it_is_not() -> None:
    """The waist darts of front and back end 52 and 54 below the neck, the hem lies at about 100."""
    for up, good in ((-40.0, True), (-55.0, False)):
        wish = {"shape": "curved", "centre_front": up, "side": up, "centre_back": up}
        step = ShapeHem.model_validate(wish)
        if good:
            step.apply(dress(), NOBODY)
        else:
            with pytest.raises(StepError, match="stick out of the paper"):
                step.apply(dress(), NOBODY)


def test_a_level_is_brought_to_the_outline_or_dropped() -> None:
    """Along its own line: shortened where it runs over the edge, lengthened where it stops before it."""
    rows = {"over": (20j, 24 + 20j), "short": (2 + 30j, 17 + 30j), "away": (-9 + 70j, -2 + 70j)}
    levels = tuple(Level(name, points) for name, points in rows.items())
    found = {level.name: level.points for level in settled(panel(levels=levels), "x", "hem").levels}
    assert found["over"] == pytest.approx((20j, 20 + 20j))
    assert found["short"] == pytest.approx((30j, 20 + 30j))
    assert "away" not in found


def test_marks_that_were_cut_away_are_gone() -> None:
    kept = Mark(MarkKind.DRILL, 10 + 10j)
    beyond = replace(kept, at=10 + 60j)
    half = replace(kept, to=10 + 60j)
    on_edge = replace(kept, at=complex(WIDE, 30))
    stale = Mark(MarkKind.CORNER, complex(WIDE, DEEP), edge="hem")
    piece = settled(panel(marks=(kept, beyond, half, on_edge, stale)), "x", "hem")
    assert piece.marks == (kept, on_edge)
