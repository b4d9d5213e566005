"""Mirror half pieces about their fold into whole ones."""

from __future__ import annotations

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
from cutwright.pattern.sewing.doubled import Twins, doubled_seams
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
        twins = {
            Ref(name, own): Twins(Ref(name, own), Ref(name, left))
            for name, one in done.items()
            for own, left in one.copied.items()
        }
        changed = changed.sewn(doubled_seams(pattern, changed, twins))
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
