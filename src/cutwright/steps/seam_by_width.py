"""Put a centre seam where a piece on the fold is wider than the cloth."""

from __future__ import annotations

from typing import Annotated, ClassVar, Literal

from pydantic import Field

from cutwright.body.body import Body
from cutwright.geometry.curve import Line
from cutwright.geometry.outline import flattened
from cutwright.geometry.point import Point, distance_to_line, dot, unit
from cutwright.messages import N_, Message
from cutwright.pattern.change import account
from cutwright.pattern.edge import Edge, EdgeKind
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.pattern.result import Finding, Result, Severity, Trace, TraceKind
from cutwright.pattern.shaping.centre import centre_of, seamed
from cutwright.pattern.sum import Chosen, Figure, Number, ReadOff, plus, times
from cutwright.style.flounce import ClothWidth
from cutwright.style.parameter import PieceName, PlainLength
from cutwright.style.registry import register
from cutwright.style.step import Step


@register
class SeamByWidth(Step):
    """Cut a piece in two at its centre where it would not lie on the cloth whole."""

    SENTENCE: ClassVar[str] = N_(
        "Make the centre a seam where the cloth of {cloth} cm is too narrow for the whole piece: {pieces}."
    )
    HELP: ClassVar[str] = N_(
        "A piece on the fold is cut whole, twice as wide as its half. With much flare or on a large figure it "
        "may be wider than the cloth. Its centre then becomes a seam and its halves are cut one beside the "
        "other or one below the other; on the straight grain this seam shows least. A piece that fits stays on "
        "the fold. For a narrower cloth give its usable width, without the selvedges."
    )
    WHY: ClassVar[str] = N_(
        "A piece wider than the cloth cannot be cut. A seam in the centre shows less than one anywhere "
        "else."
    )
    CLOTH: ClassVar[str] = N_("Stripes and checks must meet at this seam, so buy a repeat more.")
    GROUP: ClassVar[str] = "centres and openings"

    do: Literal["seam_by_width"] = "seam_by_width"
    pieces: tuple[PieceName, ...] = Field(
        min_length=1,
        max_length=8,
        description=N_("the pieces, each with its centre on the fold"),
        json_schema_extra={"role": "pieces"},
    )
    cloth: ClothWidth = 140.0
    allowance: Annotated[PlainLength, Field(ge=0.0, le=10.0)] = Field(
        default=2.5, description=N_("allowance to leave at each end, its corner included")
    )

    def apply(self, pattern: Pattern, body: Body) -> Result:
        """Measure each piece across and seam those that are too wide."""
        usable = self.cm("cloth", pattern, body)
        changed = pattern
        figures: list[Figure] = []
        findings: list[Finding] = []
        traces: list[Trace] = []
        for name in self.pieces:
            piece = pattern.piece(name)
            edge = centre_of(piece)
            far, half = _farthest(piece, edge)
            width = self._width(name, half, 2 if edge.kind is EdgeKind.FOLD else 1)
            figures.append(width)
            traces.append(Trace(TraceKind.MEASURED, name, path=(Line(_foot(edge, far), far),)))
            if edge.kind is EdgeKind.FOLD and width.value > usable:
                changed = seamed(changed, piece, edge)
                traces.append(Trace(TraceKind.TRUED, name, path=edge.curves))
                findings.append(_seamed(name, width.value, usable))
            if half + 2 * self.allowance > usable:
                findings.append(_still_wide(name, half + 2 * self.allowance, usable))
        change = account(pattern, changed)
        return Result(changed, change, tuple(figures), tuple(findings), tuple(traces))

    def _width(self, name: str, half: float, halves: int) -> Figure:
        """How wide a piece is as it is cut: whole from the fold, or the half that it is."""
        ends = times(Number(2, "ends"), Chosen("allowance", self.allowance))
        across = ReadOff("half-width", half)
        whole = times(across, Number(2, "halves")) if halves == 2 else across
        return Figure("width-as-cut", plus(whole, ends), name)


def _farthest(piece: Piece, centre: Edge) -> tuple[Point, float]:
    """The place farthest from the line of the centre, and how far that is, cm."""
    far = max(flattened(piece.outline), key=lambda p: distance_to_line(p, centre.start, centre.end))
    return far, distance_to_line(far, centre.start, centre.end)


def _foot(centre: Edge, at: Point) -> Point:
    """Where a place lies on the line of the centre, square to it."""
    along = unit(centre.end - centre.start)
    return centre.start + along * dot(along, at - centre.start)


def _seamed(name: str, width: float, usable: float) -> Finding:
    text = Message(
        "seamed-by-width",
        N_(
            '"{piece}" is {width:.1f} cm wide on the fold and the cloth {usable:.1f} cm: its centre is a seam now '
            "and it is cut as two halves."
        ),
        piece=name,
        width=width,
        usable=usable,
    )
    return Finding("seamed-by-width", Severity.NOTE, name, text, width - usable)


def _still_wide(name: str, width: float, usable: float) -> Finding:
    text = Message(
        "half-wider-than-cloth",
        N_(
            'Half of "{piece}" alone is {width:.1f} cm wide and the cloth {usable:.1f} cm. Take a wider cloth, '
            "less flare, or cut it in more parts."
        ),
        piece=name,
        width=width,
        usable=usable,
    )
    return Finding("wider-than-cloth", Severity.WARNING, name, text, width - usable)
