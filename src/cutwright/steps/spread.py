"""Slash a piece and spread it for fullness."""

from __future__ import annotations

from typing import Annotated, ClassVar, Literal

from pydantic import Field, model_validator

from cutwright.body.body import Body
from cutwright.errors import StepError
from cutwright.messages import N_, Message
from cutwright.pattern.change import account
from cutwright.pattern.flare import centre_edge, fixed_strip, refuse_if_crossing
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.pattern.result import Result
from cutwright.pattern.spreading import middle_strip, slash_lines, spread
from cutwright.pattern.strips import take_apart
from cutwright.pattern.sum import Chosen, Earlier, Figure, Number, plus, regained, times
from cutwright.pattern.traces import turn_traces
from cutwright.style.parameter import Count, EdgeName, Length, PieceName, Share, Within
from cutwright.style.registry import register
from cutwright.style.step import Step
from cutwright.words import _


@register
class Spread(Step):
    """Cut lines across a piece and open them by wedges or by parallel gaps."""

    SENTENCE: ClassVar[str] = N_(
        "Slash {piece} at {lines} lines from the {open} and open each by {by} cm."
    )
    HINGED: ClassVar[str] = N_("Each stops a hair before the {hinge}, which keeps its length.")
    OPENED: ClassVar[str] = N_("At the {hinge} each opens by {hinge_by} cm.")
    HELP: ClassVar[str] = N_(
        "The lines are spaced evenly, or stand at the shares you give. Hinged, the sewn edge keeps its "
        "length and the free edge opens; with the same gap at both edges the paper opens parallel. Both "
        "edges are trued smooth."
    )
    GROUP: ClassVar[str] = "fullness"

    do: Literal["spread"] = "spread"
    piece: PieceName = Field(description=N_("the piece"))
    open: EdgeName = Field(default="hem", description=N_("the edge that opens"))
    hinge: EdgeName = Field(default="waist", description=N_("the edge across from it"))
    lines: Annotated[Count, Field(ge=1, le=40)] = Field(default=3, description=N_("how many lines"))
    at: tuple[Share, ...] = Field(
        default=(),
        max_length=40,
        description=N_("where they stand, as shares along the hinge edge from the centre"),
        json_schema_extra={"role": "shares"},
    )
    by: Annotated[Length, Within(0.0, 60.0)] = Field(description=N_("gap at the opening edge"))
    each_by: tuple[float, ...] = Field(
        default=(),
        max_length=40,
        description=N_("own gaps for the lines, from the centre, in place of one"),
        json_schema_extra={"role": "lengths"},
    )
    hinge_by: Annotated[Length, Within(0.0, 60.0)] = Field(
        default=0.0, description=N_("gap at the hinge edge")
    )

    @model_validator(mode="after")
    def _fits(self) -> Spread:
        if self.at and (len(self.at) != self.lines or list(self.at) != sorted(set(self.at))):
            raise ValueError(_("Give one rising share for every line."))
        if self.at and not (self.at[0] > 0 and self.at[-1] < 1):
            raise ValueError(
                _("Lines stand between the ends of the edge: shares above 0 and below 1.")
            )
        if self.each_by and len(self.each_by) != self.lines:
            raise ValueError(_("Give one gap for every line."))
        if any(not 0 <= gap <= 60 for gap in self.each_by):
            raise ValueError(_("A gap may be from 0 to 60 cm."))
        return self

    def clauses(self) -> tuple[str, ...]:
        """The sentence, and whether the other edge opens too."""
        return (self.SENTENCE, self.OPENED if self.hinge_by else self.HINGED)

    def apply(self, pattern: Pattern, body: Body) -> Result:
        """Slash, spread and true."""
        piece = pattern.piece(self.piece)
        near = self.cm("hinge_by", pattern, body)
        gaps = list(self.each_by) or [self.cm("by", pattern, body)] * self.lines
        shares = list(self.at) or [(i + 1) / (self.lines + 1) for i in range(self.lines)]
        if self._from_end(piece):
            shares, gaps = [1 - s for s in reversed(shares)], list(reversed(gaps))
        slashes = slash_lines(piece, self.hinge, self.open, shares)
        centre = centre_edge(piece)
        fixed = (
            fixed_strip(take_apart(piece, slashes), centre) if centre else middle_strip(self.lines)
        )
        flared = spread(piece, self.hinge, self.open, slashes, gaps, [near] * self.lines, fixed)
        after = refuse_if_crossing(flared.piece, _("Spreading"))
        changed = pattern.with_pieces(after)
        return Result(
            changed,
            account(pattern, changed),
            self._figures(piece, after, gaps),
            traces=turn_traces(piece, flared),
        )

    def _from_end(self, piece: Piece) -> bool:
        """Whether the hinge edge ends, rather than begins, at the centre of the piece."""
        centre = centre_edge(piece)
        if centre is None:
            return False
        parts = piece.edge_parts(self.hinge)
        after = piece.edges[(piece.edges.index(parts[-1]) + 1) % len(piece.edges)]
        return after.name == centre

    def _figures(self, piece: Piece, after: Piece, gaps: list[float]) -> tuple[Figure, ...]:
        before, now = piece.edge_length(self.open), after.edge_length(self.open)
        if now < before:
            raise StepError(
                Message(
                    "spreading-may-not-make-edge", N_("Spreading may not make an edge shorter.")
                )
            )
        each = [Chosen("by", gap) for gap in gaps]
        alike = len(gaps) > 1 and len(set(gaps)) == 1
        opening = times(Number(len(gaps), "slashes"), each[0]) if alike else plus(*each)
        opened = Figure("opened", opening, piece.name, self.open)
        length = regained(after.tape(self.open), piece.tape(self.open), Earlier(opened))
        return (opened, Figure("length", length, piece.name, self.open))
