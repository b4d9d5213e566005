"""How much to buy: worked sums, printed examples, comparison and advice."""

from __future__ import annotations

import pytest

from cutwright.errors import LayError
from cutwright.lay.cloth import Cloth
from cutwright.lay.layout import best_lay
from cutwright.lay.need import Notion, advice, bill, compare, least_width, need, rounded_up
from cutwright.lay.piece import LayPiece
from cutwright.lay.search import Budget
from tests.lay.shapes import box

SMALL = Budget(3000)


def test_an_apron_of_80_inches_is_bought_as_81_by_the_eighth_of_a_yard() -> None:
    """Hapgood: two breadths of 36 + 4 inches make 80 inches, bought as 2 1/4 yards."""
    assert rounded_up(80 * 2.54, 91.44 / 8) == pytest.approx(81 * 2.54)
    assert rounded_up(81 * 2.54, 91.44 / 8) == pytest.approx(81 * 2.54)


def test_shrinkage_comes_before_rounding_and_plies_multiply_the_price() -> None:
    cloth = Cloth(
        name="c",
        width=100,
        fold="open",
        shrinks_along=0.05,
        step=10,
        price=8,
        currency="EUR",
        plies=2,
    )
    lay = best_lay([box("panel", 95, 100)], cloth, SMALL)
    what = need(lay)
    assert what.before_washing == pytest.approx(100, abs=0.01)
    assert what.to_buy in {100.0, 110.0}
    assert what.price == pytest.approx(what.to_buy / 100 * 8 * 2)
    assert lay.utilisation == pytest.approx(1.0, abs=1e-4)
    total = bill([what], [Notion("zip", 1, 2.5), Notion("button", 6, 0.5)])
    assert total.total == pytest.approx(what.price + 5.5)
    assert total.currency == "EUR"


def test_two_currencies_do_not_go_on_one_bill() -> None:
    cloths = [Cloth(name=c, width=50, fold="open", price=5, currency=c) for c in ("EUR", "USD")]
    needs = [need(best_lay([box("a", 10, 10)], c, SMALL)) for c in cloths]
    with pytest.raises(LayError, match="EUR, USD"):
        bill(needs)


def test_widths_and_folds_are_compared_shortest_first() -> None:
    cloth = Cloth(name="c", width=140, step=5)
    pieces = [box("panel", 60, 66, copies=2), box("sleeve", 40, 30, copies=2)]
    offers = compare(
        pieces, cloth, [60, 140, 150], ["lengthwise", "open", "crosswise"], budget=SMALL
    )
    assert len(offers) == 9
    lengths = [o.need.to_buy for o in offers if o.need]
    assert lengths == sorted(lengths)
    assert (140, "lengthwise", 100) in [(o.width, o.fold, o.need.to_buy) for o in offers if o.need]
    assert any(o.need is None and "“panel” is 6.0 cm too wide" in str(o.reason) for o in offers)


def test_the_least_width_and_the_advice_come_from_the_widest_piece() -> None:
    skirt = LayPiece("skirt", (0j, 60 + 0j, 60 + 71j, 71j), 1 + 0j, fold=(0j, 60 + 0j))
    cloth = Cloth(name="c", width=140, selvedge=1)
    width, name = least_width([skirt, box("band", 9, 80)], cloth)
    assert (round(width, 6), name) == (142.0, "skirt")
    assert str(advice([skirt], cloth)).startswith(
        "At least 145 cm wide, or “skirt” must be seamed."
    )
