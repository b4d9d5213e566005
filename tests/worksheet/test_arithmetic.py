"""Every sum printed on a sheet, reckoned again by a reader that shares nothing with the program."""

from __future__ import annotations

import pytest

from tests.printed_sums import equations, wrong
from tests.worksheet.sheets import EVERY, sheet


@pytest.mark.parametrize(("style", "body"), EVERY)
def test_every_sum_on_the_sheet_holds(style: str, body: str) -> None:
    lines = [text for text in sheet(style, body).texts() if "=" in text or "→" in text]
    faults = [fault for line in lines for fault in wrong(line)]
    assert not faults, "\n".join(faults)
    read = sum(1 for line in lines for _equation in equations(line))
    assert read >= len(lines), "sums were found that could not be read"


@pytest.mark.parametrize(
    "line",
    [
        "hem: front 27.4 + back 26.1 = 53.6",
        "53.5; 53.5 × 1.8 = 96.4",
        "(116.0 + 7.0) ÷ 2 = 61.6",
        "a 10.0 × 2 = 20.0; 20.0 × 1.8 = 36.0 → 35.0",
    ],
)
def test_a_slip_is_found(line: str) -> None:
    assert wrong(line)
