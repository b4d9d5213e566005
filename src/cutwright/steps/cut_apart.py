"""Cut pieces apart: at the waist, through the upper dart points, at the hip or along a line."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated, ClassVar, Literal

from pydantic import Field, model_validator

from cutwright.body.body import Body
from cutwright.errors import StepError
from cutwright.messages import N_, Message
from cutwright.pattern.change import account
from cutwright.pattern.cutting.chop import ChopLine, Chopped, chop
from cutwright.pattern.cutting.cut_line import level_lines, place_line, points_line
from cutwright.pattern.edge import EdgeKind, Ref
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.pattern.result import Result, Trace, TraceKind
from cutwright.pattern.seam import seam
from cutwright.pattern.shaping.mouths import shaped_mouths
from cutwright.pattern.sum import Figure
from cutwright.pattern.traces import across_mouths, trued_trace
from cutwright.style.parameter import EdgeName, Length, NewName, PieceName, Place, Within
from cutwright.style.registry import register
from cutwright.style.step import Step

CUT = "cut"
"""Name of the edges of a cut that gives them none."""
Where = Literal["waist", "upper dart points", "hip", "line"]


@register
class CutApart(Step):
    """Cut one or more pieces apart; the two cut edges become a seam at once."""

    SENTENCE: ClassVar[str] = N_("Cut {pieces} apart at the {at}; call the lower parts {lower}.")
    HELP: ClassVar[str] = N_(
        "Edges keep their names in both parts and the new edges are sewn together again unless you put "
        "something between. At the waist, two-point darts fall into two darts with their mouths on the "
        "cut. Through the upper points, the darts stay whole in the lower part."
    )
    WHY: ClassVar[str] = N_(
        "Each part can then take its own shape, grain or cloth. Without balance marks the parts are "
        "easily sewn together shifted."
    )
    CLOTH: ClassVar[str] = N_(
        "A seam shows through sheer cloth and thickens heavy cloth; cut no more seams than the style "
        "needs."
    )
    GROUP: ClassVar[str] = "cut and join"

    do: Literal["cut_apart"] = "cut_apart"
    pieces: tuple[PieceName, ...] = Field(
        min_length=1,
        max_length=8,
        description=N_("the pieces"),
        json_schema_extra={"role": "pieces"},
    )
    lower: tuple[NewName, ...] = Field(
        min_length=1,
        max_length=8,
        description=N_("names of the lower parts, in the same order"),
        json_schema_extra={"role": "new pieces"},
    )
    at: Where = Field(
        default="waist", description=N_("where"), json_schema_extra={"role": "choice"}
    )
    lower_by: Annotated[Length, Within(-15.0, 60.0)] = Field(
        default=0.0,
        description=N_(
            "so much below that level, at dart points at the sides only (above it with a minus)"
        ),
    )
    start: Place | None = Field(default=None, description=N_("for a line: where it starts"))
    end: Place | None = Field(default=None, description=N_("for a line: where it ends"))
    edge: EdgeName | None = Field(default=None, description=N_("name of the new edges"))

    @model_validator(mode="after")
    def _counts(self) -> CutApart:
        if len(self.pieces) != len(self.lower):
            raise ValueError(
                Message(
                    "one-name-a-piece", N_("Give each piece that is cut a name for its lower part.")
                )
            )
        if self.at == "line" and (self.start is None or self.end is None):
            raise ValueError(
                Message(
                    "line-needs-two-places",
                    N_("A cut along a line needs a place where it starts and one where it ends."),
                )
            )
        return self

    @property
    def new_edge(self) -> str:
        """The name of the edges that arise."""
        return self.edge or ("waist" if self.at == "waist" else CUT)

    def apply(self, pattern: Pattern, body: Body) -> Result:
        """Cut every piece and sew the cut edges together again."""
        pieces = [pattern.piece(name) for name in self.pieces]
        for name in self.lower:
            if name in pattern.names:
                raise StepError(
                    Message(
                        "already-piece-choose-another-name-2",
                        N_('There is already a piece "{piece}". Choose another name.'),
                        piece=name,
                    )
                )
        for piece in pieces:
            if self.new_edge in piece.edge_names():
                raise StepError(
                    Message(
                        "already-edge-give-new-edges",
                        N_(
                            '"{piece}" already has an edge "{edge}". Give the new edges another name.'
                        ),
                        piece=piece.name,
                        edge=self.new_edge,
                    )
                )
        lines = self._lines(pieces, pattern, body)
        done = [
            _cut(piece, line, low)
            for piece, line, low in zip(pieces, lines, self.lower, strict=True)
        ]
        after = pattern
        became: dict[Ref, tuple[Ref, ...]] = {}
        for cut in done:
            after = after.with_pieces(cut.upper, cut.lower)
            became |= cut.became
        seams = [
            seam(
                Ref(c.upper.name, self.new_edge),
                Ref(c.lower.name, self.new_edge),
            )
            for c in done
        ]
        after = after.with_seams(*seams)
        figures = tuple(self._figure(cut) for cut in done)
        traces = tuple(
            Trace(TraceKind.CUT, piece.name, path=tuple(c for s in line.stretches for c in s))
            for piece, line in zip(pieces, lines, strict=True)
        )
        trued = tuple(t for cut in done for t in cut.trued)
        return Result(after, account(pattern, after, became), figures, traces=(*traces, *trued))

    def _lines(self, pieces: Sequence[Piece], pattern: Pattern, body: Body) -> list[ChopLine]:
        by = self.cm("lower_by", pattern, body)
        if self.at == "line":
            return [self._line(piece, pattern, body) for piece in pieces]
        if self.at == "upper dart points":
            return points_line(pieces, self.new_edge, by)
        kind = EdgeKind.WAIST if self.at == "waist" and by == 0 else EdgeKind.SEAM
        return level_lines(pieces, self.at, by, self.new_edge, kind)

    def _line(self, piece: Piece, pattern: Pattern, body: Body) -> ChopLine:
        assert self.start is not None and self.end is not None
        spots = [self.spot(place, piece, pattern, body) for place in (self.start, self.end)]
        return place_line(piece, spots[0], spots[1], self.new_edge)

    def _figure(self, cut: _Cut) -> Figure:
        return Figure("cut-edge", cut.upper.tape(self.new_edge), cut.upper.name, self.new_edge)


@dataclass(frozen=True, slots=True)
class _Cut:
    upper: Piece
    lower: Piece
    became: dict[Ref, tuple[Ref, ...]]
    trued: tuple[Trace, ...]


def _cut(piece: Piece, line: ChopLine, low: str) -> _Cut:
    """Chop a piece, giving the new name to whichever part lies lower along the grain."""
    done: Chopped = chop(piece, line, low, piece.name)
    down = piece.grain[1] - piece.grain[0]
    if down.imag < 0:
        down = -down

    def depth(p: Piece) -> float:
        points = [c.start for c in p.outline]
        return float(((sum(points) / len(points)) * down.conjugate()).real)

    if depth(done.beside_end) > depth(done.beside_start):
        upper, lower, became = done.beside_start, done.beside_end, done.became
    else:
        again = chop(piece, line, piece.name, low)
        upper, lower, became = again.beside_end, again.beside_start, again.became
    trued: list[Trace] = []
    if line.through:
        parts = [upper, lower]
        upper, lower = (shaped_mouths(part, line.edge) for part in parts)
        for was, now in zip(parts, (upper, lower), strict=True):
            rows = across_mouths(was, line.edge), across_mouths(now, line.edge)
            trued.append(trued_trace(now.name, *rows))
    return _Cut(upper, lower, became, tuple(trued))
