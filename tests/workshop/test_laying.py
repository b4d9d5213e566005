"""Finished pieces laid on cloth, and the files of a lay."""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path

import pdfplumber
import pytest

from cutwright.cli import main
from cutwright.errors import LayError
from cutwright.lay.from_pattern import lay_pieces
from cutwright.lay.piece import checked, polygon
from cutwright.workshop.gallery import load_body, load_style, shipped
from cutwright.workshop.laying import lay_work, load_cloth, write_lay
from cutwright.workshop.work import Work, work

FEW = 20_000


@pytest.fixture(scope="module")
def dress() -> Work:
    return work(load_style("orchard-dress"), load_body("the-rower"))


@pytest.mark.parametrize("style", sorted(shipped("styles")))
def test_every_finished_piece_can_be_laid(style: str) -> None:
    done = work(load_style(style), load_body("the-gardener"))
    pieces = lay_pieces(done.finished)
    assert [p.name for p in pieces] == [p.name for p in done.finished.pieces]
    for piece, finished in zip(pieces, done.finished.pieces, strict=True):
        checked(piece)
        assert polygon(piece).area > finished.piece.area
        assert (piece.fold is not None) == finished.piece.on_fold


def test_a_lay_tells_what_to_buy_and_is_written(dress: Work, tmp_path: Path) -> None:
    laid = lay_work(dress, load_cloth("plain-cotton-140"), FEW)
    assert laid.lay.verified
    cut = [(p.piece, n) for p in laid.lay.placements for n in p.copies]
    assert len(cut) == len(set(cut)) == sum(p.copies for p in laid.pieces)
    assert laid.need.to_buy >= laid.lay.length
    names = [f.path.name for f in write_lay(laid, tmp_path, date(2026, 5, 1), marker=True)]
    assert names == ["lay.pdf", "lay.svg", "lay.json", "lay-full-size.pdf"]
    drawn = (tmp_path / "lay.svg").read_text("utf-8")
    assert ".i-paper.full{fill:" in drawn  # it has its look with it: else all is black
    with pdfplumber.open(tmp_path / "lay.pdf") as pdf:
        assert len(pdf.pages) == 1
        text = pdf.pages[0].extract_text()
    for piece in laid.pieces:
        assert piece.name in text.replace("\n", " ")
    document = json.loads((tmp_path / "lay.json").read_text(encoding="utf-8"))
    assert document["verified"] is True
    assert {p["piece"] for p in document["placements"]} == {p.name for p in laid.pieces}


def test_the_same_seed_gives_the_same_lay(dress: Work) -> None:
    cloth = load_cloth("plain-cotton-140")
    assert lay_work(dress, cloth, FEW).lay == lay_work(dress, cloth, FEW).lay


def test_a_piece_too_wide_is_named(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    done = work(load_style("circle-skirt"), load_body("the-alto"))
    with pytest.raises(LayError, match="skirt front"):
        lay_work(
            done,
            load_cloth("interfacing-90").model_copy(update={"material": "main", "width": 60.0}),
            FEW,
        )
    with pytest.raises(SystemExit) as stop:
        main(["lay", "shift", "-b", "the-alto", "-c", "no-such-cloth", "-o", str(tmp_path)])
    assert stop.value.code == 1
    assert "plain-cotton-140" in capsys.readouterr().err
