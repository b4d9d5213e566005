"""Join two pieces along an edge into one."""

from __future__ import annotations

from typing import ClassVar, Literal

from pydantic import Field

from cutwright.body.body import Body
from cutwright.messages import N_
from cutwright.pattern.change import account
from cutwright.pattern.cutting.flare import refuse_if_crossing
from cutwright.pattern.parts.joining import joined_on
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.result import Result, Trace, TraceKind
from cutwright.pattern.sewing.joined_seams import joined_seams
from cutwright.pattern.sum import Figure
from cutwright.style.parameter import EdgeOf
from cutwright.style.registry import register
from cutwright.style.step import Step


@register
class Join(Step):
    """Lay a piece with one edge on an edge of another and cut them as one."""

    SENTENCE: ClassVar[str] = N_("Join the {other} to the {to}.")
    HELP: ClassVar[str] = N_(
        "The second piece is laid with its edge on the edge of the first, which stays where it is and keeps its "
        "name. Both edges must be of one length and shape. Edges of one name that meet at the join become one; "
        "every other name stays, and the seams follow."
    )
    WHY: ClassVar[str] = N_(
        "One seam less to sew, or one paper that can be cut along another line. Edges of different shape "
        "leave a fold or a gap."
    )
    GROUP: ClassVar[str] = "paper"

    do: Literal["join"] = "join"
    to: EdgeOf = Field(description=N_("the piece that stays, and its edge"))
    other: EdgeOf = Field(description=N_("the piece that is joined on, and its edge"))

    def apply(self, pattern: Pattern, body: Body) -> Result:
        """Move the second piece, weld the outlines, sew what was sewn to either."""
        first, second = pattern.piece(self.to.piece), pattern.piece(self.other.piece)
        done = joined_on(first, self.to.edge, second, self.other.edge)
        piece = refuse_if_crossing(done.piece, N_("Joining"))
        changed = pattern.with_pieces(piece).without([second.name])
        changed = changed.sewn(joined_seams(pattern, done, second.name))
        change = account(pattern, changed, done.became)
        line = tuple(first.edge(self.to.edge).curves)
        return Result(
            changed,
            change,
            (Figure("joined-along", first.tape(self.to.edge), first.name, self.to.edge),),
            traces=(
                Trace(TraceKind.ADDED, first.name, path=second.moved(done.move).outline),
                Trace(TraceKind.CLOSED, first.name, path=line),
            ),
        )
