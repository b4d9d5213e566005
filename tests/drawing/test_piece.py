"""A drawn piece: words keep clear of lines and of each other, arrows do not lie, tags are there."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from math import inf

import pytest
import shapely

from cutwright.drawing.piece import draw_piece
from cutwright.drawing.primitives import Dot, Drawing, Ink, Layer, Stroke, Words
from cutwright.drawing.type import words_box
from cutwright.finish.document import pattern_document
from cutwright.finish.finished import FinishedPattern, FinishedPiece, finish
from cutwright.finish.options import FinishOptions
from cutwright.geometry.curve import Cubic
from cutwright.geometry.outline import flattened, polygon
from cutwright.geometry.point import unit
from cutwright.paper.dxf import dxf_text
from cutwright.paper.pieces import PlacedPiece, Title
from cutwright.pattern.mark import MarkKind
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Mark, Piece
from cutwright.wording.labels import label_words
from tests.finish.pieces import dress_front, flounced_skirt, ring, skirt_front, strip

OPTIONS = FinishOptions(
    garment="Wren dress",
    who="Ada Grey",
    order="Lee",
    made=date(2026, 5, 12),
    revision="3",
    cloths=(("main", "wool"),),
)
BAND = replace(strip(36, 4, 1), name="waistband")


def finished() -> FinishedPattern:
    return finish(flounced_skirt().with_pieces(dress_front(), ring(), BAND), OPTIONS)


PIECES = list(finished().pieces)
each_piece = pytest.mark.parametrize("piece", PIECES, ids=lambda p: p.name)


def words_of(drawing: Drawing) -> list[Words]:
    return [i for i in drawing.items if isinstance(i, Words)]


def strokes_of(drawing: Drawing) -> list[Stroke]:
    return [i for i in drawing.items if isinstance(i, Stroke) and i.ink is not Ink.PAPER]


@each_piece
def test_words_keep_clear_of_lines_and_of_each_other(piece: FinishedPiece) -> None:
    drawing = draw_piece(piece)
    boxes = [(w, shapely.box(*words_box(w)).buffer(-0.02)) for w in words_of(drawing)]
    assert boxes
    for stroke in strokes_of(drawing):
        line = shapely.LineString([(p.real, p.imag) for p in flattened(stroke.path)])
        for words, box in boxes:
            assert not line.intersects(box), f"{words.text!r} lies on {stroke.ink} {stroke.tag}"
    for i, (one, a) in enumerate(boxes):
        for other, b in boxes[i + 1 :]:
            assert not a.intersects(b), f"{one.text!r} lies on {other.text!r}"


@each_piece
def test_words_lie_inside_the_stitch_line(piece: FinishedPiece) -> None:
    paper = polygon(piece.piece.outline)
    for words in words_of(draw_piece(piece)):
        assert paper.covers(shapely.box(*words_box(words)).buffer(-0.05)), words.text


@each_piece
def test_the_label_says_what_must_be_known(piece: FinishedPiece) -> None:
    text = " ".join(w.text for w in words_of(draw_piece(piece)))
    assert label_words(piece.label).title in text
    assert "Cut" in text
    assert "wool" in text


@each_piece
def test_each_edge_can_be_pointed_at(piece: FinishedPiece) -> None:
    tags = {i.tag for i in strokes_of(draw_piece(piece))}
    for edge in piece.piece.edges:
        assert f"{piece.name}: {edge.label}" in tags


@each_piece
def test_the_grain_arrow_runs_with_the_grain_inside_the_piece(piece: FinishedPiece) -> None:
    start, end = piece.grain
    given = piece.piece.grain
    assert unit(end - start) == pytest.approx(unit(given[1] - given[0]))
    line = shapely.LineString([(p.real, p.imag) for p in piece.grain])
    paper = polygon(piece.piece.outline)
    assert paper.covers(line)
    assert paper.exterior.distance(line) > 0.5
    for a in [d.tip for d in piece.piece.darts]:
        assert line.distance(shapely.Point(a.real, a.imag)) > 0.5


def test_the_fold_is_bracketed_and_never_cut() -> None:
    drawing = draw_piece(PIECES[0])
    fold = next(i for i in strokes_of(drawing) if i.tag.endswith("centre front"))
    assert fold.ink is Ink.FOLD
    assert not any(i.ink is Ink.CUT and i.tag.endswith("centre front") for i in strokes_of(drawing))
    heads = [
        i
        for i in strokes_of(drawing)
        if i.ink is Ink.GRAIN and i.fill and i.path[0].start.real == 0
    ]
    assert len(heads) == 2  # both point at the fold, which lies at x = 0
    assert any("fold" in w.text for w in words_of(drawing))


def test_notches_are_cut_into_the_allowance_not_over_it() -> None:
    piece = PIECES[1]
    paper, seam = polygon(piece.cut_line.outline), polygon(piece.piece.outline)
    notches = [i for i in strokes_of(draw_piece(piece)) if i.ink is Ink.NOTCH]
    assert len(notches) >= 5
    for stroke in notches:
        line = shapely.LineString([(c.real, c.imag) for c in stroke.path[0].controls])
        assert paper.buffer(0.01).covers(line)
        assert not seam.intersects(line)
        assert paper.exterior.distance(shapely.Point(line.coords[0])) < 0.02


def test_a_measure_is_written_along_its_edge() -> None:
    front = skirt_front()
    side = front.edge("side")
    middle = side.curves[0].at(0.5)
    marked = replace(front, marks=(Mark(MarkKind.MEASURE, middle, "61.2 cm", edge="side"),))
    found = finish(Pattern((marked,)), OPTIONS).pieces[0]
    words = next(w for w in words_of(draw_piece(found)) if w.text == "61.2 cm")
    along = unit(side.curves[0].velocity(0.5))
    assert abs((words.along * along.conjugate()).imag) < 1e-3
    assert abs(words.at - middle) < 1.5


def test_gathers_are_marked_from_where_to_where() -> None:
    flounce = next(p for p in PIECES if p.name == "flounce")
    drawing = draw_piece(flounce)
    assert any(w.text == "gathers" for w in words_of(drawing))
    low, high = inf, -inf
    for item in strokes_of(drawing):
        if item.ink is Ink.MARK:
            for curve in item.path:
                low, high = min(low, curve.start.real), max(high, curve.end.real)
    assert (low, high) == pytest.approx((0.0, flounce.piece.edge_length("top")), abs=0.01)


@pytest.mark.parametrize(
    ("kind", "words", "waves"),
    [(MarkKind.GATHERS, "gather in 1.2 cm", True), (MarkKind.EASE, "ease in 1.2 cm", False)],
)
def test_an_edge_drawn_up_has_a_sign_of_its_own_on_screen_and_paper(
    kind: MarkKind, words: str, waves: bool
) -> None:
    front = skirt_front()
    side = front.edge("side").curves[0]
    mark = Mark(kind, side.at(0.3), to=side.at(0.6), edge="side", amount=1.2)
    found = finish(Pattern((replace(front, marks=(mark,)),)), OPTIONS)
    drawing = draw_piece(found.pieces[0])
    assert any(w.text == words for w in words_of(drawing))
    tag = f"{front.name}: {kind}"
    signs = [s for s in strokes_of(drawing) if s.tag == tag]
    assert (
        any(isinstance(c, Cubic) and abs(c.second - c.first) < 0.6 for s in signs for c in s.path)
        is waves
    )
    assert len(signs) > 5 or waves  # dashes, and a bar at both ends
    assert not any(isinstance(i, Dot) and i.tag == tag for i in drawing.items)  # no drill hole
    (entry,) = [m for m in pattern_document(found).pieces[0].marks if m.kind is kind]
    assert (entry.amount, entry.text) == (1.2, "")
    text = dxf_text([PlacedPiece(front.name, drawing)], Title())
    assert text.count("POLYLINE\r\n8\r\n8\r\n") >= len(signs)
    assert words in text


def test_the_same_piece_is_drawn_once() -> None:
    pattern = flounced_skirt()
    first, again = finish(pattern, OPTIONS), finish(pattern, OPTIONS)
    assert draw_piece(first.pieces[0]) is draw_piece(again.pieces[0])


def test_layers_hold_what_they_are_called() -> None:
    for item in draw_piece(PIECES[0]).items:
        if isinstance(item, Words):
            assert item.layer is Layer.TEXT
        elif item.ink in (Ink.CUT, Ink.FOLD, Ink.PAPER):
            assert item.layer is Layer.CUT
        elif item.ink in (Ink.STITCH, Ink.DART):
            assert item.layer is Layer.STITCH
        else:
            assert item.layer is Layer.MARKS


def test_a_piece_too_small_for_words_still_bears_its_name() -> None:
    from tests.finish.pieces import rectangle

    tiny: Piece = rectangle(3, 3)
    found = finish(Pattern((tiny,)), OPTIONS).pieces[0]
    assert any("Rectangle" in w.text for w in words_of(draw_piece(found)))
