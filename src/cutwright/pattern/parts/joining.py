"""Laying two pieces edge to edge and making them one."""

from __future__ import annotations

from dataclasses import dataclass, replace

from cutwright.errors import StepError
from cutwright.geometry.move import Move
from cutwright.geometry.path import Path, path_length, point_at
from cutwright.geometry.point import unit
from cutwright.messages import N_, Message
from cutwright.pattern.edge import Edge, Ref
from cutwright.pattern.loop import weld
from cutwright.pattern.piece import Level, Piece
from cutwright.pattern.seam import WALKS
from cutwright.pattern.shaping.redraw import edge_place

NEAR = 0.05
"""How far two edges may lie apart when they are laid on each other, cm."""


@dataclass(frozen=True, slots=True)
class Joined:
    """The one piece; `became` tells for every edge of the piece joined on what it is now."""

    piece: Piece
    move: Move
    became: dict[Ref, tuple[Ref, ...]]


def joined_on(piece: Piece, edge: str, other: Piece, other_edge: str) -> Joined:
    """Lay one piece with its edge on the edge of another; the first piece stays and keeps its name.

    Edges of the same name that meet at the ends of the join become one; where a name is there twice
    apart, the one joined on is called by its piece too.

    Parameters
    ----------
    piece : the one that stays
    edge : name of its edge
    other : the one that is moved
    other_edge : name of its edge

    Returns
    -------
    the one piece

    Raises
    ------
    LookupFailed : an edge is not there
    StepError : the edges differ by more than 0.05 cm in length or 0.1 cm in shape, one is in
        several parts, the pieces are the same, or do not occur equally often in the garment
    """
    if piece.name == other.name:
        raise StepError(
            Message(
                "piece-cannot-joined-itself-mirror",
                N_("A piece cannot be joined to itself. Mirror it, or name another one."),
            )
        )
    if piece.times != other.times:
        raise StepError(
            Message(
                "occurs-times-garment-times-they",
                N_(
                    '"{piece}" occurs {one} times in the garment and "{other}" {two} times; they cannot be one piece.'
                ),
                piece=piece.name,
                one=piece.times,
                other=other.name,
                two=other.times,
            )
        )
    mine, theirs = edge_place(piece, edge).edge, edge_place(other, other_edge).edge
    move = _laid_on(piece, mine, other, theirs)
    laid = other.moved(move)
    own = _without(piece, mine)
    added = _without(laid, laid.edge(theirs.label))
    names = _new_names(piece, own, added, other.name)
    darts = _dart_names(piece, other)
    renamed = tuple(
        replace(e, name=(darts if e.taken_up else names).get(e.name, e.name)) for e in added
    )
    edges = _one_name(weld([own, renamed]))
    out = replace(
        piece,
        edges=edges,
        darts=piece.darts + tuple(replace(d, name=darts.get(d.name, d.name)) for d in laid.darts),
        diamonds=piece.diamonds
        + tuple(replace(d, name=darts.get(d.name, d.name)) for d in laid.diamonds),
        marks=piece.marks
        + tuple(
            replace(m, edge=names.get(m.edge, m.edge)) if m.edge else m
            for m in laid.marks
            if m.edge != theirs.name
        ),
        levels=_levels(piece, laid),
    )
    return Joined(out, move, _became(piece, mine, other, theirs, out, move))


def _laid_on(piece: Piece, mine: Edge, other: Piece, theirs: Edge) -> Move:
    a, b = mine.start, mine.end
    c, d = theirs.end, theirs.start
    if abs(mine.length - theirs.length) > WALKS:
        raise StepError(
            Message(
                "cm-long-cm-edges-same",
                N_(
                    'The "{edge}" of "{piece}" is {one:.1f} cm long and the "{other_edge}" of "{other}" {two:.1f} cm; '
                    "only edges of the same length can be joined."
                ),
                edge=mine.name,
                piece=piece.name,
                one=mine.length,
                other_edge=theirs.name,
                other=other.name,
                two=theirs.length,
            )
        )
    turn = unit(b - a) * unit(d - c).conjugate()
    move = Move(turn, (a + b) / 2 - turn * (c + d) / 2)
    gap = _apart(mine.curves, theirs.moved(move).reversed().curves)
    if gap > 2 * NEAR:
        raise StepError(
            Message(
                "shaped-differently-laid-each-other",
                N_(
                    'The "{edge}" of "{piece}" and the "{other_edge}" of "{other}" are shaped differently: laid on each '
                    "other they are {gap:.1f} cm apart. Only edges of one shape can be joined."
                ),
                edge=mine.name,
                piece=piece.name,
                other_edge=theirs.name,
                other=other.name,
                gap=gap,
            )
        )
    return move


def _apart(a: Path, b: Path) -> float:
    one, two = path_length(a), path_length(b)
    return max(abs(point_at(a, one * i / 16) - point_at(b, two * i / 16)) for i in range(17))


def _without(piece: Piece, gone: Edge) -> tuple[Edge, ...]:
    index = piece.edges.index(gone)
    return piece.edges[index + 1 :] + piece.edges[:index]


def _new_names(
    piece: Piece, own: tuple[Edge, ...], added: tuple[Edge, ...], other: str
) -> dict[str, str]:
    """Names of edges joined on that stand elsewhere in the piece already."""
    taken = {e.name for e in own}
    meeting = {x.name for x, y in ((added[0], own[-1]), (added[-1], own[0])) if x.name == y.name}
    out: dict[str, str] = {}
    for name in dict.fromkeys(e.name for e in added if not e.taken_up):
        if name in taken and name not in meeting:
            out[name] = f"{other} {name}"
    return out


def _dart_names(piece: Piece, other: Piece) -> dict[str, str]:
    taken = {d.name for d in piece.darts} | {d.name for d in piece.diamonds}
    names = [d.name for d in other.darts] + [d.name for d in other.diamonds]
    return {name: f"{other.name} {name}" for name in names if name in taken}


def _one_name(edges: tuple[Edge, ...]) -> tuple[Edge, ...]:
    """Number the parts of an edge anew where a label would mean more than one of them."""
    out: list[Edge] = []
    for edge in edges:
        same = [e for e in edges if e.name == edge.name]
        earlier = {e.label for e in out}
        if len(same) > 1 and not edge.taken_up and (not edge.part or edge.label in earlier):
            used = [e.part[0] for e in (*same, *out) if e.name == edge.name and e.part]
            edge = replace(edge, part=(max(used, default=0) + 1,))
        out.append(edge)
    return tuple(out)


def _levels(piece: Piece, laid: Piece) -> tuple[Level, ...]:
    """Levels of one name that meet at the join run through; the others stay as they are."""
    out = list(piece.levels)
    for level in laid.levels:
        mine = next((x for x in out if x.name == level.name), None)
        joined = mine and _run_through(mine, level)
        if mine and joined:
            out[out.index(mine)] = joined
        elif mine is None:
            out.append(level)
    return tuple(out)


def _run_through(a: Level, b: Level) -> Level | None:
    """One level where two meet; the first alone where both lie along the join."""
    ends = {0, -1}
    if all(min(abs(a.points[i] - b.points[j]) for j in ends) < NEAR for i in ends):
        return a
    for p in (a.points, a.points[::-1]):
        for q in (b.points, b.points[::-1]):
            if abs(p[-1] - q[0]) < NEAR:
                return replace(a, points=p + q[1:])
    return None


def _became(
    piece: Piece, mine: Edge, other: Piece, theirs: Edge, out: Piece, move: Move
) -> dict[Ref, tuple[Ref, ...]]:
    """Where every edge of both pieces is now, found by its own first line."""
    became: dict[Ref, tuple[Ref, ...]] = {
        Ref(piece.name, mine.label): (),
        Ref(other.name, theirs.label): (),
    }
    home = {c: e.label for e in out.edges for c in e.curves}
    for edge in piece.edges:
        now = home.get(edge.curves[0])
        if now is not None and now != edge.label:
            became[Ref(piece.name, edge.label)] = (Ref(piece.name, now),)
    for edge in other.edges:
        now = home.get(edge.moved(move).curves[0])
        if now is not None:
            became[Ref(other.name, edge.label)] = (Ref(piece.name, now),)
    return became
