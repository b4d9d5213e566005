"""The step that drafts a skirt block."""

from __future__ import annotations

from typing import Annotated, ClassVar, Literal

from pydantic import Field

from cutwright.blocks.centre_back import Back
from cutwright.blocks.doubts import waist_dart_doubts, warning
from cutwright.blocks.ease import Fit, ease_for
from cutwright.blocks.figures import (
    closed_waists,
    dart_length,
    flare_figures,
    half_hem,
    half_hip,
    half_waist,
    taken_in,
)
from cutwright.blocks.points import (
    figures_and_rules,
    hem_side_figures,
    known,
    skirt_points,
    skirt_widths,
)
from cutwright.blocks.shares import LARGEST_DART
from cutwright.blocks.skirt import INSIDE, Skirt, SkirtWish, draft_skirt
from cutwright.blocks.tapes import Tapes
from cutwright.blocks.upper_step import BACKS, ease_clauses, given_eases, refuse_names
from cutwright.blocks.waist_seam import stretches, waist_seams
from cutwright.body.body import Body
from cutwright.errors import DraftError, GeometryError
from cutwright.messages import N_, Message
from cutwright.pattern.change import Change
from cutwright.pattern.edge import Ref
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.result import Finding, Result
from cutwright.pattern.role import Role
from cutwright.pattern.seam import Seam, seam
from cutwright.pattern.sum import (
    Chosen,
    DraftRule,
    Figure,
    Number,
    Source,
    Taped,
    Unit,
    minus,
    over,
)
from cutwright.style.parameter import Length, Share, Within
from cutwright.style.registry import register
from cutwright.style.step import Step


@register
class DraftSkirt(Step):
    """Draft a skirt block with a waist seam."""

    do: Literal["draft_skirt"] = "draft_skirt"
    SENTENCE: ClassVar[str] = N_("Draft a skirt block, {fit} fitting, {length} cm long.")
    HELP: ClassVar[str] = N_(
        "Front and back from the waist over the hip to the hem. The waist meets centre, darts and "
        "side square, so it is smooth with the darts folded and exactly as long as asked."
    )
    WHY: ClassVar[str] = N_(
        "The block holds the shape of this body, and every later step starts from it. A fault here runs "
        "through the whole pattern, so try it in a toile (muslin) first."
    )
    CLOTH: ClassVar[str] = N_(
        "Choose a closer fit for cloth that gives, an easier one for firm, thick or lined cloth."
    )
    GROUP: ClassVar[str] = "draft"
    fit: Fit = Field("close", description=N_("How closely it fits; gives the ease everywhere."))
    length: Annotated[Length, Within(15, 180)] = Field(
        60.0, description=N_("From the waist to the hem, at the centre back.")
    )
    flare: Annotated[Length | None, Within(-6, 60)] = Field(
        None,
        description=N_(
            "How far the hem stands out beyond the hip at each side; left out, 0.07 of the length "
            "below the hip."
        ),
    )
    back: Back = Field(
        "seam", description=N_("The centre back: a hollowed seam, a straight seam, or the fold.")
    )
    front: Literal["fold", "seam"] = Field(
        "fold", description=N_("The centre front lies on the fold, or is a seam.")
    )
    waist_ease: Annotated[Length | None, Within(-20, 60)] = Field(
        None, description=N_("Ease at the waist, all round, in place of the fit's.")
    )
    hip_ease: Annotated[Length | None, Within(-20, 60)] = Field(
        None, description=N_("Ease at the hip, all round, in place of the fit's.")
    )
    back_share: Annotated[Share, Field(ge=0.3, le=0.8)] = Field(
        0.6, description=N_("The back's share of what the darts take in.")
    )
    largest_dart: Annotated[Length, Within(2.0, 6.0)] = Field(
        LARGEST_DART,
        description=N_("No waist dart takes out more than this; then there are several."),
    )
    back_dart: Annotated[Length | None, Within(6, 25)] = Field(
        None, description=N_("Length of the first back dart, in place of 0.72 of the hip depth.")
    )
    front_dart: Annotated[Length | None, Within(5, 22)] = Field(
        None, description=N_("Length of the first front dart, in place of 0.55 of the hip depth.")
    )

    def clauses(self) -> tuple[str, ...]:
        """The sentence, the back, and every ease that was set by hand."""
        return (self.SENTENCE, BACKS[self.back], *ease_clauses(self))

    def apply(self, pattern: Pattern, body: Body) -> Result:
        """Lay skirt front and skirt back on the table, joined to a bodice that is there.

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
        refuse_names(pattern, ("skirt back", "skirt front"), N_("a skirt block"))
        tapes, asked = Tapes.of(body), self._wish(pattern, body)
        try:
            skirt = draft_skirt(tapes, asked)
        except GeometryError:
            raise DraftError(
                Message(
                    "waist-hip-waist-hip-not",
                    N_(
                        "Waist {waist:.1f}, hip {hip:.1f} and waist to hip {deep:.1f} do not go together in this skirt: "
                        "its side would have to bend both ways. Ask for less flare, or measure them again."
                    ),
                    waist=body.value("waist_girth"),
                    hip=body.value("hip_girth"),
                    deep=body.value("waist_to_hip"),
                )
            ) from None
        pieces = (skirt.front, skirt.back)
        drawn = pattern.with_pieces(*pieces).with_seams(*_seams(skirt))
        seams, doubts = waist_seams(drawn)
        made = Pattern(pieces).refs
        figures = _figures(skirt, tapes, asked)
        shown, workings = figures_and_rules(figures)
        return Result(
            drawn.with_seams(*seams),
            Change(made=made),
            shown,
            (*_doubts(skirt), *doubts),
            points=skirt_points(skirt, known(figures)),
            workings=workings,
        )

    def _wish(self, pattern: Pattern, body: Body) -> SkirtWish:
        return SkirtWish(
            ease=ease_for(self.fit, **given_eases(self, pattern, body)),
            length=self.cm("length", pattern, body),
            flare=None if self.flare is None else self.cm("flare", pattern, body),
            back=self.back,
            front_on_fold=self.front == "fold",
            back_share=self.back_share,
            largest_dart=self.cm("largest_dart", pattern, body),
            back_dart=None if self.back_dart is None else self.cm("back_dart", pattern, body),
            front_dart=None if self.front_dart is None else self.cm("front_dart", pattern, body),
            places=(stretches(pattern, "back"), stretches(pattern, "front")),
        )


def _seams(skirt: Skirt) -> tuple[Seam, ...]:
    out = [seam(Ref("skirt front", "side"), Ref("skirt back", "side"))]
    centre = Ref("skirt back", "centre back")
    if not skirt.back.on_fold:
        out.append(seam(centre, centre, same_way=True))
    centre = Ref("skirt front", "centre front")
    if not skirt.front.on_fold:
        out.append(seam(centre, centre, same_way=True))
    return tuple(out)


def _dart_place(skirt: Skirt, tapes: Tapes, asked: SkirtWish) -> tuple[Figure, ...]:
    """How far from the centre the front dart stands, where no bodice tells its place."""
    if not skirt.front_darts or asked.places[1] is not None:
        return ()
    half = over(Taped("bust_point_width", 2 * tapes.half_points), Number(2, "halves"))
    return (
        Figure(
            "front-dart-place", minus(half, DraftRule("dart-inside", INSIDE, Source.OWN, Unit.CM))
        ),
    )


def _figures(skirt: Skirt, tapes: Tapes, asked: SkirtWish) -> tuple[Figure, ...]:
    parts = (
        ("centre-back", skirt.hollow),
        ("two-sides", 2 * skirt.bulge),
        ("back-darts", sum(skirt.back_darts)),
        ("front-darts", sum(skirt.front_darts)),
    )
    waist, hip = half_waist(tapes, asked.ease), half_hip(tapes, asked.ease)
    deep = tapes.waist_to_hip
    out = (
        waist,
        hip,
        *closed_waists(waist),
        *taken_in(hip, waist, parts),
        *_dart_place(skirt, tapes, asked),
        Figure("hip-depth", Taped("waist_to_hip", tapes.waist_to_hip)),
        *((dart_length(Role.BACK, asked.back_dart, deep),) if skirt.back_darts else ()),
        *((dart_length(Role.FRONT, asked.front_dart, deep),) if skirt.front_darts else ()),
        *flare_figures(asked.flare, asked.length, tapes.waist_to_hip),
        Figure("skirt-length", Chosen("length", asked.length)),
    )  # fmt: skip
    by = known(out)
    widths = skirt_widths(skirt, by)
    return (
        *out,
        *widths,
        *hem_side_figures(known((*out, *widths))),
        half_hem(skirt.back, skirt.front),
    )


def _doubts(skirt: Skirt) -> tuple[Finding, ...]:
    out = list(waist_dart_doubts(len(skirt.back_darts), len(skirt.front_darts)))
    if skirt.bulge < -1.0:
        text = Message(
            "hip-lies-cm-inside-waist",
            N_(
                "The hip lies {by:.1f} cm inside the waist at each side; a belly is not told apart "
                "from the sides here, so try this block in cheap cloth first."
            ),
            by=-skirt.bulge,
        )
        out.append(warning("draft-hip-inside-waist", "skirt front: side", text, skirt.bulge))
    return tuple(out)
