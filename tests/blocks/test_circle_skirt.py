"""The circle skirt: its pieces, what it refuses and what it warns of."""

from __future__ import annotations

from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cutwright.blocks.circle_skirt import CircleRing, draft_circle_skirt
from cutwright.blocks.draft_bodice import DraftBodice
from cutwright.blocks.draft_circle_skirt import DraftCircleSkirt
from cutwright.body import BodyCard, resolve
from cutwright.errors import DraftError
from cutwright.pattern.edge import EdgeKind
from cutwright.pattern.pattern import Pattern
from tests.blocks import laws

BODY = resolve(
    BodyCard(
        name="of no one",
        measures={"bust_girth": 92, "waist_girth": 74, "hip_girth": 100, "stature": 166},
    )
)


@given(
    fraction=st.floats(0.1, 2.0),
    parts=st.integers(1, 8),
    waist=st.floats(50, 160),
    length=st.floats(5, 150),
)
def test_every_ring_closes(fraction: float, parts: int, waist: float, length: float) -> None:
    ring = CircleRing(waist, length, fraction)
    if fraction * 360 / parts > 330:
        with pytest.raises(DraftError, match="cut it in at least"):
            draft_circle_skirt(ring, parts, True, 20)
        return
    pieces = draft_circle_skirt(ring, parts, parts % 2 == 0, 20)
    assert sum(p.times * p.edge_length("waist") for p in pieces) == pytest.approx(waist, rel=1e-5)
    whole = sum((2 if p.on_fold else 1) * p.cut.copies * p.area for p in pieces)
    assert whole == pytest.approx(pi * fraction * (ring.outer**2 - ring.radius**2), rel=1e-5)
    for piece in pieces:
        assert laws.valid(piece)
        assert laws.gaps(piece) < 1e-9
        level = piece.level("hip")
        assert (level is None) == (length <= 20)
    if length > 20:
        hips = [p.times * level.length for p in pieces if (level := p.level("hip"))]
        assert sum(hips) == pytest.approx(ring.girth(20), rel=1e-4)


def test_one_part_has_a_back_seam_and_a_fold() -> None:
    result = DraftCircleSkirt(fraction=0.5, parts=1).apply(Pattern(), BODY)
    (skirt,) = result.pattern.pieces
    kinds = {edge.name: edge.kind for edge in skirt.edges}
    assert kinds["centre front"] is EdgeKind.FOLD
    assert kinds["centre back"] is EdgeKind.CENTRE
    assert laws.centre_angles(skirt) == pytest.approx(
        dict.fromkeys(laws.centre_angles(skirt), 90.0), abs=1e-6
    )


def test_a_narrow_one_is_warned_of() -> None:
    narrow = DraftCircleSkirt(fraction=0.1, parts=1).apply(Pattern(), BODY)
    assert "draft-tight-at-hip" in {f.code for f in narrow.findings}
    wide = DraftCircleSkirt(fraction=0.5).apply(Pattern(), BODY)
    assert "draft-tight-at-hip" not in {f.code for f in wide.findings}


@pytest.mark.parametrize("parts", [1, 2, 3, 5])
def test_it_is_joined_to_a_bodice_of_its_waist(parts: int) -> None:
    bodice = DraftBodice(fit="close").apply(Pattern(), BODY).pattern
    joined = DraftCircleSkirt(fraction=0.5, parts=parts, ease=3.0).apply(bodice, BODY)
    new = [s for s in joined.pattern.seams if any(r.edge == "waist" for r in s.refs)]
    assert len(new) == 1
    one, other = joined.pattern.seam_lengths(new[0])
    assert one == pytest.approx(other, abs=0.001)
    loose = DraftCircleSkirt(fraction=0.5, parts=parts, ease=5.0).apply(bodice, BODY)
    assert "draft-waists-differ" in {f.code for f in loose.findings}
