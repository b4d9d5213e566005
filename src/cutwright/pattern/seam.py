"""What is sewn to what."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from math import gcd

from cutwright.pattern.edge import Ref


class SeamKind(StrEnum):
    """How the two rows of a seam lie on each other."""

    PLAIN = "plain"
    GATHERED = "gathered"  # row `a` is drawn up onto row `b`
    EASED = "eased"  # row `a` is held in
    FACING = "facing"  # the second row lies under the first and is turned to the inside
    WAISTBAND = "waistband"  # row `b` is a band
    BINDING = "binding"  # row `a` is a strip that is turned round the edges of `b`


@dataclass(frozen=True, slots=True)
class Side:
    """One edge on one side of a seam; `backwards` when it is sewn against its outline direction."""

    ref: Ref
    backwards: bool = False
    strand: int = 0
    """Where a seam is sewn at two places, the one this edge belongs to; 0: it is sewn at each."""


@dataclass(frozen=True, slots=True)
class Seam:
    """Two rows of edges sewn together.

    Walking `a` and walking `b` start at the same end of the seam. Side `a` is `ratio` times as
    long as `b` (gathered) or longer by `ease` cm (eased in). `made_by` is the id of the
    step that made it, written in once the step is done.
    """

    a: tuple[Side, ...]
    b: tuple[Side, ...]
    ratio: float = 1.0
    ease: float = 0.0
    made_by: str = ""
    kind: SeamKind = SeamKind.PLAIN
    open_ends: int = 0
    """How many of its edges are sewn to nothing: 1 for the joins of strips in a row that does not close."""

    @property
    def refs(self) -> tuple[Ref, ...]:
        """Every edge that takes part, side a first."""
        return tuple(side.ref for side in (*self.a, *self.b))

    @property
    def name(self) -> str:
        """A name for messages: `front: side + back: side`."""
        left = " + ".join(str(s.ref) for s in self.a)
        right = " + ".join(str(s.ref) for s in self.b)
        return f"{left} ~ {right}"


def seam(
    a: tuple[Ref, ...] | Ref,
    b: tuple[Ref, ...] | Ref,
    *,
    ratio: float = 1.0,
    ease: float = 0.0,
    kind: SeamKind = SeamKind.PLAIN,
    same_way: bool = False,
) -> Seam:
    """A seam of edges that lie side by side: walked forwards along `a`, backwards along `b`.

    Two pieces laid edge to edge, right side up, run against each other along the seam. With
    `same_way` both run the same way (a facing under its garment, a piece and its own mirror).
    Give each row in walking order of the seam.

    Parameters
    ----------
    a, b : an edge, or the edges of a row in the walking order of the seam
    ratio : length of `a` for each of `b`; over 1 it is gathered
    ease : how much longer `a` is on purpose, cm; negative: `b` is
    kind : how it is sewn
    same_way : both rows run in the same direction

    Returns
    -------
    the seam, written on no pattern yet
    """
    left = (a,) if isinstance(a, Ref) else a
    right = (b,) if isinstance(b, Ref) else b
    return Seam(
        tuple(Side(r) for r in left),
        tuple(Side(r, backwards=not same_way) for r in right),
        ratio,
        ease,
        kind=kind,
    )


def share_of(times: list[int]) -> list[int]:
    """How often each edge counts when the seam is looked at once: multiplicities over their gcd."""
    common = gcd(*times) if times else 1
    return [t // max(common, 1) for t in times]
