"""Put a centre on the fold or make it a seam, straight or hollowed, with an opening for a zip."""

from __future__ import annotations

from dataclasses import replace
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from cutwright.body.body import Body
from cutwright.errors import StepError
from cutwright.geometry.path import is_straight, path_length
from cutwright.geometry.point import unit
from cutwright.messages import N_, Message
from cutwright.pattern.change import account
from cutwright.pattern.cutting.flare import refuse_if_crossing
from cutwright.pattern.edge import Edge, EdgeKind, Ref
from cutwright.pattern.mark import MarkKind
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Mark, Piece
from cutwright.pattern.result import Result, Trace, TraceKind
from cutwright.pattern.sewing.walk import refuse_if_parted
from cutwright.pattern.shaping.centre import (
    centre_of,
    down_along,
    hollowed,
    seamed,
    with_kind,
    zip_place,
)
from cutwright.pattern.shaping.settle import settled
from cutwright.pattern.sum import Chosen, Earlier, EdgeLength, Figure, Number, minus, taped, times
from cutwright.style.parameter import Length, PieceName, Within
from cutwright.style.registry import register
from cutwright.style.step import Step

_STRAIGHT = 0.01


@register
class SetCentre(Step):
    """Decide whether a centre lies on the fold or is a seam, and what opens there."""

    SENTENCE: ClassVar[str] = N_("Cut the centre of {pieces} as a {on}.")
    HELP: ClassVar[str] = N_(
        "On the fold the piece is cut once, doubled; as a seam it is cut twice, left and right. A seam may be "
        "hollowed at the waist and may open for a zip, measured from the top; with several pieces, name them "
        "from the top down and the zip runs on from one into the next."
    )
    WHY: ClassVar[str] = N_(
        "On the fold there is no seam to sew; a seam can be shaped, and opened to get in. Without an "
        "opening a close garment does not go on."
    )
    CLOTH: ClassVar[str] = N_(
        "In soft or loose cloth iron a strip of interfacing to both edges of a zip."
    )
    GROUP: ClassVar[str] = "centres and openings"

    do: Literal["set_centre"] = "set_centre"
    pieces: tuple[PieceName, ...] = Field(
        min_length=1,
        max_length=4,
        description=N_("the pieces, from the top down"),
        json_schema_extra={"role": "pieces"},
    )
    on: Literal["seam", "fold"] = Field(default="seam", description=N_("seam or fold"))
    hollow: Annotated[Length, Within(0.0, 5.0)] = Field(
        default=0.0, description=N_("how far the seam is hollowed at the waist")
    )
    zip: Annotated[Length, Within(0.0, 80.0)] = Field(
        default=0.0, description=N_("length of the opening from the top; 0 for none")
    )

    def clauses(self) -> tuple[str, ...]:
        """Name only what is asked for."""
        out = [self.SENTENCE]
        if self.hollow:
            out.append(N_("Hollow it {hollow} cm at the waist."))
        if isinstance(self.zip, str):
            out.append(N_("Leave it open from the top for a zip, in cm: {zip}."))
        elif self.zip:
            out.append(N_("Leave it open {zip} cm from the top for a zip."))
        return tuple(out)

    def apply(self, pattern: Pattern, body: Body) -> Result:
        """Change the kind, the copies, the seam and the line of every centre."""
        hollow = self.chosen("hollow", pattern, body)
        opening = self.chosen("zip", pattern, body)
        if self.on == "fold" and (hollow.size or opening.size):
            raise StepError(
                Message(
                    "centre-fold-straight-closed-cannot",
                    N_(
                        "A centre on the fold is straight and closed: it cannot be hollowed and takes no zip. Make it "
                        "a seam."
                    ),
                )
            )
        changed = pattern
        for name in self.pieces:
            piece = pattern.piece(name)
            edge = centre_of(piece)
            changed = (
                self._folded(changed, piece, edge)
                if self.on == "fold"
                else self._seamed(changed, piece, edge, hollow.size)
            )
        change = account(pattern, changed)
        refuse_if_parted(pattern, changed, change)
        traces = tuple(
            Trace(TraceKind.TRUED, name, path=centre_of(changed.piece(name)).curves)
            for name in self.pieces
        )
        changed, figures = self._opened(changed, opening)
        return Result(changed, change, figures + self._hollow_figures(hollow), traces=traces)

    def _seamed(self, pattern: Pattern, piece: Piece, edge: Edge, hollow: float) -> Pattern:
        pattern = seamed(pattern, piece, edge)
        out = pattern.piece(piece.name)
        if hollow:
            if not is_straight(edge.curves, _STRAIGHT):
                raise StepError(
                    Message(
                        "centre-shaped-already",
                        N_('The centre of "{piece}" is shaped already.'),
                        piece=piece.name,
                    )
                )
            doing = N_("Hollowing the centre")
            out = settled(hollowed(out, out.edge(edge.label), hollow), doing, edge.label)
            out = refuse_if_crossing(out, doing)
        return pattern.with_pieces(out)

    def _folded(self, pattern: Pattern, piece: Piece, edge: Edge) -> Pattern:
        if not is_straight(edge.curves, _STRAIGHT):
            raise StepError(
                Message(
                    "centre-shaped-straight-can-lie",
                    N_(
                        'The centre of "{piece}" is shaped; only a straight one can lie on the fold. Leave it a seam.'
                    ),
                    piece=piece.name,
                )
            )
        if edge.kind is EdgeKind.FOLD:
            return pattern
        if piece.cut.copies % 2:
            raise StepError(
                Message(
                    "cut-once-no-second-half",
                    N_('"{piece}" is cut once; there is no second half to fold to.'),
                    piece=piece.name,
                )
            )
        ref = Ref(piece.name, edge.name)
        also = tuple(cut.halved() for cut in piece.also)
        out = replace(with_kind(piece, edge, EdgeKind.FOLD), cut=piece.cut.halved(), also=also)
        out = replace(out, grain=_along(piece, edge))
        out = replace(out, marks=tuple(m for m in out.marks if m.edge != edge.name))
        seams = tuple(s for s in pattern.seams if set(s.refs) != {ref})
        return pattern.with_pieces(out).sewn(seams)

    def _opened(self, pattern: Pattern, opening: Chosen) -> tuple[Pattern, tuple[Figure, ...]]:
        """Mark where the zip ends, in the piece in which it ends."""
        if not opening.size:
            return pattern, ()
        left = opening.size
        above: list[EdgeLength] = []
        for name in self.pieces:
            piece = pattern.piece(name)
            edge = centre_of(piece)
            size = path_length(edge.curves)
            if left <= size - 1.0:
                at = zip_place(edge, left)
                mark = Mark(MarkKind.ZIP_END, at, edge=edge.name, amount=taped(opening.size))
                kept = tuple(
                    m
                    for m in piece.marks
                    if not (m.kind is MarkKind.ZIP_END and m.edge == edge.name)
                )
                pattern = pattern.with_pieces(replace(piece, marks=(*kept, mark)))
                return pattern, _zip_figures(opening, above, name)
            above.append(EdgeLength(Ref(name, edge.name), size))
            left -= size
            if left <= 0:
                break
        raise StepError(
            Message(
                "zip-cm-not-end-inside-2",
                N_(
                    "A zip of {size:.1f} cm does not end inside the centre: there are {there:.1f} cm, and at least 1 cm "
                    "must stay closed below it."
                ),
                size=opening.size,
                there=sum(edge.size for edge in above),
            )
        )

    def _hollow_figures(self, hollow: Chosen) -> tuple[Figure, ...]:
        if not hollow.size:
            return ()
        return (Figure("hollow", times(hollow, Number(2, "halves"))),)


def _along(piece: Piece, edge: Edge) -> tuple[complex, complex]:
    """The grain turned parallel to the centre, about its own middle."""
    middle = (piece.grain[0] + piece.grain[1]) / 2
    line = down_along(edge)
    half = unit(line[-1].end - line[0].start) * abs(piece.grain[1] - piece.grain[0]) / 2
    return middle - half, middle + half


def _zip_figures(opening: Chosen, above: list[EdgeLength], last: str) -> tuple[Figure, ...]:
    """How long the zip is; where it runs on into another piece, how far down it ends there."""
    whole = Figure("zip-opening", opening)
    if not above:
        return (whole,)
    return (whole, Figure("zip-end", minus(Earlier(whole), *above), last))
