"""Move a dart to another edge by turning the paper about its point."""

from __future__ import annotations

from math import degrees
from typing import ClassVar, Literal

from pydantic import Field

from cutwright.body.body import Body
from cutwright.pattern.change import account
from cutwright.pattern.flare import edge_dart, refuse_if_crossing
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.pivot import swung
from cutwright.pattern.result import Figure, Result
from cutwright.pattern.traces import turn_traces
from cutwright.style.arithmetic import plain
from cutwright.style.parameter import DartName, NewName, PieceName, Place
from cutwright.style.registry import register
from cutwright.style.step import Step
from cutwright.words import N_, _


@register
class MoveDart(Step):
    """Turn a dart to another edge; its angle stays the same."""

    SENTENCE: ClassVar[str] = N_("Move the {dart} of {piece} to {to}.")
    HELP: ClassVar[str] = N_(
        "Slash from the new place to the dart's point and close the old mouth. The angle stays, so a "
        "longer leg gives a wider mouth. The dart keeps its name unless you give it another."
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
        after = pattern.with_pieces(refuse_if_crossing(turned.piece, _("Moving the dart")))
        angle = abs(degrees(piece.dart_angle(dart)))
        before, now = piece.intake(dart), turned.piece.intake(turned.dart)
        figure = Figure(
            _("{dart} of {piece}, width of the mouth").format(
                dart=turned.dart.name, piece=self.piece
            ),
            round(now, 1),
            "cm",
            _("{angle} degrees; mouth {before} before, {now} now").format(
                angle=plain(round(angle, 1)),
                before=plain(round(before, 1)),
                now=plain(round(now, 1)),
            ),
        )
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
        after = pattern.with_pieces(refuse_if_crossing(turned.piece, _("Splitting the dart")))
        whole = round(abs(degrees(piece.dart_angle(dart))), 1)
        moved = round(whole * self.share, 1)
        figure = Figure(
            _("{dart} of {piece}, angle").format(dart=self.new, piece=self.piece),
            moved,
            "degree",
            f"{plain(whole)} = {plain(round(whole - moved, 1))} + {plain(moved)}",
        )
        return Result(
            after,
            account(pattern, after),
            (figure,),
            traces=turn_traces(piece, turned.flared, self.share),
        )
