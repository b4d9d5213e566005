"""Cut away the fold of a dart, or leave it whole."""

from __future__ import annotations

from dataclasses import replace
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from cutwright.body.body import Body
from cutwright.messages import N_
from cutwright.pattern.change import account
from cutwright.pattern.cutting.flare import edge_dart
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.result import Result, Trace, TraceKind
from cutwright.pattern.sum import Figure
from cutwright.style.parameter import DartName, Length, PieceName, Within
from cutwright.style.registry import register
from cutwright.style.step import Step


@register
class TrimDart(Step):
    """Say whether the fold of a dart is cut away and how much is left beside its legs."""

    SENTENCE: ClassVar[str] = N_("Cut away the fold of the {dart} of {piece}.")
    HELP: ClassVar[str] = N_(
        "A dart is cut with its fold whole, shaped so that it is caught in the seam. Where its "
        "legs meet the edge at a slant, the fold would stick out in a long point at the cut "
        "line; a deep dart in thick cloth is bulky. Then the fold is cut away and an allowance "
        "is left beside each leg, as at a seam. Without this step a fold is cut away where it "
        "would stick out more than 2 cm."
    )
    WHY: ClassVar[str] = N_(
        "The fold of a deep or slanted dart is thick and sticks out at the seam. Cut away, the dart can "
        "be pressed open."
    )
    CLOTH: ClassVar[str] = N_(
        "Cut it away in thick cloth; leave it whole in sheer cloth and in cloth that frays."
    )
    GROUP: ClassVar[str] = "finishing"

    do: Literal["trim_dart"] = "trim_dart"
    piece: PieceName = Field(description=N_("the piece"))
    dart: DartName = Field(description=N_("the dart"))
    fold: Literal["cut away", "whole"] = Field(
        default="cut away",
        description=N_("whether the fold is cut away or left whole"),
        json_schema_extra={"role": "choice"},
    )
    width: Annotated[Length, Within(0.5, 4.0)] = Field(
        default=1.5, description=N_("what is left beside each leg")
    )

    def clauses(self) -> tuple[str, ...]:
        """One sentence for each way."""
        if self.fold == "whole":
            return (N_("Leave the fold of the {dart} of {piece} whole."),)
        return (self.SENTENCE, N_("Leave {width} cm beside each leg."))

    def apply(self, pattern: Pattern, body: Body) -> Result:
        """Write it on the dart."""
        piece = pattern.piece(self.piece)
        dart = edge_dart(piece, self.dart)
        width = self.chosen("width", pattern, body)
        kept = 0.0 if self.fold == "whole" else width.value
        darts = tuple(replace(d, kept=kept) if d.name == dart.name else d for d in piece.darts)
        changed = pattern.with_pieces(replace(piece, darts=darts))
        figures = (Figure("beside-leg", width, piece.name, dart.name),) if kept else ()
        traces = (Trace(TraceKind.MEASURED, piece.name, path=piece.legs(dart)[0].curves),)
        return Result(changed, account(pattern, changed), figures, traces=traces)
