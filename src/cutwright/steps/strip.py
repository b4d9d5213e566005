"""A strip: a binding for edges, or a tie; on the straight grain or on the bias."""

from __future__ import annotations

from typing import Annotated, ClassVar, Literal

from pydantic import Field

from cutwright.body.body import Body
from cutwright.errors import StepError
from cutwright.messages import N_, Message
from cutwright.pattern.change import account
from cutwright.pattern.edge import EdgeKind, Ref
from cutwright.pattern.parts.bands import Band, Grain, band_piece
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Cut
from cutwright.pattern.result import Result, Trace, TraceKind
from cutwright.pattern.role import Role
from cutwright.pattern.seam import SeamKind, seam
from cutwright.pattern.sewing.course import Course, course_of, sewn_on
from cutwright.pattern.sum import Chosen, Figure, Number, Unit, all_round, over, plus, times
from cutwright.style.parameter import Count, EdgeOf, Length, NewName, Share, Within
from cutwright.style.registry import register
from cutwright.style.step import Step, length_value


@register
class Strip(Step):
    """Cut a strip as long as the edges it binds, or of a length of its own."""

    SENTENCE: ClassVar[str] = N_("Cut a {grain} strip {width} cm wide for the {piece}.")
    HELP: ClassVar[str] = N_(
        "With edges named, the strip is as long as they are all round, times the share asked for (a bias binding "
        "is often stretched to 0.95 on a hollow edge), and may run on at both ends as ties. Without edges its "
        "length is given. Bias means 45 degrees to the selvedge."
    )
    WHY: ClassVar[str] = N_(
        "A strip binds an edge, or ties. Cut on the straight grain it lies in pleats round a curve."
    )
    CLOTH: ClassVar[str] = N_("Cut it wider in thick cloth, which loses width in the fold.")
    GROUP: ClassVar[str] = "facings and bands"

    do: Literal["strip"] = "strip"
    piece: NewName = Field(default="binding", description=N_("name of the strip"))
    edges: tuple[EdgeOf, ...] = Field(
        default=(),
        max_length=12,
        description=N_("the edges it is sewn to, one after the other; none for a tie"),
        json_schema_extra={"role": "edges"},
    )
    long: Annotated[Length | None, Within(1.0, 1000.0)] = Field(
        default=None, description=N_("its length, where no edges are named")
    )
    width: Annotated[Length, Within(0.5, 60.0)] = Field(default=4.0, description=N_("width to cut"))
    share: Annotated[Share, Field(ge=0.7, le=1.3)] = Field(
        default=1.0, description=N_("length of the strip as a share of the edges")
    )
    beyond: Annotated[Length, Within(0.0, 200.0)] = Field(
        default=0.0, description=N_("how far it runs on at both ends")
    )
    grain: Grain = Field(default="bias", description=N_("how it lies on the grain"))
    copies: Annotated[Count, Field(ge=1, le=12)] = Field(
        default=1, description=N_("how many to cut")
    )

    def clauses(self) -> tuple[str, ...]:
        """Name only what is asked for."""
        out = [self.SENTENCE]
        if self.edges:
            out.append(N_("It is sewn to the {edges}."))
        if self.long is not None:
            out.append(N_("It is {long} cm long."))
        if self.share != 1:
            out.append(N_("It is {share} times as long as they are."))
        if self.beyond:
            out.append(N_("It runs on {beyond} cm at both ends."))
        if self.copies > 1:
            out.append(N_("Cut {copies}."))
        return tuple(out)

    def apply(self, pattern: Pattern, body: Body) -> Result:
        """Measure if edges are named, draw the strip, sew it on."""
        if self.piece in pattern.names:
            raise StepError(
                Message("already", N_('There is a "{piece}" already.'), piece=self.piece)
            )
        if bool(self.edges) == (self.long is not None):
            raise StepError(
                Message(
                    "give-strip-either-edges-sewn",
                    N_(
                        "Give a strip either the edges it is sewn to or a length of its own, not both."
                    ),
                )
            )
        width, beyond = self.cm("width", pattern, body), self.cm("beyond", pattern, body)
        course = (
            course_of(pattern, [Ref(e.piece, e.edge) for e in self.edges]) if self.edges else None
        )
        sewn = course.whole * self.share / self.copies if course else self._length(pattern, body)
        if sewn < 1:
            raise StepError(
                Message("strip-would-shorter-cm", N_("This strip would be shorter than 1 cm."))
            )
        band = Band(
            self.piece,
            sewn,
            width,
            before=beyond if course else 0.0,
            beyond=beyond if course else 0.0,
            sewn_name="sewn edge" if course else "long edge",
            sewn_kind=EdgeKind.SEAM if course else EdgeKind.FREE,
            beyond_name="tie",
            far_name="outer edge" if course else "other long edge",
            grain=self.grain,
        )
        piece = band_piece(band, Cut(self.copies), Role.STRIP)
        changed = pattern.with_pieces(piece)
        if course:
            ref = Ref(self.piece, "sewn edge")
            changed = changed.with_seams(sewn_on(ref, course, self.share, SeamKind.BINDING))
            if course.closed and not beyond:
                ends = Ref(self.piece, "right end"), Ref(self.piece, "left end")
                changed = changed.with_seams(seam(*ends))
        figures = (self._figure(course, pattern, body),)
        traces = (Trace(TraceKind.ADDED, self.piece, path=piece.outline),)
        return Result(changed, account(pattern, changed), figures, traces=traces)

    def _length(self, pattern: Pattern, body: Body) -> float:
        value = length_value(self.long if self.long is not None else 0.0, pattern, body)
        if not 1.0 <= value <= 1000.0:
            raise StepError(
                Message(
                    "strip-may-cm-long-would",
                    N_("A strip may be 1 to 1000 cm long; this one would be {value:.1f} cm."),
                    value=value,
                )
            )
        return value

    def _figure(self, course: Course | None, pattern: Pattern, body: Body) -> Figure:
        if course is None:
            text = self.long if isinstance(self.long, str) else ""
            long = Chosen("long", self._length(pattern, body), text=text)
            return Figure("strip-length", long, self.piece)
        sum_ = all_round(course.lengths)
        if self.share != 1:
            sum_ = times(sum_, Chosen("share", self.share, Unit.NUMBER))
        if self.copies > 1:
            sum_ = over(sum_, Number(self.copies, "strips"))
        if self.beyond:
            sum_ = plus(sum_, times(Number(2, "ends"), self.chosen("beyond", pattern, body)))
        return Figure("strip-length", sum_, self.piece)
