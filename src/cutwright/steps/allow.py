"""Set the seam allowance of edges where it differs from the usual one."""

from __future__ import annotations

from dataclasses import replace
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from cutwright.body.body import Body
from cutwright.messages import N_
from cutwright.pattern.change import account
from cutwright.pattern.edge import Ref
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.result import Result
from cutwright.pattern.sum import Figure
from cutwright.style.parameter import EdgeOf, Length, Within
from cutwright.style.registry import register
from cutwright.style.step import Step


@register
class Allow(Step):
    """Say how wide the allowance of an edge is."""

    SENTENCE: ClassVar[str] = N_("Allow {width} cm at the {edges}.")
    HELP: ClassVar[str] = N_(
        "Every edge has the allowance that is usual for its kind; here it is set for the edges named. "
        "0 leaves the edge without any."
    )
    WHY: ClassVar[str] = N_(
        "The cloth beyond the stitch line holds the seam. Too little of it frays out; too much puckers in "
        "a curve."
    )
    CLOTH: ClassVar[str] = N_(
        "1 cm in fine, firm cloth, 1.5 cm in medium cloth, 2 cm where the cloth frays or is thick."
    )
    GROUP: ClassVar[str] = "finishing"

    do: Literal["allow"] = "allow"
    edges: tuple[EdgeOf, ...] = Field(
        min_length=1,
        max_length=24,
        description=N_("the edges"),
        json_schema_extra={"role": "edges"},
    )
    width: Annotated[Length, Within(0.0, 10.0)] = Field(description=N_("width of the allowance"))

    def apply(self, pattern: Pattern, body: Body) -> Result:
        """Write the allowance on every part of the edges."""
        width = self.chosen("width", pattern, body)
        changed = pattern
        figures: list[Figure] = []
        for wish in self.edges:
            parts = {e.label for e in changed.edge_parts(Ref(wish.piece, wish.edge))}
            piece = changed.piece(wish.piece)
            edges = tuple(
                replace(e, allowance=width.size) if e.label in parts else e for e in piece.edges
            )
            changed = changed.with_pieces(replace(piece, edges=edges))
            figures.append(Figure("allowance", width, wish.piece, wish.edge))
        return Result(changed, account(pattern, changed), tuple(figures))
