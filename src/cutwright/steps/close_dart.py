"""Close darts into flare: the mouth meets, the paper opens from the dart's point to the hem."""

from __future__ import annotations

from typing import ClassVar, Literal

from pydantic import Field

from cutwright.body.body import Body
from cutwright.messages import N_, Message
from cutwright.pattern.change import account
from cutwright.pattern.cutting.flare import Flared, closed_into, darts_of, refuse_if_crossing
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.pattern.result import Finding, Result, Severity
from cutwright.pattern.sum import Earlier, Figure, ReadOff, plus, regained
from cutwright.pattern.traces import turn_traces
from cutwright.style.parameter import DartName, EdgeName, PieceName
from cutwright.style.registry import register
from cutwright.style.step import Step


@register
class CloseDart(Step):
    """Close one or more darts of an edge; each opens the far edge by its angle."""

    SENTENCE: ClassVar[str] = N_("Close the {darts} of {piece} into its {into}.")
    EVERY: ClassVar[str] = N_("Close every dart of the {of} of {piece} into its {into}.")
    HELP: ClassVar[str] = N_(
        "Slash from the far edge to the dart's point and turn one part about that point until the legs "
        "of the mouth meet; the paper opens from the point. Several darts close from the centre "
        "outwards, and the sewn edge is trued to its own length."
    )
    WHY: ClassVar[str] = N_(
        "What the dart took in becomes flare at the hem, and there is no dart to sew. Left half closed, "
        "it bulges above the hem."
    )
    CLOTH: ClassVar[str] = N_(
        "Soft cloth falls in folds from it. Stiff or heavy cloth stands out, so leave part of the dart "
        "sewn."
    )
    GROUP: ClassVar[str] = "darts"

    do: Literal["close_dart"] = "close_dart"
    piece: PieceName = Field(description=N_("the piece"))
    darts: tuple[DartName, ...] = Field(
        default=(),
        max_length=6,
        description=N_("the darts, nearest the centre first; none named = every one of that edge"),
        json_schema_extra={"role": "darts"},
    )
    of: EdgeName = Field(
        default="waist", description=N_("the edge whose darts close, where none is named")
    )
    into: EdgeName = Field(default="hem", description=N_("the edge that opens"))

    def clauses(self) -> tuple[str, ...]:
        """Some darts by name, or every one of an edge."""
        return (self.SENTENCE if self.darts else self.EVERY,)

    def apply(self, pattern: Pattern, body: Body) -> Result:
        """Turn the paper and true both edges."""
        piece = pattern.piece(self.piece)
        piece.edge_parts(self.into)
        darts = self.darts or darts_of(piece, self.of)
        if not darts:
            return Result(pattern, findings=(self._nothing(piece),))
        flared = closed_into(piece, darts, self.into)
        after = refuse_if_crossing(flared.piece, N_("Closing the dart"))
        changed = pattern.with_pieces(after)
        return Result(
            changed,
            account(pattern, changed),
            self._figures(piece, flared, after),
            traces=turn_traces(piece, flared),
        )

    def _nothing(self, piece: Piece) -> Finding:
        text = Message(
            "no-dart-body-nothing-closed",
            N_('The {edge} of "{piece}" has no dart on this body; nothing was closed.'),
            edge=self.of,
            piece=piece.name,
        )
        return Finding("no-dart-to-close", Severity.NOTE, f"{piece.name}: {self.of}", text)

    def _figures(self, piece: Piece, flared: Flared, after: Piece) -> tuple[Figure, ...]:
        gaps = plus(*(ReadOff("opened", gap) for gap in flared.gaps))
        opened = Figure("opened", gaps, self.piece, self.into)
        now = regained(after.tape(self.into), piece.tape(self.into), Earlier(opened))
        return (opened, Figure("length", now, self.piece, self.into))
