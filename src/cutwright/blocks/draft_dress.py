"""The step that drafts a dress block."""

from __future__ import annotations

from typing import Annotated, ClassVar, Literal

from pydantic import Field

from cutwright.blocks.arithmetic import shown, total
from cutwright.blocks.doubts import bulge_doubts, upper_doubts, waist_dart_doubts
from cutwright.blocks.dress import Dress, DressWish, draft_dress
from cutwright.blocks.hem import flare_words
from cutwright.blocks.tapes import Tapes
from cutwright.blocks.upper_step import (
    UpperStep,
    girth_figures,
    refuse_names,
    upper_figures,
    upper_seams,
)
from cutwright.body.body import Body
from cutwright.pattern.change import Change, refs_of
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.result import Figure, Finding, Result
from cutwright.style.parameter import Length, Within
from cutwright.style.registry import register
from cutwright.words import N_, _


@register
class DraftDress(UpperStep):
    """Draft a dress block: back and front in one length."""

    do: Literal["draft_dress"] = "draft_dress"
    SENTENCE: ClassVar[str] = N_("Draft a dress block, {fit} fitting, {length} cm from the waist.")
    HELP: ClassVar[str] = N_(
        "Back and front from neck to hem without a waist seam, drafted by direct measure with "
        "bust dart, waist darts with two points, and a side seam that is the same curve twice."
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
        """Lay back and front on the table with their seams."""
        refuse_names(pattern, ("back", "front"), _("a dress block"))
        asked = DressWish(
            self.wishes(pattern, body),
            self.cm("length", pattern, body),
            None if self.flare is None else self.cm("flare", pattern, body),
        )
        dress = draft_dress(Tapes.of(body), asked)
        pieces = (dress.front, dress.back)
        ease = 0.0 if asked.upper.shoulder_dart else asked.upper.shoulder_ease
        drawn = pattern.with_pieces(*pieces).with_seams(*upper_seams(dress.back, ease, self.label))
        made = frozenset(refs_of(Pattern(pieces)))
        return Result(drawn, Change(made=made), _figures(dress, asked), _doubts(dress))


def _figures(dress: Dress, asked: DressWish) -> tuple[Figure, ...]:
    plan, shares = dress.plan, dress.shares
    centre = plan.centre.hollow - plan.centre.at(max(plan.depth, dress.upper.bust_point.imag))
    names = (_("centre back"), _("two sides"), _("back darts"), _("front darts"))
    parts = (centre, 2 * shares.side, shares.back, shares.front)
    taken = total(_("waist taken in, half"), list(zip(names, parts, strict=True)))
    hem = sum(piece.edge_length("hem") for piece in (dress.back, dress.front))
    return (
        *girth_figures(plan, hip=True),
        taken,
        *upper_figures(plan, dress.upper, dress.armholes, dress.dart_top),
        Figure(
            _("hip outside the waist at each side"),
            shares.bulge,
            "cm",
            _("follows from bust, waist and hip; the side takes in {side}").format(
                side=shown(shares.side)
            ),
        ),
        Figure(_("half hem"), hem, "cm", flare_words(asked.flare)),
    )


def _doubts(dress: Dress) -> tuple[Finding, ...]:
    return (
        *upper_doubts(dress.plan, dress.upper, dress.dart_top, dress.plan.centre.level),
        *waist_dart_doubts(len(dress.back_darts), len(dress.front_darts)),
        *bulge_doubts(dress.shares.bulge),
    )
