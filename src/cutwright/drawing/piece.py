"""How a finished piece is drawn: lines, marks and words, at full size in centimetres."""

from __future__ import annotations

from cutwright.drawing.edge_names import edge_names
from cutwright.drawing.piece_label import set_label
from cutwright.drawing.piece_marks import drawn_marks, fold_brackets, levels
from cutwright.drawing.primitives import Drawing, Ink, Item, Layer, Stroke, Words
from cutwright.drawing.signs import arrow
from cutwright.drawing.type import text_width
from cutwright.finish.finished import CutPiece, FinishedPiece
from cutwright.finish.grain import WORDS_CLEAR, dart_lines, paper_room
from cutwright.geometry.outline import flattened
from cutwright.geometry.path import polyline
from cutwright.geometry.point import Point
from cutwright.memo import memoised
from cutwright.numerals import in_inches
from cutwright.pattern.edge import Edge, EdgeKind
from cutwright.words import current_language


def draw_piece(finished: FinishedPiece) -> Drawing:
    """A finished piece as a drawing in the language and the unit in force; remembered as long as the piece is in use.

    Painted in order: paper, levels, stitch line, cut line, darts, marks, words.
    """
    return _drawn(finished, language=current_language(), inches=in_inches())


@memoised
def _drawn(finished: FinishedPiece, *, language: str, inches: bool) -> Drawing:
    marks: list[Item] = [*fold_brackets(finished.piece), *drawn_marks(finished)]
    grain = arrow(*finished.grain, Ink.GRAIN, tag=f"{finished.name}: grain")
    taken = [*dart_lines(finished.piece), list(finished.grain), *_shapes(marks)]
    room = paper_room(finished.piece).without(taken, WORDS_CLEAR)
    lines = levels(finished, room)
    names = edge_names(finished, [*taken, *_shapes(lines)])
    room = room.without([*_shapes(lines), *_shapes(names)], WORDS_CLEAR * 0.8)
    marks += names
    label = set_label(finished, room, _wish(finished))
    paper, *outlines = draw_outlines(finished.cut).items
    return Drawing((paper, *lines, *outlines, *grain, *marks, *label))


@memoised
def draw_outlines(cut: CutPiece) -> Drawing:
    """The paper of a piece, its stitch line, dart legs and cut line, each edge with its tag."""
    piece = cut.piece
    outline = cut.line.outline
    out: list[Item] = [
        Stroke(outline, Ink.PAPER, Layer.CUT, closed=True, fill=True, tag=piece.name)
    ]
    for edge in piece.edges:
        tag = f"{piece.name}: {edge.label}"
        if edge.taken_up or cut.line.edge(edge.label).allowance:
            ink = Ink.DART if edge.taken_up else Ink.STITCH
            out.append(Stroke(edge.curves, ink, Layer.STITCH, tag=tag))
    for d in piece.diamonds:
        ring = polyline([d.top, d.far, d.bottom, d.near, d.top])
        out.append(Stroke(ring, Ink.DART, Layer.STITCH, closed=True, tag=f"{piece.name}: {d.name}"))
    folds = {edge.label for edge in piece.edges if edge.kind is EdgeKind.FOLD}
    for beyond in cut.line.edges:
        ink = Ink.FOLD if beyond.label in folds else Ink.CUT
        out.append(Stroke(beyond.curves, ink, Layer.CUT, tag=f"{piece.name}: {beyond.label}"))
    return Drawing(tuple(out))


def edge_ink(edge: Edge, usual: Ink) -> Ink:
    """The ink of an edge of the stitch line: legs of darts and folds of the cloth have their own."""
    if edge.taken_up:
        return Ink.DART
    return Ink.FOLD if edge.kind is EdgeKind.FOLD else usual


def _shapes(items: list[Item]) -> list[list[Point]]:
    """Where strokes and words lie, as polylines to keep clear of."""
    out: list[list[Point]] = []
    for item in items:
        if isinstance(item, Stroke):
            if item.ink is not Ink.NOTCH:
                out.append(flattened(item.path, 0.1))
        elif isinstance(item, Words):
            half = text_width(item.text, item.size, bold=item.bold) * item.along / 2
            middle = item.at + (half if item.anchor == "start" else 0) - 1j * item.along * 0.14
            if item.anchor == "end":
                middle -= half
            out.append([middle - half, middle + half])
        else:
            out.append([item.at, item.at])
    return out


def _wish(finished: FinishedPiece) -> Point:
    """Where a label should sit: in the middle, a little above half way."""
    ends = [edge.start for edge in finished.piece.edges]
    xs, ys = [p.real for p in ends], [p.imag for p in ends]
    return complex((min(xs) + max(xs)) / 2, min(ys) + (max(ys) - min(ys)) * 0.42)
