"""What stands on a sheet besides the pieces: the scale square, the title, the faults.

All of it is drawn like a piece, in cm, y down. The reason for the square is common practice: a
printer that shrinks the page is found out before cloth is cut.
"""

from __future__ import annotations

from cutwright.drawing.primitives import Drawing, Ink, Item, Layer, Stroke, Words
from cutwright.drawing.type import text_width, wrapped
from cutwright.geometry.curve import Line
from cutwright.geometry.path import polyline
from cutwright.geometry.point import Point
from cutwright.numerals import day_words, in_inches
from cutwright.paper.pieces import Title
from cutwright.units import CM_PER_INCH
from cutwright.words import _, ngettext

SQUARE = 10.0
"""Side of the scale square, cm, measured on the middle of its line."""

INCH_SQUARE = 4 * CM_PER_INCH
"""Side of the square for whoever measures in inches, cm."""

_MOST_LINES = 10


def line(a: Point, b: Point, ink: Ink = Ink.FRAME, layer: Layer = Layer.TEXT) -> Stroke:
    """One straight line."""
    return Stroke((Line(a, b),), ink, layer)


def drawn_rectangle(
    left: float, top: float, wide: float, high: float, ink: Ink = Ink.FRAME
) -> Stroke:
    """An upright rectangle."""
    a = complex(left, top)
    corners = [a, a + wide, a + complex(wide, high), a + complex(0, high)]
    return Stroke(polyline([*corners, a]), ink, Layer.TEXT, closed=True)


def scale_square(at: Point = 0j) -> Drawing:
    """A square 10 cm each way with the line that says how to use it; `at` is its left upper corner."""
    x = at.real + SQUARE / 2
    items: list[Item] = [drawn_rectangle(at.real, at.imag, SQUARE, SQUARE, Ink.MARK)]
    texts = [
        (4.2, 0.45, True, _("10 cm")),
        (5.2, 0.24, False, _("Print at 100 % (actual size).")),
        (5.8, 0.24, False, _("This square must measure")),
        (6.4, 0.24, False, _("10 cm each way, line to line.")),
    ]
    if in_inches():
        items.append(drawn_rectangle(at.real, at.imag, INCH_SQUARE, INCH_SQUARE, Ink.MARK))
        texts.append((7.0, 0.24, False, _("The larger one, from the same corner: 4 in.")))
    items += [
        Words(
            complex(x, at.imag + down),
            text,
            fitting_height(text, size, SQUARE - 0.6),
            anchor="middle",
            bold=bold,
        )
        for down, size, bold, text in texts
    ]
    return Drawing(tuple(items))


def fitting_height(text: str, size: float, width: float, *, bold: bool = False) -> float:
    """The height of capitals, at most `size`, at which a line keeps to a width."""
    return min(size, size * width / max(text_width(text, size, bold=bold), 1e-9))


def title_words(title: Title, at: Point, width: float) -> tuple[Drawing, float]:
    """Style, body, date and revision under each other; and how far down they reach."""
    y = at.imag
    items: list[Item] = []
    rows = [
        (title.style, 0.55, True),
        (title.body, 0.32, False),
        (day_words(title.made) if title.made else "", 0.28, False),
        (title.revision, 0.28, False),
    ]
    for text, size, bold in rows:
        for part in wrapped(text, size, width, bold=bold):
            y += size
            fits = fitting_height(part, size, width, bold=bold)
            items.append(Words(complex(at.real, y), part, fits, bold=bold))
            y += size * 0.8
    return Drawing(tuple(items)), y


def fault_words(faults: tuple[str, ...], at: Point, width: float) -> tuple[Drawing, float]:
    """The faults of the pattern in a frame; and how far down it reaches."""
    if not faults:
        return Drawing(), at.imag
    inner = width - 0.8
    head = _("This pattern does not sew together as it is:")
    lines = [(part, True) for part in wrapped(head, 0.28, inner, bold=True)]
    for index, fault in enumerate(faults):
        if len(lines) >= _MOST_LINES:
            left = len(faults) - index
            more = ngettext("and {count} more fault", "and {count} more faults", left)
            lines.append((more.format(count=left), True))
            break
        lines += [(part, False) for part in wrapped(f"– {fault}", 0.24, inner)]
    items: list[Item] = []
    y = at.imag + 0.3
    for text, bold in lines:
        y += 0.28 if bold else 0.24
        where = complex(at.real + 0.4, y)
        size = 0.28 if bold else 0.24
        items.append(Words(where, text, size, Layer.PROOF, Ink.FAULT, bold=bold))
        y += 0.24
    y += 0.2
    items.append(drawn_rectangle(at.real, at.imag, width, y - at.imag, Ink.FAULT))
    return Drawing(tuple(items)), y


def corner_block(title: Title, width: float) -> Drawing:
    """What stands in the corner of a full sheet: scale square, title beside it, faults below."""
    beside = min(width - SQUARE - 1.0, 16.0)
    words, low = title_words(title, complex(SQUARE + 0.8, 0.0), beside)
    whole = SQUARE + 0.8 + beside
    faults, _low = fault_words(title.faults, complex(0.0, max(low, SQUARE) + 0.5), whole)
    return scale_square() + words + faults
