"""The step that drafts a circle skirt."""

from __future__ import annotations

from math import pi
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from cutwright.blocks.circle_skirt import CircleRing, draft_circle_skirt
from cutwright.blocks.doubts import note, warning
from cutwright.blocks.upper_step import refuse_names
from cutwright.blocks.waist_seam import waist_seams
from cutwright.body.body import Body
from cutwright.errors import DraftError
from cutwright.messages import N_, Message, N_plural
from cutwright.pattern.change import Change
from cutwright.pattern.edge import EdgeKind, Ref
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.pattern.result import Finding, Result
from cutwright.pattern.seam import Seam, seam
from cutwright.pattern.sum import Chosen, Earlier, Figure, Number, Taped, Unit, over, plus, times
from cutwright.style.parameter import Count, Length, Ratio, Within
from cutwright.style.registry import register
from cutwright.style.step import Step

_TURN = round(2 * pi, 4)


@register
class DraftCircleSkirt(Step):
    """Draft a circle skirt."""

    do: Literal["draft_circle_skirt"] = "draft_circle_skirt"
    SENTENCE: ClassVar[tuple[str, str]] = N_plural(
        "Draft a circle skirt of {fraction} of a circle, {length} cm long, in {parts} part, with "
        "{ease} cm ease at the waist.",
        "Draft a circle skirt of {fraction} of a circle, {length} cm long, in {parts} parts, with "
        "{ease} cm ease at the waist.",
    )
    COUNTS: ClassVar[str] = "parts"
    HELP: ClassVar[str] = N_(
        "A ring or a part of one whose inner edge is the waist: radius = waist / (2 pi x fraction). "
        "The middle of every piece lies on the straight grain."
    )
    WHY: ClassVar[str] = N_(
        "Cut as part of a ring, the cloth lies smooth at the waist and falls in folds. The waist runs "
        "over the bias and grows if it is not staystitched."
    )
    CLOTH: ClassVar[str] = N_(
        "Soft cloth takes a full circle, medium cloth three quarters or a half, heavy cloth a half or "
        "less."
    )
    GROUP: ClassVar[str] = "draft"
    fraction: Annotated[Ratio, Field(ge=0.1, le=2.0)] = Field(
        0.5, description=N_("How much of a circle: 0.5 a half circle, 1 a full one, 2 two.")
    )
    length: Annotated[Length, Within(5, 180)] = Field(
        60.0, description=N_("From the waist to the hem.")
    )
    parts: Annotated[Count, Field(ge=1, le=8)] = Field(
        2, description=N_("How many pieces: one on the fold, front and back, or equal panels.")
    )
    ease: Annotated[Length, Within(-10, 120)] = Field(
        1.0, description=N_("Ease at the waist, all round.")
    )
    back: Literal["fold", "seam"] = Field(
        "fold", description=N_("In two parts: the centre back lies on the fold, or is a seam.")
    )

    def apply(self, pattern: Pattern, body: Body) -> Result:
        """Lay the pieces on the table, joined to a bodice whose waist they fit.

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
        ease = self.chosen("ease", pattern, body)
        waist = body.value("waist_girth") + ease.size
        if waist < 20:
            raise DraftError(
                Message(
                    "little-ease-waist-cm",
                    N_("With so little ease the waist is only {waist:.1f} cm."),
                    waist=waist,
                )
            )
        ring = CircleRing(waist, self.cm("length", pattern, body), self.fraction)
        pieces = draft_circle_skirt(
            ring, self.parts, self.back == "seam", body.value("waist_to_hip")
        )
        refuse_names(pattern, tuple(p.name for p in pieces), N_("a circle skirt"))
        drawn = pattern.with_pieces(*pieces).with_seams(*_seams(pieces))
        seams, doubts = waist_seams(drawn)
        return Result(
            drawn.with_seams(*seams),
            Change(made=Pattern(tuple(pieces)).refs),
            _figures(ring, body.value("waist_girth"), ease),
            (*_doubts(ring, body), *doubts),
        )


def _seams(pieces: list[Piece]) -> tuple[Seam, ...]:
    out: list[Seam] = []
    for piece in pieces:
        for edge in piece.edges:
            if edge.kind is EdgeKind.CENTRE:
                ref = Ref(piece.name, edge.name)
                out.append(seam(ref, ref, same_way=True))
    first = pieces[0].name
    if len(pieces) == 2:
        out.append(seam(Ref(first, "side"), Ref(pieces[1].name, "side")))
    elif first == "skirt panel":
        out.append(seam(Ref(first, "right side"), Ref(first, "left side")))
    return tuple(out)


def _figures(ring: CircleRing, girth: float, ease: Chosen) -> tuple[Figure, ...]:
    """radius = waist / (2 pi x fraction); hem = 2 pi x fraction x (radius + length)."""
    turn, fraction = Number(_TURN, "turn"), Chosen("fraction", ring.fraction, Unit.NUMBER)
    waist = Figure("waist", plus(Taped("waist_girth", girth), ease))
    radius = Figure("waist-radius", over(Earlier(waist), turn, fraction))
    outer = Figure("hem-radius", plus(Earlier(radius), Chosen("length", ring.length)))
    return (waist, radius, outer, Figure("hem", times(Earlier(outer), turn, fraction)))


def _doubts(ring: CircleRing, body: Body) -> tuple[Finding, ...]:
    out: list[Finding] = []
    depth, hip = body.value("waist_to_hip"), body.value("hip_girth")
    if depth < ring.length and ring.girth(depth) < hip + 2:
        text = Message(
            "hip-skirt-cm-round-body",
            N_(
                "At the hip the skirt is {skirt:.1f} cm round and the body {hip:.1f}; take more of a "
                "circle or more ease at the waist."
            ),
            skirt=ring.girth(depth),
            hip=hip,
        )
        out.append(warning("draft-tight-at-hip", "skirt: hip", text, ring.girth(depth) - hip))
    if ring.fraction >= 0.5:
        text = Message(
            "where-cloth-hangs-bias-drops",
            N_(
                "Where the cloth hangs on the bias it drops. Let the skirt hang for a day and level the "
                "hem before it is sewn."
            ),
        )
        out.append(note("draft-hang-before-hemming", "skirt: hem", text, ring.fraction))
    return tuple(out)
