"""Cloth with both selvedges folded to the middle: two folds, and an upper layer in two halves."""

from __future__ import annotations

import pytest

from cutwright.drawing.lay import draw_lay
from cutwright.drawing.lay_words import lay_table
from cutwright.drawing.primitives import Stroke, Words
from cutwright.errors import LayError
from cutwright.lay.by_hand import laying_order
from cutwright.lay.cloth import Cloth
from cutwright.lay.layout import best_lay
from cutwright.lay.need import compare, need
from cutwright.lay.piece import LayPiece
from cutwright.lay.pinning import settled_pins
from cutwright.lay.plan import Lay
from cutwright.lay.search import Budget
from cutwright.lay.verify import faults
from tests.lay.shapes import box

TWICE = Cloth(name="twice", width=100, fold="selvedges to the middle")
ONCE = TWICE.model_copy(update={"fold": "lengthwise"})


def half(name: str, along: float, across: float) -> LayPiece:
    """A half piece with its fold edge along x."""
    ring = (0j, along + 0j, complex(along - 3, across), complex(0, across))
    return LayPiece(name, ring, 1 + 0j, fold=(0j, along + 0j))


PIECES = [half("front", 60, 22), half("back", 58, 24), box("sleeve", 20, 20, copies=2)]


@pytest.fixture(scope="module")
def lay() -> Lay:
    return best_lay(PIECES, TWICE, Budget(20_000))


def test_two_half_pieces_lie_opposite_each_other_each_on_its_fold(lay: Lay) -> None:
    assert lay.verified
    assert lay.length < 80.1  # front and back side by side, then the sleeve
    folds = {p.piece: p.y for p in lay.placements if p.on_fold}
    assert sorted(folds.values()) == pytest.approx([0.0, 50.0])
    once = best_lay(PIECES, ONCE, Budget(20_000))
    assert once.length > lay.length + 20
    assert need(lay).to_buy < need(once).to_buy


def test_no_piece_lies_across_the_middle_where_the_selvedges_meet(lay: Lay) -> None:
    sleeve = next(p for p in lay.placements if p.piece == "sleeve")
    over = sleeve.model_copy(update={"y": sleeve.y + (15.0 if sleeve.y < 25 else -15.0)})
    spoilt = lay.model_copy(
        update={"placements": tuple(over if p is sleeve else p for p in lay.placements)}
    )
    assert "lies-across-meeting-selvedges" in {f.code for f in faults(spoilt, PIECES, TWICE)}


@pytest.mark.parametrize(("over", "bad"), [(0.0045, False), (0.0055, True)])
def test_the_middle_is_kept_to_rounding(lay: Lay, over: float, bad: bool) -> None:
    plain = [box("sleeve", 20, 20, copies=2)]
    sleeve = next(p for p in lay.placements if p.piece == "sleeve")
    alone = sleeve.model_copy(
        update={"x": 0.0, "y": 5.0 + over, "rotation": 0.0, "mirrored": False}
    )
    found = faults(lay.model_copy(update={"placements": (alone,)}), plain, TWICE)
    assert [f.code for f in found] == (["lies-across-meeting-selvedges"] if bad else [])


def test_a_piece_wider_than_a_quarter_of_the_cloth_is_cut_single_at_the_end() -> None:
    lay = best_lay([*PIECES, half("cape", 30, 30)], TWICE, Budget(20_000))
    assert [part.fold for part in lay.parts] == ["selvedges to the middle", "open"]
    assert [p.piece for p in lay.placements if p.part == 1] == ["cape"]


def test_a_repeat_across_would_not_meet_and_is_refused_with_the_cure() -> None:
    striped = TWICE.model_copy(update={"repeat_across": 5.0})
    with pytest.raises(LayError, match="Fold the cloth once lengthwise"):
        best_lay(PIECES, striped, Budget(1000))


def test_the_nap_is_kept_on_both_folds() -> None:
    nap = TWICE.model_copy(update={"nap": "one way"})
    lay = best_lay(PIECES, nap, Budget(20_000))
    assert lay.verified
    assert lay.length < 80.1


def test_a_piece_is_pinned_on_the_side_where_it_was_put(lay: Lay) -> None:
    sleeve = next(p for p in lay.placements if p.piece == "sleeve")
    for y, low, high in ((-3.0, 0.0, 25.0), (40.0, 25.0, 50.0)):
        pin = sleeve.model_copy(update={"x": 100.0, "y": y, "rotation": 0.0, "mirrored": False})
        (settled,) = settled_pins(PIECES, TWICE, [pin])
        assert low - 0.01 <= settled.y <= high - 20 + 0.01
    again = best_lay(PIECES, TWICE, Budget(5000), pins=[settled])
    now = next(p for p in again.placements if p.piece == "sleeve")
    assert (now.x, now.y) == (settled.x, settled.y)


def test_it_is_measured_from_the_fold_on_its_side_and_said_how_to_fold(lay: Lay) -> None:
    by_hand = laying_order(lay, {p.name: p for p in PIECES}, {})
    sides = {one.placement.piece: one for one in by_hand}
    assert {sides["front"].across, sides["back"].across} == {"the upper fold", "the lower fold"}
    for one in by_hand:
        assert 0 <= one.grain[0].imag <= 25
    table = lay_table(lay, {p.name: p for p in PIECES}, None)
    assert table.sentences[0].startswith("Fold both selvedges to the middle, right sides together")
    assert {row[-1] for row in table.rows} >= {"the upper fold", "the lower fold"}


def test_the_picture_shows_both_folds_and_where_the_selvedges_meet(lay: Lay) -> None:
    drawing = draw_lay(lay, {p.name: p for p in PIECES})
    words = [item.text for item in drawing.items if isinstance(item, Words)]
    assert words.count("fold") == 2
    assert "selvedge" not in words
    assert "both selvedges to the middle" in words
    (meeting,) = (i for i in drawing.items if isinstance(i, Stroke) and i.tag == "meeting")
    assert {meeting.path[0].start.imag, meeting.path[-1].end.imag} == {25.0}


def test_folds_are_compared_by_what_has_to_be_bought() -> None:
    offers = compare(PIECES, ONCE, budget=Budget(20_000))
    bought = {o.fold: o.need.to_buy for o in offers if o.need}
    assert set(bought) == {"lengthwise", "selvedges to the middle", "open"}
    assert bought["selvedges to the middle"] == 80
    assert bought["lengthwise"] > 100
