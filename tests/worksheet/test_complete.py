"""A sheet holds everything that pattern.json holds: steps, figures, pieces, edges sewn, findings."""

from __future__ import annotations

import pytest

from cutwright.drawing.primitives import Words
from cutwright.geometry.path import path_length
from cutwright.numerals import number
from cutwright.wording.figures import figure_text
from cutwright.wording.sentences import sentence
from cutwright.worksheet.pictures import changed_edges, step_pictures
from cutwright.worksheet.sheet import Beside, Picture, Pictures, SheetTable, Text
from cutwright.workshop.packet import document_of
from tests.worksheet.sheets import EVERY, STYLES, sheet, worked


@pytest.mark.parametrize(("style", "body"), EVERY)
def test_everything_of_the_pattern_is_on_the_sheet(style: str, body: str) -> None:
    work, made = worked(style, body), sheet(style, body)
    document = document_of(work)
    text = "\n".join(made.texts())
    for stage in work.replay.stages:
        words = sentence(stage.step).split(".")[0].split(" cm")[0].split("back_waist")[0]
        assert words in text
    for figure in work.replay.figures:
        line = figure_text(figure)
        assert line[:1].upper() + line[1:] in text.splitlines()
    for finding in document.findings:
        assert finding.text in text


@pytest.mark.parametrize(("style", "body"), EVERY)
def test_every_piece_and_seam_has_its_row(style: str, body: str) -> None:
    document, made = document_of(worked(style, body)), sheet(style, body)
    cutting = next(b for b in made.section("cutting").blocks if isinstance(b, SheetTable))
    names = [str(row[1]).lower() for row in cutting.rows]
    assert names == [piece.name.lower() for piece in document.pieces]
    assert all(isinstance(row[0], Picture) and row[0].drawing.items for row in cutting.rows)
    for row, piece in zip(cutting.rows, document.pieces, strict=True):
        assert str(row[2]) in piece.label.lines
        amounts = {f"{edge.allowance:g}" for edge in piece.edges if edge.allowance}
        assert all(amount in str(row[4]) for amount in amounts)
    seams = next(b for b in made.section("seams").blocks if isinstance(b, SheetTable))
    assert len(seams.rows) == len(document.seams)
    for cells, seam in zip(seams.rows, document.seams, strict=True):
        assert cells[0] == " + ".join(f"{side.edge} of {side.piece}" for side in seam.a)
        assert float(str(cells[2])) == pytest.approx(seam.a_length, abs=0.051)
        assert float(str(cells[3])) == pytest.approx(seam.b_length, abs=0.051)


@pytest.mark.parametrize(("style", "body"), EVERY)
def test_every_step_that_touches_paper_is_drawn(style: str, body: str) -> None:
    work, made = worked(style, body), sheet(style, body)
    for index, stage in enumerate(work.replay.stages, start=1):
        blocks = made.section(f"step-{index}").blocks
        shown = [b.pictures if isinstance(b, Beside) else b for b in blocks]
        pictures = [b for b in shown if isinstance(b, Pictures)]
        touched = stage.before.pieces != stage.after.pieces
        measured = any(t.kind == "measured" for t in stage.result.traces)
        assert bool(pictures) == (touched or measured)
        if measured and not touched:
            assert len(pictures[0].row) == 1, "the paper before and after is the same"
            continue
        if pictures and stage.before.pieces and stage.result.traces:
            assert len(pictures[0].row) == 2 or not any(
                t.piece in {p.name for p in stage.before.pieces} for t in stage.result.traces
            )


def test_ease_is_what_lies_between_body_and_garment() -> None:
    body = worked("orchard-dress", "the-alto").body
    *_taken, table = sheet("orchard-dress", "the-alto").section("measures").tables()
    assert {row[0] for row in table.rows} == {"Bust", "Waist", "Hip"}
    for row in table.rows:
        taken, ease, garment = (float(str(cell)) for cell in row[1:4])
        assert taken == pytest.approx(body.value(f"{str(row[0]).lower()}_girth"), abs=0.06)
        assert taken + ease == pytest.approx(garment, abs=0.06)
        assert ease > 0


def test_only_measures_the_style_asks_for_are_listed() -> None:
    def listed(style: str) -> set[str]:
        tables = sheet(style, "the-alto").section("measures").tables()
        return {str(row[1]) for table in tables for row in table.rows}

    assert {"Waist", "Hip"} <= listed("flared-skirt")
    assert "Across back" not in listed("flared-skirt")
    assert {"Bust", "Across back", "Shoulder slope"} <= listed("orchard-dress")


def test_cautions_are_those_that_apply() -> None:
    def cautions(style: str) -> str:
        blocks = sheet(style, "the-alto").section("cautions").blocks
        return " ".join(b.text for b in blocks if isinstance(b, Text))

    assert "flame" in cautions("orchard-dress")
    assert "flame" not in cautions("close-skirt")
    for style in ("orchard-dress", "close-skirt"):
        for word in ("cutters", "Iron", "Needles", "cords", "fire rules", "Local rules"):
            assert word in cautions(style)


@pytest.mark.parametrize("style", STYLES)
def test_every_length_that_changed_or_was_measured_stands_in_the_drawing(style: str) -> None:
    for stage in worked(style, "the-alto").replay.stages:
        pictures = step_pictures(stage)
        said = [{i.text for i in p.drawing.items if isinstance(i, Words)} for p in pictures]
        measured = [t for t in stage.result.traces if t.kind == "measured" and t.path]
        wanted = {number(path_length(t.path)) for t in measured}
        assert wanted <= (said[0] if said else set())
        if wanted or len(said) < 2:
            continue
        for key, length in changed_edges(stage).items():
            assert any(text.endswith(number(length)) for text in said[1]), key
