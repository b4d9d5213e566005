"""A lay on one page to scale, or full size as a marker for the table."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from cutwright.documents import write_bytes
from cutwright.drawing.inks import PRINT
from cutwright.drawing.lay_words import LayTable
from cutwright.drawing.primitives import Drawing, Ink, Item, Layer, Words
from cutwright.drawing.svg import screen_style, svg
from cutwright.drawing.type import whole_box, wrapped
from cutwright.geometry.move import Move
from cutwright.numerals import by_custom, unit_name
from cutwright.paper.lay_table import LONG, MARGIN, SHORT, table_leaves
from cutwright.paper.pdf import Leaf, Plate, PlatePart, pdf_bytes
from cutwright.paper.pieces import PlacedPiece, Title
from cutwright.paper.sheet import write_sheet
from cutwright.words import _

_LINE = 0.62


def write_lay_page(
    drawing: Drawing,
    captions: Sequence[str],
    path: Path,
    title: Title,
    table: LayTable | None = None,
) -> int:
    """Write a lay to scale on one A4 page with what is said of it, then how it is put down by hand.

    Returns how many pages there are.
    """
    words = _head(captions, title)
    top = MARGIN + _LINE * (len(words) + 1)
    left, upper, right, lower = whole_box(drawing)
    scale = min((LONG - 2 * MARGIN) / (right - left), (SHORT - top - MARGIN) / (lower - upper))
    told = by_custom(
        _("1 {unit} here is {times:.1f} {unit} on the cloth").format(
            unit=unit_name(), times=1 / scale
        )
    )
    foot = Words(complex(MARGIN, SHORT - 0.6), told, 0.22, ink=Ink.NOTE)
    at = complex(MARGIN - left * scale, top - upper * scale)
    parts = [PlatePart(plate, at) for plate in _plates(drawing, scale)]
    parts.append(PlatePart(Plate("title", Drawing((*words, foot))), 0j))
    leaves = [Leaf(LONG, SHORT, tuple(parts))]
    leaves += table_leaves(table, title) if table else []
    write_bytes(path, pdf_bytes(leaves, PRINT, title))
    return len(leaves)


def _plates(drawing: Drawing, scale: float) -> list[Plate]:
    """The drawing on plates in the order it was painted: a layer may come back above another."""
    runs: list[tuple[Layer, list[Item]]] = []
    for item in drawing.items:
        if not runs or runs[-1][0] != item.layer:
            runs.append((item.layer, []))
        runs[-1][1].append(item)
    return [Plate(layer.value, Drawing(tuple(items)), scale=scale) for layer, items in runs]


def _head(captions: Sequence[str], title: Title) -> list[Words]:
    lines = [(title.line(), 0.36, True)]
    for caption in filter(None, captions):
        lines += [(part, 0.24, False) for part in wrapped(caption, 0.24, LONG - 2 * MARGIN)]
    return [
        Words(complex(MARGIN, MARGIN + 0.3 + k * _LINE), text, size, bold=bold)
        for k, (text, size, bold) in enumerate(lines)
    ]


def write_marker(drawing: Drawing, path: Path, title: Title) -> int:
    """Write the lay full size, as long as the table; returns how many pages it has."""
    _left, upper, _right, lower = whole_box(drawing)
    upright = drawing.moved(Move(1j, 0j))  # along the length of the paper
    return write_sheet(
        [PlacedPiece(_("lay"), upright)], max(lower - upper + 4.0, 30.0), path, title
    )


_SVG_STYLE = (
    "svg{background:#fff}.drawing text{paint-order:stroke}"
    ".drawing text.i-text{stroke:#fff;stroke-width:0.5;stroke-linejoin:round}"
)
"""White ground, and a white rim about the names so that lines behind them do not disturb."""


def write_lay_svg(drawing: Drawing, path: Path, title: Title) -> None:
    """Write the lay as a drawing for screens, with its own look, so that it stands alone."""
    text = svg(drawing, title=title.line(), margin=2.0)
    head, rest = text.split(">", 1)
    look = f"<style>{screen_style()}\n{_SVG_STYLE}</style>"
    write_bytes(path, f"{head}>{look}{rest}".encode())
