"""Balance marks, found by walking both rows of a seam from the same end.

Single notch in front, double behind (common practice; also University of Arkansas, Introduction
to Apparel Production Workbook, ch. 8). Only long or curved seams get them. Plain seams: equal
distances from the same end. Gathered seams: equal parts of both rows, quarters at least. Eased
seams: equal distances from the nearer end outside the zone of ease, shares within it.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from math import ceil, lcm

from cutwright.finish.rows import Row, rows_of
from cutwright.geometry.path import distance_at
from cutwright.keep import once
from cutwright.pattern.edge import Kind
from cutwright.pattern.mark import MarkKind
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Mark, Piece
from cutwright.pattern.role import Role
from cutwright.pattern.seam import Seam

_CURVED = frozenset({Kind.ARMHOLE})
_SAME = 0.05


@dataclass(frozen=True, slots=True)
class NotchRules:
    """When a seam is marked (common practice), all in cm.

    `shortest`: plain seams below this have no marks; `shortest_curved`: the same for armholes;
    `widest`: the largest stretch without a mark; `clear`: nearest place to the end of a seam;
    `quarter`: a gathered row longer than this is marked in eighths; `ease_zone`: the share of an
    eased seam, in its middle, in which the ease lies; `joint`: where two edges of one row meet
    this near to an equal part, their meeting is the mark.
    """

    shortest: float = 20.0
    shortest_curved: float = 12.0
    widest: float = 45.0
    clear: float = 3.0
    quarter: float = 120.0
    ease_zone: float = 0.5
    joint: float = 4.0


USUAL = NotchRules()


def notched(pattern: Pattern, rules: NotchRules | None = None) -> Pattern:
    """The pattern with the balance marks of all its seams on its pieces."""
    rules = rules or USUAL
    found: dict[str, list[Mark]] = {}
    for seam in pattern.seams:
        names = tuple(dict.fromkeys(ref.piece for ref in seam.refs))
        pieces = tuple(pattern.piece(name) for name in names)
        for name, marks in _seam_notches(seam, rules, *pieces):
            found.setdefault(name, []).extend(marks)
    changed = [_marked(pattern.piece(name), wished=tuple(m)) for name, m in found.items()]
    return pattern.with_pieces(*changed) if changed else pattern


@once
def _marked(piece: Piece, *, wished: tuple[Mark, ...]) -> Piece:
    """The piece with those of the marks that it does not have yet."""
    new = _without_doubles(wished, [m for m in piece.marks if m.kind is MarkKind.NOTCH])
    return replace(piece, marks=piece.marks + tuple(new)) if new else piece


def _without_doubles(marks: Iterable[Mark], there: Sequence[Mark]) -> list[Mark]:
    kept: list[Mark] = []
    for mark in marks:
        if all(
            abs(mark.at - other.at) > _SAME or mark.edge != other.edge for other in (*there, *kept)
        ):
            kept.append(mark)
    return kept


@once
def _seam_notches(
    seam: Seam, rules: NotchRules, *pieces: Piece
) -> tuple[tuple[str, tuple[Mark, ...]], ...]:
    """The marks of one seam as (piece name, marks); `pieces` are those that take part."""
    a, b = rows_of(Pattern(pieces, (seam,)), seam)
    if min(a.length, b.length) < 1.0:
        return ()
    if _is_ring(a) or _is_ring(b):
        pairs = _ring_pairs(seam, a, b, rules)
    elif seam.ratio != 1 or seam.kind == "gathered":
        pairs = _shares(a, b, rules)
    elif abs(seam.ease) > 0.05:
        pairs = _eased(a, b, rules)
    else:
        pairs = [(d, d) for d in _plain(seam, a, b, rules)]
    found: dict[str, list[Mark]] = {}
    for da, db in pairs:
        count = "2" if _behind(a, b, da, db) else "1"
        for row, distance in ((a, da), (b, db)):
            if distance is None or _at_end(row, distance):
                continue
            stretch, _own, at = row.place(distance)
            mark = Mark(MarkKind.NOTCH, at, count, edge=stretch.edge.label)
            found.setdefault(stretch.piece.name, []).append(mark)
    return tuple((name, tuple(marks)) for name, marks in found.items())


Pair = tuple[float | None, float | None]
"""A place on both rows, as distances from the beginning; None where a row has no mark."""


def _at_end(row: Row, distance: float) -> bool:
    """Whether a place is an end of the row, where the ends themselves are the mark."""
    return not 0.3 < distance < row.length - 0.3


def _is_ring(row: Row) -> bool:
    return any(times > 1 for times in row.times)


def _behind(a: Row, b: Row, da: float | None, db: float | None) -> bool:
    """Whether a place lies behind: a back takes part there and no front."""
    roles = {row.place(d)[0].piece.role for row, d in ((a, da), (b, db)) if d is not None}
    return Role.BACK in roles and Role.FRONT not in roles


def _shares(a: Row, b: Row, rules: NotchRules) -> list[Pair]:
    """Equal parts of both rows, and the joints of each on the other."""
    parts = 8 if max(a.length, b.length) > rules.quarter else 4
    near = rules.joint / b.length
    meets = [d / row.length for row in (a, b) for d in row.joints]
    shares = [k / parts for k in range(1, parts)]
    shares = [s for s in shares if all(abs(s - m) > near for m in meets)]
    pairs: list[Pair] = [(s * a.length, s * b.length) for s in shares]
    return pairs + _joints(a, b, [s * b.length for s in shares])


def _joints(a: Row, b: Row, taken: Sequence[float]) -> list[Pair]:
    """Where one edge follows another on one row, a mark on the other row alone."""
    out: list[Pair] = []
    at_a = [d / a.length for d in a.joints]
    at_b = [d / b.length for d in b.joints]
    for share in at_b:
        if all(abs(share - s) * a.length > 0.5 for s in at_a):
            out.append((share * a.length, None))
    for share in at_a:
        if all(abs(share - s) * b.length > 0.5 for s in at_b):
            out.append((None, share * b.length))
    return [
        pair
        for pair in out
        if all(abs((pair[1] or (pair[0] or 0) * b.length / a.length) - t) > 0.5 for t in taken)
    ]


def _ring_pairs(seam: Seam, a: Row, b: Row, rules: NotchRules) -> list[Pair]:
    """Marks where the edges of the rows occur unequally often in the garment.

    The whole ring is cut into equal parts whose number suits every row, so that each copy of a
    strip and each half piece carries the same marks.
    """
    ta, tb = a.times[0], b.times[0]
    if any(t != ta for t in a.times) or any(t != tb for t in b.times):
        return []
    whole = max(ta * a.length, tb * b.length)
    parts = lcm(8 if whole > 2 * rules.quarter else 4, ta, tb)
    pairs: list[Pair] = [(a.length * ta * k / parts, None) for k in range(1, parts // ta)]
    pairs += [(None, b.length * tb * k / parts) for k in range(1, parts // tb)]
    if ta == 1 and seam.ratio == 1:  # the joints of the half row on the single whole one
        for joint in b.joints:
            pairs += [(joint, None), (a.length - joint, None)]
    return pairs


def _eased(a: Row, b: Row, rules: NotchRules) -> list[Pair]:
    """Marks outside the zone of ease at equal distances from the nearer end."""
    short = min(a.length, b.length)
    reach = short * (1 - rules.ease_zone) / 2
    reach = min(reach, 3.0) if short < rules.shortest else reach
    pairs: list[Pair] = [(reach, reach), (a.length - reach, b.length - reach)]
    return pairs + _joints(a, b, [reach, b.length - reach])


def _plain(seam: Seam, a: Row, b: Row, rules: NotchRules) -> list[float]:
    """Distances at which a plain seam is marked on both rows."""
    size = min(a.length, b.length)
    kinds = {s.edge.kind for row in (a, b) for s in row.stretches}
    curved = bool(kinds & _CURVED)
    if size < (rules.shortest_curved if curved else rules.shortest):
        return _joint_places(a, b, rules)
    if curved:
        return _armhole(a, b, rules)
    places = [d for d in _levels(a) + _levels(b) if rules.clear < d < size - rules.clear]
    places = _apart(places, rules.clear) + _joint_places(a, b, rules)
    places = _apart(sorted(places), rules.clear) or [size / 2]
    return _filled(places, size, rules.widest)


def _armhole(a: Row, b: Row, rules: NotchRules) -> list[float]:
    """On each edge of an armhole, a little below its middle: two fifths from the underarm."""
    joints = _joint_places(a, b, rules)
    out: list[float] = []
    rows = max((a, b), key=lambda row: len(row.joints))
    for stretch in rows.stretches:
        low, high = stretch.edge.start, stretch.edge.end
        down = high if high.imag > low.imag else low
        from_begin = (down == stretch.edge.start) != stretch.backwards
        share = 0.4 if from_begin else 0.6
        out.append(stretch.begin + share * stretch.length)
    return _apart(sorted([*out, *joints]), rules.clear)


def _joint_places(a: Row, b: Row, rules: NotchRules) -> list[float]:
    """Places where the edges of one row meet and those of the other do not."""
    size = min(a.length, b.length)
    one, other = a.joints, b.joints
    lone = [d for d in one if all(abs(d - e) > 0.5 for e in other)]
    lone += [d for d in other if all(abs(d - e) > 0.5 for e in one)]
    return [d for d in lone if rules.clear < d < size - rules.clear]


def _levels(row: Row) -> list[float]:
    """Distances at which the waist or hip level of a piece meets the row."""
    out: list[float] = []
    for stretch in row.stretches:
        for level in stretch.piece.levels:
            for p in (level.points[0], level.points[-1]):
                own = distance_at(stretch.edge.curves, p, 0.1)
                if own is not None:
                    along = stretch.length - own if stretch.backwards else own
                    out.append(stretch.begin + along)
    return out


def _apart(places: Sequence[float], least: float) -> list[float]:
    """The places without those that come too soon after another."""
    out: list[float] = []
    for place in sorted(places):
        if not out or place - out[-1] > least:
            out.append(place)
    return out


def _filled(places: Sequence[float], size: float, widest: float) -> list[float]:
    """More places where two neighbours, or a place and an end, lie too far apart."""
    out: list[float] = []
    before = 0.0
    for place in (*places, size):
        count = ceil((place - before) / widest)
        out += [before + (place - before) * k / count for k in range(1, count)]
        if place < size:
            out.append(place)
        before = place
    return out
