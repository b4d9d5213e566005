"""Facings and bands of the gallery: their words stand on them, and no sign runs into another."""

from __future__ import annotations

import pytest
import shapely

from cutwright.drawing.piece import draw_piece
from cutwright.drawing.primitives import Ink, Stroke, Words
from cutwright.drawing.type import words_box
from cutwright.finish.finished import FinishedPiece
from cutwright.geometry.outline import flattened, polygon
from cutwright.pattern.mark import MarkKind
from tests.worksheet.sheets import STYLES, worked

BODIES = ("the-alto", "the-gardener", "the-rower")


def _words(piece: FinishedPiece) -> list[Words]:
    return [i for i in draw_piece(piece).items if isinstance(i, Words)]


@pytest.mark.parametrize("body", BODIES)
@pytest.mark.parametrize("style", STYLES)
def test_the_name_of_a_facing_or_a_band_is_cut_out_with_it(style: str, body: str) -> None:
    for piece in worked(style, body).finished.pieces:
        if not piece.stiff or (piece.piece.on_fold and piece.piece.area < 160):
            continue  # half a neck facing has no room between its fold and its grain line
        paper = polygon(piece.cut_line.outline)
        for words in _words(piece):
            assert paper.contains(shapely.box(*words_box(words))), (piece.name, words.text)


@pytest.mark.parametrize("body", BODIES)
def test_the_sign_of_the_centre_keeps_clear_of_the_heads_of_the_fold(body: str) -> None:
    piece = worked("market-dress", body).finished.piece("front facing")
    signs = [shapely.box(*words_box(w)) for w in _words(piece) if w.text == "CF"]
    heads = [
        shapely.Polygon([(p.real, p.imag) for p in flattened(i.path, 0.05)])
        for i in draw_piece(piece).items
        if isinstance(i, Stroke) and i.fill and i.ink is Ink.GRAIN
    ]
    assert signs
    assert heads
    assert all(sign.distance(head) > 0.05 for sign in signs for head in heads)


@pytest.mark.parametrize("body", BODIES)
@pytest.mark.parametrize("style", STYLES)
def test_no_notch_crowds_the_mouth_of_a_dart(style: str, body: str) -> None:
    for piece in worked(style, body).finished.pieces:
        mouths = [m.at for m in piece.marks if m.kind is MarkKind.DART_MOUTH]
        for mark in piece.marks:
            if mark.kind is MarkKind.NOTCH and not mark.meets and not mark.copies:
                assert all(abs(mark.at - mouth) > 1.5 for mouth in mouths), piece.name
