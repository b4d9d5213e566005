"""The look of each ink on the page by day and by evening, from the table of inks."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from cutwright.drawing.inks import SCREEN, Pens
from cutwright.drawing.primitives import Ink
from cutwright.drawing.svg import screen_style

_PALE, _QUIET = "#efe6d6", "#a2957e"
_BY_NIGHT = {
    Ink.STITCH: ("#9dbce6", None),
    Ink.DART: ("#9dbce6", None),
    Ink.FAULT: ("#eba093", None),
    Ink.SLASH: ("#eba093", None),
    Ink.PIVOT: ("#eba093", None),
    Ink.ARROW: ("#eba093", None),
    Ink.ADDED: ("#a9d08f", None),
    Ink.WEDGE: ("#e0b94a", "#6b5820"),
    Ink.CLOSED: (_QUIET, "#48413a"),
    Ink.CLOTH: (_QUIET, "#3a332c"),
    Ink.PAPER: (_PALE, "#332d27"),
    Ink.LEVEL: (_QUIET, None),
    Ink.GONE: (_QUIET, None),
    Ink.FRAME: (_QUIET, None),
    Ink.NOTE: ("#c8bca6", None),
    Ink.MEASURED: ("#c8bca6", None),
}


def evening() -> Pens:
    """The inks on dark paper."""
    out = {}
    for ink, pen in SCREEN.items():
        colour, fill = _BY_NIGHT.get(ink, (_PALE, None))
        out[ink] = replace(pen, colour=colour, fill=pen.fill if fill is None else fill)
    return out


@cache
def ink_css() -> str:
    """The style sheet for drawings: by day, by evening on request, and as the machine wishes."""
    dark = [line for line in screen_style(evening()).splitlines() if ".i-" in line]
    asked = "\n".join(line.replace(".drawing", ":root[data-theme=dark] .drawing") for line in dark)
    wished = "\n".join(line.replace(".drawing", ":root[data-theme=auto] .drawing") for line in dark)
    day = screen_style()
    return f"{day}\n{asked}\n@media (prefers-color-scheme:dark){{\n{wished}\n}}\n"
