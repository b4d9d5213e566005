"""Give left and right papers of their own."""

from __future__ import annotations

from dataclasses import replace
from typing import ClassVar, Literal

from pydantic import Field

from cutwright.body.body import Body
from cutwright.errors import StepError
from cutwright.messages import N_, Message
from cutwright.pattern.change import account
from cutwright.pattern.edge import Ref
from cutwright.pattern.parts.sided import sided
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.pattern.result import Result, Trace, TraceKind
from cutwright.pattern.sewing.doubled import Twins, doubled_seams
from cutwright.style.parameter import PieceName
from cutwright.style.registry import register
from cutwright.style.step import Step


@register
class PartSides(Step):
    """Part a pair into a left and a right piece, which may then differ."""

    SENTENCE: ClassVar[str] = N_("Part {pieces} into left and right.")
    HELP: ClassVar[str] = N_(
        "A piece that is cut as a pair gets two papers, called right and left as they are worn. Later sentences name "
        "one of them, so that a front can overlap the other or carry a pocket alone."
    )
    WHY: ClassVar[str] = N_(
        "From one paper left and right come out alike. What is there on one side only needs a paper of its own."
    )
    GROUP: ClassVar[str] = "paper"

    do: Literal["part_sides"] = "part_sides"
    pieces: tuple[PieceName, ...] = Field(
        min_length=1,
        max_length=12,
        description=N_("the pieces to part"),
        json_schema_extra={"role": "pieces"},
    )

    def apply(self, pattern: Pattern, body: Body) -> Result:
        """Replace each pair by two pieces and sew each to its own side."""
        done = {name: sided(pattern.piece(name)) for name in dict.fromkeys(self.pieces)}
        _refuse_taken(pattern, done)
        twins = {
            Ref(name, edge): Twins(Ref(right.name, edge), Ref(left.name, edge))
            for name, (right, left) in done.items()
            for edge in right.edge_names()
        }
        pieces = tuple(new for old in pattern.pieces for new in done.get(old.name, (old,)))
        bare = replace(pattern.without(done), pieces=pieces)
        changed = bare.sewn(doubled_seams(pattern, bare, twins))
        became = {
            Ref(name, e.label): (Ref(right.name, e.label), Ref(left.name, e.label))
            for name, (right, left) in done.items()
            for e in right.edges
        }
        traces = tuple(
            Trace(TraceKind.ADDED, one.name, path=one.outline)
            for two in done.values()
            for one in two
        )
        return Result(changed, account(pattern, changed, became), traces=traces)


def _refuse_taken(pattern: Pattern, done: dict[str, tuple[Piece, Piece]]) -> None:
    for two in done.values():
        for one in two:
            if one.name in pattern.names:
                raise StepError(
                    Message("already", N_('There is a "{piece}" already.'), piece=one.name)
                )
