"""Slash a piece and spread it for fullness."""

from __future__ import annotations

from typing import Annotated, ClassVar, Literal

from pydantic import Field, model_validator

from cutwright.body.body import Body
from cutwright.errors import StepError
from cutwright.messages import N_, Message, N_plural
from cutwright.pattern.change import account
from cutwright.pattern.cutting.flare import centre_edge, fixed_strip, refuse_if_crossing
from cutwright.pattern.cutting.spreading import middle_strip, slash_lines, spread
from cutwright.pattern.cutting.strips import take_apart
from cutwright.pattern.edge import EdgeKind
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.pattern.result import Result
from cutwright.pattern.sum import Chosen, Earlier, Figure, Number, plus, regained, times
from cutwright.pattern.traces import turn_traces
from cutwright.style.parameter import Count, EdgeName, Length, PieceName, Share, Within
from cutwright.style.registry import register
from cutwright.style.step import Step

_TRUED = 0.02
"""How far a trued edge may be from its length and what was opened, as a share of it."""


@register
class Spread(Step):
    """Cut lines across a piece and open them by wedges or by parallel gaps."""

    SENTENCE: ClassVar[tuple[str, str]] = N_plural(
        "Slash {piece} at {lines} line from the {open} and open it by {by} cm.",
        "Slash {piece} at {lines} lines from the {open} and open each by {by} cm.",
    )
    COUNTS: ClassVar[str] = "lines"
    HINGED: ClassVar[str] = N_("Each stops 1 mm short of the {hinge}, which keeps its length.")
    OPENED: ClassVar[str] = N_("At the {hinge} each opens by {hinge_by} cm.")
    HELP: ClassVar[str] = N_(
        "The lines are spaced evenly, or stand at the shares you give. Hinged, the sewn edge keeps its "
        "length and the free edge opens; with the same gap at both edges the paper opens parallel. Both "
        "edges are trued smooth."
    )
    WHY: ClassVar[str] = N_(
        "The paper is opened where the fullness shall fall. Opened in one place only, all the folds fall "
        "there."
    )
    CLOTH: ClassVar[str] = N_(
        "Light, soft cloth takes more and wider openings; heavy or stiff cloth stands out, so open it "
        "less."
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
            raise ValueError(
                Message("one-share-a-line", N_("Give one rising share for every line."))
            )
        if self.at and not (self.at[0] > 0 and self.at[-1] < 1):
            raise ValueError(
                Message(
                    "lines-between-ends",
                    N_("Lines stand between the ends of the edge: shares above 0 and below 1."),
                )
            )
        if self.each_by and len(self.each_by) != self.lines:
            raise ValueError(Message("one-gap-a-line", N_("Give one gap for every line.")))
        if any(not 0 <= gap <= 60 for gap in self.each_by):
            raise ValueError(Message("gap-beyond", N_("A gap may be from 0 to 60 cm.")))
        return self

    def clauses(self) -> tuple[str | tuple[str, str], ...]:
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
        self._refuse_edges(piece)
        slashes = slash_lines(piece, self.hinge, self.open, shares)
        centre = centre_edge(piece)
        fixed = (
            fixed_strip(take_apart(piece, slashes), centre) if centre else middle_strip(self.lines)
        )
        flared = spread(piece, self.hinge, self.open, slashes, gaps, [near] * self.lines, fixed)
        after = refuse_if_crossing(flared.piece, N_("Spreading"))
        changed = pattern.with_pieces(after)
        return Result(
            changed,
            account(pattern, changed),
            self._figures(piece, after, gaps),
            traces=turn_traces(piece, flared),
        )

    def _refuse_edges(self, piece: Piece) -> None:
        """Refuse a fold, which cannot open, and two edges that meet, between which no strip has a width."""
        names = {self.open, self.hinge}
        for edge in piece.edges:
            if edge.name in names and edge.kind is EdgeKind.FOLD:
                raise StepError(
                    Message(
                        "slash-on-fold",
                        N_(
                            'The "{edge}" of "{piece}" lies on the fold and cannot be slashed. Make it a seam '
                            "first, or choose the edges across from it."
                        ),
                        edge=edge.name,
                        piece=piece.name,
                    )
                )
        for a, b in zip(piece.edges, (*piece.edges[1:], piece.edges[0]), strict=True):
            if {a.name, b.name} == names and len(names) == 2:
                raise StepError(
                    Message(
                        "slash-between-neighbours",
                        N_(
                            'The "{open}" and the "{hinge}" of "{piece}" meet at a corner, so a strip between '
                            "them would have no width there. Choose the edge across."
                        ),
                        open=self.open,
                        hinge=self.hinge,
                        piece=piece.name,
                    )
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
        total = sum(gaps)
        if abs(now - before - total) > _TRUED * (before + total):
            raise StepError(
                Message(
                    "spread-not-trued",
                    N_(
                        'Opened so much, the "{edge}" of "{piece}" bends too sharply to be trued: it would be '
                        "{now:.1f} cm long and not {wanted:.1f} cm. Open each line less, or take more lines."
                    ),
                    edge=self.open,
                    piece=piece.name,
                    now=now,
                    wanted=before + total,
                )
            )
        each = [Chosen("by", gap) for gap in gaps]
        alike = len(gaps) > 1 and len(set(gaps)) == 1
        opening = times(Number(len(gaps), "slashes"), each[0]) if alike else plus(*each)
        opened = Figure("opened", opening, piece.name, self.open)
        length = regained(after.tape(self.open), piece.tape(self.open), Earlier(opened))
        return (opened, Figure("length", length, piece.name, self.open))
