"""The step that drafts a bodice block."""

from __future__ import annotations

from typing import ClassVar, Literal

from cutwright.blocks.bodice import Bodice, draft_bodice
from cutwright.blocks.doubts import upper_doubts, waist_dart_doubts
from cutwright.blocks.figures import closed_waists, half_waist, taken_in
from cutwright.blocks.points import bodice_points, figures_and_rules, known, upper_points
from cutwright.blocks.tapes import Tapes
from cutwright.blocks.upper_step import (
    UpperStep,
    refuse_names,
    upper_figures,
    upper_seams,
)
from cutwright.blocks.waist_seam import stretches, waist_seams
from cutwright.body.body import Body
from cutwright.errors import StepError
from cutwright.messages import N_, Message
from cutwright.pattern.change import Change
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.result import Finding, Result
from cutwright.pattern.sum import Figure
from cutwright.style.registry import register


@register
class DraftBodice(UpperStep):
    """Draft a bodice block: back and front down to a waist seam."""

    do: Literal["draft_bodice"] = "draft_bodice"
    SENTENCE: ClassVar[str] = N_("Draft a bodice block, {fit} fitting.")
    HELP: ClassVar[str] = N_(
        "Back and front from neck to a waist seam, with bust dart and waist darts. The waist meets "
        "centre, darts and side square; a skirt block with the same waist ease is joined to it."
    )
    WHY: ClassVar[str] = N_(
        "The block holds the shape of this body, and every later step starts from it. A fault here runs "
        "through the whole pattern, so try it in a toile (muslin) first."
    )
    CLOTH: ClassVar[str] = N_(
        "Choose a closer fit for cloth that gives, an easier one for firm, thick or lined cloth."
    )
    GROUP: ClassVar[str] = "draft"

    def apply(self, pattern: Pattern, body: Body) -> Result:
        """Lay back and front on the table, joined to a skirt that is there.

        Parameters
        ----------
        pattern : what lies on the table
        body : the measured person

        Returns
        -------
        the pattern with the pieces, seams, figures and findings

        Raises
        ------
        DraftError : the measures cannot all hold, or a shape cannot be cut
        StepError : the names are taken, or a length is out of bounds
        """
        refuse_names(pattern, ("back", "front"), N_("a bodice block"))
        if self.hip_ease is not None:
            raise StepError(
                Message(
                    "bodice-block-ends-waist-no",
                    N_("A bodice block ends at the waist; it has no ease at the hip."),
                )
            )
        wish = self.wishes(pattern, body)
        places = (stretches(pattern, "skirt back"), stretches(pattern, "skirt front"))
        bodice = draft_bodice(Tapes.of(body), wish, places)
        pieces = (bodice.front, bodice.back)
        ease = 0.0 if wish.shoulder_dart else wish.shoulder_ease
        drawn = pattern.with_pieces(*pieces).with_seams(*upper_seams(bodice.back, ease))
        seams, doubts = waist_seams(drawn)
        made = Pattern(pieces).refs
        figures = _figures(bodice, wish.bust_dart)
        shown, workings = figures_and_rules(figures)
        by = known(figures)
        return Result(
            drawn.with_seams(*seams),
            Change(made=made),
            shown,
            (*_doubts(bodice), *doubts),
            points=(*upper_points(bodice.plan, bodice.upper, by), *bodice_points(bodice, by)),
            workings=workings,
        )


def _figures(bodice: Bodice, asked_dart: float | None) -> tuple[Figure, ...]:
    plan, upper = bodice.plan, bodice.upper
    figures = upper_figures(plan, upper, (bodice.back, bodice.front), asked_dart)
    waist = half_waist(plan.tapes, plan.ease)
    at_bust = plan.centre.at(max(plan.depth, upper.bust_point.imag))
    parts = (
        ("centre-back", plan.centre.hollow - at_bust),
        ("two-sides", 2 * bodice.side),
        ("back-darts", sum(bodice.back_darts)),
        ("front-darts", sum(bodice.front_darts)),
    )
    return (*figures, waist, *taken_in(figures[0], waist, parts), *closed_waists(waist))


def _doubts(bodice: Bodice) -> tuple[Finding, ...]:
    return (
        *upper_doubts(bodice.plan, bodice.upper, bodice.dart_top, bodice.plan.centre.level),
        *waist_dart_doubts(len(bodice.back_darts), len(bodice.front_darts)),
    )
