"""Rule 5: turning paper keeps lengths, and area but for what was opened or closed.

Works on one step at a time, from the paper before and after and from what the step says it did.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from math import sin

import numpy as np

from cutwright.checks.chords import gap_to
from cutwright.checks.limits import HOUSE, Limits
from cutwright.checks.tally import Outcome, Tally, together
from cutwright.geometry.curve import Curve
from cutwright.geometry.path import path_length
from cutwright.geometry.point import Point, angle_between, cross
from cutwright.memo import memoised
from cutwright.messages import N_, Message
from cutwright.pattern.edge import Edge, Ref
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.pattern.result import Result, Severity, Trace, TraceKind
from cutwright.style.replay import Stage

LENGTH = "turning-keeps-length"
AREA = "turning-keeps-area"
WHAT_LENGTH = N_("edges that were only turned: largest change of length")
WHAT_AREA = N_("paper that was turned: largest change of area not accounted for")
_TURNS = frozenset({TraceKind.PIVOT, TraceKind.WEDGE})
_WEDGES = frozenset({TraceKind.WEDGE, TraceKind.FOLDED})
_NEAR, _BOW = 1.0, 0.15
"""An opened gap lies at an edge when it is this near to it after truing: cm, and a share of the gap."""

_AT = 1e-4
"""Places so near to each other are one, cm."""

_MOVED = 1e-9
"""Curves whose controls keep all their distances to this were only moved, cm."""


def prove_stages(stages: Iterable[Stage], limits: Limits = HOUSE) -> Outcome:
    """Rule 5 over all steps of a style that turned or cut paper.

    A stage that was proved before by the house's limits is not proved again.
    """
    lengths = Tally(LENGTH, WHAT_LENGTH, limits.turning, "cm")
    areas = Tally(AREA, WHAT_AREA, None, "cm2")
    for stage in stages:
        outcome = (
            _by_house(stage.done_as or stage) if limits is HOUSE else prove_step(stage, limits)
        )
        for tally, row in zip((lengths, areas), outcome.checked, strict=True):
            tally.add(row)
        lengths.findings += outcome.findings
    return together([lengths.outcome(), areas.outcome()])


def prove_step(stage: Stage, limits: Limits = HOUSE) -> Outcome:
    """Rule 5 for one step."""
    lengths = Tally(LENGTH, WHAT_LENGTH, limits.turning, "cm")
    areas = Tally(AREA, WHAT_AREA, None, "cm2")
    prove_result(stage.before, stage.result, stage.step.label, limits, lengths, areas)
    return together([lengths.outcome(), areas.outcome()])


@memoised
def _by_house(stage: Stage) -> Outcome:
    return prove_step(stage)


def prove_result(
    before: Pattern, result: Result, step: str, limits: Limits, lengths: Tally, areas: Tally
) -> None:
    """Look at what one step did, if it turned paper or cut a piece apart; others are left alone."""
    kinds = {trace.kind for trace in result.traces}
    parted = TraceKind.CUT in kinds and _names(before) != _names(result.pattern)
    if TraceKind.ADDED in kinds or not (kinds & _TURNS or parted):
        return
    groups = _by_name(
        _groups(_changed(before, result.pattern), _changed(result.pattern, before), result)
    )
    touched = {trace.piece for trace in result.traces}
    trued = 0.0
    for group in groups:
        if group.same:
            continue
        trued += _length(group, before, result, step, limits, lengths)
    trued += sum(path_length(t.path) for t in result.traces if t.kind == TraceKind.TRUED and t.path)
    _area(before, result, step, limits, areas, trued, touched)


def _names(pattern: Pattern) -> set[str]:
    return {piece.name for piece in pattern.pieces}


@dataclass(slots=True)
class _Group:
    """Edges before and the edges they became, with nothing else in either."""

    old: list[tuple[Piece, Edge]] = field(default_factory=list)
    new: list[tuple[Piece, Edge]] = field(default_factory=list)

    @property
    def same(self) -> bool:
        """Whether nothing was touched."""
        return [edge for _p, edge in self.old] == [edge for _p, edge in self.new]

    @property
    def rigid(self) -> bool:
        """Whether one edge became one edge whose curves were only moved, control by control."""
        if len(self.old) != 1 or len(self.new) != 1:
            return False
        a, b = self.old[0][1].curves, self.new[0][1].curves
        return len(a) == len(b) and all(map(_alike, a, b))

    @property
    def name(self) -> str:
        piece, edge = (self.old or self.new)[0]
        return f"{piece.name}: {edge.name}"


def _alike(a: Curve, b: Curve) -> bool:
    p, q = a.controls, b.controls
    if len(p) != len(q):
        return False
    gaps = (abs(abs(p[i] - p[j]) - abs(q[i] - q[j])) for i in range(len(p)) for j in range(i))
    return max(gaps) < _MOVED


def _changed(pattern: Pattern, other: Pattern) -> list[Piece]:
    """The pieces that are not the very same in another pattern."""
    there = {id(piece) for piece in other.pieces}
    return [piece for piece in pattern.pieces if id(piece) not in there]


def _edges(pieces: Sequence[Piece]) -> dict[Ref, tuple[Piece, Edge]]:
    return {Ref(p.name, e.label): (p, e) for p in pieces for e in p.outer_edges}


def _groups(before: Sequence[Piece], after: Sequence[Piece], result: Result) -> list[_Group]:
    """Edges by descent: parts of one name that came from, or went into, the same edges together."""
    old, new = _edges(before), _edges(after)
    became = result.change.became
    heirs = {r: [h for h in became.get(r, (r,)) if h in new] for r in old}
    sources: dict[Ref, list[Ref]] = defaultdict(list)
    for ref, now in heirs.items():
        for heir in now:
            sources[heir].append(ref)
    out: list[_Group] = []
    seen: set[Ref] = set()
    for ref, now in heirs.items():
        if not now or ref in seen:
            continue
        mine = [ref]
        if len(now) > 1 or len(sources[now[0]]) > 1:
            mine, now = _family(ref, heirs, sources)
        seen.update(mine)
        out.append(_Group([old[r] for r in mine], [new[h] for h in now]))
    return out


def _by_name(groups: Sequence[_Group]) -> list[_Group]:
    """The same groups, those of one edge together: a dart moved along it only parts it elsewhere."""
    out: dict[tuple[str, ...], _Group] = {}
    for number, group in enumerate(groups):
        names = {(piece.name, edge.name) for piece, edge in (*group.old, *group.new)}
        alone = group.same or group.rigid or len(names) > 1
        key = (str(number),) if alone else next(iter(names))
        known = out.setdefault(key, _Group())
        known.old += group.old
        known.new += group.new
    return list(out.values())


def _family(
    ref: Ref, heirs: dict[Ref, list[Ref]], sources: dict[Ref, list[Ref]]
) -> tuple[list[Ref], list[Ref]]:
    """All edges that hang together with one through common heirs."""
    mine, now, queue = {ref: None}, dict[Ref, None](), [ref]
    while queue:
        for heir in heirs[queue.pop()]:
            now[heir] = None
            for other in sources[heir]:
                if other not in mine:
                    mine[other] = None
                    queue.append(other)
    return list(mine), list(now)


def _length(
    group: _Group, before: Pattern, result: Result, step: str, limits: Limits, tally: Tally
) -> float:
    """Compare a group's length; returns how much of it was drawn anew, cm."""
    if group.rigid:
        tally.see(0.0, f"{step}: {group.name}")
        return 0.0
    was = sum(edge.length for _p, edge in group.old)
    now = sum(edge.length for _p, edge in group.new)
    opened = _opened_at(group, result.traces)
    turned = any(
        trace.kind in (TraceKind.WEDGE, TraceKind.CLOSED, TraceKind.FOLDED)
        for trace in result.traces
    )
    anew = turned and not _shape(group.old).issuperset(_shape(group.new))
    off = abs(now - was - opened)
    drawn = 0.0 if _sewn(group, before) else 0.01 * was
    if opened:
        arcs = _arcs(group, result.traces)
        limit = max(limits.walk, 0.1 + 0.02 * abs(opened) + drawn + arcs)
    elif anew:
        limit = max(limits.walk, drawn)
    else:
        limit = limits.turning
        tally.see(off, f"{step}: {group.name}")
    if off > limit + 1e-9:
        text = Message(
            "edge-cm-now-cm-cm",
            N_(
                "This edge was {was:.2f} cm and is now {now:.2f} cm, of which {opened:.2f} cm were "
                "opened; {off:.2f} cm are not accounted for, {limit:.2f} cm is allowed."
            ),
            was=was,
            now=now,
            opened=opened,
            off=off,
            limit=limit,
        )
        at = group.new[0][1].start if group.new else None
        tally.find(Severity.FAULT, f"{step}: {group.name}", text, off, at)
    return now if opened or anew else 0.0


def _shape(edges: Sequence[tuple[Piece, Edge]]) -> set[tuple[float, ...]]:
    """Each curve by the distances between its points, which no turn changes."""
    return {
        tuple(round(abs(q - p), 6) for p, q in pairwise((*curve.controls, curve.start)))
        for _p, edge in edges
        for curve in edge.curves
    }


def _sewn(group: _Group, before: Pattern) -> bool:
    names = {Ref(piece.name, edge.name) for piece, edge in group.old}
    return any(ref in names for seam in before.seams for ref in seam.refs)


def _opened_at(group: _Group, traces: Sequence[Trace]) -> float:
    """How much wedges opened an edge: a side of a wedge whose ends both lie at that edge.

    What was folded out of the paper before counts against it.
    """
    total = 0.0
    for trace in traces:
        if trace.kind not in _WEDGES:
            continue
        sign, edges = (1, group.new) if trace.kind == TraceKind.WEDGE else (-1, group.old)
        for a, b in _gap_sides(trace.points):
            if abs(b - a) > 1e-6 and _lies_at(edges, trace.piece, a, b):
                total += sign * abs(b - a)
    return total


def _arcs(group: _Group, traces: Sequence[Trace]) -> float:
    """How much longer the round edges are than the straight mouths of the wedges that opened there."""
    total = 0.0
    for trace in (t for t in traces if t.kind == TraceKind.WEDGE):
        half = abs(_opening(trace.points)) / 2
        for a, b in _gap_sides(trace.points):
            if half > 1e-6 and abs(b - a) > 1e-6 and _lies_at(group.new, trace.piece, a, b):
                total += abs(b - a) * (half / sin(half) - 1)
    return total


def _opening(ring: Sequence[Point]) -> float:
    """The angle of a wedge between its flanks, radians; of four points the flanks are 0-1 and 3-2."""
    flanks = (ring[1] - ring[0], ring[2] - ring[-1 if len(ring) == 4 else 0])
    return angle_between(*flanks) if all(abs(f) > 1e-6 for f in flanks) else 0.0


def _gap_sides(ring: Sequence[Point]) -> list[tuple[Point, Point]]:
    """The sides of an opened wedge that lie on edges; of four, the flanks of the slash are two."""
    sides = list(zip(ring, (*ring[1:], *ring[:1]), strict=True))
    return [sides[1], sides[3]] if len(sides) == 4 else sides


def _lies_at(edges: Sequence[tuple[Piece, Edge]], piece: str, a: Point, b: Point) -> bool:
    near = max(_NEAR, _BOW * abs(b - a))
    places = (a, (a + b) / 2, b)
    return any(
        holder.name == piece and _in_reach(edge, places, near) and not _is_mouth(holder, a, b)
        for holder, edge in edges
    )


def _is_mouth(piece: Piece, a: Point, b: Point) -> bool:
    """Whether two places are the ends of a dart's mouth, which is open and adds to no edge."""
    return any(
        abs(first - p) < _AT and abs(last - q) < _AT
        for first, last in map(piece.mouth, piece.darts)
        for p, q in ((a, b), (b, a))
    )


def _in_reach(edge: Edge, places: Sequence[Point], near: float) -> bool:
    """Whether places lie near an edge; the box of its controls is asked first."""
    controls = [c for curve in edge.curves for c in curve.controls]
    xs, ys = [c.real for c in controls], [c.imag for c in controls]
    left, right, top, bottom = min(xs) - near, max(xs) + near, min(ys) - near, max(ys) + near
    if not all(left < p.real < right and top < p.imag < bottom for p in places):
        return False
    return gap_to(edge, places) < near


def _area(
    before: Pattern,
    result: Result,
    step: str,
    limits: Limits,
    tally: Tally,
    trued: float,
    touched: set[str],
) -> None:
    """Hold the paper after against the paper before, with darts counted as if they were paper."""
    old = {p.name: p for p in before.pieces}
    new = {p.name: p for p in result.pattern.pieces}
    changed = [n for n in {**old, **new} if old.get(n) is not new.get(n)]
    if not changed:
        return
    was = sum(_with_darts(old[n]) for n in changed if n in old)
    now = sum(_with_darts(new[n]) for n in changed if n in new)
    opened = _told(result.traces, TraceKind.WEDGE)
    closed = _told(result.traces, TraceKind.CLOSED) + _told(result.traces, TraceKind.FOLDED)
    told = [_signed_area(t.points) for t in result.traces if t.kind == TraceKind.TRUED and t.points]
    off = abs(now - was - opened + closed - sum(told))
    where = f"{step}: {', '.join(sorted(touched & set(changed)) or changed)}"
    limit = 0.05 + (limits.ledger if told else limits.sliver) * trued
    tally.see(off, where)
    if off > limit:
        text = Message(
            "paper-cm-cm-darts-counted",
            N_(
                "The paper was {was:.1f} cm² and is {now:.1f} cm² (darts counted in); {opened:.1f} cm² "
                "were opened, {closed:.1f} cm² closed and {trued:.1f} cm² trued, so {off:.1f} cm² are "
                "not accounted for; {limit:.1f} cm² is allowed."
            ),
            was=was,
            now=now,
            opened=opened,
            closed=closed,
            trued=sum(told),
            off=off,
            limit=limit,
        )
        tally.find(Severity.FAULT, where, text, off)
    if abs(sum(told)) > 0.05 + limits.sliver * trued:
        text = Message(
            "truing-gave-took-cm-paper",
            N_(
                "Truing added or removed {given:.1f} cm² of paper along {trued:.0f} cm of edge; at most "
                "{limit:.1f} cm² is usual."
            ),
            given=abs(sum(told)),
            trued=trued,
            limit=0.05 + limits.sliver * trued,
        )
        tally.find(Severity.WARNING, where, text, abs(sum(told)))


def _told(traces: Sequence[Trace], kind: TraceKind) -> float:
    return sum(abs(_signed_area(trace.points)) for trace in traces if trace.kind == kind)


@memoised
def _with_darts(piece: Piece) -> float:
    """Area of a piece with the cloth that its darts take up, cm2."""
    total = piece.area
    for dart in piece.darts:
        legs = [edge for edge in piece.edges if edge.name == dart.name]
        if len(legs) >= 2:
            total += abs(_signed_area((legs[0].start, dart.tip, legs[-1].end)))
    return total


def _signed_area(ring: Sequence[Point]) -> float:
    """Area of a ring, cm2; positive where it runs clockwise to the eye."""
    if len(ring) < 8:
        return sum(cross(p, q) for p, q in zip(ring, (*ring[1:], *ring[:1]), strict=True)) / 2
    points = np.array(ring)
    return float((points.conj() * np.append(points[1:], points[:1])).imag.sum()) / 2
