"""A waistband: a straight band as long as the waist edges all round, with an overlap."""

from __future__ import annotations

from dataclasses import replace
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from cutwright.body.body import Body
from cutwright.errors import StepError
from cutwright.messages import N_, Message
from cutwright.pattern.change import account
from cutwright.pattern.edge import EdgeKind, Ref
from cutwright.pattern.parts.bands import Band, band_piece, fold_line, overlap_mark
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Cut, Piece, in_interfacing
from cutwright.pattern.result import Result, Trace, TraceKind
from cutwright.pattern.role import PieceLayer, Role
from cutwright.pattern.seam import Seam, SeamKind, Side, layers_of, seam
from cutwright.pattern.sewing.course import Course, course_of
from cutwright.pattern.sum import Chosen, Figure, Number, all_round, plus, times
from cutwright.style.parameter import EdgeOf, Flag, Length, NewName, Within
from cutwright.style.registry import register
from cutwright.style.step import Step

_EDGE = "waist"


@register
class Waistband(Step):
    """Measure the waist edges and cut a band for them."""

    SENTENCE: ClassVar[str] = N_("Cut a {piece} {width} cm wide for the {edges}.")
    HELP: ClassVar[str] = N_(
        "The waist edges are measured all round, the amount that is eased in is taken off and "
        "the overlap added. A folded band is cut double and folded along its middle; otherwise a "
        "second one is cut to face it. The places where it meets seams and centres are marked."
    )
    WHY: ClassVar[str] = N_(
        "The band holds the garment at the waist. Longer than the waist it gapes, shorter it draws the "
        "cloth into pleats."
    )
    CLOTH: ClassVar[str] = N_(
        "Interface it firmly. In thick cloth give it a facing of lining instead of folding it."
    )
    GROUP: ClassVar[str] = "facings and bands"

    do: Literal["waistband"] = "waistband"
    edges: tuple[EdgeOf, ...] = Field(
        min_length=1,
        max_length=12,
        description=N_("the waist edges, one after the other from the opening"),
        json_schema_extra={"role": "edges"},
    )
    piece: NewName = Field(default="waistband", description=N_("name of the band"))
    width: Annotated[Length, Within(1.0, 20.0)] = Field(
        default=3.0, description=N_("finished width")
    )
    overlap: Annotated[Length, Within(0.0, 15.0)] = Field(
        default=3.0, description=N_("overlap at the opening")
    )
    ease: Annotated[Length, Within(0.0, 6.0)] = Field(
        default=0.0, description=N_("how much of the waist is eased in, all round")
    )
    folded: Flag = Field(default=True, description=N_("cut double and folded lengthwise"))
    interfacing: Flag = Field(default=True, description=N_("cut in interfacing as well"))

    def clauses(self) -> tuple[str, ...]:
        """Name only what is asked for."""
        out = [self.SENTENCE]
        if self.overlap:
            out.append(N_("Let it overlap {overlap} cm."))
        if self.ease:
            out.append(N_("Ease in {ease} cm of the waist."))
        if not self.folded:
            out.append(N_("Face it with a second one."))
        if not self.interfacing:
            out.append(N_("Without interfacing."))
        return tuple(out)

    def apply(self, pattern: Pattern, body: Body) -> Result:
        """Draw the band, sew it to the row, mark the overlap."""
        width, overlap, ease = (
            self.chosen(field, pattern, body) for field in ("width", "overlap", "ease")
        )
        course = course_of(pattern, [Ref(e.piece, e.edge) for e in self.edges])
        names = [self.piece] if self.folded else [self.piece, self._facing_name]
        for name in names:
            if name in pattern.names:
                raise StepError(
                    Message("already-2", N_('There is a "{piece}" already.'), piece=name)
                )
        if course.whole - ease.size < 10:
            raise StepError(
                Message(
                    "waistband-needs-least-cm-waist",
                    N_("A waistband needs at least 10 cm of waist; there are {there:.1f} cm."),
                    there=course.whole - ease.size,
                )
            )
        band = self._band(course.whole - ease.size, width.size, overlap.size)
        marks = (overlap_mark(band, _EDGE, overlap.size),) if overlap.size else ()
        if self.folded:
            marks = (*marks, fold_line(band))
        band = replace(band, marks=marks)
        top = Side(Ref(self.piece, _EDGE), not course.sides[0].backwards)
        sewn = Seam(layers_of(course.sides, (top,), SeamKind.WAISTBAND, ease=ease.size))
        changed = pattern.with_pieces(band).with_seams(sewn)
        if not self.folded:
            changed = self._faced(changed, band)
        traces = (*_measured(pattern, course), Trace(TraceKind.ADDED, band.name, path=band.outline))
        figures = self._figures(course, width, overlap, ease)
        return Result(changed, account(pattern, changed), figures, traces=traces)

    @property
    def _facing_name(self) -> str:
        return f"{self.piece} facing"

    def _band(self, sewn: float, width: float, overlap: float) -> Piece:
        depth = 2 * width if self.folded else width
        band = Band(
            self.piece,
            sewn,
            depth,
            beyond=overlap,
            beyond_kind=EdgeKind.WAIST,
            sewn_name=_EDGE,
            sewn_kind=EdgeKind.WAIST,
            far_name="inner edge" if self.folded else "upper edge",
            far_kind=EdgeKind.FREE if self.folded else EdgeKind.SEAM,
        )
        piece = band_piece(band, Cut(1), Role.WAISTBAND)
        return replace(piece, also=(in_interfacing(piece.cut),)) if self.interfacing else piece

    def _faced(self, pattern: Pattern, band: Piece) -> Pattern:
        """A second band, sewn to the first along its upper edge."""
        second = replace(band, name=self._facing_name, layer=PieceLayer.FACING)
        upper = seam(
            Ref(band.name, "upper edge"),
            Ref(second.name, "upper edge"),
            kind=SeamKind.FACING,
            same_way=True,
        )
        return pattern.with_pieces(second).with_seams(upper)

    def _figures(
        self, course: Course, width: Chosen, overlap: Chosen, ease: Chosen
    ) -> tuple[Figure, ...]:
        whole = all_round(course.lengths)
        extra = [replace(ease, size=-ease.size)] if ease.size else []
        extra += [overlap] if overlap.size else []
        whole = plus(whole, *extra)
        cut = times(width, Number(2, "folded")) if self.folded else width
        return (Figure("band-length", whole, self.piece), Figure("band-width", cut, self.piece))


def _measured(pattern: Pattern, course: Course) -> tuple[Trace, ...]:
    return tuple(
        Trace(
            TraceKind.MEASURED,
            side.ref.piece,
            path=tuple(c for e in pattern.edge_parts(side.ref) for c in e.curves),
        )
        for side in course.sides
    )
