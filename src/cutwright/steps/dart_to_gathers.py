"""Turn a dart into gathers or ease: it is not sewn, its mouth is drawn up."""

from __future__ import annotations

from dataclasses import replace
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from cutwright.body.body import Body
from cutwright.errors import StepError
from cutwright.geometry.path import distance_from, point_at
from cutwright.geometry.point import Point
from cutwright.messages import N_, Message
from cutwright.pattern.change import account
from cutwright.pattern.cutting.flare import edge_dart
from cutwright.pattern.cutting.strips import replace_edge
from cutwright.pattern.edge import Edge, EdgeKind, Ref
from cutwright.pattern.loop import weld
from cutwright.pattern.mark import MarkKind
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Dart, Mark, Piece
from cutwright.pattern.result import Result, Trace, TraceKind
from cutwright.pattern.seam import Held, Seam
from cutwright.pattern.shaping.bowed import Bowed, bowed_over
from cutwright.pattern.sum import Figure, Number, ReadOff, completed, minus, taped, times
from cutwright.pattern.traces import trued_trace
from cutwright.style.parameter import DartName, Length, PieceName, Within
from cutwright.style.registry import register
from cutwright.style.step import Step

_MOUTHS = 3
"""How many times the mouth the stretch is long that is drawn up (common practice)."""


@register
class DartToGathers(Step):
    """Leave a dart unsewn and draw its mouth up as gathers or ease."""

    SENTENCE: ClassVar[str] = N_("Turn the {dart} of {piece} into {into}.")
    HELP: ClassVar[str] = N_(
        "The dart legs are left out and the edge is redrawn as one curve, three times as long as "
        "the mouth is wide unless another length is named; the curve is made longer where the "
        "edge would otherwise bend both ways. Marks show from where to where the edge is "
        "gathered or eased; the seam says by how much it is longer."
    )
    WHY: ClassVar[str] = N_(
        "Gathers give the room of the dart in a softer way. Drawn up over too short a stretch they make a "
        "hump."
    )
    CLOTH: ClassVar[str] = N_(
        "Gathers suit thin, soft cloth. In thick or stiff cloth keep the dart; in wool, ease can be "
        "shrunk in with the iron."
    )
    GROUP: ClassVar[str] = "darts"

    do: Literal["dart_to_gathers"] = "dart_to_gathers"
    piece: PieceName = Field(description=N_("the piece"))
    dart: DartName = Field(description=N_("the dart"))
    into: Literal["gathers", "ease"] = Field(
        default="gathers", description=N_("gathers or ease"), json_schema_extra={"role": "choice"}
    )
    over: Annotated[Length | None, Within(1.0, 80.0)] = Field(
        default=None,
        description=N_("length that is drawn up; three times the mouth when left out"),
    )

    def clauses(self) -> tuple[str, ...]:
        """Name the length only where it is asked for."""
        if self.over is None:
            return (self.SENTENCE,)
        return (self.SENTENCE, N_("It is drawn up over {over} cm."))

    def apply(self, pattern: Pattern, body: Body) -> Result:
        """Drop the legs, redraw the edge in one bow, mark the stretch and tell the seam."""
        piece = pattern.piece(self.piece)
        dart = edge_dart(piece, self.dart)
        edge_name = piece.edges[piece.edges.index(piece.legs(dart)[0]) - 1].name
        before = piece.edge_length(edge_name)
        flat = _without_legs(piece, dart)
        edge = _over_mouth(flat, edge_name, piece.mouth(dart))
        bow = self._bow(piece, dart, edge, pattern, body)
        after = replace_edge(flat, edge.label, edge.with_curves(bow.path))
        gained = after.edge_length(edge_name) - before
        after = replace(after, marks=(*after.marks, self._mark(edge.label, bow, gained)))
        changed = pattern.with_pieces(after)
        ref = Ref(piece.name, edge_name)
        seams = tuple(
            self._told(changed, s, ref, gained) if ref in s.refs else s for s in pattern.seams
        )
        changed = changed.sewn(seams)
        mouth = piece.mouth(dart)
        traces = (
            Trace(TraceKind.CLOSED, piece.name, (mouth[0], dart.tip, mouth[1])),
            trued_trace(piece.name, edge.curves, bow.path),
        )
        longer = minus(after.tape(edge_name), piece.tape(edge_name))
        named = (
            times(Number(_MOUTHS), ReadOff("mouth", piece.intake(dart)))
            if self.over is None
            else self.chosen("over", pattern, body)
        )
        figures = (
            Figure("drawn-up", longer, piece.name, edge_name),
            Figure(
                "drawn-up-over",
                completed(taped(bow.end - bow.start), named, code="trued"),
                piece.name,
                edge_name,
            ),
        )
        return Result(changed, account(pattern, changed), figures, traces=traces)

    def _bow(self, piece: Piece, dart: Dart, edge: Edge, pattern: Pattern, body: Body) -> Bowed:
        if edge.kind is EdgeKind.FOLD:
            raise StepError(
                Message(
                    "lies-fold-must-stay-straight",
                    N_(
                        'The "{edge}" of "{piece}" lies on the fold and must stay straight, so nothing can be drawn up '
                        "there. Make it a seam first, or move the dart to another edge."
                    ),
                    edge=edge.name,
                    piece=piece.name,
                )
            )
        named = self.over is not None
        over = self.cm("over", pattern, body) if named else _MOUTHS * piece.intake(dart)
        mouth = piece.mouth(dart)
        bow = bowed_over(edge.curves, mouth, over, widen=not named)
        if bow is None:
            wider = bowed_over(edge.curves, mouth, over, widen=True)
            raise StepError(_no_bow(piece, edge, over, wider))
        return bow

    def _mark(self, label: str, bow: Bowed, gained: float) -> Mark:
        """From and to: the ends of the bow."""
        at, to = point_at(bow.path, bow.start), point_at(bow.path, bow.end)
        kind = MarkKind.GATHERS if self.into == "gathers" else MarkKind.EASE
        return Mark(kind, at, to=to, edge=label, amount=round(gained, 1))

    def _told(self, pattern: Pattern, seam: Seam, ref: Ref, gained: float) -> Seam:
        """The seam with the longer layer first and its ease or ratio stated."""
        on_a = ref in seam.layers[0].refs
        turned = seam if on_a else replace(seam, layers=seam.layers[::-1])
        counts = dict(zip(turned.layers[0].refs, pattern.times(turned)[0], strict=True))
        first, *others = turned.laid_flat().layers
        if self.into == "ease":
            ease = (seam.ease if on_a else -seam.ease) + counts[ref] * gained
            drawn = replace(first, ease=ease, held=Held.EASED)
        else:
            a, b, *_more = pattern.seam_lengths(turned)
            drawn = replace(first, ratio=a / b, held=Held.GATHERED)
        return replace(turned, layers=(drawn, *others))


def _no_bow(piece: Piece, edge: Edge, over: float, wider: Bowed | None) -> Message:
    if wider is None:
        return Message(
            "cannot-redrawn-bow-over-mouth",
            N_(
                'The "{edge}" of "{piece}" cannot be redrawn as one curve over the mouth of the dart. '
                "Move the dart to another edge first."
            ),
            edge=edge.name,
            piece=piece.name,
        )
    return Message(
        "cannot-redrawn-bow-over-cm",
        N_(
            'The "{edge}" of "{piece}" cannot be redrawn as one curve over {over:.1f} cm: it would '
            "bend both ways. {least:.1f} cm is enough."
        ),
        edge=edge.name,
        piece=piece.name,
        over=over,
        least=wider.end - wider.start,
    )


def _without_legs(piece: Piece, dart: Dart) -> Piece:
    """The piece with a straight line over the mouth of the dart."""
    kept = [e for e in piece.edges if not (e.taken_up and e.name == dart.name)]
    index = piece.edges.index(piece.legs(dart)[0])
    order = kept[index:] + kept[:index] if index < len(kept) else kept
    edges = weld([tuple(order)])
    return replace(piece, edges=edges, darts=tuple(d for d in piece.darts if d.name != dart.name))


def _over_mouth(piece: Piece, edge: str, mouth: tuple[Point, Point]) -> Edge:
    """The part of an edge that now runs over the mouth."""
    middle = (mouth[0] + mouth[1]) / 2
    return min(piece.edge_parts(edge), key=lambda e: distance_from(e.curves, middle))
