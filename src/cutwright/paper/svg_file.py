"""All pieces in one SVG file of true size: millimetres, a group for each layer, curves kept.

The file states its own size (`width` and `height` in mm) and its unit is the millimetre; looks are
written on each group, so that it needs no style sheet. Words name the font and fall back to any
plain one.
"""

from __future__ import annotations

from collections.abc import Sequence
from html import escape
from pathlib import Path as FilePath

from cutwright.documents import write_bytes
from cutwright.drawing.inks import PRINT, Pen
from cutwright.drawing.primitives import Dot, Item, Layer, Stroke, Words
from cutwright.drawing.svg import path_data
from cutwright.drawing.type import type_size
from cutwright.geometry.curve import Cubic, Curve, Line
from cutwright.geometry.path import Path
from cutwright.geometry.point import angle_of
from cutwright.paper.arrange import ArrangedShape, arrange, upright_or_turned
from cutwright.paper.furniture import corner_block
from cutwright.paper.pdf import LAYER_WORDS
from cutwright.paper.pieces import PlacedPiece, Title
from cutwright.paper.sheet import MARGIN, refuse_nothing
from cutwright.words import _

_MM = 10.0


def write_svg(
    pieces: Sequence[PlacedPiece],
    path: FilePath,
    title: Title | None = None,
    *,
    width: float = 90.0,
) -> None:
    """Write the pieces, arranged on a width in cm, as an SVG file."""
    write_bytes(path, svg_text(pieces, title or Title(), width).encode())


def svg_text(pieces: Sequence[PlacedPiece], title: Title, width: float) -> str:
    """The SVG file as text; wider than asked only if a piece is."""
    refuse_nothing(pieces)
    wide = width - 2 * MARGIN
    corner = ArrangedShape.of(PlacedPiece("", corner_block(title, wide)))
    shapes = upright_or_turned(pieces, wide, float("inf"))
    wide = max([wide, *(shape.width for shape in shapes)])
    spread = arrange(shapes, wide, corner=corner)[0].shifted(complex(MARGIN, MARGIN))
    size = (spread.width + MARGIN) * _MM, (spread.height + MARGIN) * _MM
    placed = spread.pieces()
    groups = [_layer(layer, placed) for layer in Layer]
    frame = "".join(_element(i) for p in placed if not p.name for i in p.drawing.items)
    groups.append(f'<g id="title">\n{frame}</g>\n')
    name = escape(title.line() or _("Pattern"))
    return (
        '<?xml version="1.0" encoding="UTF-8"?>\n'
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{size[0]:.3f}mm" height="{size[1]:.3f}mm" '
        f'viewBox="0 0 {size[0]:.3f} {size[1]:.3f}">\n<title>{name}</title>\n'
        + "".join(groups)
        + "</svg>\n"
    )


def _layer(layer: Layer, pieces: Sequence[PlacedPiece]) -> str:
    """One group for a layer, in it one for each piece; empty where nothing is on the layer."""
    inner = ""
    for piece in pieces:
        items = [item for item in piece.drawing.items if item.layer is layer]
        if piece.name and items:
            body = "".join(_element(item) for item in items)
            inner += f'<g data-piece="{escape(piece.name)}">\n{body}</g>\n' if body else ""
    if not inner:
        return ""
    ident = layer.value.replace(" ", "-")
    return f'<g id="{ident}" aria-label="{escape(_(LAYER_WORDS[layer.value]))}">\n{inner}</g>\n'


def _element(item: Item) -> str:
    pen = PRINT[item.ink]
    if isinstance(item, Words):
        return _words(item, pen)
    if not pen.width and not (item.fill and pen.fill != ""):
        return ""
    look = _look(pen, fill=item.fill)
    tag = f' data-tag="{escape(item.tag)}"' if item.tag else ""
    if isinstance(item, Dot):
        x, y, r = item.at.real * _MM, item.at.imag * _MM, item.radius * _MM
        return f'<circle cx="{x:.3f}" cy="{y:.3f}" r="{r:.3f}"{tag} {look}/>\n'
    return f'<path d="{_data(item)}"{tag} {look}/>\n'


def _data(item: Stroke) -> str:
    return path_data(_millimetres(item.path), closed=item.closed)


def _millimetres(path: Path) -> Path:
    curves: list[Curve] = []
    for c in path:
        if isinstance(c, Line):
            curves.append(Line(c.start * _MM, c.end * _MM))
        else:
            curves.append(Cubic(c.start * _MM, c.first * _MM, c.second * _MM, c.end * _MM))
    return tuple(curves)


def _look(pen: Pen, *, fill: bool) -> str:
    inside = (pen.colour if pen.fill is None else pen.fill or "none") if fill else "none"
    line = f'stroke="{pen.colour}" stroke-width="{pen.width:g}"' if pen.width else 'stroke="none"'
    dash = ' stroke-dasharray="{}"'.format(" ".join(f"{d:g}" for d in pen.dash)) if pen.dash else ""
    return f'fill="{inside}" {line}{dash}'


def _words(item: Words, pen: Pen) -> str:
    x, y = item.at.real * _MM, item.at.imag * _MM
    turn = angle_of(item.along) * 57.29577951308232
    rotated = f' transform="rotate({turn:.3f} {x:.3f} {y:.3f})"' if abs(turn) > 1e-3 else ""
    bold = ' font-weight="700"' if item.bold else ""
    return (
        f'<text x="{x:.3f}" y="{y:.3f}"{rotated} font-family="Noto Sans, sans-serif"{bold} '
        f'font-size="{type_size(item.size) * _MM:.3f}" text-anchor="{item.anchor}" '
        f'fill="{pen.colour}">{escape(item.text)}</text>\n'
    )
