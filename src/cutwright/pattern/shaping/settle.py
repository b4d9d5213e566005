"""After an outline was redrawn: levels end on it again, darts stay inside, stray marks are gone."""

from __future__ import annotations

from dataclasses import replace

from cutwright.errors import StepError
from cutwright.geometry.crossing import line_parameters
from cutwright.geometry.curve import Curve, Line
from cutwright.geometry.outline import contains
from cutwright.geometry.path import Path, passes_within
from cutwright.geometry.point import Point, dot, unit
from cutwright.messages import N_, Message
from cutwright.pattern.mark import MarkKind
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Level, Mark, Piece

_ON = 1e-6
_INSIDE = 0.05


def settled(piece: Piece, doing: str, redrawn: str) -> Piece:
    """The piece with its levels ending on the outline and the marks that were cut away left out.

    A level that now ends on the redrawn edge from beyond it is dropped by `lost_levels`.

    Parameters
    ----------
    piece : the paper after its outline was redrawn
    doing : what the step does, to begin the message with
    redrawn : label of the edge that was redrawn; the points and corners marked on it are left out

    Returns
    -------
    the piece with its levels and marks as they can stay

    Raises
    ------
    StepError : a two-point dart would stick out of the paper
    """
    _refuse_bare_dart(piece, doing)
    return replace(
        piece,
        levels=tuple(
            fitted for level in piece.levels if (fitted := fitted_level(mouths_shut(piece), level))
        ),
        marks=tuple(m for m in piece.marks if _on_paper(piece, m, redrawn)),
    )


def _refuse_bare_dart(piece: Piece, doing: str) -> None:
    outline = piece.outline
    points = [(d.name, p) for d in piece.diamonds for p in (d.top, d.bottom, d.near, d.far)]
    for name, p in points:
        if not contains(outline, p):
            raise StepError(
                Message(
                    "would-stick-out-paper-shorten",
                    N_(
                        '{doing}: the "{dart}" of "{piece}" would stick out of the paper. Shorten the dart or move '
                        "it first, or ask for less."
                    ),
                    doing=doing,
                    dart=name,
                    piece=piece.name,
                )
            )


def mouths_shut(piece: Piece) -> Path:
    """The outline with a straight line over every dart mouth, as a girth line passes over it."""
    out: list[Curve] = []
    for edge in piece.edges:
        if not edge.taken_up:
            out.extend(edge.curves)
        elif edge.part[:1] == (1,):
            out.append(Line(edge.start, piece.edge(f"{edge.name}.2").end))
    return tuple(out)


def _on_paper(piece: Piece, mark: Mark, redrawn: str) -> bool:
    if mark.edge == redrawn and mark.kind in (MarkKind.POINT, MarkKind.CORNER):
        return False
    outline = piece.outline
    places = [mark.at] if mark.to is None else [mark.at, mark.to]
    return all(contains(outline, p) or passes_within(outline, p, _INSIDE) for p in places)


def fitted_level(outline: Path, level: Level) -> Level | None:
    """A level with both ends brought to the outline along their own line; None if nothing is left.

    Parameters
    ----------
    outline : a closed chain, dart mouths shut, cm
    level : as it was

    Returns
    -------
    the level after; None if nothing is left
    """
    points = list(level.points)
    for _i in range(2):
        points.reverse()
        while len(points) > 1:
            end = _end_on(outline, points[-2], points[-1])
            if end is not None:
                points[-1] = end
                break
            points.pop()
    return replace(level, points=tuple(points)) if len(points) > 1 else None


def _end_on(outline: Path, inner: Point, end: Point) -> Point | None:
    """Where the line from the last but one place through the end meets the outline near the end."""
    if passes_within(outline, end, _ON):
        return end
    along = unit(end - inner)
    found: list[Point] = []
    for curve in outline:
        found += [curve.at(t) for t in line_parameters(curve, inner, along)]
    ahead = [p for p in found if dot(along, p - inner) > 1e-6]
    if not ahead:
        return None
    first = min(ahead, key=lambda p: dot(along, p - inner))
    return first if contains(outline, inner + (first - inner) * 0.5) else None


def lost_levels(before: Piece, after: Piece, edge: str) -> frozenset[str]:
    """Levels that the redrawn edge took away or bites into, so that they go round no more.

    Parameters
    ----------
    before, after : the piece before and after
    edge : name of the edge that was redrawn

    Returns
    -------
    names of levels

    Raises
    ------
    LookupFailed : the piece after has no such edge
    """
    lost = {level.name for level in before.levels} - {level.name for level in after.levels}
    path = tuple(c for e in after.edge_parts(edge) for c in e.curves)
    for level in after.levels:
        if any(passes_within(path, p, _ON) for p in (level.points[0], level.points[-1])):
            lost.add(level.name)
    return frozenset(lost)


def without_levels(pattern: Pattern, names: frozenset[str], pieces: tuple[str, ...]) -> Pattern:
    """The pattern with some girth lines taken off some pieces.

    Parameters
    ----------
    pattern : the paper before
    names : of the levels
    pieces : names of the pieces

    Returns
    -------
    the pattern after
    """
    if not names:
        return pattern
    return pattern.with_pieces(
        *(
            replace(p, levels=tuple(x for x in p.levels if x.name not in names))
            for p in [pattern.piece(name) for name in pattern.names if name in pieces]
        )
    )
