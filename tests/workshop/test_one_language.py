"""A packet speaks one language: titles, people, pieces, cloths and days on every file."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pdfplumber
import pytest

from cutwright.lay.search import Budget
from cutwright.words import set_language
from cutwright.workshop.gallery import load_body, load_style
from cutwright.workshop.laying import lay_work, load_cloth, write_lay
from cutwright.workshop.packet import write_packet
from cutwright.workshop.sheets import sheet_options, write_worksheet
from cutwright.workshop.work import finishing, work

DAY = date(2026, 5, 12)
SAME = {
    "cm", "A", "ISO", "HTML", "PDF", "LIVE", "Cutwright", "STYLE", "NAME", "PIECE", "SIZE", "DATE",
    "CREATION", "AUTHOR", "UNITS", "METRIC", "EUR", "V",
}  # fmt: skip
"""Words that are alike in every language, or keys of a file format."""
_CODED = re.compile(r"\\U\+([0-9A-F]{4})")
_FIELD = re.compile(r"\r\n1\r\n(.*?)\r\n")


@pytest.fixture
def russian() -> Iterator[None]:
    set_language("ru")
    yield
    set_language("en")


def _words(path: Path) -> str:
    """What a reader sees of a file."""
    if path.suffix == ".pdf":
        with pdfplumber.open(path) as pdf:
            return "\n".join(page.extract_text() for page in pdf.pages)
    text = path.read_text("utf-8")
    if path.suffix == ".svg":
        return "\n".join(re.findall(r"<(?:text|title)[^>]*>([^<]*)<", text))
    decoded = _CODED.sub(lambda m: chr(int(m[1], 16)), text.replace("\n", "\r\n"))
    return "\n".join(_FIELD.findall(decoded)[1:])


@pytest.mark.slow
@pytest.mark.usefixtures("russian")
def test_every_file_speaks_russian(tmp_path: Path) -> None:
    style, body = load_style("orchard-dress"), load_body("the-rower")
    done = work(style, body, finishing(style, body, DAY))
    laid = lay_work(done, load_cloth("plain-cotton-140"), Budget(20_000))
    files = [f.path for f in write_packet(done, tmp_path, "a4")]
    files += [f.path for f in write_lay(laid, tmp_path)]
    files += [f.path for f in write_worksheet(done, tmp_path, sheet_options(done, laid))]
    shown = [p for p in files if p.suffix in (".pdf", ".svg", ".dxf")]
    assert len(shown) == 7
    for path in shown:
        text = _words(path)
        assert re.search(r"[а-я]", text), path.name
        left = set(re.findall(r"[A-Za-z]{2,}", text)) - SAME
        assert not left, (path.name, sorted(left)[:20])
        if path.suffix == ".pdf":
            assert "12 мая 2026" in text, path.name
        assert not re.search(r"\d\.\d+ ?см", text), path.name
