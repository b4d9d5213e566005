"""The points of the blocks as rules over the figures of the draft, for drafting on one's own body."""

from __future__ import annotations

from collections.abc import Mapping

from cutwright.blocks.bodice import Bodice
from cutwright.blocks.plan import Plan
from cutwright.blocks.shares import DRESS_SIDE, HOLLOW, MOST_HOLLOW
from cutwright.blocks.shoulders import AT, SHORT
from cutwright.blocks.skirt import MOST_SKIRT_SIDE, SKIRT_SIDE, Skirt
from cutwright.blocks.upper import LEAD, Upper
from cutwright.blocks.waist_darts import NAMES
from cutwright.geometry.point import Point
from cutwright.pattern.edge import EdgeKind
from cutwright.pattern.piece import Piece
from cutwright.pattern.point_rule import PointRule
from cutwright.pattern.sum import (
    Bound,
    Chosen,
    DraftRule,
    Earlier,
    Figure,
    Fn,
    Limited,
    Number,
    ReadOff,
    Source,
    Taped,
    Term,
    Trigonometric,
    Unit,
    completed,
    minus,
    over,
    plus,
    times,
)

NOTHING = Number(0)
CLOSE = 0.8
"""A bust level that lies no further below the underarm is the same place for a hand, cm."""
WORKINGS = frozenset(
    {
        "back-shoulder", "shoulder-run", "shoulder-drop", "neck-over-bust", "front-neck-level",
        "turned-neck-across", "turned-neck-level", "front-shoulder-level",
        "front-shoulder-across", "outer-part-out", "outer-part-down", "inner-part-out",
        "inner-part-down", "dart-middle-out", "dart-middle-up", "side-rise", "side-out", "back-hip", "front-hip", "skirt-length",
    }
)  # fmt: skip
"""Figures that only the points go on from: a lesson prints them, a work sheet does not."""
Known = Mapping[str, Figure]


def rule(piece: str, edges: tuple[str, str], across: Term, down: Term) -> PointRule:
    """The corner at which two edges meet.

    Parameters
    ----------
    piece : its name
    edges : the two that meet
    across : from the centre, a sum in cm
    down : from the nape or the waist, a sum in cm
    """
    return PointRule(piece, frozenset(edges), across, down)


def on_level(piece: str, edge: str, level: str, across: Term, down: Term) -> PointRule:
    """Where an edge passes a level.

    Parameters
    ----------
    piece : its name
    edge : the edge
    level : the level, such as "bust"
    across : from the centre, a sum in cm
    down : from the nape or the waist, a sum in cm
    """
    return PointRule(piece, frozenset({edge}), across, down, level)


def figures_and_rules(figures: tuple[Figure, ...]) -> tuple[tuple[Figure, ...], tuple[Figure, ...]]:
    """The figures of the work sheet, and those that only the points go on from.

    Parameters
    ----------
    figures : all that a draft works out
    """
    return (
        tuple(f for f in figures if f.code not in WORKINGS),
        tuple(f for f in figures if f.code in WORKINGS),
    )


def known(figures: tuple[Figure, ...]) -> dict[str, Figure]:
    """Figures by their code.

    Parameters
    ----------
    figures : each with a code of its own
    """
    return {figure.code: figure for figure in figures}


def shoulder_figures(plan: Plan, upper: Upper, by: Known) -> tuple[Figure, ...]:
    """Where the shoulders end: the back one by its slope, the front one by the bust dart and the back one.

    Parameters
    ----------
    plan : levels, ease and tapes of the upper body
    upper : neck, shoulders and widths as drawn
    by : figures worked out so far, by their code

    Returns
    -------
    in cm
    """
    back = upper.back
    line = abs(back.end - back.neck)
    parts = [Earlier(by["shoulder"])]
    extra = (
        Chosen("shoulder_dart", plan.shoulder_dart)
        if plan.shoulder_dart
        else Chosen("shoulder_ease", plan.shoulder_ease)
    )
    whole = Figure("back-shoulder", completed(line, *parts, extra, code="dart-slant"))
    slope = Earlier(by["shoulder-slope"])
    run = Figure("shoulder-run", times(Earlier(whole), Trigonometric(Fn.COSINE, (slope,))))
    drop = Figure(
        "shoulder-drop",
        minus(times(Earlier(whole), Trigonometric(Fn.SINE, (slope,))), Earlier(by["neck-rise"])),
    )
    depth = Taped("bust_depth", plan.tapes.bust_depth)
    aside = minus(Earlier(by["bust-points"]), Earlier(by["neck-width"]))
    rise = Figure("neck-over-bust", Trigonometric(Fn.LEG, (depth, aside)))
    neck = Figure("front-neck-level", minus(Earlier(by["bust-point-level"]), Earlier(rise)))
    out = (whole, run, drop, rise, neck)
    by = {**by, **known(out)}
    return out if plan.side_dart else (*out, *_front_end(upper, by, rise, drop))  # fmt: skip


def _front_end(upper: Upper, by: Known, rise: Figure, drop: Figure) -> tuple[Figure, ...]:
    """The outer end of the front shoulder: its neck point turned about the bust point by the dart, then the shoulder."""
    angle = Earlier(by["bust-dart"])
    aside = minus(Earlier(by["bust-points"]), Earlier(by["neck-width"]))
    sine, cosine = Trigonometric(Fn.SINE, (angle,)), Trigonometric(Fn.COSINE, (angle,))
    across = plus(Earlier(by["bust-points"]), times(Earlier(rise), sine))
    turned = Figure("turned-neck-across", minus(across, times(aside, cosine)))
    up = plus(times(Earlier(rise), cosine), times(aside, sine))
    level = Figure("turned-neck-level", minus(Earlier(by["bust-point-level"]), up))
    lead = DraftRule("front-lower", LEAD + upper.lowered, Source.COMMON, Unit.CM)
    end = Figure("front-shoulder-level", plus(Earlier(drop), lead))
    fall = minus(Earlier(end), Earlier(level))
    reach = plus(Earlier(turned), Trigonometric(Fn.LEG, (Earlier(by["shoulder"]), fall)))
    far = Figure("front-shoulder-across", reach)
    return (turned, level, end, far, *_bust_dart(by, turned, level, end, far))


def _bust_dart(
    by: Known, turned: Figure, level: Figure, end: Figure, far: Figure
) -> tuple[Figure, ...]:
    """The mouth and the point of the bust dart: on the outer shoulder, and the same turned back by the dart."""
    angle = Earlier(by["bust-dart"])
    sine, cosine = Trigonometric(Fn.SINE, (angle,)), Trigonometric(Fn.COSINE, (angle,))
    share = DraftRule("dart-on-shoulder", AT, Source.COMMON)
    out = Figure("outer-part-out", times(minus(Earlier(far), Earlier(turned)), share))
    down = Figure("outer-part-down", times(minus(Earlier(end), Earlier(level)), share))
    back = plus(times(Earlier(out), cosine), times(Earlier(down), sine))
    lower = minus(times(Earlier(down), cosine), times(Earlier(out), sine))
    mine = (out, down, Figure("inner-part-out", back), Figure("inner-part-down", lower))
    near, far_mouth = _mouth({**by, **known((turned, level, *mine))})
    middle = [over(plus(a, b), Number(2)) for a, b in zip(near, far_mouth, strict=True)]
    aside = Figure("dart-middle-out", minus(middle[0], Earlier(by["bust-points"])))
    above = Figure("dart-middle-up", minus(Earlier(by["bust-point-level"]), middle[1]))
    return (*mine, aside, above)


def _mouth(by: Known) -> tuple[tuple[Term, Term], tuple[Term, Term]]:
    """Both ends of the mouth of the bust dart, the inner one first: across and down."""
    return (
        (
            plus(Earlier(by["neck-width"]), Earlier(by["inner-part-out"])),
            plus(Earlier(by["front-neck-level"]), Earlier(by["inner-part-down"])),
        ),
        (
            plus(Earlier(by["turned-neck-across"]), Earlier(by["outer-part-out"])),
            plus(Earlier(by["turned-neck-level"]), Earlier(by["outer-part-down"])),
        ),
    )


def _bust_dart_points(by: Known) -> tuple[PointRule, ...]:
    """Where the bust dart opens on the shoulder and where it ends, short of the bust point."""
    bust, points = Earlier(by["bust-point-level"]), Earlier(by["bust-points"])
    near, far = _mouth(by)
    out, up = Earlier(by["dart-middle-out"]), Earlier(by["dart-middle-up"])
    slant = Trigonometric(Fn.SLANT, (out, up))
    short = DraftRule("short-of-bust-point", SHORT, Source.COMMON, Unit.CM)
    tip = (
        plus(points, over(times(out, short), slant)),
        minus(bust, over(times(up, short), slant)),
    )
    mouth = ("shoulder", "bust dart")
    return (
        PointRule("front", frozenset(mouth), *near, "near"),
        PointRule("front", frozenset(mouth), *far, "far"),
        PointRule("front", frozenset({"bust dart"}), *tip, "tip"),
    )


def upper_points(plan: Plan, upper: Upper, by: Known) -> tuple[PointRule, ...]:
    """The points above the waist.

    Parameters
    ----------
    plan : levels, ease and tapes of the upper body
    upper : neck, shoulders and widths as drawn
    by : figures worked out so far, by their code

    Returns
    -------
    each with its sums in cm
    """
    width, depth = Earlier(by["neck-width"]), Earlier(by["armhole-depth"])
    neck = Earlier(by["front-neck-level"])
    out = [
        rule("back", ("centre back", "neckline"), NOTHING, NOTHING),
        rule("back", ("neckline", "shoulder"), width, minus(NOTHING, Earlier(by["neck-rise"]))),
        rule("back", ("shoulder", "armhole"), plus(width, Earlier(by["shoulder-run"])), Earlier(by["shoulder-drop"])),
        rule("front", ("centre front", "neckline"), NOTHING, plus(neck, Earlier(by["neck-depth"]))),
        rule("front", ("neckline", "shoulder"), width, neck),
    ]  # fmt: skip
    if "front-shoulder-across" in by:
        across, down = Earlier(by["front-shoulder-across"]), Earlier(by["front-shoulder-level"])
        out.append(rule("front", ("shoulder", "armhole"), across, down))
        out += _bust_dart_points(by)
    if upper.bust_point.imag <= plan.depth + CLOSE and not plan.side_dart:
        out += [
            rule("back", ("armhole", "side"), _at_bust(plan, upper, by), depth),
            rule("front", ("armhole", "side"), Earlier(by["front-at-the-bust"]), depth),
        ]
    elif not plan.side_dart:
        level = Earlier(by["bust-point-level"])
        out += [
            on_level("back", "side", "bust", _at_bust(plan, upper, by), level),
            on_level("front", "side", "bust", Earlier(by["front-at-the-bust"]), level),
        ]
    return tuple(out)


def _at_bust(plan: Plan, upper: Upper, by: Known) -> Term:
    """The back's width at the bust from the upright, where a shaped centre lies inside it."""
    inside = plan.centre.at(max(plan.depth, upper.bust_point.imag))
    back = Earlier(by["back-at-the-bust"])
    return plus(back, ReadOff("centre-inside", inside)) if inside >= 0.05 else back


def hollow_figures(plan: Plan, by: Known) -> tuple[Figure, ...]:
    """How far the centre back is hollowed at the waist; nothing where it is straight.

    Parameters
    ----------
    plan : levels, ease and tapes of the upper body
    by : figures worked out so far, by their code

    Returns
    -------
    in cm
    """
    if not plan.centre.hollow:
        return ()
    share = times(Earlier(by["to-take-in"]), DraftRule("hollow-share", HOLLOW, Source.OWN))
    most = DraftRule("most-hollow", MOST_HOLLOW, Source.OWN, Unit.CM)
    return (Figure("centre-hollow", Limited(share, most, Bound.MOST)),)


def dress_side_figures(plan: Plan, side: float, by: Known) -> tuple[Figure, ...]:
    """What each side takes in at the waist, and how the hem rises at the side to meet it square.

    Parameters
    ----------
    plan : levels, ease and tapes of the upper body
    side : how far each side lies inside the bust width at the waist, cm
    by : figures worked out so far, by their code

    Returns
    -------
    in cm
    """
    share = times(Earlier(by["to-take-in"]), DraftRule("side-share", DRESS_SIDE, Source.OWN))
    taken = Figure("side-taken", completed(side, share, code="for-the-hip"))
    return (taken, *hem_side_figures(by))


def hem_side_figures(by: Known) -> tuple[Figure, ...]:
    """How far the hem ends above its level at the side, and how far out.

    Parameters
    ----------
    by : figures worked out so far, by their code

    Returns
    -------
    in cm; none on a straight skirt
    """
    if not by["flare"].value:
        return ()
    flare, below = Earlier(by["flare"]), Earlier(by["below-hip"])
    bow = over(Earlier(by["half-hip"]), Number(6))
    slant = Trigonometric(Fn.SLANT, (below, flare))
    rise = Figure("side-rise", over(times(bow, flare), slant))
    out = over(times(minus(below, Earlier(rise)), flare), below)
    return (rise, Figure("side-out", out))


def _at_the_side(hem: Term, by: Known) -> tuple[Term, tuple[Term, ...]]:
    """The hem's level at the side, and what it lies beyond the hip; a straight skirt has neither rise nor flare."""
    if "side-rise" not in by:
        return hem, ()
    return minus(hem, Earlier(by["side-rise"])), (Earlier(by["side-out"]),)


def dress_points(
    plan: Plan, upper: Upper, by: Known, pieces: tuple[Piece, Piece]
) -> tuple[PointRule, ...]:
    """The points of a dress block from the waist down.

    Parameters
    ----------
    plan : levels, ease and tapes of the upper body
    upper : neck, shoulders and widths as drawn
    by : figures worked out so far, by their code
    pieces : back and front

    Returns
    -------
    each with its sums in cm
    """
    waist, hip, hem = (Earlier(by[f"{name}-level"]) for name in ("waist", "hip", "hem"))
    taken, outside = Earlier(by["side-taken"]), Earlier(by["hip-outside"])
    up, sideways = _at_the_side(hem, by)
    hollow: Term = Earlier(by["centre-hollow"]) if "centre-hollow" in by else NOTHING
    widths = {"back": _at_bust(plan, upper, by), "front": Earlier(by["front-at-the-bust"])}
    out: list[PointRule] = []
    for piece, bust in widths.items():
        at_waist = minus(bust, taken)
        at_hip = plus(at_waist, outside)
        at_hem = plus(at_hip, *sideways)
        foot = over(hollow, Number(2)) if piece == "back" and plan.centre.hollow else NOTHING
        out += [
            on_level(piece, "side", "waist", at_waist, waist),
            on_level(piece, "side", "hip", at_hip, hip),
            rule(piece, ("side", "hem"), at_hem, up),
            rule(piece, ("hem", f"centre {piece}"), foot, hem),
        ]
        length = Earlier(by[f"{piece}-dart-length"])
        drawn = next(p for p in pieces if p.name == piece)
        out += _diamonds(drawn, at_waist, waist, Earlier(by["dart-top"]), plus(waist, length))
    if plan.centre.hollow:
        out.append(on_level("back", "centre back", "waist", hollow, waist))
        out.append(on_level("back", "centre back", "hip", over(hollow, Number(2)), hip))
    return tuple(out)


def _diamonds(
    piece: Piece, side: Term, waist: Term, top: Term, foot: Term
) -> tuple[PointRule, ...]:
    """The waist darts with two points: each place as a share of the waist from the centre to the side."""
    out: list[PointRule] = []
    for dart in piece.diamonds[:1]:
        places = (
            ("top", dart.top, top),
            ("bottom", dart.bottom, foot),
            ("near", dart.near, waist),
            ("far", dart.far, waist),
        )
        for name, at, down in places:
            share = Number(round(abs(at.real) / side.value, 3))
            out.append(on_level(piece.name, dart.name, name, times(side, share), down))
    return tuple(out)


def skirt_widths(skirt: Skirt, by: Known) -> tuple[Figure, ...]:
    """What the side stands out from waist to hip, and how wide back and front are at the hip.

    Parameters
    ----------
    skirt : the block as drafted
    by : figures worked out so far, by their code

    Returns
    -------
    in cm
    """
    share = times(Earlier(by["to-take-in"]), DraftRule("skirt-side-share", SKIRT_SIDE, Source.OWN))
    most = Limited(
        share, DraftRule("skirt-side-most", MOST_SKIRT_SIDE, Source.OWN, Unit.CM), Bound.MOST
    )
    out = Figure("hip-outside", completed(skirt.bulge, most, code="waist-curve"))
    parts = (Earlier(by["closed-back-waist"]), ReadOff("back-darts", sum(skirt.back_darts), 0.01))
    wide = _at_hip(skirt.back)
    hollow = (ReadOff("centre-back", skirt.hollow, 0.01),) if skirt.hollow else ()
    back = Figure("back-hip", completed(wide, *parts, *hollow, Earlier(out), code="waist-curve"))
    return (out, back, Figure("front-hip", minus(Earlier(by["half-hip"]), Earlier(back))))


def _at_hip(piece: Piece) -> float:
    level = piece.level("hip")
    return max(abs(p.real) for p in level.points) if level is not None else 0.0


def _waist_ends(piece: Piece, side: Term, lengths: tuple[Figure, ...]) -> tuple[PointRule, ...]:
    """Where the waist of a skirt meets centre and side; how far the curve rises is read off the reference body's paper."""
    waist = [edge for edge in piece.edges if edge.kind is EdgeKind.WAIST]
    ends = sorted((waist[0].start, waist[-1].end), key=lambda p: abs(p.real))
    centre = f"centre {piece.role}"
    across = (ReadOff("centre-back", abs(ends[0].real), 0.01),) if abs(ends[0].real) > 0.005 else ()
    at_side = completed(abs(ends[1].real), side, code="waist-curve")
    dart = tuple(_dart_tip(piece, length, at_side) for length in lengths)
    return (
        rule(piece.name, (centre, "waist"), plus(*across) if across else NOTHING, _curve(ends[0])),
        rule(piece.name, ("waist", "side"), at_side, _curve(ends[1])),
        *dart,
    )


def _dart_tip(piece: Piece, length: Figure, side: Term) -> PointRule:
    """The point of the first dart: so far down, at its share of the way from the centre to the side."""
    tip = next(dart.tip for dart in piece.darts if dart.name == NAMES[0])
    share = Number(round(abs(tip.real) / side.value, 3))
    down = completed(tip.imag, Earlier(length), code="waist-curve")
    return PointRule(piece.name, frozenset({NAMES[0]}), times(side, share), down, "tip")


def _length_of(by: Known, name: str) -> tuple[Figure, ...]:
    found = by.get(f"{name}-dart-length")
    return (found,) if found is not None else ()


def _curve(at: Point) -> Term:
    return ReadOff("waist-curve", at.imag) if abs(at.imag) >= 0.05 else NOTHING


def bodice_points(bodice: Bodice, by: Known) -> tuple[PointRule, ...]:
    """Where the waist of a bodice meets centre and side.

    Parameters
    ----------
    bodice : the block as drafted
    by : figures worked out so far, by their code

    Returns
    -------
    each with its sums in cm
    """
    out: list[PointRule] = []
    for piece in (bodice.back, bodice.front):
        waist = [edge for edge in piece.edges if edge.kind is EdgeKind.WAIST]
        ends = sorted((waist[0].start, waist[-1].end), key=lambda p: abs(p.real))
        level = Earlier(by["waist-level"])
        bust = (
            _at_bust(bodice.plan, bodice.upper, by)
            if piece is bodice.back
            else Earlier(by["front-at-the-bust"])
        )
        taken = ReadOff("side-taken", bodice.side, 0.01)
        hollow: Term = (
            ReadOff("centre-back", abs(ends[0].real), 0.01)
            if abs(ends[0].real) > 0.005
            else NOTHING
        )
        out += [
            rule(
                piece.name,
                (f"centre {piece.name}", "waist"),
                hollow,
                completed(ends[0].imag, level, code="waist-curve"),
            ),
            rule(
                piece.name,
                ("waist", "side"),
                completed(abs(ends[1].real), minus(bust, taken), code="waist-curve"),
                completed(ends[1].imag, level, code="waist-curve"),
            ),
        ]
    return (*out, *_front_dart(bodice, by))


def _front_dart(bodice: Bodice, by: Known) -> tuple[PointRule, ...]:
    """The first waist dart of the front ends below the bust point."""
    if not bodice.front_darts:
        return ()
    across, down = Earlier(by["bust-points"]), Earlier(by["dart-top"])
    return (PointRule("front", frozenset({"waist dart"}), across, down, "tip"),)


def skirt_points(skirt: Skirt, by: Known) -> tuple[PointRule, ...]:
    """The points of a skirt block from the hip down.

    Parameters
    ----------
    skirt : the block as drafted
    by : figures worked out so far, by their code

    Returns
    -------
    each with its sums in cm
    """
    hem = Earlier(by["skirt-length"])
    up, sideways = _at_the_side(hem, by)
    out: list[PointRule] = []
    for name, drawn in (("back", skirt.back), ("front", skirt.front)):
        piece, wide = f"skirt {name}", Earlier(by[f"{name}-hip"])
        out += [
            *_waist_ends(drawn, minus(wide, Earlier(by["hip-outside"])), _length_of(by, name)),
            on_level(piece, "side", "hip", wide, Earlier(by["hip-depth"])),
            rule(piece, ("side", "hem"), plus(wide, *sideways), up),
            rule(piece, ("hem", f"centre {name}"), NOTHING, hem),
        ]
    return tuple(out)
