"""A lay for the page: every piece a thing that can be taken in hand, pinned ones marked."""

from __future__ import annotations

from collections.abc import Collection
from html import escape

from cutwright.drawing.lay import cloth_items, placed_items
from cutwright.drawing.primitives import Drawing
from cutwright.drawing.svg import svg_items
from cutwright.drawing.type import whole_box
from cutwright.lay.plan import Placement
from cutwright.wording.names import name_text
from cutwright.words import _
from cutwright.workshop.laying import LaidWork

MARGIN = 1.5

Held = tuple[str, tuple[int, ...]]


def held(placement: Placement) -> Held:
    """What tells a placement from all others: the piece and which copies of it."""
    return placement.piece, placement.copies


def lay_svg(laid: LaidWork, pinned: Collection[Held]) -> str:
    """The lay as one svg element; each piece a group of class `laid` with its number."""
    cloth = Drawing(tuple(cloth_items(laid.lay)))
    placed = [Drawing(items) for items in placed_items(laid.lay, laid.cut, laid.work.finished)]
    left, top, right, bottom = whole_box(
        Drawing(tuple(item for drawing in (cloth, *placed) for item in drawing.items))
    )
    view = f"{left - MARGIN:.2f} {top - MARGIN:.2f} " + (
        f"{right - left + 2 * MARGIN:.2f} {bottom - top + 2 * MARGIN:.2f}"
    )
    label = escape(_("The pieces on the cloth, numbered in the order of cutting"))
    groups = [
        _group(number, placement, drawing, held(placement) in pinned)
        for number, (placement, drawing) in enumerate(
            zip(laid.lay.placements, placed, strict=True), 1
        )
    ]
    return (
        f'<svg class="drawing lay" viewBox="{view}" role="group" aria-label="{label}">'
        f'<g aria-hidden="true">{svg_items(cloth)}</g>{"".join(groups)}</svg>'
    )


def _group(number: int, placement: Placement, drawing: Drawing, pinned: bool) -> str:
    how = _("on the fold") if placement.on_fold else ""
    if not how:
        how = _("copy {copies}").format(copies=", ".join(map(str, placement.copies)))
    name = f"{number}. {name_text(placement.piece)}, {how}"
    if pinned:
        name = _("{piece}, pinned").format(piece=name)
    left, top, right, bottom = drawing.box()
    mark = ""
    if pinned:
        size = max(0.022 * (right - left + bottom - top), 1.0)
        x, y = left + (right - left) / 2, top + 0.16 * (bottom - top)
        mark = f'<circle class="pin" cx="{x:.2f}" cy="{y:.2f}" r="{size:.2f}"/>'
    look = "laid pinned" if pinned else "laid"
    return (
        f'<g class="{look}" data-number="{number - 1}" tabindex="0" role="button" '
        f'aria-pressed="false" aria-label="{escape(name)}">{svg_items(drawing)}{mark}</g>'
    )
