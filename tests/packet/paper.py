"""What must be true of one piece of paper: curves its allowance can follow, marks apart, words inside."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import combinations

import numpy as np
import shapely
from numpy.typing import NDArray

from cutwright.drawing.primitives import Drawing, Ink, Stroke, Words
from cutwright.drawing.type import words_box
from tests.packet.reading import Document, Piece, along, controls, length, spot, xy
from tests.packet.seams import Miss

APART = 0.5
"""Two marks nearer than this are one mark or a fault, cm."""
ONE = 0.05
BESIDE = 1.0
"""A notch nearer to a seam than this says nothing that the seam does not say, cm."""
_ON = 0.05
_BEND = 0.1
"""A bend sharper than its allowance over less than this length is a corner, cm."""


def radii(document: Document) -> Iterator[Miss]:
    """Where a stitch line is hollow its radius is larger than its allowance."""
    for piece in document.pieces.values():
        for curve in piece.entry["stitch_line"]:
            allowance = piece.edges[curve["edge"]]["allowance"]
            c = controls(curve)
            if len(c) == 4 and allowance:
                tight, least = _tightest(c, allowance)
                if tight > _BEND:
                    where = f"{piece.name}: {curve['edge']}"
                    yield Miss("radius", where, least, f"{least:.2f} under {allowance:g}")


def _tightest(c: NDArray[np.complex128], allowance: float) -> tuple[float, float]:
    """How long a cubic is too hollow for its allowance, and its least hollow radius."""
    t = np.linspace(0.0, 1.0, 201)
    s = 1 - t
    one = 3 * (s * s * (c[1] - c[0]) + 2 * s * t * (c[2] - c[1]) + t * t * (c[3] - c[2]))
    two = 6 * (s * (c[2] - 2 * c[1] + c[0]) + t * (c[3] - 2 * c[2] + c[1]))
    turn = np.atleast_1d(one.real * two.imag - one.imag * two.real)
    hollow = turn < -1e-12
    if not hollow.any():
        return 0.0, np.inf
    speed = np.abs(np.atleast_1d(one))
    radius = np.power(speed[hollow], 3.0) / -turn[hollow]
    long = float((speed[hollow][radius < allowance] / 200).sum())
    return long, float(radius.min())


def cut_lines(document: Document) -> Iterator[Miss]:
    """Beside its edge the cut line lies off by the allowance, and nowhere nearer."""
    for piece in document.pieces.values():
        for label, edge in piece.edges.items():
            stitch, cut = piece.chain(label), piece.chain(label, "cut_line")
            if not edge["allowance"] or len(cut) < 2:
                continue
            line = shapely.LineString(xy(stitch))
            away = np.atleast_1d(shapely.distance(line, shapely.points(xy(cut))))
            at = np.atleast_1d(shapely.line_locate_point(line, shapely.points(xy(cut))))
            beside = (at > 0.05) & (at < line.length - 0.05)
            off = float(np.abs(away[beside] - edge["allowance"]).max(initial=0.0))
            if off > _ON:
                yield Miss("cut line", f"{piece.name}: {label}", off)


def crowded(document: Document) -> Iterator[Miss]:
    """No two marks within half a centimetre unless they are one."""
    for piece in document.pieces.values():
        marks = piece.marks("notch", "dart mouth", "drill", "zip end")
        for a, b in combinations(marks, 2):
            gap = abs(spot(a["at"]) - spot(b["at"]))
            two = a["kind"] == b["kind"] == "notch" and a["text"] != b["text"]
            if gap < APART and (gap > ONE or two):
                kinds = f"{a['kind']} and {b['kind']}"
                yield Miss("marks crowd", f"{piece.name}: {a.get('edge') or a['text']}", gap, kinds)


def beside(document: Document) -> Iterator[Miss]:
    """No notch lies so near a corner that the allowance of the next seam covers it, unless at it.

    One that shows where a seam of the other row comes to lie says something else than the corner.
    """
    for piece in document.pieces.values():
        for mark in piece.marks("notch"):
            line = piece.chain(mark["edge"])
            at, whole = along(line, spot(mark["at"])), length(line)
            off = min(at, whole - at)
            edge = piece.neighbour(mark["edge"], end=at > whole - at)
            if mark["meets"] or edge["kind"] in ("fold", "dart leg"):
                continue
            if 0.05 < off < BESIDE:
                yield Miss("notch beside corner", f"{piece.name}: {mark['edge']}", off)


def words(document: Document, drawings: Iterable[tuple[str, Drawing]]) -> Iterator[Miss]:
    """Words lie inside their own piece or have a leader into it, and none lies on another."""
    for name, drawing in drawings:
        ring = document.pieces[name].ring("cut_line")
        leaders = [_line(s) for s in _strokes(drawing) if s.tag == f"{name}: leader"]
        written = [(w, _box(w)) for w in drawing.items if isinstance(w, Words)]
        for word, box in written:
            block = shapely.MultiPolygon([b for w, b in written if w.tag == word.tag])
            led = any(_leads(x, block.convex_hull, ring) for x in leaders)
            if not ring.buffer(_ON).covers(box) and not led:
                yield Miss("words outside", name, box.difference(ring).area, word.text)
        for (a, one), (b, two) in combinations(written, 2):
            both = one.intersection(two).area
            if both > 0.25 * min(one.area, two.area):
                yield Miss("words on words", name, both, f"{a.text} / {b.text}")


def _leads(line: shapely.LineString, block: shapely.Geometry, ring: shapely.Polygon) -> bool:
    return bool(line.distance(block) < 0.6 and line.intersects(ring))


def _box(word: Words) -> shapely.Polygon:
    upright = Words(0j, word.text, word.size, anchor=word.anchor, bold=word.bold)
    left, top, right, bottom = words_box(upright)
    corners = (
        complex(left, top),
        complex(right, top),
        complex(right, bottom),
        complex(left, bottom),
    )
    return shapely.Polygon(xy(np.array([word.at + word.along * c for c in corners])))


def _strokes(drawing: Drawing) -> Iterator[Stroke]:
    return (item for item in drawing.items if isinstance(item, Stroke))


def _line(stroke: Stroke) -> shapely.LineString:
    points = [p for curve in stroke.path for p in (curve.start, curve.at(0.5), curve.end)]
    return shapely.LineString(xy(np.array(points)))


def grain(document: Document) -> Iterator[Miss]:
    """The grain line lies inside its piece."""
    for piece in document.pieces.values():
        line = shapely.LineString(xy(np.array([spot(p) for p in piece.entry["grain"]])))
        if not piece.ring("cut_line").buffer(_ON).covers(line):
            yield Miss("grain outside", piece.name, line.length)


def levels(document: Document, drawings: Iterable[tuple[str, Drawing]]) -> Iterator[Miss]:
    """A bust level is one line through the bust point, or none."""
    for name, drawing in drawings:
        piece = document.pieces[name]
        points = [spot(m["at"]) for m in piece.marks("point") if m["text"] == "bust point"]
        lines = [_line(s) for s in _strokes(drawing) if s.tag == f"{name}: bust"]
        lines = [x for x, s in zip(lines, _levels(drawing, name), strict=True) if s]
        if not lines:
            continue
        if len(lines) > 1:
            yield Miss("bust level broken", name, float(len(lines)))
        for p in points:
            off = min(line.distance(shapely.Point(p.real, p.imag)) for line in lines)
            if off > 0.1:
                yield Miss("bust level off", name, off)


def _levels(drawing: Drawing, name: str) -> list[bool]:
    return [s.ink is Ink.LEVEL for s in _strokes(drawing) if s.tag == f"{name}: bust"]


def named(document: Document, drawings: Iterable[tuple[str, Drawing]]) -> Iterator[Miss]:
    """Every piece has its number of so many, and its centre is named."""
    for at, (name, drawing) in enumerate(drawings, 1):
        texts = [w.text for w in drawing.items if isinstance(w, Words)]
        for text in (f"{at} of {len(document.pieces)}", *_signs(document.pieces[name])):
            if not any(text in t for t in texts):
                yield Miss("not named", name, 0.0, text)


def _signs(piece: Piece) -> set[str]:
    signs = {"centre front": "CF", "centre back": "CB"}
    return {signs[e] for e in piece.edges if e in signs}
