"""What the steps that draft an upper body have in common: their fields and the figures they tell."""

from __future__ import annotations

from math import radians
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from cutwright.blocks.centre_back import Back
from cutwright.blocks.ease import EASE_NAMES, Fit, ease_for
from cutwright.blocks.figures import (
    armhole_figure,
    bust_dart,
    half_bust,
    level_figures,
    neck_figures,
    width_figures,
)
from cutwright.blocks.plan import Plan, UpperWish
from cutwright.blocks.points import known, shoulder_figures
from cutwright.blocks.shares import LARGEST_DART
from cutwright.blocks.upper import Upper
from cutwright.body.body import Body
from cutwright.body.families import family_named
from cutwright.body.tape import WOMEN
from cutwright.errors import DraftError, StepError
from cutwright.messages import N_, Message, Typed
from cutwright.pattern.edge import Ref
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.pattern.seam import Seam, SeamKind, seam
from cutwright.pattern.sum import Figure
from cutwright.style.parameter import Angle, Length, Within
from cutwright.style.step import Step

BACKS = {
    "shaped": N_("The centre back is a seam, hollowed at the waist."),
    "seam": N_("The centre back is a straight seam."),
    "fold": N_("The centre back lies on the fold."),
}
_EASES = {
    "bust_ease": N_("Ease at the bust {bust_ease} cm."),
    "waist_ease": N_("Ease at the waist {waist_ease} cm."),
    "hip_ease": N_("Ease at the hip {hip_ease} cm."),
    "neck_ease": N_("Ease at the neck {neck_ease} cm."),
    "across_back_ease": N_("Ease across half the back {across_back_ease} cm."),
    "across_chest_ease": N_("Ease across half the chest {across_chest_ease} cm."),
    "armhole_depth_ease": N_("Armhole {armhole_depth_ease} cm deeper."),
}


class UpperStep(Step):
    """The fields of a step that drafts an upper body."""

    fit: Fit = Field("close", description=N_("How closely it fits; gives the ease everywhere."))
    back: Back = Field(
        "shaped", description=N_("The centre back: a hollowed seam, a straight seam, or the fold.")
    )
    back_shoulder: Literal["dart", "ease"] = Field(
        "dart", description=N_("The back shoulder has a small dart, or is eased in.")
    )
    front: Literal["fold", "seam"] = Field(
        "fold", description=N_("The centre front lies on the fold, or is a seam.")
    )
    bust_ease: Annotated[Length | None, Within(-20, 60)] = Field(
        None, description=N_("Ease at the bust, all round, in place of the fit's.")
    )
    waist_ease: Annotated[Length | None, Within(-20, 60)] = Field(
        None, description=N_("Ease at the waist, all round, in place of the fit's.")
    )
    hip_ease: Annotated[Length | None, Within(-20, 60)] = Field(
        None, description=N_("Ease at the hip, all round, in place of the fit's.")
    )
    neck_ease: Annotated[Length | None, Within(-3, 15)] = Field(
        None, description=N_("Ease of the neckline, all round, in place of the fit's.")
    )
    across_back_ease: Annotated[Length | None, Within(-3, 6)] = Field(
        None, description=N_("Ease across half the back, in place of the fit's.")
    )
    across_chest_ease: Annotated[Length | None, Within(-3, 6)] = Field(
        None, description=N_("Ease across half the chest, in place of the fit's.")
    )
    armhole_depth_ease: Annotated[Length | None, Within(-3, 8)] = Field(
        None, description=N_("How much deeper the armhole is, in place of the fit's.")
    )
    shoulder_dart: Annotated[Length, Within(0.4, 2.5)] = Field(
        1.2, description=N_("Width of the back shoulder dart at its mouth.")
    )
    shoulder_ease: Annotated[Length, Within(0.0, 2.0)] = Field(
        0.8, description=N_("What is eased in where the back shoulder has no dart.")
    )
    bust_dart: Annotated[Angle, Field(ge=4.0, le=40.0)] | None = Field(
        None, description=N_("Angle of the bust dart; left out, it follows from the bust.")
    )
    largest_bust_dart: Annotated[Angle, Field(ge=10.0, le=60.0)] = Field(
        24.0, description=N_("A wider bust dart is shared with a dart from the side; degrees.")
    )
    largest_dart: Annotated[Length, Within(2.0, 6.0)] = Field(
        LARGEST_DART,
        description=N_("No waist dart takes out more than this; then there are several."),
    )

    FAMILIES: ClassVar[tuple[str, ...]] = (WOMEN,)
    """The families of figures whose bodies the draft is made for."""

    def wishes(self, pattern: Pattern, body: Body) -> UpperWish:
        """The fields worked out in cm and radians.

        Parameters
        ----------
        pattern : what lies on the table
        body : the measured person

        Returns
        -------
        lengths in cm, angles in radians

        Raises
        ------
        StepError : a sum cannot be worked out or is out of bounds
        DraftError : the body is of another family of figures
        """
        self._refuse_others(body)
        dart = self.back_shoulder == "dart"
        return UpperWish(
            ease=ease_for(self.fit, **given_eases(self, pattern, body)),
            back=self.back,
            front_on_fold=self.front == "fold",
            shoulder_dart=self.cm("shoulder_dart", pattern, body) if dart else 0.0,
            shoulder_ease=self.cm("shoulder_ease", pattern, body),
            bust_dart=None if self.bust_dart is None else radians(self.bust_dart),
            largest_bust_dart=radians(self.largest_bust_dart),
            largest_dart=self.cm("largest_dart", pattern, body),
        )

    def _refuse_others(self, body: Body) -> None:
        """A draft is not made for a body that is measured otherwise."""
        if body.family not in self.FAMILIES:
            raise DraftError(
                Message(
                    "drafted-for-other-figures",
                    N_(
                        "This block is drafted for {families}, and {name} is measured as {family}. Choose "
                        "another block, or another body."
                    ),
                    families=tuple(family_named(each).name for each in self.FAMILIES),
                    name=Typed(body.name),
                    family=body.kind.name,
                )
            )

    def clauses(self) -> tuple[str | tuple[str, str], ...]:
        """The sentence, the back, and every ease that was set by hand."""
        return (self.SENTENCE, BACKS[self.back], *ease_clauses(self))


def given_eases(step: Step, pattern: Pattern, body: Body) -> dict[str, float]:
    """The eases set by hand in a step, cm.

    Parameters
    ----------
    step : the step of the style
    pattern : what lies on the table
    body : the measured person

    Returns
    -------
    by the name of its place, cm
    """
    return {
        name: step.cm(f"{name}_ease", pattern, body)
        for name in EASE_NAMES
        if getattr(step, f"{name}_ease", None) is not None
    }


def ease_clauses(step: Step) -> tuple[str, ...]:
    """One sentence for each ease set by hand.

    Parameters
    ----------
    step : the step of the style
    """
    return tuple(text for name, text in _EASES.items() if getattr(step, name, None) is not None)


def refuse_names(pattern: Pattern, names: tuple[str, ...], what: str) -> None:
    """A draft does not lay its pieces over others of the same name.

    Parameters
    ----------
    pattern : what lies on the table
    names : of the pieces to be drafted
    what : what is to be drafted, in words

    Raises
    ------
    StepError : a name is taken
    """
    taken = [taken for taken in pattern.names if taken in names]
    if taken:
        raise StepError(
            Message(
                "already-piece-table-cannot-drafted",
                N_(
                    "There is already a piece “{piece}” on the table, so {what} cannot be drafted there."
                ),
                piece=taken[0],
                what=what,
            )
        )


def upper_seams(back: Piece, ease: float) -> tuple[Seam, ...]:
    """Shoulder, side and centre back; `ease` is what the back shoulder is longer by.

    Parameters
    ----------
    back : whose centre is a fold or a seam
    ease : what the back shoulder is longer by, cm
    """
    seams = [
        seam(
            Ref("back", "shoulder"),
            Ref("front", "shoulder"),
            ease=ease,
            kind=SeamKind.EASED if ease else SeamKind.PLAIN,
        ),
        seam(Ref("front", "side"), Ref("back", "side")),
    ]
    centre = Ref("back", "centre back")
    if not back.on_fold:
        seams.append(seam(centre, centre, same_way=True))
    return tuple(seams)


def upper_figures(
    plan: Plan, upper: Upper, pieces: tuple[Piece, Piece], asked_dart: float | None
) -> tuple[Figure, ...]:
    """Girth, neck, widths, levels, armhole and dart of an upper body; `pieces` are back and front.

    Parameters
    ----------
    plan : levels, ease and tapes of the upper body
    upper : neck, shoulders and widths as drawn
    pieces : back and front
    asked_dart : angle of the bust dart asked for, degrees; None works it out

    Returns
    -------
    in cm and degrees
    """
    bust = half_bust(plan.tapes, plan.ease)
    _depth, _waist, levels = level_figures(plan, upper)
    out = (
        bust,
        *neck_figures(plan, upper, pieces[0]),
        *width_figures(plan, upper, bust),
        *levels,
        armhole_figure(*pieces),
        *bust_dart(plan, asked_dart),
    )
    return (*out, *shoulder_figures(plan, upper, known(out)))
