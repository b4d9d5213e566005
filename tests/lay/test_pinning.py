"""Pins put down by hand come to the nearest place the cloth allows, or are refused with a reason."""

from __future__ import annotations

import pytest

from benchmarks.lay_dress import dress
from cutwright.errors import LayError
from cutwright.lay.cloth import Cloth, Match
from cutwright.lay.layout import best_lay
from cutwright.lay.piece import LayPiece
from cutwright.lay.pinning import settled_pins
from cutwright.lay.plan import Placement
from cutwright.lay.search import Budget
from cutwright.lay.verify import faults
from tests.lay.shapes import box

OPEN = Cloth(name="c", width=100, fold="open")


def pin(piece: str, x: float, y: float, **more: object) -> Placement:
    given = {"copies": (1,), "rotation": 0.0, "mirrored": False, **more}
    return Placement.model_validate({"piece": piece, "x": x, "y": y, **given})


def test_nothing_pinned_asks_nothing() -> None:
    assert settled_pins([], OPEN, []) == ()


@pytest.mark.parametrize(
    ("x", "y", "at"),
    [(5, 7, (5, 7)), (-9, 7, (0, 7)), (5, -3, (5, 0)), (5, 95, (5, 70)), (800, 7, (800, 7))],
)
def test_a_pin_beside_the_cloth_comes_to_its_edge(
    x: float, y: float, at: tuple[float, float]
) -> None:
    (found,) = settled_pins([box("a", 40, 30)], OPEN, [pin("a", x, y)])
    assert (found.x, found.y) == pytest.approx(at, abs=0.01)


def test_a_pin_comes_to_the_nearest_line_of_the_repeat_and_the_lay_holds_it() -> None:
    check = OPEN.model_copy(
        update={
            "repeat_along": 8.0,
            "repeat_across": 5.0,
            "matches": (Match(points=("a: corner",), along=True, across=True),),
        }
    )
    piece = LayPiece("a", (0j, 40 + 0j, 40 + 30j, 30j), marks={"corner": 0j})
    (found,) = settled_pins([piece], check, [pin("a", 18.0, 11.0)])
    assert found.x == pytest.approx(16.0)
    assert found.y % 5.0 == pytest.approx(0.0, abs=0.01)
    lay = best_lay([piece, box("b", 20, 20)], check, Budget(2000), pins=[found])
    now = next(p for p in lay.placements if p.piece == "a")
    assert (now.x, now.y) == pytest.approx((found.x, found.y))


def test_two_pins_may_touch_but_not_share_cloth() -> None:
    pieces = [box("a", 40, 30), box("b", 20, 30)]
    assert len(settled_pins(pieces, OPEN, [pin("a", 0, 0), pin("b", 40, 0)])) == 2
    with pytest.raises(LayError, match=r"by 3\.0 cm along the cloth and 30\.0 cm across"):
        settled_pins(pieces, OPEN, [pin("a", 0, 0), pin("b", 37, 0)])


@pytest.mark.parametrize(
    ("bad", "words"),
    [
        (pin("cape", 0, 0), "cut elsewhere"),
        (pin("a", 0, 0, copies=(1, 2)), "cut elsewhere"),
        (pin("a", 0, 0, part=3), "cut elsewhere"),
        (pin("a", 0, 0, rotation=30.0), "does not allow that turn"),
        (pin("a", 1e7, 0), "farther away"),
    ],
)
def test_a_pin_that_cannot_be_is_refused_in_words(bad: Placement, words: str) -> None:
    with pytest.raises(LayError, match=words):
        settled_pins([box("a", 40, 30)], OPEN, [bad])


def test_the_order_is_annealed_round_pins_and_they_stay() -> None:
    """Pinned where a short lay has them, the pieces find a lay hardly longer, from other dice."""
    cloth = Cloth(name="plain", width=140)
    short = best_lay(dress(), cloth, Budget(400_000))
    pins = [p for p in short.placements if p.piece == "sleeve"]
    lay = best_lay(dress(), cloth, Budget(400_000), seed=2, pins=pins)
    now = next(p for p in lay.placements if p.piece == "sleeve")
    assert (now.x, now.y, now.rotation) == pytest.approx((pins[0].x, pins[0].y, pins[0].rotation))
    assert faults(lay, dress(), cloth) == []
    assert lay.length <= short.length * 1.03  # without annealing 3.6 % longer
