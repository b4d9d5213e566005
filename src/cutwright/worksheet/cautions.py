"""Cautions that apply to this garment, how to care for it, and lines for notes."""

from __future__ import annotations

from cutwright.pattern.edge import EdgeKind
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.words import _
from cutwright.worksheet.parts import is_flounce
from cutwright.worksheet.sheet import Block, Lines, Section, Text

LONG = 15.0
"""From this depth a flounce counts as long, cm."""


def cautions_section(pattern: Pattern) -> Section:
    """What to mind: tools, flames, wheels and stairs; children's clothes and nightwear."""
    texts = [
        _(
            "Shears and rotary cutters: cut away from yourself, close the blade whenever you put it "
            "down, keep fingers behind the ruler."
        ),
        _("Needles and pins: count them, take pins out before the machine reaches them."),
        _(
            "Iron: it burns and steam scalds. Stand it up, unplug it when you leave, and try its heat "
            "on a scrap of the same cloth."
        ),
    ]
    if any(is_flounce(p) and _depth(p) >= LONG for p in pattern.pieces):
        texts.append(
            _(
                "Long flounces: keep them away from open flame, cookers, bicycle wheels and "
                "machines, and lift them on stairs."
            )
        )
    texts.append(
        _(
            "For a child: no cords or ties at neck or hood, nothing small that can come off. "
            "Nightwear must meet the fire rules of your country. Local rules stand above this sheet."
        )
    )
    return Section("cautions", _("Safety"), tuple(Text(text, "caution") for text in texts))


def _depth(piece: Piece) -> float:
    """How deep a flounce is: the length of an end, a side that meets the hem."""
    kinds = [e.kind for e in piece.edges]
    size = len(kinds)
    ends = [
        edge.length
        for at, edge in enumerate(piece.edges)
        if edge.kind is not EdgeKind.HEM and EdgeKind.HEM in (kinds[at - 1], kinds[(at + 1) % size])
    ]
    return max(ends, default=0.0)


def care_section(pattern: Pattern) -> Section:
    """Care in words; the cloth's own label comes first."""
    texts = [
        _("What the maker of the cloth says comes first. Where nothing is said:"),
        _("Wash the cloth once before cutting, as the garment will be washed, and press it dry."),
        _(
            "Wash at 30 °C with like colours, inside out; do not tumble dry; dry on a hanger; iron "
            "from the wrong side while damp. Wool and velvet: have them cleaned, do not wash."
        ),
    ]
    if any(is_flounce(p) for p in pattern.pieces):
        texts.append(
            _("Iron flounces from the free edge towards the seam, the point of the iron into it.")
        )
    return Section("care", _("Care"), tuple(Text(text) for text in texts))


def notes_section() -> Section:
    """Lines to write on."""
    blocks: tuple[Block, ...] = (Lines(12),)
    return Section("notes", _("Notes"), blocks)
