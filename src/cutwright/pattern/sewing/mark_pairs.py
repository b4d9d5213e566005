"""What is said of a mark of a seam: its place on every row, why it is there, what it meets."""

from __future__ import annotations

from dataclasses import dataclass

from cutwright.pattern.edge import Edge
from cutwright.pattern.piece import Piece
from cutwright.pattern.seam import Seam
from cutwright.pattern.sewing.drawn_up import Sewn
from cutwright.pattern.sewing.mark_places import MarkReason


@dataclass(frozen=True, slots=True)
class NotchSpot:
    """A notch on the paper: the edge, how far from its start, and for which copies (all if empty)."""

    piece: Piece
    edge: Edge
    own: float
    copies: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class BalanceMark:
    """A place of a seam on all its rows.

    Parameters
    ----------
    place : why it is marked
    along : where it lies along the seam, cm
    spots : the notch on each row; None where an end, a seam or a fold is the mark
    meets : name of the edge that runs away from another row there
    behind : whether a back takes part and no front
    """

    place: MarkReason
    along: float
    spots: tuple[NotchSpot | None, ...]
    meets: str = ""
    behind: bool = False


@dataclass(frozen=True, slots=True)
class SeamMarks:
    """The marks of a seam where it is sewn once: its rows as they lie in it, and the places that are marked."""

    seam: Seam
    rows: tuple[Sewn, ...]
    balance: tuple[BalanceMark, ...]
