"""How wide words are: the shipped fonts measured without opening them.

A drawing gives words by the height of their capitals, because that is what a ruler can check on
paper; type size is that height over 0.714 (both cuts of Noto Sans, from their OS/2 table).
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

from cutwright.drawing.primitives import Drawing, Words
from cutwright.drawing.widths import BOLD, REGULAR

CAPITALS = 0.714
"""Height of capitals as a share of the type size."""

BELOW = 0.293
"""How far letters and accents reach below the baseline, as a share of the type size."""

FONTS = Path(__file__).parents[1] / "fonts"
SANS = {False: "NotoSans-Regular", True: "NotoSans-Bold"}
"""File names (without .ttf) of the plain and the bold cut."""

_MISSING = 600


class _Advances(dict[str, int]):
    """The width of each character in thousandths; 0.6 of the type size where the font lacks it."""

    def __missing__(self, _character: str) -> int:
        return _MISSING


@cache
def _advances(bold: bool) -> _Advances:
    table = BOLD if bold else REGULAR
    return _Advances((c, width) for width, chars in table.items() for c in chars)


def type_size(capitals: float) -> float:
    """The type size whose capitals have a given height; any unit."""
    return capitals / CAPITALS


def text_width(text: str, capitals: float, *, bold: bool = False) -> float:
    """How long a line of text runs, in the unit of the height of its capitals; without kerning."""
    return sum(map(_advances(bold).__getitem__, text)) / 1000 * type_size(capitals)


def wrapped(text: str, capitals: float, width: float, *, bold: bool = False) -> list[str]:
    """The text in lines no longer than a width; a single word may run over."""
    lines: list[str] = []
    for word in filter(None, text.replace("\n", " ").split(" ")):  # other spaces do not break
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and text_width(longer, capitals, bold=bold) <= width:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines


def words_box(words: Words) -> tuple[float, float, float, float]:
    """The upright box of one line of text: left, top, right, bottom in cm."""
    size = text_width(words.text, words.size, bold=words.bold)
    start = {"start": 0.0, "middle": -size / 2, "end": -size}[words.anchor]
    up, down = words.size * 1.1, type_size(words.size) * BELOW
    corners = [
        words.at + words.along * complex(x, y) for x in (start, start + size) for y in (-up, down)
    ]
    xs, ys = [p.real for p in corners], [p.imag for p in corners]
    return min(xs), min(ys), max(xs), max(ys)


def whole_box(drawing: Drawing) -> tuple[float, float, float, float]:
    """The upright box of a drawing with its words: left, top, right, bottom in cm."""
    boxes = [words_box(i) for i in drawing.items if isinstance(i, Words)]
    if any(not isinstance(i, Words) for i in drawing.items):
        boxes.append(drawing.box())
    if not boxes:
        return (0.0, 0.0, 0.0, 0.0)
    return (
        min(b[0] for b in boxes),
        min(b[1] for b in boxes),
        max(b[2] for b in boxes),
        max(b[3] for b in boxes),
    )
