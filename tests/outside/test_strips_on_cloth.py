"""Strips are pieced so that each fits across the cloth with its joins, whatever is asked."""

from __future__ import annotations

from math import ceil

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from cutwright.body.resolve import resolve
from cutwright.body.size_charts import size
from cutwright.pattern.pattern import Pattern
from cutwright.style.document import parse_step
from cutwright.workshop.gallery import know_all_steps
from tests.outside.test_flounces import panels

know_all_steps()
BODY = resolve(size(88, "regular"))
EDGES = [{"piece": "front", "edge": "hem"}, {"piece": "back", "edge": "hem"}]


def flounced(quarter: float, **fields: object) -> Pattern:
    step = parse_step({"edges": EDGES, "depth": 20, **fields})
    return step.apply(panels(quarter, quarter), BODY).pattern


@given(
    quarter=st.integers(200, 900).map(lambda n: n / 10),
    ratio=st.sampled_from([1.5, 1.7, 2.0, 3.0]),
    cloth=st.integers(800, 1600).map(lambda n: n / 10),
    join=st.sampled_from([0.6, 1.0, 1.5]),
    rounding=st.sampled_from([("up", 1.0), ("up", 5.0), ("nearest", 1.0), ("none", 1.0)]),
)
@example(quarter=40.1, ratio=2.0, cloth=109.6, join=0.6, rounding=("up", 5.0))
def test_no_strip_is_wider_than_the_cloth(
    quarter: float, ratio: float, cloth: float, join: float, rounding: tuple[str, float]
) -> None:
    """Each part lies across the cloth with an allowance at both ends; together they are full enough."""
    way, step = rounding
    pattern = flounced(
        quarter, do="flounce_straight", ratio=ratio, cloth=cloth, join=join, round=way,
        round_to=step,
    )  # fmt: skip
    piece = pattern.piece("flounce")
    each = piece.edge_length("top")
    assert each + 2 * join <= cloth + 1e-6
    n = piece.cut.copies
    short = {"up": 0.0, "nearest": 0.5 * step + 0.5 * n, "none": 0.01 + 0.005 * n}[way]
    assert each * n >= 4 * quarter * ratio - short - 1e-6


@pytest.mark.parametrize(
    ("quarter", "ratio", "cloth", "join"),
    [(26.5, 1.7, 140.0, 1.0), (50.0, 2.0, 140.0, 1.0), (30.0, 1.5, 90.0, 1.5)],
)
def test_as_few_strips_as_the_cloth_allows(
    quarter: float, ratio: float, cloth: float, join: float
) -> None:
    """Length over the cloth less two joins, and never a part more (closed form)."""
    piece = flounced(
        quarter, do="flounce_straight", ratio=ratio, cloth=cloth, join=join
    ).piece("flounce")  # fmt: skip
    assert piece.cut.copies == ceil(4 * quarter * ratio / (cloth - 2 * join))
