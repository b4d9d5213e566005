"""Invented pieces to print: curves, notches, words, darts; shapes no garment was made from."""

from __future__ import annotations

from datetime import date

from cutwright.drawing.primitives import Dot, Drawing, Ink, Item, Layer, Stroke, Words
from cutwright.geometry.curve import Cubic, Curve, Line
from cutwright.geometry.path import Path, polyline
from cutwright.geometry.point import Point
from cutwright.paper.pieces import PlacedPiece, Title

TITLE = Title(
    style="Harbour dress", body="Wren, 88-70-96", made=date(2026, 3, 14), revision="revision 3"
)


def ring(path: Path, ink: Ink, layer: Layer, tag: str = "") -> Stroke:
    return Stroke(path, ink, layer, closed=True, tag=tag)


def smaller(path: Path, by: float) -> Path:
    """The outline drawn in towards its middle: near enough a stitch line for a trial."""
    points = [curve.start for curve in path]
    xs, ys = [p.real for p in points], [p.imag for p in points]
    middle = complex(min(xs) + max(xs), min(ys) + max(ys)) / 2
    fx, fy = 1 - 2 * by / (max(xs) - min(xs)), 1 - 2 * by / (max(ys) - min(ys))

    def move(p: Point) -> Point:
        arm = p - middle
        return middle + complex(arm.real * fx, arm.imag * fy)

    out: list[Curve] = []
    for c in path:
        if isinstance(c, Line):
            out.append(Line(move(c.start), move(c.end)))
        else:
            out.append(Cubic(move(c.start), move(c.first), move(c.second), move(c.end)))
    return tuple(out)


def arrow(a: Point, b: Point) -> list[Item]:
    along = (b - a) / abs(b - a)
    items: list[Item] = [Stroke((Line(a, b),), Ink.GRAIN, Layer.MARKS, tag="grain")]
    for tip, way in ((a, along), (b, -along)):
        wings = [tip + way * complex(1, side) * 0.8 for side in (0.35, -0.35)]
        head = polyline([tip, *wings, tip])
        items.append(Stroke(head, Ink.GRAIN, Layer.MARKS, closed=True, fill=True))
    return items


def piece(name: str, outline: Path, lines: tuple[str, ...] = ("Cut 2",)) -> PlacedPiece:
    stitch = smaller(outline, 1.5)
    xs, ys = [c.start.real for c in outline], [c.start.imag for c in outline]
    middle = complex(min(xs) + max(xs), min(ys) + max(ys)) / 2
    high = max(ys) - min(ys)
    items: list[Item] = [
        Stroke(outline, Ink.PAPER, Layer.CUT, closed=True, fill=True),
        ring(outline, Ink.CUT, Layer.CUT, f"{name}: cut"),
        ring(stitch, Ink.STITCH, Layer.STITCH, f"{name}: stitch"),
        Words(middle, name, 0.6, anchor="middle", bold=True),
    ]
    items += [
        Words(middle + complex(0, 1.1 + i * 0.7), text, 0.35, anchor="middle")
        for i, text in enumerate(lines)
    ]
    for index in (0, len(outline) // 2):
        place = outline[index].at(0.5)
        inward = (middle - place) / abs(middle - place)
        items.append(Stroke((Line(place, place + inward * 0.8),), Ink.NOTCH, Layer.MARKS))
    items.append(Dot(middle + complex(0, -high / 6), 0.2, Ink.MARK, Layer.MARKS, fill=False))
    side = middle + complex((max(xs) - min(xs)) / 5, 0)
    items += arrow(side - high / 5 * 1j, side + high / 5 * 1j)
    return PlacedPiece(name, Drawing(tuple(items)))


def bodice(wide: float = 27.0, high: float = 48.0) -> Path:
    a, b = complex(7, 0), complex(19, 3)
    c, d = complex(wide, 22), complex(wide - 2, high)
    e, f = complex(0, high + 1.5), complex(0, 8)
    return (
        Line(a, b),
        Cubic(b, complex(18, 11), complex(19, 20), c),
        Line(c, d),
        Cubic(d, d + complex(-8, 1.5), e + 8, e),
        Line(e, f),
        Cubic(f, f + 4, a + 3j, a),
    )


def skirt(top: float = 20.0, hem: float = 44.0, high: float = 68.0) -> Path:
    a, b = complex(0, 0), complex(top, 1)
    c, d = complex(hem, high - 4), complex(0, high)
    return (
        Cubic(a, a + 7, b - 7 - 1j, b),
        Cubic(b, b + complex(4, 14), c - complex(9, 24), c),
        Cubic(c, c + complex(-12, 3), d + 15, d),
        Line(d, a),
    )


def sleeve(wide: float = 34.0, high: float = 58.0) -> Path:
    a, b = complex(0, 14), complex(wide / 2, 0)
    c, d, e = complex(wide, 14), complex(wide - 5, high), complex(5, high)
    return (
        Cubic(a, a + complex(8, -1), b - 8, b),
        Cubic(b, b + 8, c + complex(-8, -1), c),
        Line(c, d),
        Cubic(d, d + complex(-8, 1), e + complex(8, 1), e),
        Line(e, a),
    )


def strip(wide: float, high: float) -> Path:
    corners = [0j, complex(wide, 0), complex(wide, high), complex(0, high), 0j]
    return polyline(corners)


def garment() -> list[PlacedPiece]:
    """Ten pieces, some named in Greek and Cyrillic."""
    return [
        piece("bodice front", bodice(), ("Cut 1 on the fold", "Harbour dress · Wren · rev. 3")),
        piece("bodice back", bodice(25.0, 46.0)),
        piece("skirt front", skirt(), ("Cut 1 on the fold",)),
        piece("skirt back", skirt(22.0, 46.0, 70.0)),
        piece("sleeve", sleeve()),
        piece("γιακάς", strip(44.0, 9.0), ("Κόψτε 2",)),
        piece("манжета", strip(24.0, 11.0), ("Вырезать 4",)),
        piece("neck facing", strip(18.0, 7.0)),
        piece("pocket", strip(16.0, 18.0)),
        piece("belt", strip(7.0, 90.0)),
    ]
