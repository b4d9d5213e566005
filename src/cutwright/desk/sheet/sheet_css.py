"""The look of a work sheet inside the page: the desk's colours on the screen, black on white in print."""

from __future__ import annotations

import re
from dataclasses import replace
from functools import cache

from cutwright.desk.web.ink_css import evening
from cutwright.drawing.inks import Pens
from cutwright.drawing.primitives import Ink
from cutwright.drawing.svg import screen_style
from cutwright.worksheet.html import PENS
from cutwright.worksheet.html_style import STYLE

COLOURS = {
    "#2b2926": "var(--ink)",
    "#5c564b": "var(--soft)",
    "#8c2a22": "var(--madder)",
    "#a3352b": "var(--madder)",
    "#2f5b93": "var(--woad)",
    "#2f6b3e": "var(--leaf)",
    "#cfc6b3": "var(--hair)",
    "#a69d8b": "var(--line)",
    "#fffdf7": "var(--ground)",
    "#e8f2e6": "var(--ground)",
    "#f8e6e2": "var(--ground)",
}
"""Each colour of the sheet's own style sheet, by the name it has on the desk."""

_PRINTED = (
    ":root[data-theme]{--ink:#000;--soft:#444;--madder:#8f2a25;--woad:#2b4668;--leaf:#3f5f30;"
    "--hair:#bbb;--line:#777;--ground:#fff;--sheet:#fff;--raised:#fff;color-scheme:light}"
)
HALVES = 60
"""Pictures are up to this many half centimetres wide."""


def framed(html: str) -> str:
    """A sheet's HTML for a page that allows no style in its elements: widths become classes of half cm."""
    return re.sub(r' style="--wide:([\d.]+)"', _width, html)


def _width(match: re.Match[str]) -> str:
    halves = min(max(round(float(match.group(1)) * 2), 1), HALVES)
    return f' data-wide="{halves}"'


@cache
def sheet_css() -> str:
    """The whole style sheet."""
    day = [line for line in screen_style(PENS).splitlines() if ".i-" in line]
    dark = [line for line in screen_style(_by_night()).splitlines() if ".i-" in line]
    asked, wished = ":root[data-theme=dark] .worksheet", ":root[data-theme=auto] .worksheet"
    widths = "\n".join(
        f'.worksheet [data-wide="{n}"]{{--wide:{n / 2:g}}}' for n in range(1, HALVES + 1)
    )
    return "\n".join(
        [
            _own(),
            widths,
            *_under(".worksheet", day),
            "@media screen{",
            *_under(asked, dark),
            "@media (prefers-color-scheme:dark){",
            *_under(wished, dark),
            "}}",
            "@media print{",
            _PRINTED,
            *_under(":root[data-theme] .worksheet", day),
            "}",
        ]
    )


def _own() -> str:
    """The sheet's own style sheet without its ground, in the colours of the desk."""
    own = re.sub(r"(?m)(^|\{)html\{[^}]*\}", r"\1", STYLE)
    for colour, name in COLOURS.items():
        own = own.replace(colour, name)
    return own


def _under(where: str, lines: list[str]) -> list[str]:
    """Rules that hold only within a place."""
    return [re.sub(r"(^|,)\.drawing", rf"\1{where} .drawing", line) for line in lines]


def _by_night() -> Pens:
    """The inks of the sheet on dark paper: the widths of the sheet, the colours of the evening."""
    dark = evening()
    out = {}
    for ink, pen in PENS.items():
        night = dark.get(ink, pen)
        fill = night.fill if pen.fill else pen.fill
        out[ink] = replace(pen, colour=night.colour, fill=fill)
    out[Ink.MEASURED] = replace(out[Ink.MEASURED], colour=dark[Ink.SLASH].colour)
    return out
