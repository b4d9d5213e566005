"""Finished pieces laid on cloth, and the files of a lay."""

from __future__ import annotations

import json
import re
from inspect import signature
from pathlib import Path

import pdfplumber
import pytest
from shapely import LineString, Polygon, box

from cutwright.cli import main
from cutwright.cli.cloth import lay
from cutwright.desk.cloth.laying import LayWish
from cutwright.drawing.lay import placed_items
from cutwright.drawing.lay_words import lay_table
from cutwright.drawing.primitives import Stroke, Words
from cutwright.drawing.type import words_box
from cutwright.errors import LayError
from cutwright.geometry.outline import polygon as shapely_polygon
from cutwright.lay.by_hand import PutDown, laying_order
from cutwright.lay.from_pattern import lay_pieces
from cutwright.lay.layout import best_lay
from cutwright.lay.piece import LayPiece, checked_piece, piece_polygon, whole
from cutwright.lay.search import Budget
from cutwright.words import set_language
from cutwright.workshop.gallery import load_body, load_style, shipped
from cutwright.workshop.laying import (
    PLACES,
    LaidWork,
    NotLaid,
    lay_or_why,
    lay_work,
    load_cloth,
    write_lay,
    write_not_laid,
)
from cutwright.workshop.sheets import sheet_options, write_worksheet
from cutwright.workshop.work import Work, work

FEW = 20_000


@pytest.fixture(scope="module")
def dress() -> Work:
    return work(load_style("orchard-dress"), load_body("the-rower"))


@pytest.mark.parametrize("style", sorted(shipped("styles")))
def test_every_finished_piece_can_be_laid(style: str) -> None:
    done = work(load_style(style), load_body("the-gardener"))
    pieces = lay_pieces(done.finished)
    cuts = [(cut, f) for f in done.finished.pieces for cut in f.piece.cuts]
    assert [(p.name, p.material) for p in pieces] == [(f.piece.name, c.material) for c, f in cuts]
    for piece, (_cut, finished) in zip(pieces, cuts, strict=True):
        checked_piece(piece)
        assert piece_polygon(piece).area > finished.piece.area
        assert (piece.fold is not None) == finished.piece.on_fold


def test_a_lay_tells_what_to_buy_and_is_written(dress: Work, tmp_path: Path) -> None:
    laid = lay_work(dress, load_cloth("plain-cotton-140"), Budget(FEW))
    assert laid.lay.verified
    cut = [(p.piece, n) for p in laid.lay.placements for n in p.copies]
    assert len(cut) == len(set(cut)) == sum(p.copies for p in laid.pieces)
    assert laid.need.to_buy >= laid.lay.length
    names = [f.path.name for f in write_lay(laid, tmp_path, marker=True)]
    assert names == ["lay.pdf", "lay.svg", "lay.json", "lay-full-size.pdf"]
    drawn = (tmp_path / "lay.svg").read_text("utf-8")
    assert ".i-paper.full{fill:" in drawn  # it has its look with it: else all is black
    with pdfplumber.open(tmp_path / "lay.pdf") as pdf:
        assert len(pdf.pages) == 2
        text = pdf.pages[0].extract_text()
        by_hand = pdf.pages[1].extract_text()
    assert re.search(r"Fold \d+\.\d cm of the cloth lengthwise, .*then lay the rest open", by_hand)
    for piece in laid.pieces:
        assert piece.name in text.replace("\n", " ")
    document = json.loads((tmp_path / "lay.json").read_text(encoding="utf-8"))
    assert document["verified"] is True
    assert {p["piece"] for p in document["placements"]} == {p.name for p in laid.pieces}


@pytest.mark.parametrize("language", ["en", "ru"])
def test_every_name_on_a_lay_lies_in_its_piece(dress: Work, language: str) -> None:
    set_language(language)
    laid = lay_work(dress, load_cloth("striped-shirting-150"), Budget(FEW))
    groups = list(placed_items(laid.lay, laid.cut, dress.finished))
    assert len(groups) == len(laid.lay.placements)
    for number, items in enumerate(groups, 1):
        outline = next(i for i in items if isinstance(i, Stroke) and i.fill)
        shape = shapely_polygon(outline.path, 0.1).buffer(0.3)
        words = [i for i in items if isinstance(i, Words)]
        assert words
        assert words[0].text.startswith(f"{number}.")
        for word in words:
            assert shape.covers(box(*words_box(word))), word.text
    set_language("en")


def test_where_a_piece_is_put_down_is_where_it_lies(dress: Work) -> None:
    laid = lay_work(dress, load_cloth("plain-cotton-140"), Budget(FEW))
    grains = {p.name: p.grain for p in dress.finished.pieces}
    for one in laying_order(laid.lay, laid.cut, grains):
        near, far = one.grain
        assert near.imag == pytest.approx(far.imag, abs=1e-6), "the grain runs along the cloth"
        shape = Polygon([(z.real, z.imag) for z in map(one.placement.of, _ring(laid, one))])
        assert shape.bounds[0] == pytest.approx(one.begins)
        assert shape.covers(LineString([(near.real, near.imag), (far.real, far.imag)]))
        folded = one.part.fold == "lengthwise"
        copies = len(one.placement.copies)
        assert one.upper_only == (folded and copies == 1 and not one.placement.on_fold)


def _ring(laid: LaidWork, one: PutDown) -> tuple[complex, ...]:
    piece = laid.cut[one.placement.piece]
    return (whole(piece) if one.placement.opened else piece).outline


def test_one_copy_from_folded_cloth_is_cut_from_the_upper_layer() -> None:
    piece = LayPiece("tab", (0j, 10 + 0j, 10 + 20j, 20j), copies=3, mirrored=False)
    cloth = load_cloth("plain-cotton-140")
    lay = best_lay([piece], cloth, Budget(FEW))
    rows = lay_table(lay, {"tab": piece}, None).rows
    single = [r for r in rows if "upper layer only" in r[2]]
    alone = [p for p in lay.placements if len(p.copies) == 1]
    assert len(alone) == 1
    assert len(single) == (lay.parts[alone[0].part].fold != "open")


def test_a_cloth_too_narrow_still_gives_a_page_and_a_work_sheet(tmp_path: Path) -> None:
    done = work(load_style("circle-skirt"), load_body("the-alto"))
    cloth = load_cloth("plain-cotton-140").model_copy(update={"width": 60.0})
    found = lay_or_why(done, cloth, Budget(FEW))
    assert isinstance(found, NotLaid)
    page = next(write_not_laid(found, tmp_path)).path
    with pdfplumber.open(page) as pdf:
        text = pdf.pages[0].extract_text().replace("\n", " ")
    assert "too wide for this cloth" in text
    assert "put a seam in the piece" in text
    assert "The cloth is an example" in text
    files = [f.path for f in write_worksheet(done, tmp_path, sheet_options(done, found))]
    with pdfplumber.open(files[0]) as pdf:
        text = "".join(p.extract_text() for p in pdf.pages)
    assert "too wide for this cloth" in text.replace("\n", " ")
    assert "(an example)" in text


def test_page_and_program_look_as_long_for_a_lay() -> None:
    assert LayWish(cloth="x").places == PLACES
    assert signature(lay).parameters["places"].default == PLACES


def test_the_same_seed_gives_the_same_lay(dress: Work) -> None:
    cloth = load_cloth("plain-cotton-140")
    assert lay_work(dress, cloth, Budget(FEW)).lay == lay_work(dress, cloth, Budget(FEW)).lay


def test_a_piece_too_wide_is_named(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    done = work(load_style("circle-skirt"), load_body("the-alto"))
    with pytest.raises(LayError, match="skirt front"):
        lay_work(
            done,
            load_cloth("interfacing-90").model_copy(update={"material": "main", "width": 60.0}),
            Budget(FEW),
        )
    with pytest.raises(SystemExit) as stop:
        main(["lay", "shift", "-b", "the-alto", "-c", "no-such-cloth", "-o", str(tmp_path)])
    assert stop.value.code == 1
    assert "plain-cotton-140" in capsys.readouterr().err


def test_the_command_folds_as_asked_and_says_where_another_fold_takes_less(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    card = tmp_path / "by-the-cm.json"
    card.write_text('{"format": 1, "name": "By the centimetre", "width": 150, "step": 1}')
    cloth = ["-c", str(card), "-o", str(tmp_path), "--places", "400000"]
    with pytest.raises(SystemExit):
        main(["lay", "market-dress", "-b", "the-gardener", *cloth])
    once = capsys.readouterr().out
    offer = "With both selvedges folded to the middle (--fold selvedges) less will do: "
    assert "Buy 1.37 m." in once
    less = once.partition(offer)[2].partition("\n")[0]
    assert "Buy 1.3" in less
    assert less < "Buy 1.37 m."
    with pytest.raises(SystemExit):
        main(["lay", "market-dress", "-b", "the-gardener", *cloth, "--fold", "selvedges"])
    twice = capsys.readouterr().out
    assert less in twice
    assert "less will do" not in twice
    document = json.loads((tmp_path / "lay.json").read_text(encoding="utf-8"))
    assert document["cloth"]["fold"] == document["parts"][0]["fold"] == "selvedges to the middle"
    with pdfplumber.open(tmp_path / "lay.pdf") as pdf:
        assert "Fold both selvedges to the middle, right sides" in pdf.pages[1].extract_text()
