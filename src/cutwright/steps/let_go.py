"""Let a two-point dart go: its lines are dropped and its intake becomes ease."""

from __future__ import annotations

from dataclasses import replace
from typing import ClassVar, Literal

from pydantic import Field

from cutwright.body.body import Body
from cutwright.errors import StepError
from cutwright.messages import N_, Message
from cutwright.pattern.change import account
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Diamond
from cutwright.pattern.result import Finding, Result, Severity, Trace, TraceKind
from cutwright.pattern.sum import Figure, ReadOff, plus
from cutwright.style.parameter import DartName, PieceName
from cutwright.style.registry import register
from cutwright.style.step import Step


@register
class LetGo(Step):
    """Drop two-point darts: left unsewn, they give their intake back to the waist."""

    SENTENCE: ClassVar[str] = N_("Leave the {darts} of {piece} unsewn.")
    EVERY: ClassVar[str] = N_("Leave every two-point dart of {piece} unsewn.")
    HELP: ClassVar[str] = N_(
        "The dart is not sewn and its lines are left out: the waist becomes looser by its "
        "intake. Do this before slashing a piece that was cut through the upper points."
    )
    WHY: ClassVar[str] = N_(
        "Without the dart the cloth falls free from the seam above. Left in, its end would pucker in the "
        "middle of the flare."
    )
    CLOTH: ClassVar[str] = N_(
        "Thin cloth falls; in stiff cloth the loose waist stands away, so keep the darts there."
    )
    GROUP: ClassVar[str] = "darts"

    do: Literal["let_go"] = "let_go"
    piece: PieceName = Field(description=N_("the piece"))
    darts: tuple[DartName, ...] = Field(
        default=(),
        max_length=6,
        description=N_("the darts; none named = every one with two points"),
        json_schema_extra={"role": "darts"},
    )

    def clauses(self) -> tuple[str, ...]:
        """Some darts by name, or every one."""
        return (self.SENTENCE if self.darts else self.EVERY,)

    def apply(self, pattern: Pattern, body: Body) -> Result:
        """Drop the lines."""
        piece = pattern.piece(self.piece)
        found: list[Diamond] = []
        for name in self.darts or tuple(d.name for d in piece.diamonds):
            dart = piece.dart(name)
            if not isinstance(dart, Diamond):
                raise StepError(
                    Message(
                        "opens-edge-turn-into-gathers",
                        N_(
                            'The "{dart}" of "{piece}" opens on an edge. Turn it into gathers or ease, or close it; '
                            "only a dart with two points can simply be left unsewn."
                        ),
                        dart=name,
                        piece=piece.name,
                    )
                )
            found.append(dart)
        if not found:
            text = Message(
                "no-two-point-dart-body",
                N_(
                    '"{piece}" has no two-point dart on this body, so there was none to leave unsewn.'
                ),
                piece=piece.name,
            )
            return Result(
                pattern, findings=(Finding("no-dart-to-let-go", Severity.NOTE, piece.name, text),)
            )
        after = replace(piece, diamonds=tuple(d for d in piece.diamonds if d not in found))
        changed = pattern.with_pieces(after)
        gained = plus(*(ReadOff("intake", d.intake) for d in found))
        figure = Figure("let-go", gained, piece.name, "waist")
        traces = tuple(
            Trace(TraceKind.CLOSED, piece.name, (d.top, d.far, d.bottom, d.near)) for d in found
        )
        return Result(changed, account(pattern, changed), (figure,), traces=traces)
