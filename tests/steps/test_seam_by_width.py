"""A centre becomes a seam where the whole piece is wider than the cloth, and only there."""

from __future__ import annotations

import pytest

from cutwright.checks.proof import prove
from cutwright.lay.cloth import Cloth
from cutwright.lay.cuts import cuts, pieces_for
from cutwright.lay.from_pattern import lay_pieces
from cutwright.lay.search import Budget
from cutwright.pattern.edge import EdgeKind
from cutwright.pattern.result import Result
from cutwright.steps.seam_by_width import SeamByWidth
from cutwright.workshop.gallery import load_body, load_style, shipped
from cutwright.workshop.laying import lay_work, load_cloth
from cutwright.workshop.work import work
from tests.checks.hand import body, front, skirt

HALF = 27.0
"""The skirt drawn by hand is so wide at the hem of its half."""


def seamed(cloth: float, allowance: float = 2.5) -> Result:
    step = SeamByWidth(pieces=("skirt front",), cloth=cloth, allowance=allowance)
    return step.apply(skirt(), body())


def test_a_piece_that_fits_stays_on_the_fold() -> None:
    result = seamed(2 * HALF + 5.0)
    assert result.pattern == skirt()
    assert result.findings == ()
    (figure,) = result.figures
    assert figure.value == pytest.approx(2 * HALF + 5.0, abs=0.1)


def test_a_piece_that_is_wider_is_cut_in_two_and_sewn() -> None:
    result = seamed(2 * HALF + 4.0)
    piece = result.pattern.piece("skirt front")
    assert piece.edge("centre front").kind is EdgeKind.CENTRE
    assert (piece.cut.copies, piece.cut.mirrored) == (2, True)
    assert prove(result.pattern, body()).sound
    assert [f.code for f in result.findings] == ["seamed-by-width"]
    assert "59.0 cm" in str(result.findings[0].message)


def test_a_half_that_is_too_wide_alone_is_said_with_a_cure() -> None:
    found = seamed(30.0).findings
    assert [f.code for f in found] == ["seamed-by-width", "wider-than-cloth"]
    assert "more parts" in str(found[1].message)
    assert front().on_fold


@pytest.mark.parametrize("style", sorted(shipped("styles")))
@pytest.mark.parametrize("who", ["the-alto", "the-gardener", "the-rower"])
def test_every_style_of_the_gallery_lies_on_cloth_140_wide(style: str, who: str) -> None:
    done = work(load_style(style), load_body(who))
    cloth: Cloth = load_cloth("plain-cotton-140")
    doubled, single = cuts(pieces_for(lay_pieces(done.finished), cloth), cloth)
    assert doubled or single


def test_a_circle_skirt_is_laid() -> None:
    done = work(load_style("circle-skirt"), load_body("the-gardener"))
    laid = lay_work(done, load_cloth("plain-cotton-140"), Budget(1))
    assert laid.need.to_buy > 100
