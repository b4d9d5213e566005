"""The gallery on real women: hems of one depth, sides in balance, bands that hold, cloth wide enough."""

from __future__ import annotations

from functools import cache
from math import degrees
from pathlib import Path

import pytest

from cutwright.body.body import Body
from cutwright.body.resolve import resolve
from cutwright.body.survey import read_survey
from cutwright.geometry.point import angle_between
from cutwright.lay.cuts import cuts, pieces_for
from cutwright.lay.from_pattern import lay_pieces
from cutwright.pattern.edge import Edge, EdgeKind
from cutwright.pattern.piece import Piece
from cutwright.pattern.seam import LayerPart
from cutwright.workshop.gallery import load_style, shipped
from cutwright.workshop.laying import load_cloth
from cutwright.workshop.work import Work, work

SAMPLE = Path(__file__).resolve().parents[1] / "survey" / "sample.csv"
EVERY = 6
STYLES = sorted(shipped("styles"))
of_every_style = pytest.mark.parametrize("style", STYLES)


@cache
def women() -> tuple[Body, ...]:
    return tuple(resolve(card) for card in read_survey(SAMPLE))[::EVERY]


@cache
def works(style: str) -> tuple[Work, ...]:
    return tuple(work(load_style(style), woman) for woman in women())


def sides_to_hem(piece: Piece) -> list[tuple[Edge, Edge]]:
    """Each side of a piece with the hem that it meets."""
    pairs = zip(piece.edges, (*piece.edges[1:], piece.edges[0]), strict=True)
    found = []
    for one, other in pairs:
        if {one.kind, other.kind} == {EdgeKind.SIDE, EdgeKind.HEM}:
            found.append((one, other) if one.kind is EdgeKind.SIDE else (other, one))
    return found


def slant(piece: Piece, side: Edge, hem: Edge) -> float:
    """How far the last straight of a side leans from the grain, degrees."""
    at_end = min(abs(side.end - hem.start), abs(side.end - hem.end)) < 1e-6
    last = side.curves[-1] if at_end else side.curves[0].reversed()
    grain = piece.grain[1] - piece.grain[0]
    grain = grain if grain.imag > 0 else -grain
    return abs(degrees(angle_between(grain, last.velocity(1.0))))


@of_every_style
def test_every_one_proves(style: str) -> None:
    for done in works(style):
        assert done.trouble is None
        assert [f.code for f in done.faults] == []


@of_every_style
def test_sides_that_are_sewn_together_lean_alike_and_their_hems_are_of_one_depth(
    style: str,
) -> None:
    for done in works(style):
        pattern = done.replay.pattern
        for seam in pattern.seams:
            ends = [
                (piece, side, hem)
                for piece in map(pattern.piece, dict.fromkeys(r.piece for r in seam.refs))
                for side, hem in sides_to_hem(piece)
                if any(r.piece == piece.name and side.answers_to(r.edge) for r in seam.refs)
            ]
            if len(ends) != 2:
                continue
            leans = [slant(*end) for end in ends]
            assert abs(leans[0] - leans[1]) < 3.0
            depths = {done.finished.allowances[piece.name, hem.label] for piece, _s, hem in ends}
            assert len(depths) == 1


@of_every_style
def test_a_band_has_half_a_centimetre_to_one_and_a_half_of_ease(style: str) -> None:
    for done in works(style):
        bands = [s for s in done.replay.pattern.seams if s.kind == "waistband"]
        for seam in bands:
            band = sum(map(done.replay.pattern.length, seam.refs_of(LayerPart.BAND)))
            assert 0.5 <= band - done.body.value("waist_girth") <= 1.5


@of_every_style
def test_every_piece_lies_on_the_usual_cloth(style: str) -> None:
    cloth = load_cloth("plain-cotton-140")
    for done in works(style):
        assert any(cuts(pieces_for(lay_pieces(done.finished), cloth), cloth))


@of_every_style
def test_darts_of_bodice_and_skirt_are_as_many(style: str) -> None:
    for done in works(style):
        pattern = done.replay.pattern
        names = {piece.name for piece in pattern.pieces}
        for upper, lower in (("front", "skirt front"), ("back", "skirt back")):
            if {upper, lower} <= names:
                one, other = (
                    sum(e.kind is EdgeKind.WAIST for e in pattern.piece(name).edges)
                    for name in (upper, lower)
                )
                assert one == other or 1 in (one, other)  # darts on one side only meet nothing
