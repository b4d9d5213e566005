"""Windows over a spread: how many, what each alone must show, what they are called."""

from __future__ import annotations

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from cutwright.paper.grid import PAPERS, Grid, code, row_word

lengths = st.floats(5, 400)


def test_how_many_sheets_a_square_metre_needs() -> None:
    # pages = ceil((W - o) / (p - o)) * ceil((H - o) / (q - o)), worked by hand for
    # 1000 x 800 mm on 190 x 277 mm with 10 mm overlap: 6 x 3, and 4 x 5 turned.
    grid = Grid.over(100.0, 80.0, 19.0, 27.7)
    assert (grid.columns, grid.rows) == (6, 3)
    turned = Grid.over(80.0, 100.0, 19.0, 27.7)
    assert (turned.columns, turned.rows) == (5, 4)
    assert (PAPERS["A4"].wide, round(PAPERS["A4"].high, 9)) == (19.0, 27.7)


@given(lengths, lengths, st.sampled_from(sorted(PAPERS)))
def test_windows_cover_everything_and_none_is_in_vain(wide: float, high: float, name: str) -> None:
    paper = PAPERS[name]
    grid = Grid.over(wide, high, paper.wide, paper.high)
    _left, _top, right, bottom = grid.window((grid.rows - 1, grid.columns - 1))
    assert right >= wide - 1e-6
    assert bottom >= high - 1e-6
    if grid.columns > 1:
        assert grid.window((0, grid.columns - 2))[2] < wide
    if grid.rows > 1:
        assert grid.window((grid.rows - 2, 0))[3] < high


@given(lengths, lengths, st.floats(0, 1), st.floats(0, 1))
def test_ink_lies_in_the_window_of_its_cell(wide: float, high: float, x: float, y: float) -> None:
    grid = Grid.over(wide, high, 19.0, 27.7)
    at = complex(x * wide, y * high)
    (place,) = grid.inked([np.array([at])])
    left, top, right, bottom = grid.window(place)
    assert left - 1e-9 <= at.real <= right + 1e-6
    assert top - 1e-9 <= at.imag <= bottom + 1e-6


def test_row_words_stand_in_alphabetical_order_and_never_come_twice() -> None:
    words = [row_word(row) for row in range(60)]
    assert words[:3] == ["apple", "bean", "cherry"]
    assert words[:23] == sorted(words[:23])
    assert len(set(words)) == 60
    assert code((1, 2)) == "bean 3"
