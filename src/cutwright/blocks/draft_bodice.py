"""The step that drafts a bodice block."""

from __future__ import annotations

from typing import ClassVar, Literal

from cutwright.blocks.arithmetic import total
from cutwright.blocks.bodice import Bodice, draft_bodice
from cutwright.blocks.doubts import upper_doubts, waist_dart_doubts
from cutwright.blocks.tapes import Tapes
from cutwright.blocks.upper_step import (
    UpperStep,
    girth_figures,
    refuse_names,
    upper_figures,
    upper_seams,
)
from cutwright.blocks.waist_seam import waist_seams
from cutwright.body.body import Body
from cutwright.errors import StepError
from cutwright.pattern.change import Change, refs_of
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.result import Figure, Finding, Result
from cutwright.style.registry import register
from cutwright.words import N_, _


@register
class DraftBodice(UpperStep):
    """Draft a bodice block: back and front down to a waist seam."""

    do: Literal["draft_bodice"] = "draft_bodice"
    SENTENCE: ClassVar[str] = N_("Draft a bodice block, {fit} fitting.")
    HELP: ClassVar[str] = N_(
        "Back and front from neck to a waist seam, with bust dart and waist darts. The waist meets "
        "centre, darts and side square; a skirt block with the same waist ease is joined to it."
    )
    GROUP: ClassVar[str] = "draft"

    def apply(self, pattern: Pattern, body: Body) -> Result:
        """Lay back and front on the table, joined to a skirt that is there."""
        refuse_names(pattern, ("back", "front"), _("a bodice block"))
        if self.hip_ease is not None:
            raise StepError(_("A bodice block ends at the waist; it has no ease at the hip."))
        wish = self.wishes(pattern, body)
        bodice = draft_bodice(Tapes.of(body), wish)
        pieces = (bodice.front, bodice.back)
        ease = 0.0 if wish.shoulder_dart else wish.shoulder_ease
        drawn = pattern.with_pieces(*pieces).with_seams(*upper_seams(bodice.back, ease, self.label))
        seams, doubts = waist_seams(drawn, self.label)
        made = frozenset(refs_of(Pattern(pieces)))
        return Result(
            drawn.with_seams(*seams),
            Change(made=made),
            _figures(bodice),
            (*_doubts(bodice), *doubts),
        )


def _figures(bodice: Bodice) -> tuple[Figure, ...]:
    closed = list(zip((_("back"), _("front")), bodice.waist, strict=True))
    darts = [
        (_("back darts"), sum(bodice.back_darts)),
        (_("front darts"), sum(bodice.front_darts)),
        (_("two sides"), 2 * bodice.side),
    ]
    return (
        *girth_figures(bodice.plan, hip=False),
        total(_("closed waist"), closed),
        total(_("waist taken in by darts and sides, half"), darts),
        *upper_figures(bodice.plan, bodice.upper, bodice.armholes, bodice.dart_top),
    )


def _doubts(bodice: Bodice) -> tuple[Finding, ...]:
    return (
        *upper_doubts(bodice.plan, bodice.upper, bodice.dart_top, bodice.plan.centre.level),
        *waist_dart_doubts(len(bodice.back_darts), len(bodice.front_darts)),
    )
