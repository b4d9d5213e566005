"""The step that drafts a dress block."""

from __future__ import annotations

from typing import Annotated, ClassVar, Literal

from pydantic import Field

from cutwright.blocks.doubts import bulge_doubts, upper_doubts, waist_dart_doubts
from cutwright.blocks.dress import Dress, DressWish, draft_dress
from cutwright.blocks.figures import (
    dart_length,
    flare_figures,
    half_hem,
    half_hip,
    half_waist,
    taken_in,
)
from cutwright.blocks.points import (
    dress_points,
    dress_side_figures,
    figures_and_rules,
    hollow_figures,
    known,
    upper_points,
)
from cutwright.blocks.tapes import Tapes
from cutwright.blocks.upper_step import (
    UpperStep,
    refuse_names,
    upper_figures,
    upper_seams,
)
from cutwright.body.body import Body
from cutwright.messages import N_
from cutwright.pattern.change import Change
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.result import Finding, Result
from cutwright.pattern.role import Role
from cutwright.pattern.sum import (
    Chosen,
    Earlier,
    Figure,
    Number,
    ReadOff,
    Taped,
    completed,
    minus,
    over,
    plus,
)
from cutwright.style.parameter import Length, Within
from cutwright.style.registry import register


@register
class DraftDress(UpperStep):
    """Draft a dress block: back and front in one length."""

    do: Literal["draft_dress"] = "draft_dress"
    SENTENCE: ClassVar[str] = N_("Draft a dress block, {fit} fitting, {length} cm from the waist.")
    HELP: ClassVar[str] = N_(
        "Back and front from neck to hem without a waist seam, drafted by direct measure with "
        "bust dart, waist darts with two points, and a side seam that is the same curve twice."
    )
    WHY: ClassVar[str] = N_(
        "The block holds the shape of this body, and every later step starts from it. A fault here runs "
        "through the whole pattern, so try it in a toile (muslin) first."
    )
    CLOTH: ClassVar[str] = N_(
        "Choose a closer fit for cloth that gives, an easier one for firm, thick or lined cloth."
    )
    GROUP: ClassVar[str] = "draft"
    length: Annotated[Length, Within(15, 180)] = Field(
        60.0, description=N_("From the waist to the hem, at the centre.")
    )
    flare: Annotated[Length | None, Within(-6, 60)] = Field(
        None,
        description=N_(
            "How far the hem stands out beyond the hip at each side; left out, 0.07 of the length "
            "below the hip."
        ),
    )

    def apply(self, pattern: Pattern, body: Body) -> Result:
        """Lay back and front on the table with their seams.

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
        refuse_names(pattern, ("back", "front"), N_("a dress block"))
        asked = DressWish(
            self.wishes(pattern, body),
            self.cm("length", pattern, body),
            None if self.flare is None else self.cm("flare", pattern, body),
        )
        dress = draft_dress(Tapes.of(body), asked)
        pieces = (dress.front, dress.back)
        ease = 0.0 if asked.upper.shoulder_dart else asked.upper.shoulder_ease
        drawn = pattern.with_pieces(*pieces).with_seams(*upper_seams(dress.back, ease))
        made = Pattern(pieces).refs
        figures = _figures(dress, asked)
        by = known(figures)
        points = (
            *upper_points(dress.plan, dress.upper, by),
            *dress_points(dress.plan, dress.upper, by, pieces),
        )
        shown, workings = figures_and_rules(figures)
        return Result(
            drawn, Change(made=made), shown, _doubts(dress), points=points, workings=workings
        )


def _figures(dress: Dress, asked: DressWish) -> tuple[Figure, ...]:
    plan, shares, tapes = dress.plan, dress.shares, dress.plan.tapes
    figures = upper_figures(plan, dress.upper, (dress.back, dress.front), asked.upper.bust_dart)
    waist, hip = half_waist(tapes, plan.ease), half_hip(tapes, plan.ease)
    at_bust = plan.centre.at(max(plan.depth, dress.upper.bust_point.imag))
    parts = (
        ("centre-back", plan.centre.hollow - at_bust),
        ("two-sides", 2 * shares.side),
        ("back-darts", shares.back),
        ("front-darts", shares.front),
    )
    level = next(f for f in figures if f.code == "waist-level")
    deep, length = Taped("waist_to_hip", tapes.waist_to_hip), Chosen("length", asked.length)
    outside = completed(
        2 * shares.bulge,
        minus(Earlier(hip), Earlier(figures[0])),
        ReadOff("two-sides", 2 * shares.side, 0.01),
        code="hollow",
    )
    out = (
        *figures,
        waist,
        hip,
        *taken_in(figures[0], waist, parts),
        Figure("hip-level", plus(Earlier(level), deep)),
        Figure("hem-level", plus(Earlier(level), length)),
        dart_length(Role.BACK, None, tapes.waist_to_hip),
        dart_length(Role.FRONT, None, tapes.waist_to_hip),
        Figure("hip-outside", over(outside, Number(2, "two-sides"))),
        *flare_figures(asked.flare, asked.length, tapes.waist_to_hip),
    )
    by = known(out)
    return (
        *out,
        *hollow_figures(plan, by),
        *dress_side_figures(plan, shares.side, by),
        half_hem(dress.back, dress.front),
    )


def _doubts(dress: Dress) -> tuple[Finding, ...]:
    return (
        *upper_doubts(dress.plan, dress.upper, dress.dart_top, dress.plan.centre.level),
        *waist_dart_doubts(len(dress.back_darts), len(dress.front_darts)),
        *bulge_doubts(dress.shares.bulge),
    )
