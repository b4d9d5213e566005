"""A box pleat as a step of the tests alone: new cloth set in, taken up again on the edge."""

from __future__ import annotations

from dataclasses import replace
from typing import ClassVar, Literal

from cutwright.body.body import Body
from cutwright.geometry.move import Move
from cutwright.geometry.point import unit
from cutwright.pattern.change import account
from cutwright.pattern.loop import spot_point
from cutwright.pattern.mark import MarkKind, Pressed
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Mark
from cutwright.pattern.result import Result, Trace, TraceKind
from cutwright.pattern.spreading import slash_lines
from cutwright.pattern.strips import put_together, strip_moves, take_apart
from cutwright.style.step import Step


class BoxPleat(Step):
    """Set a box pleat into an edge."""

    SENTENCE: ClassVar[str] = "Set a box pleat {depth} cm deep into the {edge} of {piece}."
    HELP: ClassVar[str] = "The paper is cut from edge to edge and moved apart by four depths."
    do: Literal["box_pleat"] = "box_pleat"
    piece: str
    edge: str = "waist"
    far: str = "hem"
    share: float = 0.5
    depth: float = 2.0
    pressed: Pressed = Pressed.APART
    stays: int = 0

    def apply(self, pattern: Pattern, body: Body) -> Result:
        piece = pattern.piece(self.piece)
        slashes = slash_lines(piece, self.edge, self.far, [self.share])
        top, low = (spot_point(piece, spot) for spot in (slashes[0].leave, slashes[0].far))
        taken = 4 * self.depth
        aside = Move.by(unit(low - top) * -1j * taken)
        strips = take_apart(piece, slashes)
        moves = strip_moves([aside], self.stays)
        after = put_together(piece, strips, moves)
        ends = moves[0](top), moves[1](top)
        pleat = Mark(
            MarkKind.PLEAT, ends[0], to=ends[1], edge=self.edge, amount=taken, pressed=self.pressed
        )
        folds = tuple(Mark(MarkKind.LINE, p, to=p + (low - top) * 0.3) for p in ends)
        after = replace(after, marks=(*after.marks, pleat, *folds))
        changed = pattern.with_pieces(after)
        traces = (Trace(TraceKind.CUT, piece.name, (top, low)),)
        return Result(changed, account(pattern, changed), traces=traces)
