"""Shorten a dart: its sewing ends farther from its point."""

from __future__ import annotations

from dataclasses import replace
from typing import Annotated, Any, ClassVar, Literal

from pydantic import Field

from cutwright.body.body import Body
from cutwright.errors import StepError
from cutwright.geometry.curve import Line
from cutwright.geometry.point import unit
from cutwright.messages import N_, Message
from cutwright.pattern.change import account
from cutwright.pattern.cutting.flare import edge_dart
from cutwright.pattern.cutting.strips import replace_edge
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.pattern.result import Result
from cutwright.pattern.sum import Chosen, Figure, ReadOff, minus, plus
from cutwright.style.parameter import DartName, Length, PieceName, Within
from cutwright.style.registry import register
from cutwright.style.step import Step


@register
class ShortenDart(Step):
    """Move the stitched point back from the point about which the dart closes."""

    SENTENCE: ClassVar[str] = N_("End the {dart} of {piece} {short_by} cm short of its point.")
    HELP: ClassVar[str] = N_(
        "The legs run from the mouth to the new end, so the dart closes as before but releases its "
        "fullness earlier. Bust darts end about 2 cm short of the bust point."
    )
    WHY: ClassVar[str] = N_(
        "A dart gives its room where it ends. Sewn right up to the bust point it makes a peak."
    )
    CLOTH: ClassVar[str] = N_(
        "2 cm short of the bust point in thin cloth, a little more in thick cloth."
    )
    GROUP: ClassVar[str] = "darts"

    do: Literal["shorten_dart"] = "shorten_dart"
    piece: PieceName = Field(description=N_("the piece"))
    dart: DartName = Field(description=N_("the dart"))
    short_by: Annotated[Length, Within(0.0, 15.0)] = Field(
        description=N_("distance from the point")
    )

    def apply(self, pattern: Pattern, body: Body) -> Result:
        """Draw the legs to the new end."""
        piece = pattern.piece(self.piece)
        dart = edge_dart(piece, self.dart)
        by = self.cm("short_by", pattern, body)
        first, last = piece.mouth(dart)
        middle = (first + last) / 2
        if by > abs(middle - dart.pivot) - 1:
            raise StepError(
                Message(
                    "cm-long",
                    N_('The "{dart}" of "{piece}" is only {size:.1f} cm long.'),
                    dart=dart.name,
                    piece=piece.name,
                    size=abs(middle - dart.pivot),
                )
            )
        tip = dart.pivot + unit(middle - dart.pivot) * by
        after = self._drawn(piece, tip)
        changed = pattern.with_pieces(after)
        leg = ReadOff("leg", abs(first - dart.pivot))
        rest = ReadOff("slant", abs(first - tip) - leg.value + by)
        sum_ = (
            minus(leg, Chosen("short_by", by))
            if not rest.value
            else plus(leg, Chosen("short_by", -by), rest)
        )
        figure = Figure("dart-leg", sum_, piece.name, dart.name)
        return Result(changed, account(pattern, changed), (figure,))

    def _drawn(self, piece: Piece, tip: complex) -> Piece:
        dart: Any = piece.dart(self.dart)
        one, other = piece.legs(dart)
        after = replace_edge(piece, one.label, one.with_curves((Line(one.start, tip),)))
        after = replace_edge(after, other.label, other.with_curves((Line(tip, other.end),)))
        darts = tuple(replace(d, tip=tip) if d.name == self.dart else d for d in after.darts)
        return replace(after, darts=darts)
