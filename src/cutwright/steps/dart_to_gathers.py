"""Turn a dart into gathers or ease: it is not sewn, its mouth is drawn up."""

from __future__ import annotations

from dataclasses import replace
from typing import ClassVar, Literal

from pydantic import Field

from cutwright.body.body import Body
from cutwright.geometry.draw import hermite
from cutwright.geometry.path import nearest_distance, point_at
from cutwright.pattern.change import account
from cutwright.pattern.edge import Edge, Kind, Ref
from cutwright.pattern.flare import edge_dart
from cutwright.pattern.loop import weld
from cutwright.pattern.mark import MarkKind
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Dart, Mark, Piece
from cutwright.pattern.result import Result, Trace
from cutwright.pattern.seam import Seam
from cutwright.pattern.strips import replace_edge
from cutwright.pattern.sum import Figure, minus
from cutwright.style.parameter import DartName, PieceName
from cutwright.style.registry import register
from cutwright.style.step import Step
from cutwright.words import N_


@register
class DartToGathers(Step):
    """Leave a dart unsewn and draw its mouth up as gathers or ease."""

    SENTENCE: ClassVar[str] = N_("Turn the {dart} of {piece} into {into}.")
    HELP: ClassVar[str] = N_(
        "The legs are dropped and the edge is drawn smooth over the mouth. Marks show from where to where "
        "it is drawn up; the seam says by how much the edge is longer."
    )
    GROUP: ClassVar[str] = "darts"

    do: Literal["dart_to_gathers"] = "dart_to_gathers"
    piece: PieceName = Field(description=N_("the piece"))
    dart: DartName = Field(description=N_("the dart"))
    into: Literal["gathers", "ease"] = Field(
        default="gathers", description=N_("gathers or ease"), json_schema_extra={"role": "choice"}
    )

    def apply(self, pattern: Pattern, body: Body) -> Result:
        """Drop the legs, smooth the edge, mark the stretch and tell the seam."""
        piece = pattern.piece(self.piece)
        dart = edge_dart(piece, self.dart)
        edge_name = piece.edges[piece.edges.index(piece.legs(dart)[0]) - 1].name
        before = piece.edge_length(edge_name)
        mouth = piece.mouth(dart)
        after = _without_legs(piece, dart, edge_name)
        gained = after.edge_length(edge_name) - before
        after = replace(after, marks=(*after.marks, self._mark(after, edge_name, mouth, gained)))
        changed = pattern.with_pieces(after)
        ref = Ref(piece.name, edge_name)
        seams = tuple(
            self._told(changed, s, ref, gained) if ref in s.refs else s for s in pattern.seams
        )
        changed = replace(changed, seams=seams)
        figure = Figure(
            "drawn-up", minus(after.tape(edge_name), piece.tape(edge_name)), piece.name, edge_name
        )
        traces = (Trace("closed", piece.name, (mouth[0], dart.tip, mouth[1])),)
        return Result(changed, account(pattern, changed), (figure,), traces=traces)

    def _mark(self, piece: Piece, edge: str, mouth: tuple[complex, complex], gained: float) -> Mark:
        """From and to: the mouth widened by 1.5 cm at each side, on the edge."""
        part = min(
            piece.edge_parts(edge),
            key=lambda e: abs(point_at(e.curves, nearest_distance(e.curves, mouth[0])) - mouth[0]),
        )
        start, end = (nearest_distance(part.curves, p) for p in mouth)
        at = point_at(part.curves, max(start - 1.5, 0.0))
        to = point_at(part.curves, min(end + 1.5, part.length))
        kind = MarkKind.GATHERS if self.into == "gathers" else MarkKind.EASE
        return Mark(kind, at, to=to, edge=part.label, amount=round(gained, 1))

    def _told(self, pattern: Pattern, seam: Seam, ref: Ref, gained: float) -> Seam:
        """The seam with the longer side as side a and its ease or ratio stated."""
        on_a = any(side.ref == ref for side in seam.a)
        turned = seam if on_a else replace(seam, a=seam.b, b=seam.a)
        ta = pattern.times(turned)[0]
        count = next(t for t, side in zip(ta, turned.a, strict=True) if side.ref == ref)
        sign = 1.0 if on_a else -1.0
        if self.into == "ease":
            return replace(turned, ease=sign * seam.ease + count * gained, kind="eased", ratio=1.0)
        a, b = pattern.seam_lengths(turned)
        return replace(turned, ratio=a / b, ease=0.0, kind="gathered")


def _without_legs(piece: Piece, dart: Dart, edge_name: str) -> Piece:
    kept = [e for e in piece.edges if not (e.kind is Kind.LEG and e.name == dart.name)]
    index = piece.edges.index(piece.legs(dart)[0])
    order = kept[index:] + kept[:index] if index < len(kept) else kept
    edges = weld([tuple(order)])
    after = replace(piece, edges=edges, darts=tuple(d for d in piece.darts if d.name != dart.name))
    for edge in after.edge_parts(edge_name):
        after = replace_edge(after, edge.label, _smooth_over(edge, piece.mouth(dart)))
    return after


def _smooth_over(edge: Edge, mouth: tuple[complex, complex]) -> Edge:
    """The edge with the straight bridge over the old mouth drawn as a smooth bow."""
    for i, curve in enumerate(edge.curves):
        if (
            abs(curve.start - mouth[0]) < 1e-7
            and abs(curve.end - mouth[1]) < 1e-7
            and 0 < i < len(edge.curves) - 1
        ):
            out = edge.curves[i - 1].velocity(1.0)
            come = edge.curves[i + 1].velocity(0.0)
            bridge = hermite(curve.start, out, curve.end, come)
            return edge.with_curves((*edge.curves[:i], bridge, *edge.curves[i + 1 :]))
    return edge
