"""What a draft warns of: tapes that could not be kept, and shapes a practised eye would question."""

from __future__ import annotations

from math import degrees, radians

from cutwright.blocks.plan import Plan
from cutwright.blocks.tapes import CAP, Tapes
from cutwright.blocks.upper import Upper
from cutwright.messages import N_, Message
from cutwright.pattern.result import Finding, Severity

_TRIFLE = 0.05
_GUESSED = 1.0  # an across chest that was only estimated may move so far without a word
_TURNED = radians(8)


def warning(code: str, where: str, text: Message, value: float) -> Finding:
    """Something to look at before cutting.

    Parameters
    ----------
    code : stable code of the finding
    where : piece and edge
    text : what is found and what to do
    value : the size of it, cm, degrees or a count
    """
    return Finding(code, Severity.WARNING, where, text, round(value, 3))


def note(code: str, where: str, text: Message, value: float) -> Finding:
    """Something worth knowing.

    Parameters
    ----------
    code : stable code of the finding
    where : piece and edge
    text : what is found and what to do
    value : the size of it, cm, degrees or a count
    """
    return Finding(code, Severity.NOTE, where, text, round(value, 3))


def upper_doubts(
    plan: Plan, upper: Upper, top_of_darts: float, waist: float
) -> tuple[Finding, ...]:
    """Every doubt about the upper part.

    Parameters
    ----------
    plan : levels, ease and tapes of the upper body
    upper : neck, shoulders and widths as drawn
    top_of_darts : y of the upper points of the waist darts, cm
    waist : y of the waist, cm
    """
    return (
        *_depth_doubts(plan),
        *_across_doubts(plan.tapes, upper),
        *_shoulder_doubts(upper),
        *_dart_doubts(plan, top_of_darts, waist),
    )


def _depth_doubts(plan: Plan) -> list[Finding]:
    tapes = plan.tapes
    asked = tapes.armhole_depth + plan.ease.armhole_depth
    if asked <= plan.depth + _TRIFLE:
        return []
    text = Message(
        "armhole-depth-back-waist-length",
        N_(
            "The armhole depth {asked:.1f} is more than {share:.2f} of the back waist length "
            "{back:.1f}; it is drafted {depth:.1f} deep. Ask for less ease in the armhole depth, or lower "
            "the armhole of the finished block."
        ),
        asked=asked,
        share=CAP,
        back=tapes.back_length,
        depth=plan.depth,
    )
    return [warning("draft-armhole-depth-capped", "back: armhole", text, plan.depth - asked)]


def _across_doubts(tapes: Tapes, upper: Upper) -> list[Finding]:
    across, out = upper.across, []
    if across.widened > _TRIFLE / 2:
        text = Message(
            "shoulder-length-widths-across-disagree",
            N_(
                "Shoulder length {shoulder:.1f} and the widths across disagree: the widths were "
                "widened by {by:.2f} cm in all (half body) to carry the shoulder."
            ),
            shoulder=tapes.shoulder,
            by=across.widened,
        )
        out.append(warning("draft-across-widened", "back: armhole", text, across.widened))
    if abs(across.back_moved) > _TRIFLE:
        text = Message(
            "across-back-drafted-cm-each",
            N_(
                "Across back {asked:.1f} is drafted {by:.2f} cm {way} on each half, to fit the "
                "shoulder length {shoulder:.1f} and the armhole."
            ),
            asked=2 * tapes.half_back,
            by=abs(across.back_moved),
            way=N_("wider") if across.back_moved > 0 else N_("narrower"),
            shoulder=tapes.shoulder,
        )
        out.append(warning("draft-across-back-moved", "back: armhole", text, across.back_moved))
    if abs(across.chest_moved) > (_TRIFLE if tapes.chest_taped else _GUESSED):
        text = Message(
            "across-chest-drafted-cm-each",
            N_(
                "Across chest {asked:.1f} is drafted {by:.2f} cm {way} on each half, so that the "
                "armhole keeps its width and its curve."
            ),
            asked=2 * tapes.half_chest,
            by=abs(across.chest_moved),
            way=N_("wider") if across.chest_moved > 0 else N_("narrower"),
        )
        kind = warning if tapes.chest_taped else note
        out.append(kind("draft-across-chest-moved", "front: armhole", text, across.chest_moved))
    return out


def _shoulder_doubts(upper: Upper) -> list[Finding]:
    out = []
    if upper.shortened > 0:
        text = Message(
            "shoulder-too-long-widths-across",
            N_(
                "The shoulder is too long for the widths across; it is drafted {by:.2f} cm shorter. "
                "Measure it again, to the hollow at the shoulder bone only."
            ),
            by=upper.shortened,
        )
        out.append(warning("draft-shoulder-shortened", "back: shoulder", text, -upper.shortened))
    if upper.lowered > 0:
        text = Message(
            "front-shoulder-end-lowered-cm",
            N_(
                "The front shoulder end was lowered by {by:.2f} cm so that the armhole can leave the "
                "shoulder."
            ),
            by=upper.lowered,
        )
        out.append(note("draft-shoulder-lowered", "front: shoulder", text, upper.lowered))
    if abs(upper.turn) > _TURNED:
        text = Message(
            "where-armhole-shoulder-meet-back",
            N_(
                "Where armhole and shoulder meet, the back corner has {back:.1f} and the front corner "
                "{front:.1f} degrees; together they are 180."
            ),
            back=90 + degrees(upper.turn),
            front=90 - degrees(upper.turn),
        )
        out.append(note("draft-corner-turned", "back: shoulder", text, degrees(upper.turn)))
    inner = degrees(upper.front.inner)
    if not 3 <= inner <= 23:
        text = Message(
            "inner-part-front-shoulder-slopes",
            N_(
                "The inner part of the front shoulder slopes {slope:.1f} degrees (3 to 23 is usual): "
                "front waist length and back waist length may disagree."
            ),
            slope=inner,
        )
        out.append(warning("draft-front-slope", "front: shoulder", text, inner))
    return out


def _dart_doubts(plan: Plan, top: float, waist: float) -> list[Finding]:
    out = []
    dart, rest = plan.dart, plan.side_dart
    if rest:
        text = Message(
            "bust-needs-dart-degrees-stay",
            N_(
                "The bust needs a dart of {all:.1f} degrees; {stay:.1f} stay at the shoulder and "
                "{rest:.1f} go into a dart from the side."
            ),
            all=degrees(dart),
            stay=degrees(dart - rest),
            rest=degrees(rest),
        )
        out.append(note("draft-bust-dart-split", "front: side", text, degrees(dart)))
    if waist - top < 6:
        text = Message(
            "upper-points-waist-darts-lie",
            N_(
                "The upper points of the waist darts lie only {gap:.1f} cm above the waist: bust "
                "depth and front waist length leave little room."
            ),
            gap=waist - top,
        )
        out.append(warning("draft-darts-near-waist", "front: waist dart", text, waist - top))
    return out


def waist_dart_doubts(back: int, front: int) -> list[Finding]:
    """Three darts on a side are better sewn as a panel seam.

    Parameters
    ----------
    back : waist darts on the half back
    front : waist darts on the half front
    """
    out = []
    for piece, count in (("back", back), ("front", front)):
        if count >= 3:
            text = Message(
                "half-waist-darts-panel-seam",
                N_(
                    "Half of the {piece} has {count} waist darts; a panel seam in place of one of them "
                    "would sit better."
                ),
                piece=piece,
                count=count,
            )
            out.append(warning("draft-three-darts", f"{piece}: third waist dart", text, count))
    return out


def bulge_doubts(bulge: float) -> list[Finding]:
    """A hip far over the bust makes a steep side in a block without a waist seam.

    Parameters
    ----------
    bulge : how far the hip lies outside the waist at each side, cm
    """
    if bulge <= 5.5:
        return []
    text = Message(
        "hip-stands-cm-outside-waist",
        N_(
            "The hip stands {bulge:.1f} cm outside the waist at each side, a steep curve; a bodice and "
            "a skirt with a waist seam fit such a figure better."
        ),
        bulge=bulge,
    )
    return [warning("draft-hip-bulge", "front: side", text, bulge)]
