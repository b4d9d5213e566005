"""How each ink looks on a device: one table for print, one for the screen, two for a projector.

Print is black with two dark colours that stay dark when a printer has only grey: woad blue for
stitching, madder red for faults. Dashes follow common practice: cutting solid, stitching dashed.
The screen has iron-gall ink, madder, woad and weld on warm paper. Widths and dashes are in
millimetres of paper; on a screen a width is about a device pixel a quarter millimetre.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from cutwright.drawing.primitives import Ink

BLACK, MADDER, WOAD, WELD = "#000000", "#8c1d18", "#1d3f6e", "#b98b12"
GALL, WARM = "#2b2926", "#f7f1e3"


@dataclass(frozen=True, slots=True)
class Pen:
    """A line's colour (#rrggbb), width and dash (mm); `fill` paints insides, None as the line.

    An empty `fill` leaves insides bare; a width of nought draws no line.
    """

    colour: str = BLACK
    width: float = 0.25
    dash: tuple[float, ...] = ()
    fill: str | None = None


Pens = Mapping[Ink, Pen]

_PRINT: dict[Ink, Pen] = {
    Ink.CUT: Pen(width=0.5),
    Ink.STITCH: Pen(WOAD, 0.3, (3.0, 1.5)),
    Ink.FOLD: Pen(width=0.4, dash=(8.0, 1.5, 1.5, 1.5)),
    Ink.GRAIN: Pen(width=0.3),
    Ink.NOTCH: Pen(width=0.5),
    Ink.MARK: Pen(width=0.3),
    Ink.DART: Pen(WOAD, 0.3, (1.6, 1.2)),
    Ink.LEVEL: Pen("#6e6e6e", 0.18, (0.4, 1.4)),
    Ink.TEXT: Pen(width=0.2),
    Ink.NOTE: Pen("#4a4a4a", 0.18),
    Ink.FAULT: Pen(MADDER, 0.8),
    Ink.PAPER: Pen(width=0.0, fill=""),
    Ink.GONE: Pen("#8a8a8a", 0.2, (1.2, 1.2)),
    Ink.SLASH: Pen(MADDER, 0.35, (2.0, 1.0)),
    Ink.WEDGE: Pen(WELD, 0.2, fill="#f3e7c2"),
    Ink.CLOSED: Pen("#8a8a8a", 0.2, fill="#e6e6e6"),
    Ink.PIVOT: Pen(MADDER, 0.3),
    Ink.ARROW: Pen(MADDER, 0.3),
    Ink.MEASURED: Pen("#4a4a4a", 0.18),
    Ink.ADDED: Pen(WOAD, 0.35),
    Ink.CLOTH: Pen("#8a8a8a", 0.3, fill=""),
    Ink.FRAME: Pen("#5a5a5a", 0.18),
    Ink.LEADER: Pen("#5a5a5a", 0.15),
}
PRINT: Pens = _PRINT
"""Full-size paper and the work sheet."""

SCREEN: Pens = _PRINT | {
    Ink.CUT: Pen(GALL, 0.45),
    Ink.STITCH: Pen("#2f5b93", 0.35, (1.5, 0.9)),
    Ink.FOLD: Pen(GALL, 0.4, (3.0, 0.8, 0.6, 0.8)),
    Ink.GRAIN: Pen(GALL, 0.3),
    Ink.NOTCH: Pen(GALL, 0.45),
    Ink.MARK: Pen(GALL, 0.3),
    Ink.DART: Pen("#2f5b93", 0.3, (0.9, 0.8)),
    Ink.LEVEL: Pen("#8d8576", 0.25, (0.4, 0.9)),
    Ink.TEXT: Pen(GALL, 0.25),
    Ink.NOTE: Pen("#5c564b", 0.25),
    Ink.FAULT: Pen("#a3352b", 0.7),
    Ink.PAPER: Pen(GALL, 0.0, fill="#fffdf7"),
    Ink.GONE: Pen("#a69d8b", 0.3, (0.8, 0.8)),
    Ink.SLASH: Pen("#a3352b", 0.4, (1.2, 0.6)),
    Ink.WEDGE: Pen("#c99a1c", 0.3, fill="#f4e4b4"),
    Ink.CLOSED: Pen("#a69d8b", 0.3, fill="#e9e2d2"),
    Ink.PIVOT: Pen("#a3352b", 0.35),
    Ink.ARROW: Pen("#a3352b", 0.4),
    Ink.MEASURED: Pen("#5c564b", 0.25),
    Ink.ADDED: Pen("#3f7d4e", 0.45),
    Ink.CLOTH: Pen("#a69d8b", 0.3, fill="#ece3cf"),
    Ink.FRAME: Pen("#8d8576", 0.25),
    Ink.LEADER: Pen("#8d8576", 0.2),
}
"""The page, on paper of the colour WARM."""


def _thick(pen: Pen, colour: str) -> Pen:
    bare = pen.fill if pen.fill in (None, "") else ""
    dash = tuple(part * 3 for part in pen.dash)
    return replace(pen, colour=colour, width=max(pen.width * 4, 1.2), dash=dash, fill=bare)


PROJECTOR: Pens = {
    ink: replace(pen, width=0.0) if ink is Ink.PAPER else _thick(pen, pen.colour)
    for ink, pen in PRINT.items()
} | {Ink.FRAME: Pen("#b5b5b5", 0.8), Ink.TEXT: Pen(width=0.8)}
"""Lines that can be seen and cut along when they are thrown on cloth; light ground."""

_LIGHT = {Ink.STITCH: "#8fd0ff", Ink.DART: "#8fd0ff", Ink.FAULT: "#ff8a7d", Ink.FRAME: "#4d4d4d"}
PROJECTOR_DARK: Pens = {
    ink: replace(pen, colour=_LIGHT.get(ink, "#ffffff")) for ink, pen in PROJECTOR.items()
}
"""The same for a dark ground, so that the lamp lights only the lines."""
