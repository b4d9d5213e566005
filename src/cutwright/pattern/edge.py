"""An edge of a piece: a named stretch of the stitch line."""

from __future__ import annotations

from dataclasses import field
from enum import StrEnum
from functools import lru_cache

from cutwright.frozen import frozen, remember
from cutwright.geometry.curve import Curve
from cutwright.geometry.move import Move
from cutwright.geometry.path import Path, moved_path, path_length, reversed_path
from cutwright.geometry.point import Point
from cutwright.messages import N_, Message
from cutwright.pattern.role import BodySide


class EdgeKind(StrEnum):
    """What an edge is for; the default seam allowance and the marks follow from it."""

    SIDE = "side"
    SHOULDER = "shoulder"
    WAIST = "waist"
    CENTRE = "centre"  # a centre that is a seam
    FOLD = "fold"  # lies on the fold of the cloth
    NECKLINE = "neckline"
    ARMHOLE = "armhole"
    HEM = "hem"
    LEG = "dart leg"
    SEAM = "seam"  # any other seam, such as one made by cutting apart
    GATHERED = "gathered"  # the edge of a flounce that is drawn up
    FREE = "free"  # finished by turning or binding, sewn to nothing


@frozen
class Edge:
    """A named stretch of outline.

    Parameters
    ----------
    name : in cutter's words, unique in the piece
    curves : the stretch of the stitch line, walked clockwise to the eye
    kind : what it is for
    part : () for a whole edge; (1,), (2,), (2, 1) ... for the parts it fell into
    allowance : cm, in place of the default of its kind; None leaves that
    side : on paper that lies across the centre, the half it lies on
    """

    name: str
    curves: Path
    kind: EdgeKind
    part: tuple[int, ...] = ()
    allowance: float | None = None
    side: BodySide = BodySide.BOTH
    label: str = field(default="", init=False, repr=False, compare=False)
    """Name with part: `hem`, `hem.1`, `hem.2.1`."""
    _length: float = field(default=-1.0, init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        """Put the label together."""
        label = ".".join([self.name, *map(str, self.part)]) if self.part else self.name
        remember(self, "label", label)

    @property
    def start(self) -> Point:
        """Where the edge begins, walking the outline clockwise to the eye."""
        return self.curves[0].start

    @property
    def end(self) -> Point:
        """Where the edge ends."""
        return self.curves[-1].end

    @property
    def taken_up(self) -> bool:
        """Whether it vanishes with the cloth that is taken up, as the leg of a dart that is sewn shut."""
        return self.kind is EdgeKind.LEG

    @property
    def at_centre(self) -> bool:
        """Whether it is the centre of a half piece, on the fold or seamed."""
        return self.kind in (EdgeKind.FOLD, EdgeKind.CENTRE)

    @property
    def length(self) -> float:
        """Length along the stitch line, cm."""
        if self._length < 0:
            remember(self, "_length", path_length(self.curves))
        return self._length

    def with_curves(self, curves: tuple[Curve, ...]) -> Edge:
        """The same edge drawn anew.

        Parameters
        ----------
        curves : the stretch, walked clockwise to the eye; not empty

        Returns
        -------
        an edge of the same name, kind, part, allowance and side
        """
        return Edge(self.name, tuple(curves), self.kind, self.part, self.allowance, self.side)

    def moved(self, move: Move) -> Edge:
        """The edge after a rigid move (a mirror does not turn its direction round)."""
        return self.with_curves(moved_path(self.curves, move))

    def reversed(self) -> Edge:
        """The edge walked the other way."""
        return self.with_curves(reversed_path(self.curves))

    def answers_to(self, label: str) -> bool:
        """Whether a reference such as `hem` or `hem.2` means this edge or one it is part of."""
        if label == self.name:
            return True
        name, part = parse_label(label)
        return name == self.name and self.part[: len(part)] == part


@lru_cache(maxsize=4096)
def parse_label(label: str) -> tuple[str, tuple[int, ...]]:
    """Split `hem.2.1` into its name and part numbers."""
    name, *rest = label.strip().split(".")
    if rest and all(bit.isdigit() for bit in rest):
        return name, tuple(int(bit) for bit in rest)
    return label.strip(), ()


@frozen
class Ref:
    """A reference to an edge of a piece, such as `skirt front: hem`."""

    piece: str
    edge: str

    def __str__(self) -> str:
        return f"{self.piece}: {self.edge}"

    @staticmethod
    def parse(text: str) -> Ref:
        """Read `piece: edge`.

        Raises
        ------
        LookupFailed : there is no colon, or nothing before or after it
        """
        from cutwright.errors import LookupFailed

        piece, colon, edge = text.partition(":")
        if not colon or not piece.strip() or not edge.strip():
            raise LookupFailed(
                Message(
                    "not-name-edge-write-piece",
                    N_(
                        '"{text}" does not name an edge. Write piece and edge like "skirt front: hem".'
                    ),
                    text=text,
                )
            )
        return Ref(piece.strip(), edge.strip())
