"""How a finished piece is drawn: lines, marks and words, at full size in centimetres."""

from __future__ import annotations

from functools import lru_cache

from cutwright.drawing.piece_label import set_label
from cutwright.drawing.piece_marks import drawn_marks, fold_brackets, levels
from cutwright.drawing.primitives import Drawing, Ink, Item, Layer, Stroke, Words
from cutwright.drawing.signs import arrow
from cutwright.drawing.type import words_box
from cutwright.finish.finished import FinishedPiece
from cutwright.finish.grain import dart_lines
from cutwright.geometry.outline import flattened
from cutwright.geometry.path import polyline
from cutwright.geometry.point import Point
from cutwright.geometry.room import room_in
from cutwright.pattern.edge import Kind

_CLEAR = 0.45


@lru_cache(maxsize=256)
def draw_piece(finished: FinishedPiece) -> Drawing:
    """A finished piece as a drawing; remembered as long as the same piece is asked for.

    Painted in order: paper, levels, stitch line, cut line, darts, marks, words.
    """
    marks: list[Item] = [*fold_brackets(finished.piece), *drawn_marks(finished)]
    grain = arrow(*finished.grain, Ink.GRAIN, tag=f"{finished.name}: grain")
    taken = [*dart_lines(finished.piece), list(finished.grain), *_shapes(marks)]
    room = room_in(finished.piece.outline, 1 + 0j, _CLEAR).without(taken, _CLEAR)
    lines = levels(finished, room)
    room = room.without(_shapes(lines), _CLEAR * 0.8)
    label = set_label(finished.label, room, _wish(finished), finished.piece.area, finished.name)
    return Drawing((*_paper(finished), *lines, *_outlines(finished), *grain, *marks, *label))


def _paper(finished: FinishedPiece) -> list[Item]:
    outline = finished.cut_line.outline
    return [Stroke(outline, Ink.PAPER, Layer.CUT, closed=True, fill=True, tag=finished.name)]


def _outlines(finished: FinishedPiece) -> list[Item]:
    """Stitch line, dart legs and cut line, each edge with its tag."""
    piece, out = finished.piece, list[Item]()
    for edge in piece.edges:
        tag = f"{piece.name}: {edge.label}"
        if edge.kind is Kind.LEG:
            out.append(Stroke(edge.curves, Ink.DART, Layer.STITCH, tag=tag))
        elif finished.cut_line.edge(edge.label).allowance:
            out.append(Stroke(edge.curves, Ink.STITCH, Layer.STITCH, tag=tag))
    for d in piece.diamonds:
        ring = polyline([d.top, d.far, d.bottom, d.near, d.top])
        out.append(Stroke(ring, Ink.DART, Layer.STITCH, closed=True, tag=f"{piece.name}: {d.name}"))
    folds = {edge.label for edge in piece.edges if edge.kind is Kind.FOLD}
    for cut in finished.cut_line.edges:
        ink = Ink.FOLD if cut.label in folds else Ink.CUT
        out.append(Stroke(cut.curves, ink, Layer.CUT, tag=f"{piece.name}: {cut.label}"))
    return out


def _shapes(items: list[Item]) -> list[list[Point]]:
    """Where strokes and words lie, as polylines to keep clear of."""
    out: list[list[Point]] = []
    for item in items:
        if isinstance(item, Stroke):
            out.append(flattened(item.path, 0.1))
        elif isinstance(item, Words):
            left, top, right, bottom = words_box(item)
            middle = (top + bottom) / 2
            out.append([complex(left, top), complex(right, top), complex(right, bottom)])
            out[-1] += [complex(left, bottom), complex(left, top)]
            out.append([complex(left, middle), complex(right, middle)])
        else:
            out.append([item.at, item.at])
    return out


def _wish(finished: FinishedPiece) -> Point:
    """Where a label should sit: in the middle, a little above half way."""
    points = flattened(finished.piece.outline, 0.5)
    xs, ys = [p.real for p in points], [p.imag for p in points]
    return complex((min(xs) + max(xs)) / 2, min(ys) + (max(ys) - min(ys)) * 0.42)
