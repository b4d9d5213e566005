"""The sums of a draft: girths with their ease, levels, and how the waist is shared out."""

from __future__ import annotations

from math import degrees

from cutwright.blocks.ease import Ease
from cutwright.blocks.hem import USUAL_FLARE
from cutwright.blocks.neck import DEEPER, RISE, RISE_MORE
from cutwright.blocks.plan import LEAST_SIDE_DART, Plan
from cutwright.blocks.shares import BEHIND, NARROWER
from cutwright.blocks.tapes import (
    CAP,
    CUP,
    DART_AT,
    DART_EACH,
    DART_FIRST,
    DART_RANGE,
    MOST_CUP,
    PER_CUP,
    Tapes,
)
from cutwright.blocks.upper import Upper
from cutwright.blocks.waist_darts import BELOW_UNDERARM, DART_TOP, FOOT
from cutwright.pattern.piece import Piece
from cutwright.pattern.role import Role
from cutwright.pattern.sum import (
    Bound,
    Chosen,
    DraftRule,
    Earlier,
    Figure,
    Limited,
    Number,
    ReadOff,
    Solved,
    Source,
    Taped,
    Term,
    Unit,
    completed,
    minus,
    over,
    plus,
    times,
)

_HALVES = Number(2, "halves")

ROUNDING = 0.025
"""What the rounding of a few shares to a hundredth can leave over, cm."""


def half_with_ease(measure: str, girth: float, field: str, ease: float) -> Term:
    """Half of a girth with its ease: (girth + ease) / 2.

    Parameters
    ----------
    measure : id of the girth
    girth : cm
    field : the field of the step that holds the ease
    ease : all round, cm

    Returns
    -------
    a sum in cm
    """
    return over(plus(Taped(measure, girth), Chosen(field, ease)), _HALVES)


def half_bust(tapes: Tapes, ease: Ease) -> Figure:
    """Half the garment at the bust.

    Parameters
    ----------
    tapes : the body's measures as a draft uses them
    ease : of the block, cm

    Returns
    -------
    in cm
    """
    return Figure("half-bust", half_with_ease("bust_girth", tapes.bust, "bust_ease", ease.bust))


def half_waist(tapes: Tapes, ease: Ease) -> Figure:
    """Half the garment at the waist.

    Parameters
    ----------
    tapes : the body's measures as a draft uses them
    ease : of the block, cm

    Returns
    -------
    in cm
    """
    return Figure(
        "half-waist", half_with_ease("waist_girth", tapes.waist, "waist_ease", ease.waist)
    )


def half_hip(tapes: Tapes, ease: Ease) -> Figure:
    """Half the garment at the hip.

    Parameters
    ----------
    tapes : the body's measures as a draft uses them
    ease : of the block, cm

    Returns
    -------
    in cm
    """
    return Figure("half-hip", half_with_ease("hip_girth", tapes.hip, "hip_ease", ease.hip))


def taken_in(
    wide: Figure, narrow: Figure, parts: tuple[tuple[str, float], ...]
) -> tuple[Figure, ...]:
    """What is taken in at the waist on the half body, and where; `parts` are (code, cm).

    Parameters
    ----------
    wide : half of the garment at the bust or hip
    narrow : half of the garment at the waist
    parts : what takes it in, by code, cm

    Returns
    -------
    what is to be taken in, and the sum that does, cm
    """
    whole = Figure("to-take-in", minus(Earlier(wide), Earlier(narrow)))
    shares = [ReadOff(code, size, 0.01) for code, size in parts if abs(size) >= 0.005]
    if not shares:
        return (whole,)
    rest = round(whole.value - sum(share.value for share in shares), 2)
    if abs(rest) > ROUNDING:
        shares.append(ReadOff("waist-curve", rest, 0.01))
    else:  # what rounding left goes to the last share, so that the parts make the whole
        shares[-1] = ReadOff(shares[-1].code, shares[-1].value + rest, 0.01)
    return (whole, Figure("taken-in", plus(*shares)))


def closed_waists(waist: Figure) -> tuple[Figure, Figure]:
    """The waist of back and front with the darts closed, which make the half waist.

    Parameters
    ----------
    waist : half of the garment at the waist

    Returns
    -------
    back and front, cm

    Source: common practice: the back less by what `BEHIND` says.
    """
    less = DraftRule("back-waist-less", BEHIND, Source.COMMON, Unit.CM)
    back = Figure("closed-back-waist", minus(over(Earlier(waist), _HALVES), less))
    return back, Figure("closed-front-waist", minus(Earlier(waist), Earlier(back)))


def flare_figures(flare: float | None, length: float, waist_to_hip: float) -> tuple[Figure, ...]:
    """The length below the hip, and how far the hem stands out beyond the hip at each side.

    Parameters
    ----------
    flare : asked for at each side, cm; None takes the usual share
    length : of the skirt from the waist, cm
    waist_to_hip : cm

    Returns
    -------
    in cm
    """
    deep = minus(Chosen("length", length), Taped("waist_to_hip", waist_to_hip))
    below = Figure("below-hip", deep)
    if flare is not None:
        return below, Figure("flare", Chosen("flare", flare))
    return below, Figure(
        "flare", times(Earlier(below), DraftRule("flare", USUAL_FLARE, Source.COMMON))
    )


def half_hem(back: Piece, front: Piece) -> Figure:
    """The hem of back and front together.

    Parameters
    ----------
    back, front : the piece

    Returns
    -------
    in cm
    """
    return Figure("half-hem", plus(back.tape("hem"), front.tape("hem")))


def dart_length(half: Role, asked: float | None, waist_to_hip: float) -> Figure:
    """How far the first waist dart of the back or the front reaches down.

    Parameters
    ----------
    half : back or front
    asked : length asked for, cm; None takes the usual share of the hip depth
    waist_to_hip : cm

    Returns
    -------
    in cm

    Source: share of the hip depth by common practice (`FOOT`).
    """
    usual = DraftRule("dart-share", FOOT[half], Source.COMMON)
    length = times(Taped("waist_to_hip", waist_to_hip), usual)
    return Figure(
        "back-dart-length" if half is Role.BACK else "front-dart-length",
        length if asked is None else Chosen(f"{half}_dart", asked),
    )


def neck_figures(plan: Plan, upper: Upper, back: Piece) -> tuple[Figure, ...]:
    """Neck width, rise and depth; the width is the one with which the neckline is as long as asked.

    Parameters
    ----------
    plan : levels, ease and tapes of the upper body
    upper : neck, shoulders and widths as drawn
    back : the drawn back, whose neckline is measured

    Returns
    -------
    in cm
    """
    asked = half_with_ease("neck_base_girth", plan.tapes.neck, "neck_ease", plan.ease.neck)
    half = Figure("half-neckline", asked)
    behind = ReadOff("back-neckline", back.edge_length("neckline"), 0.01)
    before = ReadOff("front-neckline", half.value - behind.value, 0.01)
    width = Figure("neck-width", Solved(upper.neck_width, plus(behind, before)))
    rise = times(Earlier(width), DraftRule("neck-rise", RISE, Source.OWN))
    return (
        half,
        width,
        Figure(
            "neck-rise", plus(rise, DraftRule("neck-rise-more", RISE_MORE, Source.OWN, Unit.CM))
        ),
        Figure(
            "neck-depth",
            plus(Earlier(width), DraftRule("neck-deeper", DEEPER, Source.OWN, Unit.CM)),
        ),
    )


def width_figures(plan: Plan, upper: Upper, bust: Figure) -> tuple[Figure, ...]:
    """Shoulder, widths across and the place of the side at bust level.

    Parameters
    ----------
    plan : levels, ease and tapes of the upper body
    upper : neck, shoulders and widths as drawn
    bust : half of the garment at the bust

    Returns
    -------
    in cm, the slope in degrees
    """
    tapes, ease, across = plan.tapes, plan.ease, upper.across
    length = Taped("shoulder_length", tapes.shoulder)
    shoulder: Term = (
        minus(length, ReadOff("shortened", upper.shortened, 0.01)) if upper.shortened else length
    )
    back = plus(
        over(Taped("back_width", 2 * tapes.half_back), _HALVES),
        Chosen("across_back_ease", ease.across_back),
    )
    chest = plus(
        over(Taped("chest_width", 2 * tapes.half_chest), _HALVES),
        Chosen("across_chest_ease", ease.across_chest),
    )
    narrower = minus(
        over(Earlier(bust), _HALVES), DraftRule("back-narrower", NARROWER, Source.COMMON, Unit.CM)
    )
    at_bust = plan.centre.at(max(plan.depth, upper.bust_point.imag))
    wide = narrower.value + upper.back_bust - at_bust - (plan.halves.bust / 2 - NARROWER)
    behind = Figure("back-at-the-bust", completed(wide, narrower, code="for-the-armhole"))
    return (
        Figure("shoulder", shoulder),
        Figure("shoulder-slope", Taped("shoulder_slope", degrees(tapes.slope)), unit=Unit.DEGREE),
        Figure("across-back", completed(back.value + across.back_moved, back, code="for-the-armhole")),
        Figure("across-chest", completed(chest.value + across.chest_moved, chest, code="for-the-armhole")),
        behind,
        Figure("front-at-the-bust", minus(Earlier(bust), Earlier(behind))),
        Figure("bust-points", over(Taped("bust_point_width", 2 * tapes.half_points), _HALVES)),
    )  # fmt: skip


def level_figures(plan: Plan, upper: Upper) -> tuple[Figure, Figure, tuple[Figure, ...]]:
    """Armhole depth, waist level, and all levels of the upper body below the nape.

    Parameters
    ----------
    plan : levels, ease and tapes of the upper body
    upper : neck, shoulders and widths as drawn

    Returns
    -------
    armhole depth, waist level, and both among all levels, in cm
    """
    tapes = plan.tapes
    length = Taped("back_waist_length", tapes.back_length)
    asked = plus(
        Taped("armhole_depth", tapes.armhole_depth),
        Chosen("armhole_depth_ease", plan.ease.armhole_depth),
    )
    cap = times(length, DraftRule("armhole-cap", CAP, Source.COMMON))
    depth = Figure("armhole-depth", Limited(asked, cap, Bound.MOST))
    waist = Figure("waist-level", completed(plan.centre.level, length, code="hollow"))
    below = Figure(
        "bust-to-waist",
        minus(
            Taped("front_waist_length", tapes.front_length), Taped("bust_depth", tapes.bust_depth)
        ),
    )
    point = minus(Earlier(waist), Earlier(below))
    bust = Figure("bust-point-level", completed(upper.bust_point.imag, point, code="dart-slant"))
    top = Limited(
        plus(Earlier(bust), DraftRule("dart-top", DART_TOP, Source.COMMON, Unit.CM)),
        plus(Earlier(depth), DraftRule("below-underarm", BELOW_UNDERARM, Source.OWN, Unit.CM)),
        Bound.LEAST,
    )
    return depth, waist, (depth, waist, below, bust, Figure("dart-top", top))  # fmt: skip


def bust_dart(plan: Plan, asked: float | None) -> tuple[Figure, ...]:
    """The angle of the bust dart, asked for or by fullness, and what of it goes to the side.

    Parameters
    ----------
    plan : levels, ease and tapes of the upper body
    asked : angle asked for; None works it out from the bust

    Returns
    -------
    in degrees

    Source: own method, docs/drafting.md, section 2.
    """
    term = (
        _fullness(plan.tapes)
        if asked is None
        else Chosen("bust_dart", degrees(plan.dart), Unit.DEGREE)
    )
    dart = Figure("bust-dart", term, unit=Unit.DEGREE)
    if not plan.side_dart:
        return (dart,)
    largest = Chosen("largest_bust_dart", degrees(plan.largest_bust_dart), Unit.DEGREE)
    least = DraftRule("least-side-dart", degrees(LEAST_SIDE_DART), Source.COMMON, Unit.DEGREE)
    side = Limited(minus(Earlier(dart), largest), least, Bound.LEAST)
    return (dart, Figure("side-dart", side, unit=Unit.DEGREE))


def _fullness(tapes: Tapes) -> Term:
    """16 degrees at bust 88 and 1.35 more for each 4 cm, corrected by the underbust, kept in 8 to 36."""
    bust = Taped("bust_girth", tapes.bust)
    more = over(
        minus(bust, DraftRule("bust-of-the-rule", DART_AT, Source.COMMON, Unit.CM)),
        Number(4, "each-4-cm"),
    )
    term: Term = plus(
        DraftRule("dart-of-the-rule", DART_FIRST, Source.COMMON, Unit.DEGREE),
        times(more, DraftRule("dart-for-each-4-cm", DART_EACH, Source.COMMON, Unit.DEGREE)),
    )
    if tapes.underbust is not None:
        cup = minus(bust, Taped("underbust_girth", tapes.underbust))
        usual = plus(
            times(bust, DraftRule("cup-share", CUP[0], Source.OWN)),
            DraftRule("cup", CUP[1], Source.OWN, Unit.CM),
        )
        over_cup = times(
            minus(cup, usual),
            DraftRule("dart-for-each-cm-of-cup", PER_CUP, Source.OWN, Unit.DEGREE),
        )
        most, least = (
            DraftRule("most-for-the-cup", sign * MOST_CUP, Source.OWN, Unit.DEGREE)
            for sign in (1, -1)
        )
        term = plus(term, Limited(Limited(over_cup, most, Bound.MOST), least, Bound.LEAST))
    low, high = (DraftRule("dart-kept-in", limit, Source.OWN, Unit.DEGREE) for limit in DART_RANGE)
    return Limited(Limited(term, low, Bound.LEAST), high, Bound.MOST)  # fmt: skip


def armhole_figure(back: Piece, front: Piece) -> Figure:
    """The armhole of back and front together.

    Parameters
    ----------
    back, front : the piece

    Returns
    -------
    in cm
    """
    return Figure("armhole", plus(back.tape("armhole"), front.tape("armhole")))
