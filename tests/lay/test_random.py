"""Random pieces on random cloth: nothing is lost, nothing overlaps, whoever laid them."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cutwright.lay.cloth import Cloth
from cutwright.lay.layout import lay_out
from cutwright.lay.piece import LayPiece
from cutwright.lay.search import Budget
from cutwright.lay.verify import faults
from tests.lay.shapes import blob

radii = st.lists(st.floats(1.5, 9.0), min_size=4, max_size=12)
cloths = st.builds(
    Cloth,
    name=st.just("c"),
    width=st.floats(40.0, 150.0),
    fold=st.sampled_from(["lengthwise", "open"]),
    nap=st.sampled_from(["one way", "two way"]),
    repeat_along=st.one_of(st.none(), st.just(4.0)),
    grain_tolerance=st.sampled_from([0.0, 2.0]),
)


@st.composite
def piece_sets(draw: st.DrawFn) -> list[LayPiece]:
    pieces = []
    for n in range(draw(st.integers(1, 6))):
        if draw(st.booleans()):
            along, across = draw(st.floats(3, 30)), draw(st.floats(3, 18))
            ring = (0j, along + 0j, complex(along * 0.7, across), complex(along * 0.2, across))
            pieces.append(LayPiece(f"half {n}", ring, 1 + 0j, fold=(0j, along + 0j)))
        else:
            copies = draw(st.sampled_from([1, 2, 4]))
            pieces.append(blob(f"piece {n}", draw(radii), copies=copies, mirrored=copies > 1))
    return pieces


def whole_and_apart(pieces: list[LayPiece], cloth: Cloth, seed: int) -> None:
    lays = list(lay_out(pieces, cloth, Budget(3000), seed))
    assert lays
    assert faults(lays[-1], pieces, cloth) == []
    assert sum(len(p.copies) for p in lays[-1].placements) == sum(p.copies for p in pieces)


@settings(max_examples=60)
@given(piece_sets(), cloths, st.integers(0, 9))
def test_any_pieces_come_out_whole_and_apart(
    pieces: list[LayPiece], cloth: Cloth, seed: int
) -> None:
    whole_and_apart(pieces, cloth, seed)


@pytest.mark.survey
@settings(max_examples=500)
@given(piece_sets(), cloths, st.integers(0, 9))
def test_many_more_come_out_whole_and_apart(
    pieces: list[LayPiece], cloth: Cloth, seed: int
) -> None:
    whole_and_apart(pieces, cloth, seed)
