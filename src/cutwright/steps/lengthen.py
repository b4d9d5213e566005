"""Lengthen or shorten pieces at the hem or across a level, several at once."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from cutwright.body.body import Body
from cutwright.messages import N_
from cutwright.pattern.change import account
from cutwright.pattern.cutting.flare import refuse_if_crossing
from cutwright.pattern.cutting.insert import StraightCut, below_cut, cut_across, let_in
from cutwright.pattern.edge import Ref, parse_label
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.pattern.result import Result, Trace, TraceKind
from cutwright.pattern.seam import SeamKind
from cutwright.pattern.sewing.walk import refuse_if_parted
from cutwright.pattern.shaping.hem import HemGrowth, new_hem
from cutwright.pattern.shaping.settle import settled
from cutwright.pattern.sum import Figure, regained
from cutwright.style.parameter import EdgeName, Length, PieceName, Within
from cutwright.style.registry import register
from cutwright.style.step import Step

_HEM = "hem"
_SAME = 1e-7


@dataclass(frozen=True, slots=True)
class _Done:
    """A piece after it was made longer, and the line along which it was cut."""

    piece: Piece
    cut: tuple[complex, ...]


@register
class Lengthen(Step):
    """Make pieces longer or shorter by one amount."""

    SENTENCE: ClassVar[str] = N_("Lengthen {pieces} by {by} cm at the {at}.")
    HELP: ClassVar[str] = N_(
        "At the hem the line is moved down, parallel to the old one. At a level (bust, waist, "
        "hip) the paper is cut across and moved apart along the grain; an amount below 0 folds a "
        "tuck out below it instead. From the cut downwards the sides are drawn smooth again, "
        "edges sewn to each other stay equal, and a dart that is cut through has its legs "
        "redrawn to its point. A flared skirt is better lengthened at the hem, where its sides "
        "run on straight."
    )
    WHY: ClassVar[str] = N_(
        "The length changes where the body is longer, so that bust, waist and hip stay in place. All at "
        "the hem, the shape sits too high or too low."
    )
    GROUP: ClassVar[str] = "lengths and hems"

    do: Literal["lengthen"] = "lengthen"
    pieces: tuple[PieceName, ...] = Field(
        min_length=1,
        max_length=12,
        description=N_("the pieces, all that are sewn to each other there"),
        json_schema_extra={"role": "pieces"},
    )
    by: Annotated[Length, Within(-80.0, 150.0)] = Field(
        description=N_("how much longer; below 0: shorter")
    )
    at: EdgeName = Field(default=_HEM, description=N_("the hem, or the level to cut across"))
    below: Annotated[Length, Within(-30.0, 100.0)] = Field(
        default=0.0, description=N_("so far below that level")
    )

    def clauses(self) -> tuple[str, ...]:
        """Name only what is asked for."""
        if self.below:
            return (N_("Lengthen {pieces} by {by} cm, {below} cm below the {at}."),)
        return (self.SENTENCE,)

    def apply(self, pattern: Pattern, body: Body) -> Result:
        """Cut and move every piece, then smooth what was cut."""
        by, below = self.cm("by", pattern, body), self.cm("below", pattern, body)
        pieces = [pattern.piece(name) for name in self.pieces]
        if all(any(e.name == self.at for e in p.edges) for p in pieces):
            done = [self._at_hem(piece, by) for piece in pieces]
        else:
            done = self._across(pattern, pieces, by, below)
        changed = pattern.with_pieces(*(d.piece for d in done))
        change = account(pattern, changed)
        refuse_if_parted(pattern, changed, change)
        traces = tuple(
            Trace(TraceKind.CUT, old.name, d.cut)
            for old, d in zip(pieces, done, strict=True)
            if d.cut
        )
        figures = tuple(f for p in pieces for f in _longer(p, changed.piece(p.name)))
        return Result(changed, change, figures, traces=traces)

    def _at_hem(self, piece: Piece, by: float) -> _Done:
        doing = N_("Lengthening")
        out = settled(new_hem(piece, self.at, HemGrowth(by, by)), doing, self.at)
        return _Done(refuse_if_crossing(out, doing), ())

    def _across(
        self, pattern: Pattern, pieces: list[Piece], by: float, below: float
    ) -> list[_Done]:
        cuts = {piece.name: cut_across(piece, self.at, below) for piece in pieces}
        grown = {name: let_in(cut, by) for name, cut in cuts.items()}
        doing = N_("Lengthening")
        return [
            _Done(refuse_if_crossing(settled(piece, doing, self.at), doing), (c.start, c.end))
            for piece, c in zip(_evened(pattern, cuts, grown).values(), cuts.values(), strict=True)
        ]


def _longer(before: Piece, after: Piece) -> tuple[Figure, ...]:
    out: list[Figure] = []
    for name in before.edge_names():
        was, now = before.edge_length(name), after.edge_length(name)
        if abs(now - was) > 0.05:
            sum_ = regained(after.tape(name), before.tape(name), code="longer")
            out.append(Figure("length", sum_, before.name, name))
    return tuple(out)


def _evened(
    pattern: Pattern, cuts: dict[str, StraightCut], grown: dict[str, Piece]
) -> dict[str, Piece]:
    """Where two cut edges are sewn to each other, the shorter one is run on at its lower end.

    A slanted side gains less than a straight one; the difference is let down at the hem.
    """
    out = dict(grown)
    cut_edges = {
        Ref(n, parse_label(label)[0]): label for n, c in cuts.items() for label in (c.down, c.up)
    }
    for seam in pattern.seams:
        refs = set(seam.refs) & set(cut_edges)
        if len(refs) != 2 or len(seam.refs) != 2 or seam.kind != SeamKind.PLAIN:
            continue
        gain = {r: out[r.piece].edge_length(r.edge) - pattern.length(r) for r in refs}
        for ref in refs:
            short = max(gain.values()) - gain[ref]
            if short > _SAME:
                cut, label = cuts[ref.piece], cut_edges[ref]
                ends = HemGrowth(short, 0.0) if label == cut.down else HemGrowth(0.0, short)
                out[ref.piece] = new_hem(out[ref.piece], below_cut(cut, label), ends)
    return out
