"""Leave a seam, such as the left side, open from its upper end for a zip."""

from __future__ import annotations

from dataclasses import replace
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from cutwright.body.body import Body
from cutwright.errors import StepError
from cutwright.geometry.path import Path, path_length, point_at, reversed_path
from cutwright.messages import N_, Message
from cutwright.pattern.change import account
from cutwright.pattern.edge import EdgeKind, Ref
from cutwright.pattern.mark import MarkKind
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Mark, Piece
from cutwright.pattern.result import Result
from cutwright.pattern.seam import SeamKind
from cutwright.pattern.sum import Figure, taped
from cutwright.style.parameter import EdgeOf, Length, Within
from cutwright.style.registry import register
from cutwright.style.step import Step

_CLOSED = 1.0
"""The least of the seam that stays closed below a zip, cm."""


@register
class OpenSide(Step):
    """Mark how far down a side seam is left open, on both of its edges."""

    SENTENCE: ClassVar[str] = N_(
        "Leave the seam at the {edge} open {zip} cm from the top for a zip."
    )
    HELP: ClassVar[str] = N_(
        "The end of the zip is marked on both edges of the seam. On half pieces the seam occurs left and right; "
        "one of them, usually the left, is opened."
    )
    WHY: ClassVar[str] = N_(
        "The garment has to pass over the widest part below the opening. Too short, the opening tears at "
        "its end."
    )
    CLOTH: ClassVar[str] = N_(
        "In soft or loose cloth iron a strip of interfacing to both edges of the opening."
    )
    GROUP: ClassVar[str] = "centres and openings"

    do: Literal["open_side"] = "open_side"
    edge: EdgeOf = Field(description=N_("an edge of the seam"))
    zip: Annotated[Length, Within(5.0, 80.0)] = Field(
        description=N_("length of the opening from the top")
    )

    def apply(self, pattern: Pattern, body: Body) -> Result:
        """Put a mark on each edge of the seam."""
        opening = self.chosen("zip", pattern, body)
        ref = Ref(self.edge.piece, self.edge.edge)
        pattern.edge_parts(ref)
        seams = [s for s in pattern.seams_of(ref) if s.kind == SeamKind.PLAIN and len(s.refs) == 2]
        if not seams:
            raise StepError(
                Message(
                    "not-sewn-other-edge-plain",
                    N_(
                        '"{edge}" is not sewn to one other edge by a plain seam, so there is nothing to leave open.'
                    ),
                    edge=self.edge,
                )
            )
        changed = pattern
        for side in dict.fromkeys(seams[0].refs):
            piece = changed.piece(side.piece)
            changed = changed.with_pieces(_marked(piece, side.edge, opening.size))
        figure = Figure("zip-opening", opening)
        return Result(changed, account(pattern, changed), (figure,))


def _marked(piece: Piece, label: str, opening: float) -> Piece:
    line = _downwards(piece, label)
    there = path_length(line)
    if opening > there - _CLOSED:
        raise StepError(
            Message(
                "zip-cm-not-end-inside",
                N_(
                    'A zip of {size:.1f} cm does not end inside the "{edge}" of "{piece}": it is {there:.1f} cm long, and '
                    "at least 1 cm must stay closed."
                ),
                size=opening,
                edge=label,
                piece=piece.name,
                there=there,
            )
        )
    mark = Mark(MarkKind.ZIP_END, point_at(line, opening), edge=label, amount=taped(opening))
    kept = tuple(m for m in piece.marks if (m.kind, m.edge) != (MarkKind.ZIP_END, label))
    return replace(piece, marks=(*kept, mark))


def _downwards(piece: Piece, label: str) -> Path:
    """The edge walked from its upper end; one that a dart divides is refused."""
    edge = piece.edge(label)
    if edge.kind is EdgeKind.FOLD:
        raise StepError(
            Message(
                "edge-fold-cannot-left-open",
                N_("An edge on the fold cannot be left open. Make it a seam first."),
            )
        )
    return edge.curves if edge.start.imag <= edge.end.imag else reversed_path(edge.curves)
