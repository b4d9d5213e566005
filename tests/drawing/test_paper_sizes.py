"""A size of paper is declared once; everything that prints follows from it."""

from __future__ import annotations

import re
from pathlib import Path

import cutwright
from cutwright.drawing.paper_sizes import PAPER_SIZES
from cutwright.paper.grid import PAPERS
from cutwright.paper.sheet import LARGE
from cutwright.paper.targets import TARGETS, writer_for
from cutwright.worksheet.pdf import PAPERS as OF_TEXT


def test_the_sizes_are_those_of_the_standards() -> None:
    """ISO 216: A0 has a square metre, each next is half of it, to a millimetre; US Letter is 8.5 x 11 in."""
    sizes = {name: (size.width, size.height) for name, size in PAPER_SIZES.items()}
    for number in (0, 1, 3, 4):
        width, height = sizes[f"a{number}"]
        assert abs(width - 1000 * 2 ** (-0.25 - number / 2) / 10) <= 0.1
        assert abs(height - 1000 * 2 ** (0.25 - number / 2) / 10) <= 0.1
    assert sizes["letter"] == (8.5 * 2.54, 11 * 2.54)


def test_every_size_can_be_printed_on() -> None:
    assert {name.casefold() for name in PAPERS} | set(LARGE) == set(PAPER_SIZES)
    assert set(OF_TEXT) <= set(PAPER_SIZES)
    for size in PAPER_SIZES.values():
        assert size.name in TARGETS
        assert writer_for(size.name)[0] == ".pdf"


def test_no_other_file_writes_a_size_down() -> None:
    number = re.compile(r"(?<![\d.])(29\.7|21\.59|27\.94|84\.1|118\.9|59\.4)(?!\d)")
    root = Path(cutwright.__file__).parent
    found = {p.name for p in root.rglob("*.py") if number.search(p.read_text(encoding="utf-8"))}
    assert found == {"paper_sizes.py"}
