"""What all flounces share: the edges they are sewn to, the gather ratio, rounding and piecing."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import ceil, inf
from typing import Annotated, Literal

from pydantic import Field

from cutwright.errors import StepError
from cutwright.messages import N_, Message
from cutwright.pattern.change import account
from cutwright.pattern.edge import EdgeKind, Ref
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.pattern.result import Result, Trace, TraceKind
from cutwright.pattern.seam import SeamKind, seam
from cutwright.pattern.sewing.course import Course, course_of, sewn_on
from cutwright.pattern.sum import (
    Chosen,
    Earlier,
    Figure,
    Number,
    Rounding,
    Term,
    Unit,
    all_round,
    minus,
    over,
    rounded,
    times,
)
from cutwright.style.parameter import Count, EdgeOf, Length, NewName, PlainLength, Within
from cutwright.style.step import Step

ClothWidth = Annotated[
    Length, Within(20.0, 400.0), Field(description=N_("usable width of the cloth"))
]
JoinAllowance = Annotated[PlainLength, Field(ge=0.0, le=5.0, description=N_("allowance at a join"))]


@dataclass(frozen=True, slots=True)
class Measured:
    """The row a flounce is sewn to and its length all round, as a figure."""

    course: Course
    figure: Figure

    @property
    def length(self) -> float:
        """The length all round, cm, as it is printed."""
        return self.figure.value


class Flounce(Step):
    """Fields and arithmetic of every flounce."""

    edges: tuple[EdgeOf, ...] = Field(
        min_length=1,
        max_length=12,
        description=N_("the edges it is sewn to, one after the other"),
        json_schema_extra={"role": "edges"},
    )
    piece: NewName = Field(default="flounce", description=N_("name of the flounce"))
    depth: Annotated[Length, Within(1.0, 150.0)] = Field(description=N_("depth of the flounce"))
    round: Literal["up", "nearest", "none"] = Field(
        default="up",
        description=N_("how its length is rounded"),
        json_schema_extra={"role": "choice"},
    )
    round_to: Annotated[PlainLength, Field(ge=0.1, le=20.0)] = Field(
        default=1.0, description=N_("to whole steps of so many cm")
    )
    parts: Annotated[Count, Field(ge=0, le=24)] = Field(
        default=0, description=N_("in how many equal parts; 0 = as few as the cloth allows")
    )

    def measured_row(self, pattern: Pattern) -> Measured:
        """The row and its length all round, measured edge by edge."""
        refs = [Ref(e.piece, e.edge) for e in self.edges]
        if self.piece in pattern.names:
            raise StepError(
                Message(
                    "already-piece-choose-another-name",
                    N_('There is already a piece "{piece}". Choose another name.'),
                    piece=self.piece,
                )
            )
        course = course_of(pattern, refs)
        return Measured(course, Figure("sewn-to", all_round(course.lengths), self.piece))

    def sewn(
        self,
        pattern: Pattern,
        course: Course,
        piece: Piece,
        figures: tuple[Figure, ...],
        gathered: bool,
    ) -> Result:
        """Add the flounce and its seams: to the row, and its parts end to end."""
        copies = piece.cut.copies
        if not course.closed:
            piece = _open_ended(piece, copies)
        after = pattern.with_pieces(piece)
        top = Ref(piece.name, "top")
        whole = after.length(top) * copies
        ratio = whole / course.whole
        kind = SeamKind.GATHERED if gathered else SeamKind.PLAIN
        seams = [sewn_on(top, course, ratio if gathered else 1.0, kind)]
        if course.closed or copies > 1:
            ends = Ref(piece.name, "right end"), Ref(piece.name, "left end")
            joins = seam(*ends)
            seams.append(replace(joins, open_ends=0 if course.closed else 1))
        after = after.with_seams(*seams)
        traces = tuple(
            Trace(
                TraceKind.MEASURED,
                side.ref.piece,
                path=tuple(c for e in pattern.edge_parts(side.ref) for c in e.curves),
            )
            for side in course.sides
        )
        added = Trace(TraceKind.ADDED, piece.name, path=piece.outline)
        return Result(after, account(pattern, after), figures, traces=(*traces, added))


def _open_ended(piece: Piece, copies: int) -> Piece:
    """The ends of a flounce that does not close: turned and hemmed when it is one part."""
    if copies > 1:
        return piece
    ends = {"right end", "left end"}
    return replace(
        piece,
        edges=tuple(replace(e, kind=EdgeKind.FREE) if e.name in ends else e for e in piece.edges),
    )


def parts_for(total: float, cloth: float, join: float, asked: int) -> int:
    """How many equal strips a length needs on a cloth of a usable width, an allowance at each join.

    Source: check by hand, ceil((length + end seams) / (width - 2 seams)).
    """
    if cloth - 2 * join < 5:
        raise StepError(
            Message(
                "cloth-cm-wide-leaves-nothing",
                N_("A cloth {width:.1f} cm wide leaves nothing between the joins."),
                width=cloth,
            )
        )
    least = ceil((total) / (cloth - 2 * join) - 1e-9)
    return max(asked, least, 1)


def strips(whole: Figure, cloth: Chosen, join: float, parts: int) -> Figure:
    """How many strips the cloth asks for, or the cutter."""
    room = minus(cloth, times(Number(2, "joins"), Chosen("join", join)))
    need = rounded(over(Earlier(whole), room), Rounding.UP, 1.0)
    count: Term = need if parts == need.value else Chosen("parts", parts, Unit.NUMBER)
    return Figure("strips", count, whole.piece, unit=Unit.NUMBER)


def part_length(whole: Figure, parts: int, way: str, step: float, room: float = inf) -> Term:
    """The length of one part: the whole, as it was worked out before, over equal parts, rounded alike.

    Parameters
    ----------
    whole : the whole length
    parts : how many equal parts
    way, step : how it is rounded, to at most whole cm; more finely where it would else leave the cloth
    room : what the cloth leaves between two joins, cm

    Returns
    -------
    a term, cm, never over the room where the parts are as many as `parts_for` says
    """
    if parts == 1:
        return whole.term
    part = over(Earlier(whole), Number(parts, "parts"))
    sizes = (rounded(part, way, fine) for fine in (min(step, 1.0), 0.1))
    return next((size for size in sizes if size.value <= room + 1e-9), part)


def fullness(each: Figure, parts: int, sewn: Figure) -> Figure:
    """The fullness that came out, on the edge as it was measured."""
    cut: Term = times(Earlier(each), Number(parts, "parts")) if parts > 1 else Earlier(each)
    return Figure("fullness", over(cut, Earlier(sewn)), each.piece, unit=Unit.NUMBER)
