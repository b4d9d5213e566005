"""Balance the flare of front and back: both sides of a seam lean alike from the grain."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import degrees, radians
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from cutwright.body.body import Body
from cutwright.errors import StepError
from cutwright.messages import N_, Message, N_plural
from cutwright.pattern.change import account
from cutwright.pattern.cutting.balance import Swing, side_swung, swing_traces
from cutwright.pattern.cutting.flare import Flared, centre_edge, refuse_if_crossing
from cutwright.pattern.edge import Ref
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.pattern.result import Finding, Result, Severity, Trace
from cutwright.pattern.seam import SeamKind
from cutwright.pattern.shaping.leans import lean
from cutwright.pattern.shaping.sides import SideLine, side_of
from cutwright.pattern.sum import (
    Earlier,
    Figure,
    Number,
    ReadOff,
    Rounding,
    Unit,
    minus,
    over,
    plus,
    regained,
    rounded,
)
from cutwright.style.parameter import Count, EdgeOf
from cutwright.style.registry import register
from cutwright.style.step import Step

_EVEN = radians(0.05)
"""Sides that differ by less than this lean alike, as angles are printed to a tenth of a degree."""


@dataclass(frozen=True, slots=True)
class _Half:
    """One side of the seam: where it is, how it leans (radians), and the centre that stays."""

    side: SideLine
    lean: float
    centre: str

    @property
    def piece(self) -> Piece:
        return self.side.piece


@register
class BalanceFlare(Step):
    """Make both sides of a seam lean alike, by giving flare to one piece or taking it from the other."""

    SENTENCE: ClassVar[str] = N_("Balance the flare on both sides of the seam at the {edge}.")
    WAYS: ClassVar[dict[str, str]] = {
        "shared": N_(
            "Fold out of the fuller piece half of what it has more, and open the other by it."
        ),
        "opened": N_("Open the closer piece until it is as full as the other."),
        "folded out": N_("Fold out of the fuller piece what it has more than the other."),
    }
    LINES: ClassVar[tuple[str, str]] = N_plural(
        "Do it at {lines} line, midway between centre and side.",
        "Do it at {lines} lines, evenly spaced from centre to side.",
    )
    COUNTS: ClassVar[str] = "lines"
    HELP: ClassVar[str] = N_(
        "A side seam hangs plumb where front and back lean from the grain by the same angle. Darts of "
        "different size that were closed into the hem leave one piece fuller, and the seam swings to the "
        "front or to the back. Each line runs from the hem to nothing at the sewn edge, which keeps its "
        "length; the sides stay as long as they were. Sharing leaves the hem about as wide as it was; "
        "opening suits a light cloth that can carry more, folding out a heavy one."
    )
    WHY: ClassVar[str] = N_(
        "Front and back then hang alike. Without it the side seam swings to the front or to the back."
    )
    CLOTH: ClassVar[str] = N_("A light cloth can be opened; in a heavy one fold the flare out.")
    GROUP: ClassVar[str] = "fullness"

    do: Literal["balance_flare"] = "balance_flare"
    edge: EdgeOf = Field(description=N_("a side of the seam that runs to the hem"))
    way: Literal["shared", "opened", "folded out"] = Field(
        default="shared",
        description=N_(
            "the difference shared, the closer piece opened, or the fuller one folded out"
        ),
    )
    lines: Annotated[Count, Field(ge=1, le=12)] = Field(
        default=3, description=N_("how many lines in each piece")
    )

    def clauses(self) -> tuple[str | tuple[str, str], ...]:
        """The sentence, the way, and the lines."""
        return (self.SENTENCE, self.WAYS[self.way], self.LINES)

    def apply(self, pattern: Pattern, body: Body) -> Result:
        """Swing the sides to one lean."""
        halves = self._halves(pattern)
        leans = [half.lean for half in halves]
        if max(leans) - min(leans) < _EVEN:
            return Result(pattern, findings=(self._nothing(halves),))
        aim = {"shared": sum(leans) / 2, "opened": max(leans), "folded out": min(leans)}[self.way]
        changed = pattern
        traces: list[Trace] = []
        figures = [self._aimed(halves)]
        for half in halves:
            turn = aim - half.lean
            if abs(turn) < _EVEN / 2:
                continue
            swing = Swing(half.side.top, half.side.foot, half.centre, self.lines)
            flared = side_swung(half.piece, swing, turn)
            after = refuse_if_crossing(flared.piece, N_("Balancing the flare"))
            changed = changed.with_pieces(after)
            traces += swing_traces(half.piece, flared, turn)
            figures += self._hem(half, flared, after, turn)
        return Result(changed, account(pattern, changed), tuple(figures), traces=tuple(traces))

    def _halves(self, pattern: Pattern) -> tuple[_Half, ...]:
        ref = Ref(self.edge.piece, self.edge.edge)
        pattern.edge_parts(ref)
        seams = [s for s in pattern.seams_of(ref) if s.kind == SeamKind.PLAIN and len(s.refs) == 2]
        refs = tuple(dict.fromkeys(seams[0].refs)) if seams else ()
        if len({r.piece for r in refs}) != 2:
            raise StepError(
                Message(
                    "not-sewn-edge-another-piece",
                    N_(
                        '"{edge}" is not sewn to an edge of another piece by a plain seam, so there is no flare to '
                        "balance. Name the side of a front or back."
                    ),
                    edge=self.edge,
                )
            )
        return tuple(_half(pattern.piece(r.piece), r.edge) for r in refs)

    def _nothing(self, halves: Sequence[_Half]) -> Finding:
        text = Message(
            "both-sides-seam-lean-grain",
            N_(
                "Both sides of this seam lean {lean:.1f}° from the grain on this body; nothing was moved."
            ),
            lean=degrees(halves[0].lean),
        )
        return Finding("no-flare-to-balance", Severity.NOTE, str(self.edge), text)

    def _aimed(self, halves: Sequence[_Half]) -> Figure:
        """How the sides lean, and to what they are brought or by how much they differ."""
        leans = [
            ReadOff("lean", degrees(half.lean), unit=Unit.DEGREE, piece=half.piece.name)
            for half in halves
        ]
        if self.way == "shared":
            mean = rounded(over(plus(*leans), Number(len(leans))), Rounding.NEAREST, 0.1)
            return Figure("lean-shared", mean, unit=Unit.DEGREE)
        less, more = sorted(leans, key=lambda lean: lean.size)
        return Figure("lean-apart", minus(more, less), unit=Unit.DEGREE)

    def _hem(self, half: _Half, flared: Flared, after: Piece, turn: float) -> tuple[Figure, ...]:
        name, foot = half.piece.name, half.side.foot
        before, now = half.piece.tape(foot), after.tape(foot)
        gaps = plus(*(ReadOff("opened", gap) for gap in flared.gaps))
        if turn > 0:
            opened = Figure("opened", gaps, name, foot)
            return opened, Figure("length", regained(now, before, Earlier(opened)), name, foot)
        out = ReadOff("folded-out", -gaps.value)
        folded = Figure("folded-out", gaps, name, foot)
        return folded, Figure("length", regained(now, before, out), name, foot)


def _half(piece: Piece, label: str) -> _Half:
    side = side_of(piece, label)
    centre = centre_edge(piece)
    if centre is None:
        raise StepError(
            Message(
                "no-centre-could-stay-place",
                N_(
                    '"{piece}" has no centre that could stay in its place. Balance the halves first, then lay them '
                    "open or mirror them."
                ),
                piece=piece.name,
            )
        )
    return _Half(side, lean(piece, side.edge), centre)
