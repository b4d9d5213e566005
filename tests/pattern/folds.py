"""A box pleat, a knife pleat and a tuck as steps of the tests alone: cloth set in, taken up again on the edge."""

from __future__ import annotations

from dataclasses import replace
from typing import ClassVar, Literal

from cutwright.body.body import Body
from cutwright.geometry.move import Move
from cutwright.geometry.point import Point, unit
from cutwright.pattern.change import account
from cutwright.pattern.cutting.spreading import slash_lines
from cutwright.pattern.cutting.strips import put_together, strip_moves, take_apart
from cutwright.pattern.loop import spot_point
from cutwright.pattern.mark import MarkKind, Pressed
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Mark
from cutwright.pattern.result import Result, Trace, TraceKind
from cutwright.style.step import Step


class _Fold(Step):
    """Cut from edge to edge, moved apart, and folded away on the edge."""

    LAYERS: ClassVar[int]
    """How often the depth lies in what is set in."""
    piece: str
    edge: str = "waist"
    far: str = "hem"
    share: float = 0.5
    depth: float = 2.0
    stays: int = 0

    def marks(self, near: tuple[Point, Point], far: tuple[Point, Point]) -> tuple[Mark, ...]:
        """What is folded away between two places of the edge and two of the far one."""
        raise NotImplementedError

    def apply(self, pattern: Pattern, body: Body) -> Result:
        piece = pattern.piece(self.piece)
        slashes = slash_lines(piece, self.edge, self.far, [self.share])
        top, low = (spot_point(piece, spot) for spot in (slashes[0].leave, slashes[0].far))
        aside = Move.by(unit(low - top) * -1j * self.LAYERS * self.depth)
        moves = strip_moves([aside], self.stays)
        after = put_together(piece, take_apart(piece, slashes), moves)
        near, far = ((moves[0](p), moves[1](p)) for p in (top, low))
        after = replace(after, marks=(*after.marks, *self.marks(near, far)))
        changed = pattern.with_pieces(after)
        traces = (Trace(TraceKind.CUT, piece.name, (top, low)),)
        return Result(changed, account(pattern, changed), traces=traces)

    def _mark(self, kind: MarkKind, edge: str, ends: tuple[Point, Point]) -> Mark:
        pressed: Pressed | None = getattr(self, "pressed", None)
        taken = self.LAYERS * self.depth
        return Mark(kind, ends[0], to=ends[1], edge=edge, amount=taken, pressed=pressed)


class BoxPleat(_Fold):
    """Set a box pleat into an edge."""

    SENTENCE: ClassVar[str] = "Set a box pleat {depth} cm deep into the {edge} of {piece}."
    HELP: ClassVar[str] = "The paper is cut from edge to edge and moved apart by four depths."
    LAYERS: ClassVar[int] = 4
    do: Literal["box_pleat"] = "box_pleat"
    pressed: Pressed = Pressed.APART

    def marks(self, near: tuple[Point, Point], far: tuple[Point, Point]) -> tuple[Mark, ...]:
        lines = ((a, a + (b - a) * 0.3) for a, b in zip(near, far, strict=True))
        return (
            self._mark(MarkKind.PLEAT, self.edge, near),
            *(Mark(MarkKind.LINE, a, to=b) for a, b in lines),
        )


class KnifePleat(BoxPleat):
    """Set a pleat with one fold into an edge."""

    SENTENCE: ClassVar[str] = "Set a knife pleat {depth} cm deep into the {edge} of {piece}."
    HELP: ClassVar[str] = "The paper is cut from edge to edge and moved apart by two depths."
    LAYERS: ClassVar[int] = 2
    do: Literal["knife_pleat"] = "knife_pleat"  # type: ignore[assignment]
    pressed: Pressed = Pressed.ONWARDS


class Tuck(_Fold):
    """Set a tuck that is stitched down from edge to edge."""

    SENTENCE: ClassVar[str] = "Set a tuck {depth} cm deep into the {edge} of {piece}."
    HELP: ClassVar[str] = "The paper is cut from edge to edge and moved apart by two depths."
    LAYERS: ClassVar[int] = 2
    do: Literal["tuck"] = "tuck"
    depth: float = 0.5

    def marks(self, near: tuple[Point, Point], far: tuple[Point, Point]) -> tuple[Mark, ...]:
        lines = zip(near, far, strict=True)
        return (
            self._mark(MarkKind.TUCK, self.edge, near),
            self._mark(MarkKind.TUCK, self.far, (far[1], far[0])),
            *(Mark(MarkKind.LINE, a, to=b) for a, b in lines),
        )
