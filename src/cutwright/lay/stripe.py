"""Stripes and checks: at which place of the repeat each piece must lie, so that seams match."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from cutwright.errors import LayError
from cutwright.lay.cloth import ALONG, Cloth, Match
from cutwright.lay.piece import LayPiece
from cutwright.messages import N_, Message

Axis = Literal["along", "across"]
Phases = Mapping[str, float]
_SAME = 0.05


@dataclass(frozen=True, slots=True)
class Lattice:
    """Where the origin of each piece must lie in the repeat (cm), lying plain, by piece name.

    A mirrored or turned piece takes the negative of it on the axis that is reversed, because the
    repeat looks the same both ways. Pieces not named are free.
    """

    along: Phases
    across: Phases


def lattice(pieces: Sequence[LayPiece], cloth: Cloth, matches: Iterable[Match]) -> Lattice:
    """The places of all pieces in the repeat, from the points that must match.

    A piece on a lengthwise fold has its place across given by the fold; what must match it
    follows. `LayError` if two matches contradict each other.
    """
    all_matches = [*cloth.matches, *matches]
    named = {piece.name: piece for piece in pieces}
    along = _phases("along", cloth.repeat_along, all_matches, named, {})
    folded = {
        piece.name: -aligned(piece, piece.fold[0]).imag
        for piece in pieces
        if piece.fold is not None and cloth.fold in ALONG
    }
    across = _phases("across", cloth.repeat_across, all_matches, named, folded)
    return Lattice(along, across)


def aligned(piece: LayPiece, z: complex) -> complex:
    """A point of the piece with its grain (or its fold edge) turned to run along the cloth."""
    return z / cloth_direction(piece)


def cloth_direction(piece: LayPiece) -> complex:
    """The unit vector of the piece that runs along the cloth: its fold edge, else its grain."""
    grain = piece.grain if piece.grain is not None else 1 + 0j
    if piece.fold is not None:
        along = piece.fold[1] - piece.fold[0]
        if (along / grain).real < 0:
            along = -along
        return along / abs(along)
    return grain / abs(grain)


def middle(cloth: Cloth, height: float) -> float:
    """Where (y, cm) the middle of the cloth lies, along which a line of the repeat runs."""
    return 0.0 if height < 0.75 * cloth.usable else cloth.usable / 2


def off_by(value: float, repeat: float) -> float:
    """How far a length is from a whole number of repeats, either way."""
    return abs((value + repeat / 2) % repeat - repeat / 2)


def _phases(
    axis: Axis,
    repeat: float | None,
    matches: Sequence[Match],
    named: Mapping[str, LayPiece],
    anchored: Phases,
) -> Phases:
    """Spread known places through the matches; a group that nothing ties lies on the line."""
    if repeat is None:
        return {}
    groups = [(m.at, _points(m, named, axis)) for m in matches if getattr(m, axis)]
    found: dict[str, float] = dict(anchored)
    waiting = [(at, points) for at, points in groups if points]
    while waiting:
        ready = next(
            (g for g in waiting if g[0] is not None or any(name in found for name, _at in g[1])),
            waiting[0],
        )
        waiting.remove(ready)
        at, points = ready
        known = next((found[name] + place for name, place in points if name in found), 0.0)
        target = known if at is None else at
        for name, place in points:
            origin = (target - place) % repeat
            if off_by(origin - found.setdefault(name, origin), repeat) > _SAME:
                _contradiction(name, axis, off_by(origin - found[name], repeat), repeat)
    touched = {name for _at, points in groups for name, _place in points}
    return {name: origin % repeat for name, origin in found.items() if name in touched}


def _points(match: Match, named: Mapping[str, LayPiece], axis: Axis) -> list[tuple[str, float]]:
    """The pieces a match speaks of that are in this cloth, with the place of the point on an axis."""
    points = []
    for text in match.points:
        name, _colon, mark = (part.strip() for part in text.rpartition(":"))
        if name not in named:
            continue
        piece = named[name]
        if mark not in piece.marks:
            raise LayError(
                Message(
                    "no-mark-match-repeat",
                    N_("“{piece}” has no mark “{mark}” to match the repeat at; it has {marks}."),
                    piece=name,
                    mark=mark,
                    marks=", ".join(sorted(piece.marks)) or Message("none", N_("none")),
                )
            )
        z = aligned(piece, piece.marks[mark])
        points.append((name, z.real if axis == "along" else z.imag))
    return points


def _contradiction(name: str, axis: Axis, off: float, repeat: float) -> None:
    way = N_("along the cloth") if axis == "along" else N_("across the cloth")
    raise LayError(
        Message(
            "cannot-match-repeat-all-points",
            N_(
                "“{piece}” cannot match the repeat {way} at all the points asked for: they are "
                "{off:.1f} cm out of step in a repeat of {repeat:g} cm. Choose fewer points."
            ),
            piece=name,
            way=way,
            off=off,
            repeat=repeat,
        )
    )
