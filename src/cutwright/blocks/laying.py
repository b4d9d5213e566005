"""From a half drawn from centre to side to a piece of paper with named edges."""

from __future__ import annotations

from dataclasses import dataclass, replace

from cutwright.geometry.move import Move
from cutwright.geometry.point import Point
from cutwright.pattern.edge import Edge
from cutwright.pattern.piece import Cut, Dart, Diamond, Level, Mark, Piece
from cutwright.pattern.role import Role

MIRROR = Move(turn=-1 + 0j, mirrored=True)
"""Carries u (towards the side) to the front's x: the centre stays, the side goes to the left."""


@dataclass(frozen=True, slots=True)
class HalfDraft:
    """A half in its frame: edges clockwise to the eye with the side to the right."""

    name: str
    about: Role
    edges: tuple[Edge, ...]
    darts: tuple[Dart, ...] = ()
    diamonds: tuple[Diamond, ...] = ()
    levels: tuple[Level, ...] = ()
    marks: tuple[Mark, ...] = ()
    on_fold: bool = False


def laid_half(half: HalfDraft, grain: tuple[Point, Point]) -> Piece:
    """The half as a piece: a front mirrored into place, the parts of broken edges numbered.

    Parameters
    ----------
    half : drawn from centre to side
    grain : its two ends, cm
    """
    piece = Piece(
        half.name,
        half.edges,
        grain,
        Cut(1) if half.on_fold else Cut(2, mirrored=True),
        half.darts,
        half.diamonds,
        half.marks,
        half.levels,
        half.about,
    )
    if half.about is Role.FRONT:
        piece = piece.moved(MIRROR)
    return replace(piece, edges=_numbered(piece.edges))


def _numbered(edges: tuple[Edge, ...]) -> tuple[Edge, ...]:
    """Edges that a dart breaks get the numbers of their parts in the order of the outline."""
    names = [e.name for e in edges if not e.taken_up]
    seen: dict[str, int] = {}
    out: list[Edge] = []
    for edge in edges:
        if edge.taken_up or names.count(edge.name) < 2:
            out.append(edge)
            continue
        seen[edge.name] = seen.get(edge.name, 0) + 1
        out.append(replace(edge, part=(seen[edge.name],)))
    return tuple(out)


def draft_grain(u: float, top: float, bottom: float) -> tuple[Point, Point]:
    """An upright grain line between two levels, a little inside them.

    Parameters
    ----------
    u : distance from the centre, cm
    top : y of the upper level, cm
    bottom : y of the lower level, cm

    Returns
    -------
    its two ends, cm
    """
    inside = 0.12 * (bottom - top)
    return complex(u, top + inside), complex(u, bottom - inside)
