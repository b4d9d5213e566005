"""Move a dart to another edge by turning the paper about its point."""

from __future__ import annotations

from math import degrees
from typing import ClassVar, Literal

from pydantic import Field

from cutwright.body.body import Body
from cutwright.messages import N_
from cutwright.pattern.change import account
from cutwright.pattern.cutting.flare import edge_dart, refuse_if_crossing
from cutwright.pattern.cutting.pivot import Swung, swung
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Dart, Piece
from cutwright.pattern.result import Result
from cutwright.pattern.sum import (
    Chosen,
    Earlier,
    Figure,
    ReadOff,
    Rounding,
    Term,
    Unit,
    minus,
    over,
    rounded,
    times,
)
from cutwright.pattern.traces import turn_traces
from cutwright.style.parameter import DartName, NewName, PieceName, Place
from cutwright.style.registry import register
from cutwright.style.step import Step


@register
class MoveDart(Step):
    """Turn a dart to another edge; its angle stays the same."""

    SENTENCE: ClassVar[str] = N_("Move the {dart} of {piece} to {to}.")
    HELP: ClassVar[str] = N_(
        "Slash from the new place to the dart's point and close the old mouth. The angle stays, so a "
        "longer leg gives a wider mouth. The dart keeps its name unless you give it another."
    )
    WHY: ClassVar[str] = N_(
        "A dart may open on any edge as long as it points to the same place. Turned away from its point, "
        "the bust loses its room."
    )
    CLOTH: ClassVar[str] = N_(
        "In stripes or checks put it where it shows least; in thick cloth lead it into a seam."
    )
    GROUP: ClassVar[str] = "darts"

    do: Literal["move_dart"] = "move_dart"
    piece: PieceName = Field(description=N_("the piece"))
    dart: DartName = Field(description=N_("the dart"))
    to: Place = Field(description=N_("where its mouth goes"))
    rename: str = Field(
        default="",
        max_length=60,
        description=N_("a new name"),
        json_schema_extra={"role": "new name"},
    )

    def apply(self, pattern: Pattern, body: Body) -> Result:
        """Turn the whole dart."""
        piece = pattern.piece(self.piece)
        dart = edge_dart(piece, self.dart)
        far = self.spot(self.to, piece, pattern, body)
        turned = swung(piece, dart, far, 1.0, self.rename or dart.name)
        after = pattern.with_pieces(refuse_if_crossing(turned.piece, N_("Moving the dart")))
        figure = Figure("dart-mouth", _mouth(piece, dart, turned), self.piece, turned.dart.name)
        return Result(
            after, account(pattern, after), (figure,), traces=turn_traces(piece, turned.flared)
        )


@register
class SplitDart(Step):
    """Turn a share of a dart to another place; two darts then share its point."""

    SENTENCE: ClassVar[str] = N_(
        "Split the {dart} of {piece}: turn {share} of it to {to}, as {new}."
    )
    HELP: ClassVar[str] = N_(
        "Part of the dart's angle is closed and opens at the new place. The two angles add up to the "
        "one there was."
    )
    WHY: ClassVar[str] = N_(
        "Two smaller darts give a softer shape. One dart that takes in too much pushes out a peak."
    )
    CLOTH: ClassVar[str] = N_("Thick or firm cloth asks for several shallow darts.")
    GROUP: ClassVar[str] = "darts"

    do: Literal["split_dart"] = "split_dart"
    piece: PieceName = Field(description=N_("the piece"))
    dart: DartName = Field(description=N_("the dart"))
    share: float = Field(
        default=0.5,
        gt=0,
        lt=1,
        description=N_("the share that moves"),
        json_schema_extra={"role": "share"},
    )
    to: Place = Field(description=N_("where the new mouth goes"))
    new: NewName = Field(description=N_("name of the new dart"))

    def apply(self, pattern: Pattern, body: Body) -> Result:
        """Turn part of the dart."""
        piece = pattern.piece(self.piece)
        dart = edge_dart(piece, self.dart)
        far = self.spot(self.to, piece, pattern, body)
        turned = swung(piece, dart, far, self.share, self.new)
        after = pattern.with_pieces(refuse_if_crossing(turned.piece, N_("Splitting the dart")))
        whole = ReadOff("dart-angle", abs(degrees(piece.dart_angle(dart))), unit=Unit.DEGREE)
        moved = rounded(
            times(whole, Chosen("share", self.share, Unit.NUMBER)), Rounding.NEAREST, 0.1
        )
        angle = Figure("dart-angle", moved, self.piece, self.new, Unit.DEGREE)
        left = Figure(
            "dart-angle", minus(whole, Earlier(angle)), self.piece, dart.name, Unit.DEGREE
        )
        return Result(
            after,
            account(pattern, after),
            (angle, left),
            traces=turn_traces(piece, turned.flared, self.share),
        )


def _mouth(piece: Piece, dart: Dart, turned: Swung) -> Term:
    """The mouth grows with the leg, because the angle stays."""
    was, now = (
        ReadOff(code, abs(p.mouth(d)[0] - d.pivot))
        for code, p, d in (("leg-before", piece, dart), ("leg-now", turned.piece, turned.dart))
    )
    before = ReadOff("mouth", piece.intake(dart), 0.01)
    return rounded(over(times(before, now), was), Rounding.NEAREST, 0.1)
