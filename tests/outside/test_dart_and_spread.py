"""Closed forms of paper work, held against the paper that the steps make.

Source: worked out from the formulas named beside each check (geometry of circles and chords); no
handbook is needed for them. Figures are printed to the digits shown there.
"""

from __future__ import annotations

from math import asin, degrees, radians, sin

import pytest

from cutwright.geometry.curve import Line
from cutwright.geometry.outline import area
from cutwright.pattern.cutting.flare import closed_into
from cutwright.pattern.cutting.pivot import swung
from cutwright.pattern.cutting.spreading import slash_lines, spread
from cutwright.pattern.edge import Edge, EdgeKind
from cutwright.pattern.parts.shapes import rectangle
from cutwright.pattern.piece import Cut, Dart, Piece
from cutwright.pattern.places import spot_at
from cutwright.pattern.role import Role


def slashed(
    cuts: int, opened: float = 36.0, width: float = 40.0, depth: float = 60.0
) -> tuple[float, float]:
    """Total turn in degrees and added wedge area in cm2 of a rectangle slashed evenly."""
    flat = rectangle("panel", width, depth, Cut(), Role.PANEL)
    shares = [(i + 1) / (cuts + 1) for i in range(cuts)]
    lines = slash_lines(flat, "top", "hem", shares)
    flared = spread(flat, "top", "hem", lines, [opened / cuts] * cuts, [0.0] * cuts, 0)
    first, last = flared.moves[0], flared.moves[-1]
    turn = degrees(abs(asin((last.turn * first.turn.conjugate()).imag)))
    added = sum(
        abs(area(tuple(Line(a, b) for a, b in zip(w, (*w[1:], w[0]), strict=True))))
        for w in flared.wedges
    )
    assert flared.piece.edge_length("top") == pytest.approx(width, abs=1e-6)
    return turn, added


@pytest.mark.parametrize(
    ("cuts", "turn", "added"),
    [
        (1, 34.9152, 1030.25),
        (2, 34.5077, 1067.78),
        (4, 34.4098, 1076.96),
        (8, 34.3855, 1079.24),
        (16, 34.3795, 1079.81),
    ],
)
def test_slash_and_spread_turns_by_twice_the_arcsine(cuts: int, turn: float, added: float) -> None:
    """n cuts of gap g at distance L turn n x 2 asin(g / 2L) and add n x L^2/2 sin(angle)."""
    found_turn, found_area = slashed(cuts)
    assert found_turn == pytest.approx(turn, abs=5e-5)
    assert found_area == pytest.approx(added, abs=5e-3)


def darted(intake: float, leg: float, depth: float) -> Piece:
    """A panel whose top has one dart of a given intake and leg, its point straight below."""
    half = intake / 2
    height = (leg**2 - half**2) ** 0.5
    tip = complex(0, height)
    corners = {"l": -20 + 0j, "a": complex(-half, 0), "b": complex(half, 0), "r": 20 + 0j}
    low = complex(0, height + depth)
    edges = (
        Edge("waist", (Line(corners["l"], corners["a"]),), EdgeKind.WAIST, (1,)),
        Edge("waist dart", (Line(corners["a"], tip),), EdgeKind.LEG, (1,)),
        Edge("waist dart", (Line(tip, corners["b"]),), EdgeKind.LEG, (2,)),
        Edge("waist", (Line(corners["b"], corners["r"]),), EdgeKind.WAIST, (2,)),
        Edge("right", (Line(corners["r"], 20 + low),), EdgeKind.FOLD),
        Edge("hem", (Line(20 + low, -20 + low),), EdgeKind.HEM),
        Edge("side", (Line(-20 + low, corners["l"]),), EdgeKind.SIDE),
    )
    return Piece("panel", edges, (5 + 5j, 5 + 30j), darts=(Dart("waist dart", tip, tip),))


@pytest.mark.parametrize(("intake", "leg", "angle"), [(3.0, 10.0, 17.2539), (7.0, 25.0, 16.0957)])
def test_a_dart_has_the_angle_of_its_chord(intake: float, leg: float, angle: float) -> None:
    """a = 2 asin(c / 2l)."""
    piece = darted(intake, leg, 40)
    dart = piece.darts[0]
    assert abs(degrees(piece.dart_angle(dart))) == pytest.approx(angle, abs=5e-5)


def test_closing_a_dart_opens_the_hem_by_its_chord() -> None:
    """c 3, l 10, L 50: the hem opens by 15 x the share of the turn that is taken (similar triangles)."""
    piece = darted(3.0, 10.0, 50)
    flared = closed_into(piece, ["waist dart"], "hem")
    whole = radians(17.25390) * flared.share
    assert flared.gaps[0] == pytest.approx(2 * 50 * sin(whole / 2), abs=1e-4)
    assert flared.gaps[0] == pytest.approx(15.0 * flared.share, abs=0.05)
    assert flared.piece.edge_length("waist") == pytest.approx(piece.edge_length("waist"), abs=1e-6)


def test_moving_a_dart_keeps_its_angle_and_scales_its_mouth() -> None:
    """c' = c l' / l about the same point."""
    piece = darted(3.0, 10.0, 40)
    dart = piece.darts[0]
    spot = spot_at(piece, "side", "waist", 10.0)
    done = swung(piece, dart, spot, 1.0, "side dart")
    leg = abs(done.piece.mouth(done.dart)[0] - done.dart.pivot)
    assert done.piece.intake(done.dart) == pytest.approx(3.0 * leg / 10.0, abs=1e-9)
    assert abs(done.piece.dart_angle(done.dart)) == pytest.approx(
        abs(piece.dart_angle(dart)), abs=1e-12
    )


def test_splitting_a_dart_shares_its_angle() -> None:
    """The angles of the two darts add up to the one there was."""
    piece = darted(3.0, 10.0, 40)
    spot = spot_at(piece, "side", "waist", 10.0)
    done = swung(piece, piece.darts[0], spot, 0.4, "side dart")
    one, other = done.piece.darts
    total = done.piece.dart_angle(one) + done.piece.dart_angle(other)
    assert total == pytest.approx(piece.dart_angle(piece.darts[0]), abs=1e-9)
