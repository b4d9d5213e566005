"""A sum is rounded once, printed from what is printed, and can be worked again with other numbers."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from cutwright.pattern.edge import Ref
from cutwright.pattern.sum import (
    Bound,
    Chosen,
    Earlier,
    EdgeLength,
    Figure,
    Limited,
    Number,
    ReadOff,
    Solved,
    Taped,
    Term,
    Unit,
    all_round,
    of_the_body,
    over,
    plus,
    regained,
    rounded,
    times,
)
from cutwright.wording.figures import figure_text, how, sum_of
from tests.printed_sums import printed_last, wrong

FRONT, BACK = EdgeLength(Ref("front", "hem"), 27.38), EdgeLength(Ref("back", "hem"), 26.12)


def fig(term: Term, unit: Unit = Unit.CM) -> Figure:
    return Figure("half-hem", term, "front", "hem", unit)


def test_what_is_measured_is_added_all_round_and_rounded() -> None:
    whole = times(all_round([(FRONT, 2), (BACK, 2)]), Chosen("ratio", 1.8, Unit.NUMBER))
    assert how(fig(rounded(whole, "up", 5))) == (
        "front 27.38 + back 26.12 = 53.5; 53.5 × 2 all round = 107.0; 107.0 × 1.8 = 192.6"
        " → 195.0 (rounded up to whole 5 cm)"
    )


def test_what_truing_takes_is_said() -> None:
    now = regained(
        EdgeLength(Ref("front", "hem"), 40.26),
        EdgeLength(Ref("front", "hem"), 28.7),
        ReadOff("opened", 11.8),
    )
    assert how(fig(now)) == "before 28.7 + opened 11.8 − drawn smooth 0.2 = 40.3"


def test_only_the_limit_that_counts_is_printed() -> None:
    asked = plus(Taped("armhole_depth", 23.8), Chosen("armhole_depth_ease", 5.9))
    most = times(Taped("back_waist_length", 41.0), Number(0.6))
    assert how(fig(Limited(asked, most, Bound.MOST))).endswith("; no more than 24.6")
    assert "no more" not in how(
        fig(Limited(plus(Taped("armhole_depth", 20.0), ReadOff("opened", 1)), most, Bound.MOST))
    )


def test_a_value_found_by_trying_shows_what_it_makes_right() -> None:
    width = Solved(7.2861, plus(ReadOff("back-neckline", 8.2), ReadOff("front-neckline", 11.8)))
    assert how(fig(width)).endswith("= 20.0; this fits with 7.3")


def test_a_later_sum_goes_on_from_the_printed_figure() -> None:
    half = Figure(
        "half-bust", over(plus(Taped("bust_girth", 93.05), Chosen("bust_ease", 7.0)), Number(2))
    )
    assert half.value == 50.03
    assert how(fig(over(Earlier(half), Number(2)))) == "half bust 50.03 ÷ 2 = 25.02"
    assert of_the_body(Earlier(half))
    assert not of_the_body(Number(2))


LENGTHS = st.floats(1, 400).map(lambda x: round(x, 3))


@given(
    LENGTHS,
    LENGTHS,
    st.floats(1, 4),
    st.integers(1, 9),
    st.sampled_from(["up", "nearest"]),
    st.sampled_from([0.5, 1.0, 5.0]),
)
def test_every_printed_sum_holds_to_its_last_digit(
    a: float, b: float, ratio: float, parts: int, way: str, step: float
) -> None:
    edges = plus(EdgeLength(Ref("front", "hem"), a), EdgeLength(Ref("back", "hem"), b))
    full = times(edges, Chosen("ratio", round(ratio, 2), Unit.NUMBER))
    each = over(rounded(full, way, step), Number(parts, "parts"))
    line = how(fig(each))
    assert not [fault for fault in wrong(line) if "is not rounded" not in fault], line
    assert printed_last(line) == fig(each).value
    amounts = sum_of(fig(each)).amounts
    values = [amount.value for amount in amounts]
    for place, amount in enumerate(amounts):
        assert amount.made is None or abs(amount.made.again(values) - values[place]) < 1e-9


def test_a_sum_that_was_printed_wrong_would_be_found() -> None:
    line = figure_text(fig(plus(FRONT, BACK)))
    assert not wrong(line)
    assert wrong(line.replace("53.5", "53.6"))
