"""Write the length of an edge on the paper, along that edge."""

from __future__ import annotations

from dataclasses import replace
from typing import ClassVar, Literal

from pydantic import Field

from cutwright.body.body import Body
from cutwright.geometry.path import path_length, point_at
from cutwright.messages import N_
from cutwright.pattern.change import account
from cutwright.pattern.edge import Ref
from cutwright.pattern.mark import MarkKind
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Mark
from cutwright.pattern.result import Result, Trace, TraceKind
from cutwright.pattern.sum import EdgeLength, Figure, plus
from cutwright.style.parameter import EdgeOf
from cutwright.style.registry import register
from cutwright.style.step import Step


@register
class WriteMeasure(Step):
    """Print the own length of edges on the piece, to check the cloth against."""

    SENTENCE: ClassVar[str] = N_("Write the length of the {edges} on the paper.")
    HELP: ClassVar[str] = N_(
        "The sewn length of the edge as it is now, all its parts together, is printed along it. Do this when the "
        "edge has its final shape."
    )
    WHY: ClassVar[str] = N_(
        "A figure along the edge lets you check the paper with the tape. A print at the wrong scale is "
        "otherwise noticed too late."
    )
    GROUP: ClassVar[str] = "finishing"

    do: Literal["write_measure"] = "write_measure"
    edges: tuple[EdgeOf, ...] = Field(
        min_length=1,
        max_length=24,
        description=N_("the edges"),
        json_schema_extra={"role": "edges"},
    )

    def apply(self, pattern: Pattern, body: Body) -> Result:
        """Put a mark in the middle of the longest part of each edge."""
        changed = pattern
        figures: list[Figure] = []
        traces: list[Trace] = []
        for wish in self.edges:
            parts = changed.edge_parts(Ref(wish.piece, wish.edge))
            piece = changed.piece(wish.piece)
            size = plus(*(EdgeLength(Ref(piece.name, e.label), e.length) for e in parts))
            longest = max(parts, key=lambda e: e.length)
            at = point_at(longest.curves, path_length(longest.curves) / 2)
            mark = Mark(MarkKind.MEASURE, at, f"{size.value:.1f}", edge=wish.edge)
            kept = tuple(
                m for m in piece.marks if (m.kind, m.edge) != (MarkKind.MEASURE, wish.edge)
            )
            changed = changed.with_pieces(replace(piece, marks=(*kept, mark)))
            figures.append(Figure("length", size, wish.piece, wish.edge))
            traces += [Trace(TraceKind.MEASURED, wish.piece, path=e.curves) for e in parts]
        return Result(changed, account(pattern, changed), tuple(figures), traces=tuple(traces))
