"""A finished piece as a part of the picture on the table, every edge of it a thing to point at."""

from __future__ import annotations

from html import escape
from zlib import crc32

from cutwright.drawing.name_place import name_place
from cutwright.drawing.piece import draw_outlines, draw_piece
from cutwright.drawing.primitives import Drawing
from cutwright.drawing.svg import path_data, svg_items
from cutwright.drawing.type import text_width
from cutwright.finish.finished import CutPiece, FinishedPiece
from cutwright.finish.label import how_cut
from cutwright.finish.options import FinishOptions
from cutwright.geometry.path import polyline
from cutwright.memo import memoised
from cutwright.numerals import by_custom
from cutwright.pattern.piece import Piece
from cutwright.wording.message_text import message_text
from cutwright.wording.names import name_text, sentence_case
from cutwright.words import _, current_language, ngettext

Layer = tuple[str, str]
"""(mark, SVG) of a part of the picture; equal marks mean equal pictures."""


@memoised
def outline_svg(cut: CutPiece) -> Layer:
    """The paper of a piece with its stitch and cut lines, in its own coordinates."""
    return _marked(svg_items(draw_outlines(cut)))


def words_svg(finished: FinishedPiece) -> Layer:
    """Everything that lies on the outlines: marks, grain, words, and what can be pointed at."""
    return _words(finished, language=current_language())


@memoised
def _words(finished: FinishedPiece, *, language: str) -> Layer:
    piece = finished.piece
    below = set(map(id, draw_outlines(finished.cut).items))
    above = Drawing(tuple(i for i in draw_piece(finished).items if id(i) not in below))
    cut = message_text(how_cut(piece, FinishOptions()))
    parts = (_body(finished, cut), svg_items(above), *_hits(piece), _name(finished))
    return _marked("".join(parts))


def _marked(text: str) -> Layer:
    return f"{crc32(text.encode()):08x}", text


NAME = 3.4
"""The height of a name's capitals when a whole dress is seen on a laptop, cm of the table."""


def _name(finished: FinishedPiece) -> str:
    """Name and number to cut, for a look from afar: they keep their size on the screen."""
    piece = finished.piece
    name = sentence_case(name_text(piece.name))
    middle, _share = name_place(piece, text_width(name, NAME), NAME * 2.9, [finished.grain])
    where = f'x="{middle.real:.2f}" y="{middle.imag:.2f}" text-anchor="middle"'
    return (
        f'<g class="name" aria-hidden="true"><text {where}>{escape(name)}</text>'
        f'<text class="how" {where} dy="1.35em">{escape(_copies(piece))}</text></g>'
    )


def _copies(piece: Piece) -> str:
    copies = piece.cut.copies
    if piece.on_fold:
        return _("{count} on the fold").format(count=copies)
    if piece.cut.mirrored and copies % 2 == 0:
        return ngettext("{count} pair", "{count} pairs", copies // 2).format(count=copies // 2)
    return _("cut {count}").format(count=copies)


def _body(finished: FinishedPiece, cut: str) -> str:
    d = path_data(finished.cut_line.outline, closed=True)
    label = _("piece {name}, {how}").format(name=name_text(finished.name), how=cut)
    return _button("hit body", finished.name, label, d)


def _hits(piece: Piece) -> list[str]:
    """A wide unseen twin for every edge and dart, that a finger can hit and a key can reach."""
    out: list[str] = []
    for edge in piece.outer_edges:
        label = _("{edge} of {piece}, {length:.1f} cm").format(
            edge=name_text(edge.label), piece=name_text(piece.name), length=edge.length
        )
        out.append(_button("hit", f"{piece.name}: {edge.label}", label, path_data(edge.curves)))
    for dart in piece.darts:
        path = (*piece.legs(dart)[0].curves, *piece.legs(dart)[1].curves)
        label = _("{dart} of {piece}, {width:.1f} cm wide at its mouth").format(
            dart=name_text(dart.name), piece=name_text(piece.name), width=piece.intake(dart)
        )
        out.append(_button("hit dart", f"{piece.name}: {dart.name}", label, path_data(path)))
    for d in piece.diamonds:
        ring = polyline([d.top, d.far, d.bottom, d.near, d.top])
        label = _("{dart} of {piece}, {width:.1f} cm at its widest").format(
            dart=name_text(d.name), piece=name_text(piece.name), width=d.intake
        )
        out.append(_button("hit dart", f"{piece.name}: {d.name}", label, path_data(ring)))
    return out


def _button(classes: str, tag: str, label: str, d: str) -> str:
    return (
        f'<path class="{classes}" data-tag="{escape(tag)}" role="button" tabindex="-1" '
        f'aria-label="{escape(by_custom(label))}" d="{d}"/>'
    )
