"""What is said of a lay for the hand: how to fold the cloth, and where each piece is put down."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from cutwright.finish.finished import FinishedPattern
from cutwright.lay.by_hand import Across, PutDown, laying_order
from cutwright.lay.piece import LayPiece
from cutwright.lay.plan import Lay, Placement
from cutwright.numerals import bare, length_words, unit_name
from cutwright.wording.names import name_text
from cutwright.words import N_, _

ACROSS: dict[Across, str] = {
    "the fold": N_("the fold"),
    "the upper fold": N_("the upper fold"),
    "the lower fold": N_("the lower fold"),
    "the upper selvedge": N_("the upper selvedge"),
}


@dataclass(frozen=True, slots=True)
class LayTable:
    """How a lay is put down by hand: sentences first, then a row for each piece."""

    sentences: tuple[str, ...]
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


def lay_table(
    lay: Lay, pieces: Mapping[str, LayPiece], finished: FinishedPattern | None
) -> LayTable:
    """The lay in words and figures, in the order of laying."""
    grains = {p.name: p.grain for p in finished.pieces} if finished else {}
    head = (
        _("No."), _("Piece"), _("How it is cut"), _("From the end of the cloth, {unit}").format(unit=unit_name()),
        _("Grain line, near end: along × across"), _("far end: along × across"),
        _("Across from"),
    )  # fmt: skip
    rows = tuple(_row(one) for one in laying_order(lay, pieces, grains))
    return LayTable((*fold_sentences(lay), _measured()), head, rows)


def _measured() -> str:
    return _(
        "Lay the pieces in this order. Measure along from the end of the cloth, across from the fold "
        "or the selvedge named, to both ends of the grain line; pin the grain line first."
    )


def fold_sentences(lay: Lay) -> tuple[str, ...]:
    """How the cloth is folded or opened, stretch by stretch."""
    out: list[str] = []
    for at, part in enumerate(lay.parts):
        long = length_words(part.length)
        rest = at + 1 < len(lay.parts)
        if part.fold == "lengthwise":
            text = (
                _(
                    "Fold {length} of the cloth lengthwise, right sides together; then lay the rest open."
                )
                if rest
                else _("Fold the cloth lengthwise, right sides together; {length} are used.")
            )
        elif part.fold == "selvedges to the middle":
            text = (
                _(
                    "Fold both selvedges of {length} of the cloth to the middle, right sides together, so "
                    "that they meet there without a gap; then lay the rest open."
                )
                if rest
                else _(
                    "Fold both selvedges to the middle, right sides together, so that they meet there "
                    "without a gap; {length} are used."
                )
            )
        elif part.fold == "crosswise":
            text = (
                _(
                    "Fold {length} of the cloth back crosswise, right sides together; then lay the rest open."
                )
                if rest
                else _("Fold the cloth crosswise, right sides together; {length} lie double.")
            )
        elif at:
            text = _("On the open part, {length} long, lay the pieces with the right side up.")
        else:
            text = _("Lay the cloth open, right side up; {length} are used.")
        out.append(text.format(length=long))
    return tuple(out)


def _row(one: PutDown) -> tuple[str, ...]:
    near, far = one.grain
    return (
        str(one.number),
        name_text(one.placement.piece),
        _how(one),
        bare(one.begins),
        f"{bare(near.real)} × {bare(near.imag)}",
        f"{bare(far.real)} × {bare(far.imag)}",
        _(ACROSS[one.across]),
    )


def copies_words(placement: Placement, upper_only: bool) -> str:
    """On the fold, which copies come of it, whether one layer is cut alone."""
    if placement.on_fold:
        return _("on the fold")
    copies = _("copy {copies}").format(copies=", ".join(map(str, placement.copies)))
    return ", ".join([copies, _("upper layer only")]) if upper_only else copies


def _how(one: PutDown) -> str:
    """The same, and which side of the paper lies up."""
    copies = copies_words(one.placement, one.upper_only)
    return ", ".join([copies, _("printed side down")]) if one.placement.mirrored else copies
