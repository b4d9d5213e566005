"""The circle skirt: parts of a ring whose inner edge is the waist."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, degrees, pi

from cutwright.blocks.frame import heading
from cutwright.blocks.laying import HalfDraft, draft_grain, laid_half
from cutwright.errors import DraftError
from cutwright.geometry.curve import Line
from cutwright.geometry.draw import circle_arc
from cutwright.geometry.outline import flattened
from cutwright.messages import N_, Message
from cutwright.pattern.edge import Edge, EdgeKind
from cutwright.pattern.piece import Cut, Level, Piece
from cutwright.pattern.role import Role

WIDEST = 330.0
"""A piece that is opened out spans no more than this, degrees: its seams need some cloth."""

_FINE = 0.0002  # cm between the hip level and its chords
_SIDE = ("side", EdgeKind.SIDE)
_CENTRE_BACK = ("centre back", EdgeKind.CENTRE)


@dataclass(frozen=True, slots=True)
class CircleRing:
    """The ring that a circle skirt is cut from; lengths in cm.

    radius = waist / (2 pi fraction); hem = waist + 2 pi fraction x length.
    """

    waist: float
    length: float
    fraction: float

    @property
    def radius(self) -> float:
        """Radius of the waist edge.

        Returns
        -------
        cm
        """
        return self.waist / (2 * pi * self.fraction)

    @property
    def outer(self) -> float:
        """Radius of the hem.

        Returns
        -------
        cm
        """
        return self.radius + self.length

    @property
    def angle(self) -> float:
        """The whole angle of the skirt, radians (over a full turn for more than one circle)."""
        return 2 * pi * self.fraction

    def girth(self, below: float) -> float:
        """The skirt's girth at a depth below the waist.

        Parameters
        ----------
        below : depth below the waist, cm

        Returns
        -------
        cm, all round
        """
        return self.angle * (self.radius + below)


def draft_circle_skirt(
    ring: CircleRing, parts: int, back_seam: bool, hip_depth: float
) -> list[Piece]:
    """The pieces: one on the fold, front and back, or several equal panels.

    Every piece has its middle on the straight grain, so the bias lies alike on both its sides.
    Refuses a piece that would span more than 330 degrees.

    Parameters
    ----------
    ring : waist with ease, length and part of a circle
    parts : how many pieces go round, at least one
    back_seam : the back of two parts has a seam
    hip_depth : from waist to hip, cm; for the level

    Returns
    -------
    one piece for each shape that is cut

    Raises
    ------
    DraftError : a piece would span more than 330 degrees
    """
    span = degrees(ring.angle) / parts
    if span > WIDEST:
        raise DraftError(
            Message(
                "skirt-circle-parts-makes-pieces",
                N_(
                    "A skirt of {fraction:g} of a circle in {parts} parts makes pieces of {span:.0f} "
                    "degrees, which leave no cloth for the seams; cut it in at least {least} parts."
                ),
                fraction=ring.fraction,
                parts=parts,
                span=span,
                least=ceil(degrees(ring.angle) / WIDEST),
            )
        )
    if parts == 1:
        return [_half(ring, "skirt", Role.FRONT, ring.angle / 2, _CENTRE_BACK, hip_depth)]
    if parts == 2:
        front = _half(ring, "skirt front", Role.FRONT, ring.angle / 4, _SIDE, hip_depth)
        back = _half(
            ring, "skirt back", Role.BACK, ring.angle / 4, _SIDE, hip_depth, fold=not back_seam
        )
        return [front, back]
    return [_panel(ring, parts, hip_depth)]


def _half(
    ring: CircleRing,
    name: str,
    about: Role,
    turn: float,
    far: tuple[str, EdgeKind],
    hip_depth: float,
    fold: bool = True,
) -> Piece:
    """Half a piece: its middle upright at the centre; `far` names its other edge and tells its kind."""
    name_far, kind_far = far
    middle = complex(0, -ring.radius)
    waist = circle_arc(middle, 0j, -turn)
    hem = circle_arc(middle, middle + ring.outer * heading(turn), turn)
    edges = (
        Edge("waist", waist, EdgeKind.WAIST),
        Edge(name_far, (Line(waist[-1].end, hem[0].start),), kind_far),
        Edge("hem", hem, EdgeKind.HEM),
        Edge(
            f"centre {about}", (Line(hem[-1].end, 0j),), EdgeKind.FOLD if fold else EdgeKind.CENTRE
        ),
    )
    levels = _hip(ring, 0.0, turn, hip_depth)
    half = HalfDraft(name, about, edges, levels=levels, on_fold=fold)
    return laid_half(half, draft_grain(0.25 * min(turn, 1.0) * ring.radius + 1, 0, ring.length))


def _panel(ring: CircleRing, parts: int, hip_depth: float) -> Piece:
    """One of several equal panels, whole, its middle upright."""
    turn = ring.angle / parts / 2
    middle = complex(0, -ring.radius)
    waist = circle_arc(middle, middle + ring.radius * heading(-turn), -2 * turn)
    hem = circle_arc(middle, middle + ring.outer * heading(turn), 2 * turn)
    edges = (
        Edge("waist", waist, EdgeKind.WAIST),
        Edge("right side", (Line(waist[-1].end, hem[0].start),), EdgeKind.SIDE),
        Edge("hem", hem, EdgeKind.HEM),
        Edge("left side", (Line(hem[-1].end, waist[0].start),), EdgeKind.SIDE),
    )
    return Piece(
        "skirt panel",
        edges,
        draft_grain(0.0, 0.0, ring.length),
        Cut(parts),
        levels=_hip(ring, -turn, turn, hip_depth),
        role=Role.PANEL,
    )


def _hip(ring: CircleRing, start: float, end: float, depth: float) -> tuple[Level, ...]:
    """The hip level, curved like the waist; none on a skirt that ends above it."""
    if depth >= ring.length:
        return ()
    middle = complex(0, -ring.radius)
    path = circle_arc(middle, middle + (ring.radius + depth) * heading(start), start - end)
    return (Level("hip", tuple(flattened(path, _FINE))),)
