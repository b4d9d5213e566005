"""Turns too tight to be sewn, flat spots in curves and sides that wave are named; sound ones are not."""

from __future__ import annotations

from dataclasses import replace

import pytest

from cutwright.blocks.draft_skirt import DraftSkirt
from cutwright.body.card import BodyCard
from cutwright.body.resolve import resolve
from cutwright.checks.edge_bend import flat_spot
from cutwright.checks.proof import prove
from cutwright.geometry.curve import Line
from cutwright.geometry.draw import arc, circle_arc
from cutwright.geometry.hollow import least_radius
from cutwright.geometry.path import Path, end_direction, reversed_path
from cutwright.pattern.edge import Edge, EdgeKind
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from tests.checks.hand import front, skirt, with_edge


def with_top(path: Path, kind: EdgeKind) -> Piece:
    """A piece whose upper edge is a path from left to right."""
    a, b = path[0].start, path[-1].end
    low_b, low_a = complex(b.real, 40), complex(a.real, 40)
    edges = (
        Edge("top", path, kind),
        Edge("right", (Line(b, low_b),), EdgeKind.SEAM),
        Edge("hem", (Line(low_b, low_a),), EdgeKind.HEM),
        Edge("left", (Line(low_a, a),), EdgeKind.SEAM),
    )
    return Piece("front", edges, (complex(a.real + 3, 15), complex(a.real + 3, 35)))


def chain(*turns: tuple[float, float], curved: bool = True) -> Path:
    """Arcs one after the other: length and turn of each."""
    out: Path = ()
    here, along = 0j, 1 + 0j
    for size, turn in turns:
        out = (
            *out,
            arc(here, along, size, turn) if curved or turn else Line(here, here + along * size),
        )
        here, along = out[-1].end, end_direction(out)
    return out


def codes(path: Path, kind: EdgeKind) -> set[str]:
    return {f.code for f in prove(Pattern((with_top(path, kind),))).findings}


@pytest.mark.parametrize(
    ("radius", "tight"), [(0.8, True), (1.1, True), (1.5, False), (8.0, False)]
)
@pytest.mark.parametrize("kind", [EdgeKind.NECKLINE, EdgeKind.ARMHOLE])
def test_a_round_edge_that_turns_too_tightly_is_named(
    kind: EdgeKind, radius: float, tight: bool
) -> None:
    quarter = reversed_path(circle_arc(complex(0, 0), complex(radius, 0), 1.5))
    assert ("curve-tight" in codes(quarter, kind)) is tight


@pytest.mark.parametrize(("long", "flat"), [(0.5, False), (2.0, False), (4.0, True), (7.0, True)])
def test_a_flat_spot_in_a_curve_is_named(long: float, flat: bool) -> None:
    path = chain((6, -0.6), (long, 0.0), (6, -0.6))
    assert ("curve-flat" in codes(path, EdgeKind.ARMHOLE)) is flat
    assert flat_spot(path)[0] == pytest.approx(long, abs=0.6)


def test_a_line_that_is_drawn_straight_is_no_flat_spot() -> None:
    path = chain((6, -0.6), (7, 0.0), (6, -0.6), curved=False)
    assert "curve-flat" not in codes(path, EdgeKind.NECKLINE)


@pytest.mark.parametrize(("turns", "waves"), [
    (((10, 0.3), (10, -0.3)), False),
    (((10, 0.3), (10, -0.3), (10, 0.3)), False),
    (((10, 0.3), (10, -0.3), (10, 0.3), (10, -0.3)), True),
])  # fmt: skip
def test_a_side_that_waves_is_named(turns: tuple[tuple[float, float], ...], waves: bool) -> None:
    assert ("side-wave" in codes(chain(*turns), EdgeKind.SIDE)) is waves


@pytest.mark.parametrize(("waist", "hip", "depth"), [(62.1, 81.5, 16.07), (82.2, 104.5, 17.0)])
def test_a_flared_skirt_on_a_narrow_hip_has_a_gentle_side(
    waist: float, hip: float, depth: float
) -> None:
    measures = {
        "stature": 160.0,
        "bust_girth": hip - 2,
        "waist_girth": waist,
        "hip_girth": hip,
        "waist_to_hip": depth,
    }
    body = resolve(BodyCard(name="narrow", measures=measures))
    skirt = DraftSkirt(fit="close", length=64, flare=6, back="seam")
    done = skirt.apply(Pattern(()), body)
    for piece in done.pattern.pieces:
        assert least_radius(piece.edge("side").curves) > 4


@pytest.mark.parametrize(("kink", "found"), [(0.0, False), (2.0, True)])
def test_a_corner_between_two_parts_of_an_edge_is_found(kink: float, found: bool) -> None:
    """A hem that was cut and joined again is one edge in two parts: it runs on where they meet."""
    piece = front()
    hem = piece.edge("hem")
    (curve,) = hem.curves
    one, two = curve.split(0.5)
    at = one.end + kink * 1j
    lines = (Line(one.start, at), Line(at, two.end)) if kink else (one, two)
    parts = (
        replace(hem, curves=(lines[0],), part=(1,)),
        replace(hem, curves=(lines[1],), part=(2,)),
    )
    told = {f.code for f in prove(skirt(with_edge(piece, "hem", *parts))).findings}
    assert ("edge-corner" in told) == found
