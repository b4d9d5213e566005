"""Front and back lean alike at a side seam that runs to the hem."""

from __future__ import annotations

from math import atan2, degrees

import pytest

from cutwright.checks.proof import prove
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.pattern.role import Role
from cutwright.pattern.shaping.leans import lean
from tests.checks.hand import back, front, skirt, with_edge
from tests.hand_pieces import skirt as other_skirt

SLANT = degrees(atan2(1.5, 40))
"""The hand-drawn side stands out 1.5 cm on the 40 cm below the hip."""


def leaning(piece: Piece, out: float) -> Piece:
    """The piece with the foot of its side moved outwards."""
    side, hem = piece.edge("side"), piece.edge("hem")
    foot = hem.end if piece.role is Role.FRONT else hem.start
    away = foot + (-out if piece.role is Role.FRONT else out)
    for edge in (side, hem):
        curves = tuple(
            type(c)(*(away if p == foot else p for p in c.controls)) for c in edge.curves
        )
        piece = with_edge(piece, edge.label, edge.with_curves(curves))
    return piece


def found(pattern: Pattern) -> dict[str, str]:
    return {f.code: f.level for f in prove(pattern).findings if f.code == "side-balance"}


@pytest.mark.parametrize("piece", [front(), back()], ids=["front", "back"])
def test_the_lean_is_the_angle_of_the_lower_half_from_the_grain(piece: Piece) -> None:
    assert degrees(lean(piece, piece.edge("side"))) == pytest.approx(SLANT)
    inwards = leaning(piece, -3.0)
    assert degrees(lean(inwards, inwards.edge("side"))) == pytest.approx(-SLANT, abs=0.01)


def test_sides_that_lean_alike_are_in_balance() -> None:
    row = prove(skirt()).measured("side-balance")
    assert row.count == 1
    assert row.worst == pytest.approx(0, abs=1e-6)


@pytest.mark.parametrize(
    ("out", "level"), [(1.5, None), (2.5, "note"), (5.0, "note"), (6.5, "warning")]
)
def test_the_more_they_differ_the_louder_it_is_said(out: float, level: str | None) -> None:
    pattern = skirt(front(), leaning(back(), out))
    assert found(pattern).get("side-balance") == level


def test_a_dart_in_the_side_does_not_hide_it() -> None:
    assert prove(other_skirt()).measured("side-balance").count == 1
