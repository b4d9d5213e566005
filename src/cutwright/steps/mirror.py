"""Mirror half pieces about their fold into whole ones."""

from __future__ import annotations

from dataclasses import replace
from typing import ClassVar, Literal

from pydantic import Field

from cutwright.body.body import Body
from cutwright.messages import N_
from cutwright.pattern.change import account
from cutwright.pattern.cutting.flare import refuse_if_crossing
from cutwright.pattern.edge import Ref
from cutwright.pattern.parts.mirrored import Unfolded, unfolded
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.result import Result, Trace, TraceKind
from cutwright.pattern.seam import Seam, Side
from cutwright.pattern.sum import Figure, Number, Rounding, rounded, times
from cutwright.style.parameter import PieceName
from cutwright.style.registry import register
from cutwright.style.step import Step


@register
class Mirror(Step):
    """Unfold pieces, so that left and right can be worked differently or cut on open cloth."""

    SENTENCE: ClassVar[str] = N_("Mirror {pieces} into whole pieces.")
    HELP: ClassVar[str] = N_(
        "The half on the fold is copied to the other side. Edges that meet the fold run through it and keep their "
        'name; every other edge, dart and mark is there a second time, called "left side", "left shoulder" and '
        "so on. Name all pieces that are sewn to each other, so that left is sewn to left."
    )
    WHY: ClassVar[str] = N_(
        "Left and right can then be cut differently. On the half, every change comes out on both sides."
    )
    GROUP: ClassVar[str] = "paper"

    do: Literal["mirror"] = "mirror"
    pieces: tuple[PieceName, ...] = Field(
        min_length=1,
        max_length=12,
        description=N_("the pieces to unfold"),
        json_schema_extra={"role": "pieces"},
    )

    def apply(self, pattern: Pattern, body: Body) -> Result:
        """Unfold every piece and sew left to left."""
        done = {name: unfolded(pattern.piece(name)) for name in dict.fromkeys(self.pieces)}
        for one in done.values():
            refuse_if_crossing(one.piece, N_("Mirroring"))
        changed = pattern.with_pieces(*(one.piece for one in done.values()))
        seams = tuple(
            _eased(pattern, old, changed, new) for old in pattern.seams for new in _sewn(old, done)
        )
        changed = replace(changed, seams=seams)
        removed = frozenset(Ref(name, one.fold) for name, one in done.items())
        change = account(pattern, changed, removed=removed)
        traces = tuple(
            Trace(TraceKind.ADDED, name, path=one.piece.outline) for name, one in done.items()
        )
        figures = tuple(f for n, one in done.items() for f in _figures(pattern, n, one))
        return Result(changed, change, figures, traces=traces)


def _figures(before: Pattern, name: str, one: Unfolded) -> tuple[Figure, ...]:
    out: list[Figure] = []
    for edge in before.piece(name).edge_names():
        if edge in one.merged:
            half = before.piece(name).tape(edge, 0.01)
            whole = rounded(times(half, Number(2, "halves")), Rounding.NEAREST, 0.1)
            out.append(Figure("length", whole, name, edge))
    return tuple(out)


def _sewn(seam: Seam, done: dict[str, Unfolded]) -> tuple[Seam, ...]:
    """A seam after unfolding: once more on the left where all its edges were copied."""
    sides = [side for row in seam.rows for side in row]
    if not any(_is_copied(s, done) for s in sides):
        return (seam,)
    if all(_is_copied(s, done) for s in sides):
        return seam, seam.with_rows([_left(row, done) for row in seam.rows])
    return (seam.with_rows([_both(row, done) for row in seam.rows]),)


def _is_copied(side: Side, done: dict[str, Unfolded]) -> bool:
    return side.ref.piece in done and side.ref.edge in done[side.ref.piece].copied


def _left(row: tuple[Side, ...], done: dict[str, Unfolded]) -> tuple[Side, ...]:
    """The same row on the other side of the body, where the outline runs the other way."""
    return tuple(
        Side(Ref(s.ref.piece, done[s.ref.piece].copied[s.ref.edge]), not s.backwards) for s in row
    )


def _both(row: tuple[Side, ...], done: dict[str, Unfolded]) -> tuple[Side, ...]:
    """A row in which copied edges are followed by their other selves.

    The seam is sewn right and left: a copied edge belongs to one of the two places.
    """
    out: list[Side] = []
    for side in row:
        if _is_copied(side, done):
            out.append(replace(side, strand=1))
            out.extend(replace(left, strand=2) for left in _left((side,), done))
        else:
            out.append(side)
    return tuple(out)


def _eased(before: Pattern, old: Seam, after: Pattern, new: Seam) -> Seam:
    """The seam with its ease as often as it is looked at now."""
    if not old.ease:
        return new
    was, now = before.seam_lengths(old)[old.base], after.seam_lengths(new)[new.base]
    return new.eased_times(round(now / was)) if was > 0 and now > was else new
