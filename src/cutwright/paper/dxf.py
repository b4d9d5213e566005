"""Pieces as DXF for cutting tables and other programs: release 12 text, a block for each piece.

Layer numbers follow what public texts quote of ASTM D6673-10 (withdrawn 2019): 1 boundary, 2 turn
points, 3 curve points, 4 notches, 6 fold, 7 grain, 8 internal lines, 11 cut-outs, 13 drill holes,
14 sew lines, 15 text. The standard itself was not at hand, so no conformity is claimed; see
docs/dxf.md. Millimetres, y up. Curves become chords within 0.01 mm.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from math import degrees, pi
from pathlib import Path
from unicodedata import normalize

from cutwright.documents import write_bytes
from cutwright.drawing.primitives import Dot, Drawing, Ink, Layer, Stroke, Words
from cutwright.drawing.type import whole_box
from cutwright.geometry.outline import FLAT, area, flattened
from cutwright.geometry.path import nearest, passes_within
from cutwright.geometry.point import Point, angle_between, angle_of
from cutwright.paper.errors import PaperError
from cutwright.paper.pieces import PlacedPiece, Title
from cutwright.paper.sheet import refuse_nothing
from cutwright.wording.names import name_text
from cutwright.words import _

BOUNDARY, TURN, CURVE, NOTCH, FOLD, GRAIN, INNER, CUT_OUT, DRILL, SEW, TEXT = (
    1, 2, 3, 4, 6, 7, 8, 11, 13, 14, 15
)  # fmt: skip
LAYERS = (BOUNDARY, TURN, CURVE, NOTCH, FOLD, GRAIN, INNER, CUT_OUT, DRILL, SEW, TEXT)

_MM = 10.0
_CORNER = pi / 180
_BETWEEN = 5.0
"""Free room between two pieces in the file, cm."""

_LINES = {Ink.STITCH: SEW, Ink.FOLD: FOLD, Ink.GRAIN: GRAIN}
_SILENT = {Ink.PAPER, Ink.CLOTH, Ink.FRAME, Ink.FAULT, Ink.LEVEL, Ink.LEADER}
_LEFT_OUT = {Layer.HELP, Layer.PROOF, Layer.CLOTH}
_ON = 0.01
Pairs = Iterator[tuple[int, object]]


def write_dxf(pieces: Sequence[PlacedPiece], path: Path, title: Title | None = None) -> None:
    """Write the pieces, side by side, as a DXF file."""
    write_bytes(path, dxf_text(pieces, title or Title()).encode("ascii"))


def dxf_text(pieces: Sequence[PlacedPiece], title: Title) -> str:
    """The DXF file as text; every line ends as the format's own examples do."""
    refuse_nothing(pieces)
    blocks = dict(zip(block_names([p.name for p in pieces]), pieces, strict=True))
    parts = [f"{group}\r\n{value}\r\n" for group, value in _file(blocks, title)]
    return "".join(parts)


def block_names(names: Sequence[str]) -> list[str]:
    """A name for each block: capitals, digits and underlines, at most 31, none twice."""
    found: list[str] = []
    for index, name in enumerate(names, 1):
        plain = normalize("NFKD", name).encode("ascii", "ignore").decode().upper()
        plain = "_".join("".join(c if c.isalnum() else " " for c in plain).split())
        plain = plain[:26] or f"PIECE_{index}"
        found.append(plain if plain not in found else f"{plain[:26]}_{index}")
    return found


def _file(blocks: dict[str, PlacedPiece], title: Title) -> Pairs:
    yield from ((0, "SECTION"), (2, "HEADER"), (9, "$ACADVER"), (1, "AC1009"), (0, "ENDSEC"))
    yield from ((0, "SECTION"), (2, "TABLES"), (0, "TABLE"), (2, "LAYER"), (70, len(LAYERS)))
    for layer in LAYERS:
        yield from ((0, "LAYER"), (2, layer), (70, 0), (62, 7), (6, "CONTINUOUS"))
    yield from ((0, "ENDTAB"), (0, "ENDSEC"))
    yield from ((0, "SECTION"), (2, "BLOCKS"))
    for name, piece in blocks.items():
        yield from _block(name, piece, title)
    yield from ((0, "ENDSEC"), (0, "SECTION"), (2, "ENTITIES"))
    x = 0.0
    for name, piece in blocks.items():
        left, _top, right, bottom = whole_box(piece.drawing)
        yield from ((0, "INSERT"), (8, BOUNDARY), (2, name), *_at(complex(x - left, -bottom)))
        x += right - left + _BETWEEN
    for row, text in enumerate(_style_texts(title)):
        yield from _text(BOUNDARY, text, complex(0, 4 + 2 * row), 1.0)
    yield from ((0, "ENDSEC"), (0, "EOF"))


def _style_texts(title: Title) -> list[str]:
    texts = [f"STYLE NAME: {title.style}"] if title.style else []
    if title.made:
        texts.append(f"CREATION DATE: {title.made.isoformat()}")
    return [*texts, "AUTHOR: Cutwright", "UNITS: METRIC"]


@dataclass(frozen=True, slots=True)
class _Sorted:
    """The strokes of a piece by what they are."""

    boundary: Stroke
    cut_outs: tuple[Stroke, ...]
    notches: tuple[Stroke, ...]
    lines: tuple[tuple[int, Stroke], ...]


def _sort(piece: PlacedPiece) -> _Sorted:
    strokes = [i for i in piece.drawing.items if isinstance(i, Stroke) and i.path]
    rings = [s for s in strokes if s.closed and s.ink in (Ink.PAPER, Ink.CUT)]
    if not rings:
        raise PaperError(
            _("The piece “{name}” has no closed outline, so it cannot go into a DXF file.").format(
                name=piece.name
            )
        )
    boundary = max(rings, key=lambda s: abs(area(s.path)))
    shown = [s for s in strokes if not s.fill and s.ink not in _SILENT]
    shown = [s for s in shown if s.layer not in _LEFT_OUT and not _traces(s, boundary)]
    inner = tuple(s for s in shown if s.closed and s.ink is Ink.CUT)
    notches = tuple(s for s in shown if s.ink is Ink.NOTCH)
    lines = tuple((_layer(s), s) for s in shown if s not in inner and s.ink is not Ink.NOTCH)
    return _Sorted(boundary, inner, notches, lines)


def _layer(stroke: Stroke) -> int:
    if stroke.ink is Ink.GRAIN and len(stroke.path) > 1:  # a bent arrow is no grain line
        return INNER
    return _LINES.get(stroke.ink, INNER)


def _traces(stroke: Stroke, boundary: Stroke) -> bool:
    """Whether a cut line is drawn on the boundary, which stands in the file already."""
    if stroke.ink is not Ink.CUT:
        return False
    places = (curve.at(t) for curve in stroke.path for t in (0.0, 0.4, 1.0))
    return all(passes_within(boundary.path, p, _ON) for p in places)


def _block(name: str, piece: PlacedPiece, title: Title) -> Pairs:
    strokes = _sort(piece)
    yield from ((0, "BLOCK"), (8, BOUNDARY), (2, name), (70, 0), *_at(0j), (3, name), (1, ""))
    yield from _polyline(BOUNDARY, strokes.boundary)
    yield from _points(strokes.boundary)
    for ring in strokes.cut_outs:
        yield from _polyline(CUT_OUT, ring)
    for layer, stroke in strokes.lines:
        yield from _polyline(layer, stroke)
    for notch in strokes.notches:
        yield from ((0, "POINT"), (8, NOTCH), *_at(_foot(notch, strokes.boundary)))
    yield from _spots_and_words(piece.drawing)
    left, _top, _right, bottom = whole_box(piece.drawing)
    texts = [f"PIECE NAME: {name_text(piece.name)}"] + (
        [f"SIZE: {title.body}"] if title.body else []
    )
    for row, text in enumerate(texts):
        yield from _text(BOUNDARY, text, complex(left, bottom + 2 + 1.5 * row), 0.6)
    yield from ((0, "ENDBLK"), (8, BOUNDARY))


def _spots_and_words(drawing: Drawing) -> Pairs:
    for item in drawing.items:
        if isinstance(item, Dot) and item.ink not in _SILENT:
            yield from ((0, "POINT"), (8, DRILL), *_at(item.at))
        elif isinstance(item, Words) and item.text.strip() and item.ink not in _SILENT:
            yield from _words(item)


def _foot(notch: Stroke, boundary: Stroke) -> Point:
    """The place of a notch on the boundary: that of its end which lies nearest to it."""

    def on_edge(p: Point) -> Point:
        index, t, _gap = nearest(boundary.path, p)
        return boundary.path[index].at(t)

    ends = (notch.path[0].start, notch.path[-1].end)
    return min((on_edge(p) for p in ends), key=lambda foot: min(abs(foot - p) for p in ends))


def _rounded(p: Point) -> tuple[float, float]:
    return p.real * _MM + 0.0, -p.imag * _MM + 0.0


def _at(p: Point) -> tuple[tuple[int, str], tuple[int, str], tuple[int, str]]:
    x, y = _rounded(p)
    return (10, f"{x:.4f}"), (20, f"{y:.4f}"), (30, "0.0")


def _polyline(layer: int, stroke: Stroke) -> Pairs:
    points = flattened(stroke.path, FLAT)
    if stroke.closed and abs(points[0] - points[-1]) < 1e-6:
        points.pop()
    yield from ((0, "POLYLINE"), (8, layer), (66, 1), *_at(0j), (70, int(stroke.closed)))
    for p in points:
        yield from ((0, "VERTEX"), (8, layer), *_at(p))
    yield from ((0, "SEQEND"), (8, layer))


def _points(ring: Stroke) -> Pairs:
    """A point at every corner of the boundary, and one at every other vertex of it."""
    corners = set(_corners(ring))
    for p in dict.fromkeys(_rounded(p) for p in flattened(ring.path, FLAT)):
        at = complex(p[0] / _MM, -p[1] / _MM)
        yield from ((0, "POINT"), (8, TURN if p in corners else CURVE), *_at(at))


def _corners(ring: Stroke) -> Iterable[tuple[float, float]]:
    path = ring.path
    for before, after in zip((path[-1], *path[:-1]), path, strict=True):
        if abs(angle_between(before.velocity(1.0), after.velocity(0.0))) > _CORNER:
            yield _rounded(after.start)


def _words(item: Words) -> Pairs:
    places = {"start": 0, "middle": 1, "end": 2}
    yield from _text(
        TEXT, item.text, item.at, item.size, -degrees(angle_of(item.along)), places[item.anchor]
    )


def _text(
    layer: int, text: str, at: Point, size: float, turn: float = 0.0, place: int = 0
) -> Pairs:
    yield from ((0, "TEXT"), (8, layer), *_at(at), (40, f"{size * _MM:.3f}"), (1, escaped(text)))
    if abs(turn) > 1e-6:
        yield (50, f"{turn:.4f}")
    if place:
        x, y = _rounded(at)
        yield from ((72, place), (11, f"{x:.4f}"), (21, f"{y:.4f}"), (31, "0.0"))


def escaped(text: str) -> str:
    """The text in plain ASCII: other letters as \\U+ and their code, as the format has it."""
    out = []
    for c in text:
        units = c.encode("utf-16-be")
        if c.isascii() and c.isprintable():
            out.append(c)
        elif c.isspace():
            out.append(" ")
        else:
            out += [f"\\U+{units[i] << 8 | units[i + 1]:04X}" for i in range(0, len(units), 2)]
    return "".join(out)
