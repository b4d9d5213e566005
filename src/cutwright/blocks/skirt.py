"""The skirt block: back and front from a waist seam over the hip to the hem."""

from __future__ import annotations

from dataclasses import dataclass
from math import atan2, radians

from cutwright.blocks.centre_back import Back, below_waist
from cutwright.blocks.ease import Ease
from cutwright.blocks.frame import heading
from cutwright.blocks.hem import flared_hem, lean_for
from cutwright.blocks.laying import HalfDraft, draft_grain, laid_half
from cutwright.blocks.shares import BEHIND, LARGEST_DART, LEAST_DART, TO_MEET, shared_as, split
from cutwright.blocks.tapes import Halves, Tapes
from cutwright.blocks.waist_chain import DOWN, Chain, chain
from cutwright.blocks.waist_darts import (
    FOOT,
    NAMES,
    SHORTER,
    back_stretches,
    front_stretches,
)
from cutwright.blocks.waist_seam import dart_counts
from cutwright.errors import DraftError
from cutwright.geometry.curve import Curve, Line
from cutwright.geometry.draw import hermite
from cutwright.geometry.gentle import gentle_arc
from cutwright.geometry.path import Path, reversed_path
from cutwright.messages import N_, Message
from cutwright.pattern.edge import Edge, EdgeKind
from cutwright.pattern.piece import Dart, Level, Piece, legs_of
from cutwright.pattern.role import Role

_STEEPEST = radians(50)
_GIVES = 6.0
"""How many times further than the chord lies from the lean below the hip a side may lean off its chord above."""
_ALONG = 1e-3
"""Leans nearer than this to the chord run along it, radians."""
_MOST_BULGE, _LEAST_BULGE = 5.5, 0.4
"""How far the hip may stand out at each side to spare a dart, and must to keep one, cm."""
_GENTLE = 8.0
"""The least radius of a side over the hip that is drawn without further ado, cm."""
SKIRT_SIDE, MOST_SKIRT_SIDE = 0.2, 4.0
"""Each side stands out by this share of the surplus from waist to hip, at most so many cm (own method)."""
INSIDE = 1.2
"""So much nearer to the centre than the bust point stands the front dart of a skirt, cm."""


@dataclass(frozen=True, slots=True)
class SkirtWish:
    """What a cutter chooses for a skirt block; lengths in cm."""

    ease: Ease
    length: float = 60.0
    flare: float | None = None
    """How far the hem stands out at each side; None: 0.07 of the length below the hip."""
    back: Back = "seam"
    front_on_fold: bool = True
    back_share: float = 0.6
    """The back's share of the darts."""
    largest_dart: float = LARGEST_DART
    back_dart: float | None = None
    """Length of the first dart; None: 0.72 of the hip depth behind, 0.55 in front."""
    front_dart: float | None = None
    places: tuple[tuple[float, ...] | None, tuple[float, ...] | None] = (None, None)
    """Stretches of the back and front waist of a bodice to which the darts shall be set."""


@dataclass(frozen=True, slots=True)
class Skirt:
    """A drafted skirt block and what it was drafted from."""

    back: Piece
    front: Piece
    halves: Halves
    bulge: float
    back_darts: tuple[float, ...]
    front_darts: tuple[float, ...]
    hollow: float


@dataclass(frozen=True, slots=True)
class _Waists:
    """Both waists with the side points level, and the side's bulge and lean."""

    back: Chain
    front: Chain
    bulge: float
    lean: float


def waist_halves(halves: Halves) -> tuple[float, float]:
    """The closed back and front waist of a half: they add up to the half waist.

    Parameters
    ----------
    halves : half the girths with ease, cm

    Returns
    -------
    back and front, cm

    Source: common practice: the back less by what `BEHIND` says.
    """
    return halves.waist / 2 - BEHIND, halves.waist / 2 + BEHIND


def draft_skirt(tapes: Tapes, wish: SkirtWish) -> Skirt:
    """Draft back and front of a skirt block with a waist seam (own method, docs/drafting.md, section 6).

    Parameters
    ----------
    tapes : the measures as the draft uses them
    wish : what the cutter chooses

    Returns
    -------
    back and front in their places, and what they were drafted from

    Raises
    ------
    DraftError : too short, or a dart that cannot be sewn
    """
    halves = Halves.of(tapes, wish.ease)
    surplus = halves.hip - halves.waist
    if wish.length < tapes.waist_to_hip + 2:
        raise DraftError(
            Message(
                "skirt-block-reaches-least-cm",
                N_(
                    "A skirt block reaches at least 2 cm below the hip: {least:.1f} cm from the waist "
                    "here, but {length:.1f} was asked for. Draft it longer and shorten it afterwards."
                ),
                least=tapes.waist_to_hip + 2,
                length=wish.length,
            )
        )
    hollow = min(max(0.07 * surplus, 0.0), 1.0) if wish.back == "shaped" else 0.0
    counts = dart_counts(wish.places, waist_halves(halves))
    darts = _dart_shares(surplus - hollow, wish)
    if counts is not None:  # a half in which the bodice has no dart is free
        wanted = (counts[0] or len(darts[0]), counts[1] or len(darts[1]))
        darts = _meeting(surplus - hollow, wish, wanted) or darts
    lean = lean_for(wish.flare, wish.length - tapes.waist_to_hip)
    waists = _waists(tapes, wish, halves, hollow, darts, lean)
    hip = tapes.waist_to_hip
    below = [
        flared_hem(complex(c.end.real + waists.bulge, hip), wish.length, lean, halves.hip / 6, 0.0)
        for c in (waists.back, waists.front)
    ]
    return Skirt(
        _piece(Role.BACK, wish, waists.back, _side(waists, waists.back, hip, lean, below[0]), below[0], hip, hollow),
        _piece(Role.FRONT, wish, waists.front, _side(waists, waists.front, hip, lean, below[1]), below[1], hip, 0.0),
        halves,
        waists.bulge,
        darts[0],
        darts[1],
        hollow,
    )  # fmt: skip


def _left_by_sides(surplus: float) -> float:
    """What the darts take in when each side stands out by its share of the surplus."""
    return surplus - 2 * min(SKIRT_SIDE * surplus, MOST_SKIRT_SIDE) if surplus > 0 else 0.0


def _meeting(
    surplus: float, wish: SkirtWish, counts: tuple[int, int]
) -> tuple[tuple[float, ...], tuple[float, ...]] | None:
    """Intakes in as many darts as the bodice has, so that they meet; None where that cannot be.

    What the darts cannot take goes to the sides, as far as they can; a dart may then take a little
    more than the largest.
    """
    many = sum(counts)
    for most in (wish.largest_dart, wish.largest_dart + TO_MEET):
        darts = max(min(_left_by_sides(surplus), most * many), surplus - 2 * _MOST_BULGE)
        if darts < LEAST_DART * many <= surplus - 2 * _LEAST_BULGE:
            darts = LEAST_DART * many
        met = shared_as(darts, counts, wish.back_share, most)
        if met:
            return met
    return None


def _dart_shares(surplus: float, wish: SkirtWish) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Intakes behind and in front: what the sides' bulge does not take.

    The bulge is a fifth of the surplus, at most 4, and up to 5.5 to save a third dart.
    """
    largest, darts = wish.largest_dart, _left_by_sides(surplus)
    if darts > 3.5 * largest:  # the sides help before a third dart does
        darts = max(3.5 * largest, surplus - 2 * _MOST_BULGE)
    if darts < 1.2:
        return (), ()
    back = wish.back_share * darts
    for most in (largest, 2 * largest, 3 * largest):
        if darts <= 2 * most:
            back = min(max(back, darts - most), most)
            break
    front = darts - back
    return (
        split(back if back >= LEAST_DART else 0.0, wish.largest_dart),
        split(front if front >= LEAST_DART else 0.0, wish.largest_dart),
    )


def _legs(first: float, intakes: tuple[float, ...]) -> list[tuple[float, float]]:
    return [(intake, first - SHORTER * i) for i, intake in enumerate(intakes)]


def _waists(
    tapes: Tapes,
    wish: SkirtWish,
    halves: Halves,
    hollow: float,
    darts: tuple[tuple[float, ...], tuple[float, ...]],
    below: float,
) -> _Waists:
    """Both waists, the common bulge and the drop of the front centre, in a few rounds."""
    back_waist, front_waist = waist_halves(halves)
    hip = tapes.waist_to_hip
    behind = _legs(wish.back_dart or FOOT[Role.BACK] * hip, darts[0])
    before = _legs(wish.front_dart or FOOT[Role.FRONT] * hip, darts[1])
    back_rows, front_rows = _bodice_rows(wish, halves, len(darts[0]), len(darts[1]))
    back_rows = back_rows or back_stretches(back_waist, len(darts[0]))
    front_rows = front_rows or front_stretches(
        front_waist, len(darts[1]), tapes.half_points - INSIDE
    )
    lean, bulge, drop = 0.2, 0.0, 0.0
    for _round in range(40):
        back = chain(complex(hollow, 0), back_rows, behind, lean, DOWN)
        front = chain(complex(0, drop), front_rows, before, lean, DOWN)
        bulge = (halves.hip - back.end.real - front.end.real) / 2
        tall = hip - back.end.imag
        wanted = _leaving(bulge, tall, below)
        fall = back.end.imag - front.end.imag
        if abs(wanted - lean) < 1e-12 and abs(fall) < 1e-12:
            break
        lean, drop = wanted, drop + fall
    return _Waists(back, front, bulge, lean)


def _leaving(bulge: float, tall: float, below: float) -> float:
    """How far a side leans where it leaves the waist, so that it bends one way only down to the hip.

    bulge, tall : how far the hip lies outside the waist and below it, cm; below : the lean of the
    side under the hip, radians. The side leaves with 1.75 of its chord; where the flare below leans
    nearly as far as the chord it leaves nearly along it, and where it leans further, by less.
    """
    chord = atan2(bulge, tall)
    spare = chord - below
    wanted = min(atan2(1.75 * bulge, tall), chord + (_GIVES * spare if spare > 0 else spare))
    return min(max(wanted if bulge > 0 else atan2(1.75 * bulge, tall), -_STEEPEST), _STEEPEST)


def _bodice_rows(
    wish: SkirtWish, halves: Halves, behind: int, before: int
) -> tuple[tuple[float, ...] | None, tuple[float, ...] | None]:
    """Where a bodice with the same waist has its darts, for the halves that have as many."""
    back, front = wish.places
    if not back or not front or abs(sum(back) + sum(front) - halves.waist) > 1e-3:
        return None, None
    shifted = abs(sum(back) - waist_halves(halves)[0]) > 1e-3
    fits = (len(back) == behind + 1, len(front) == before + 1)
    if shifted and not all(fits):
        return None, None
    return (back if fits[0] else None), (front if fits[1] else None)


def _side(waists: _Waists, waist: Chain, hip: float, lean: float, below: Path) -> Path:
    """The side from the waist to the hem: a corner arc over the hip, straight below.

    Where the hip hardly stands out (or lies inside the waist) the tangents may not meet between
    the ends; the curve then runs with the chord's own direction.
    """
    start, end = waist.end, complex(waist.end.real + waists.bulge, hip)
    hip_arc: Curve
    chord = atan2(waists.bulge, hip - start.imag)
    if lean < chord - _ALONG and chord < waists.lean - _ALONG:
        hip_arc = gentle_arc(start, heading(waists.lean), end, heading(lean), 0.6, _GENTLE)
    else:
        hip_arc = hermite(start, heading(waists.lean), end, heading(lean))
    return (hip_arc, below[0])


def _piece(
    about: Role, wish: SkirtWish, waist: Chain, side: Path, below: Path, hip: float, hollow: float
) -> Piece:
    on_fold = wish.back == "fold" if about is Role.BACK else wish.front_on_fold
    bottom = complex(0, wish.length)
    centre: Path = (Line(waist.start, bottom),)
    if hollow:
        centre = below_waist(waist.start, complex(0, hip), wish.length)
    edges = (
        *waist_edges(waist),
        Edge("side", side, EdgeKind.SIDE),
        Edge("hem", below[1:], EdgeKind.HEM),
        Edge(
            f"centre {about}", reversed_path(centre), EdgeKind.FOLD if on_fold else EdgeKind.CENTRE
        ),
    )
    darts = tuple(Dart(NAMES[i], d.tip, d.tip) for i, d in enumerate(waist.darts))
    level = Level("hip", (complex(0, hip), side[0].end))
    half = HalfDraft(f"skirt {about}", about, edges, darts, (), (level,), (), on_fold)
    share = 0.3 if about is Role.BACK else 0.2
    return laid_half(half, draft_grain(share * waist.end.real, waist.start.imag, wish.length))


def waist_edges(waist: Chain) -> tuple[Edge, ...]:
    """The waist with its dart legs, from the centre to the side.

    Parameters
    ----------
    waist : the arcs of the waist and the darts between them
    """
    out: list[Edge] = []
    for index, piece in enumerate(waist.arcs):
        out.append(Edge("waist", (piece,), EdgeKind.WAIST))
        if index < len(waist.darts):
            dart = waist.darts[index]
            out += legs_of(NAMES[index], dart.near, dart.tip, dart.far)
    return tuple(out)
