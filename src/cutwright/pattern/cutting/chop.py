"""Cutting a piece apart along a line that may run through darts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from cutwright.errors import StepError
from cutwright.geometry.outline import contains
from cutwright.geometry.path import Path, passes_within, reversed_path
from cutwright.geometry.point import Point
from cutwright.messages import N_, Message
from cutwright.pattern.edge import Edge, EdgeKind, Ref
from cutwright.pattern.loop import Edges, Spot, run_between
from cutwright.pattern.piece import Dart, Diamond, Level, Mark, Piece, legs_of


@dataclass(frozen=True, slots=True)
class ChopLine:
    """A line across a piece from one spot of the outline to another.

    `stretches` are the runs of the line between the two-point darts it goes through at their
    widest; `through` are those darts, one fewer. The new edges are called `edge`.
    """

    start: Spot
    end: Spot
    stretches: tuple[Path, ...]
    through: tuple[Diamond, ...]
    edge: str
    kind: EdgeKind


@dataclass(frozen=True, slots=True)
class Chopped:
    """The two pieces and, for each edge of the piece before, where it went."""

    beside_end: Piece  # walks end -> start of the cut line, then the line forwards
    beside_start: Piece
    became: dict[Ref, tuple[Ref, ...]]


def chop(piece: Piece, line: ChopLine, end_name: str, start_name: str) -> Chopped:
    """Cut a piece apart.

    Edges keep their names; the two new edges have the same name in both parts and, where the line
    goes through darts, fall into parts with an edge dart between them.

    Parameters
    ----------
    piece : the paper before
    line : where it is cut
    end_name : of the part that is walked, clockwise, from the line's end round to its start
    start_name : of the part that is walked from the line's start round to its end

    Returns
    -------
    both parts, and what became of each edge

    Raises
    ------
    StepError : the cut leaves less than 1 cm2 on one side, or runs through a two-point dart beside
        its widest
    """
    forward, darts_e = _cut_edges(line, backwards=False)
    back, darts_s = _cut_edges(line, backwards=True)
    loop_e = (*run_between(piece.edges, line.end, line.start), *forward)
    loop_s = (*run_between(piece.edges, line.start, line.end), *back)
    part_e = _furnished(piece, end_name, loop_e, darts_e, line)
    part_s = _furnished(piece, start_name, loop_s, darts_s, line)
    for part in (part_e, part_s):
        if part.area < 1:
            raise StepError(
                Message(
                    "cut-leaves-nothing-side",
                    N_('The cut leaves nothing of "{piece}" on one side.'),
                    piece=piece.name,
                )
            )
    return Chopped(part_e, part_s, _went(piece, line, part_e, part_s))


def _cut_edges(line: ChopLine, backwards: bool) -> tuple[Edges, tuple[Dart, ...]]:
    stretches = (
        [reversed_path(s) for s in reversed(line.stretches)] if backwards else list(line.stretches)
    )
    through = list(reversed(line.through)) if backwards else list(line.through)
    edges: list[Edge] = []
    darts: list[Dart] = []
    for i, path in enumerate(stretches):
        part = (i + 1,) if through else ()
        edges.append(Edge(line.edge, path, line.kind, part))
        if i < len(through):
            diamond = through[i]
            heading = (
                path[-1].end - path[0].start
            ) * 1j  # the paper of this part lies on this side
            middle = (diamond.near + diamond.far) / 2
            tip = max(
                (diamond.top, diamond.bottom),
                key=lambda p: ((p - middle) * heading.conjugate()).real,
            )
            first, last = path[-1].end, stretches[i + 1][0].start
            edges.extend(legs_of(diamond.name, first, tip, last, diamond.side))
            darts.append(Dart(diamond.name, tip, tip, side=diamond.side))
    return tuple(edges), tuple(darts)


def _furnished(
    piece: Piece, name: str, loop: Edges, new_darts: tuple[Dart, ...], line: ChopLine
) -> Piece:
    ring = tuple(c for e in loop for c in e.curves)
    labels = {e.label for e in loop}
    cut = tuple(c for s in line.stretches for c in s)

    grain = _grain_in(piece, ring)
    return replace(
        piece,
        name=name,
        edges=loop,
        darts=(*(d for d in piece.darts if f"{d.name}.1" in labels), *new_darts),
        diamonds=tuple(d for d in piece.diamonds if d not in line.through and _holds(ring, d)),
        marks=tuple(m for m in piece.marks if _mark_inside(ring, m)),
        levels=tuple(
            level
            for level in piece.levels
            if contains(ring, _middle(level)) or _lies_on(level, cut)
        ),
        grain=grain,
    )


def _holds(ring: Path, diamond: Diamond) -> bool:
    middle = (diamond.top + diamond.bottom + diamond.near + diamond.far) / 4
    corners = [
        middle + (p - middle) * 0.98
        for p in (diamond.top, diamond.bottom, diamond.near, diamond.far)
    ]
    held = [contains(ring, p) for p in corners]
    if any(held) and not all(held):
        raise StepError(
            Message(
                "cut-runs-through-beside-widest",
                N_(
                    'The cut runs through the "{dart}" beside its widest. Cut at the waist, where it is widest, '
                    "through its point, or clear of it."
                ),
                dart=diamond.name,
            )
        )
    return all(held)


def _mark_inside(ring: Path, mark: Mark) -> bool:
    at = mark.at if mark.to is None else (mark.at + mark.to) / 2
    return contains(ring, at) or passes_within(ring, at, 1e-6)


def _middle(level: Level) -> Point:
    a, b = max(
        zip(level.points, level.points[1:], strict=False), key=lambda pair: abs(pair[1] - pair[0])
    )
    return (a + b) / 2


def _lies_on(level: Level, cut: Path) -> bool:
    return all(passes_within(cut, p, 1e-3) for p in level.points)


def _grain_in(piece: Piece, ring: Path) -> tuple[Point, Point]:
    """The grain line shifted along itself and shortened so that it lies within a part."""
    along = piece.grain[1] - piece.grain[0]
    points = [c.start for c in ring]
    middle = sum(points) / len(points)
    heights = [((p - middle) * along.conjugate()).real / abs(along) for p in points]
    step = along / abs(along) * (max(heights) - min(heights)) * 0.3
    return middle - step, middle + step


def _went(piece: Piece, line: ChopLine, part_e: Piece, part_s: Piece) -> dict[Ref, tuple[Ref, ...]]:
    """Where every edge went; an edge cut in two is told in its walking order."""
    own_e = {e.label for e in part_e.edges}
    own_s = {e.label for e in part_s.edges}
    out: dict[Ref, tuple[Ref, ...]] = {}
    for index, edge in enumerate(piece.edges):
        in_e = edge.label in own_e and not _is_new(edge, line)
        in_s = edge.label in own_s and not _is_new(edge, line)
        rows: Sequence[Piece]
        if in_e and in_s:
            rows = (part_e, part_s) if index == line.start.index else (part_s, part_e)
        else:
            rows = (part_e,) if in_e else (part_s,)
        out[Ref(piece.name, edge.label)] = tuple(Ref(p.name, edge.label) for p in rows)
    return {ref: now for ref, now in out.items() if now != (ref,)}


def _is_new(edge: Edge, line: ChopLine) -> bool:
    return edge.name == line.edge
