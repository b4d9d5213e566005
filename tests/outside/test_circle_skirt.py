"""Published figures of circular skirts and flounces, and closed forms, held against the draft.

Sources:
- Laura I. Baldt, Clothing for Women (Lippincott, 1916), "Draft of circular flounce for petticoat,
  Fig. 56": radius = top width x depth / (bottom width - top width); 72, 112 and depth 12 give 21.6.
- coutureschmiede.com, 24 October 2014: r = C / 2 pi full, C / pi half, 2 C / pi quarter,
  2 C / 3 pi three quarter, 4 C / 3 pi three eighths.
- cloningcouture.com, 27 June 2017: fullness = 1 + depth / r (seam 3.14, edge 9.42, 3 : 1).
- A tutorial's rule of thumb: a three-quarter circle has radius = waist / 4.71.
The values for waist 72 and length 60 are worked out from the annulus (closed form).
"""

from __future__ import annotations

from math import degrees, pi

import pytest

from cutwright.blocks.circle_skirt import CircleRing, draft_circle_skirt
from cutwright.blocks.draft_circle_skirt import DraftCircleSkirt
from cutwright.body import BodyCard, resolve
from cutwright.geometry.point import angle_of
from cutwright.pattern.pattern import Pattern

BODY = resolve(
    BodyCard(
        name="of no one",
        measures={"bust_girth": 90, "waist_girth": 70, "hip_girth": 96, "stature": 168},
    )
)


def test_baldt_flounce() -> None:
    turns = (112 - 72) / 12 / (2 * pi)  # S - s = depth x angle
    ring = CircleRing(waist=72, length=12, fraction=turns)
    assert ring.radius == pytest.approx(21.6, abs=1e-9)
    assert ring.outer == pytest.approx(33.6, abs=1e-9)
    assert degrees(ring.angle) == pytest.approx(190.986, abs=1e-3)
    (piece,) = draft_circle_skirt(ring, 1, back_seam=True, hip_depth=100)
    assert 2 * piece.area == pytest.approx(1104, abs=1e-3)
    assert 2 * piece.edge_length("waist") == pytest.approx(72, abs=1e-3)
    assert 2 * piece.edge_length("hem") == pytest.approx(112, abs=1e-3)


@pytest.mark.parametrize(
    ("fraction", "share"),
    [(1, 1 / (2 * pi)), (0.5, 1 / pi), (0.25, 2 / pi), (0.75, 2 / (3 * pi)), (0.375, 4 / (3 * pi))],
)
def test_published_radii(fraction: float, share: float) -> None:
    assert CircleRing(72, 60, fraction).radius == pytest.approx(72 * share, rel=1e-12)


def test_three_quarter_rule_of_thumb() -> None:
    assert CircleRing(72, 60, 0.75).radius == pytest.approx(72 / 4.71, abs=0.01)


@pytest.mark.parametrize(("fraction", "waist", "ratio"), [(1, 3.14, 3.0), (1, 6.28, 2.0)])
def test_fullness(fraction: float, waist: float, ratio: float) -> None:
    ring = CircleRing(waist, 1.0, fraction)
    assert ring.girth(1.0) / waist == pytest.approx(ratio, abs=2e-3)


@pytest.mark.parametrize(
    ("fraction", "parts", "radius", "hem"),
    [
        (1.0, 2, 11.4592, 448.9911),
        (0.75, 1, 15.2789, 354.7433),
        (0.75, 3, 15.2789, 354.7433),
        (0.5, 2, 22.9183, 260.4956),
        (0.25, 1, 45.8366, 166.2478),
    ],
)
def test_waist_72_length_60(fraction: float, parts: int, radius: float, hem: float) -> None:
    step = DraftCircleSkirt(fraction=fraction, parts=parts, length=60, ease=2)
    result = step.apply(Pattern(), BODY)
    found = {figure.code: figure.value for figure in result.figures}
    assert found["waist-radius"] == pytest.approx(radius, abs=0.005 + 1e-9)
    assert found["hem"] == pytest.approx(hem, abs=0.04)  # of a radius to a hundredth
    pieces = result.pattern.pieces
    assert sum(p.times * p.edge_length("waist") for p in pieces) == pytest.approx(72, abs=1e-3)
    assert sum(p.times * p.edge_length("hem") for p in pieces) == pytest.approx(hem, abs=1e-2)
    for seam in result.pattern.seams:
        one, other = result.pattern.seam_lengths(seam)
        assert one == pytest.approx(other, abs=1e-9)
        assert one == pytest.approx(60, abs=1e-9)


@pytest.mark.parametrize(
    ("fraction", "hip", "tight"), [(0.25, 120, True), (0.25, 96, False), (1.0, 120, False)]
)
def test_how_much_is_lacking_at_the_hip_is_told(fraction: float, hip: float, tight: bool) -> None:
    """Round at the hip: waist + 2 pi fraction x depth (annulus); less the hip it is what lacks."""
    body = resolve(
        BodyCard(
            name="of no one",
            measures={"bust_girth": 90, "waist_girth": 70, "hip_girth": hip, "waist_to_hip": 20},
        )
    )
    result = DraftCircleSkirt(fraction=fraction, parts=2, length=60, ease=2).apply(Pattern(), body)
    found = [f.value for f in result.findings if f.code == "draft-tight-at-hip"]
    assert found == ([pytest.approx(72 + 2 * pi * fraction * 20 - hip, abs=0.01)] if tight else [])


def test_cone_frustum_is_a_part_of_a_ring() -> None:
    """Waist 72, hem 160, height 60: slant 61.6130, radii 50.4106 and 112.0236, 81.8339 degrees."""
    p, q, height = 72 / (2 * pi), 160 / (2 * pi), 60
    slant = (height**2 + (q - p) ** 2) ** 0.5
    ring = CircleRing(72, slant, (q - p) / slant)
    assert ring.radius == pytest.approx(50.4106, abs=5e-5)
    assert ring.outer == pytest.approx(112.0236, abs=5e-5)
    assert degrees(ring.angle) == pytest.approx(81.8339, abs=5e-5)
    assert ring.girth(slant) == pytest.approx(160, abs=1e-9)
    panel = draft_circle_skirt(ring, 4, back_seam=True, hip_depth=20)[0]
    left, right = (panel.edge(name) for name in ("left side", "right side"))
    spread = angle_of((left.start - left.end) / (right.end - right.start))
    assert degrees(spread) * 4 == pytest.approx(81.8339, abs=5e-5)
