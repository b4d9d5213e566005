"""The whole pattern: pieces, seams, and the memory of names that were used up."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from itertools import islice
from math import gcd
from typing import TypeVar

from cutwright.errors import LookupFailed
from cutwright.memo import memoised
from cutwright.messages import N_, Message, Typed
from cutwright.pattern.edge import Edge, Ref
from cutwright.pattern.piece import Piece
from cutwright.pattern.seam import Seam, share_of
from cutwright.pattern.step_ref import NO_STEP, StepRef

T = TypeVar("T")
Spent = tuple[tuple[str, StepRef], ...]
"""Names that are no longer there, each with the step that used it up."""


@dataclass(frozen=True, slots=True)
class Pattern:
    """Pieces in order and the seams that join them.

    `spent` remembers names that are no longer there as (name, step that used it up).
    """

    pieces: tuple[Piece, ...] = ()
    seams: tuple[Seam, ...] = ()
    spent: Spent = ()

    @property
    def names(self) -> tuple[str, ...]:
        """The names of the pieces in order."""
        return tuple([piece.name for piece in self.pieces])

    @property
    def refs(self) -> frozenset[Ref]:
        """Every edge of every piece by its full label."""
        return frozenset().union(*map(_refs_in, self.pieces))

    def piece(self, name: str) -> Piece:
        """The piece of that name.

        Raises
        ------
        LookupFailed : there is none; the message names what there is, and which step used it up
        """
        for piece in self.pieces:
            if piece.name == name:
                return piece
        missing = Message(
            "no-piece",
            N_('There is no piece "{piece}". There is: {there}.'),
            piece=name,
            there=self.names or Message("nothing-yet", N_("nothing yet")),
        )
        raise LookupFailed(missing.then(self._why_gone(name)))

    def named_edges(self, name: str) -> tuple[Edge, ...]:
        """The edges of a piece, none where there is no such piece; for whoever reads labels and kinds only."""
        return next((piece.edges for piece in self.pieces if piece.name == name), ())

    def ask(self, name: str, question: Callable[[Piece], T]) -> T:
        """What a function says of a piece; who needs no more than that of it asks so.

        Parameters
        ----------
        name : the piece
        question : what is asked of it, a function with a name of its own
        """
        return question(self.piece(name))

    def shares(self, other: Pattern, name: str) -> bool:
        """Whether a piece is the very same paper in another pattern.

        Parameters
        ----------
        other : the other pattern
        name : a piece that is in both
        """
        return self.piece(name) is other.piece(name)

    def _why_gone(self, name: str) -> Message | None:
        for gone, step in self.spent:
            if gone == name:
                text = N_("It was used up by step {number} ({step}).")
                return Message("used-up", text, number=step.number, step=Typed(step.label))
        return None

    def edge_parts(self, ref: Ref) -> tuple[Edge, ...]:
        """All living parts of an edge, in walking order.

        Raises
        ------
        LookupFailed : there is none; the message says which step used it up
        """
        piece = self.piece(ref.piece)
        try:
            return piece.edge_parts(ref.edge)
        except LookupFailed as fault:
            why = self._why_gone(str(ref))
            raise LookupFailed(fault.message.then(why)) from None

    def length(self, ref: Ref) -> float:
        """Sewn length of an edge, all its parts together, cm."""
        piece = self.piece(ref.piece)
        return sum(piece.sewn(edge) for edge in self.edge_parts(ref))

    def times_of(self, name: str) -> int:
        """How often each edge (but the fold) of a piece occurs in the garment."""
        return self.ask(name, _times)

    def times(self, seam: Seam) -> tuple[list[int], ...]:
        """How often each edge of each layer counts when the seam is looked at once."""
        every = iter(share_of([self.times_of(ref.piece) for ref in seam.refs]))
        return tuple(list(islice(every, len(row))) for row in seam.rows)

    def seam_lengths(self, seam: Seam) -> tuple[float, ...]:
        """Length of each layer of a seam looked at once, cm."""
        rows = zip(self.times(seam), seam.rows, strict=True)
        return tuple(
            sum(t * self.length(s.ref) for t, s in zip(times, row, strict=True))
            for times, row in rows
        )

    def how_often(self, seam: Seam) -> int:
        """How often a seam is sewn in the garment: 2 for both sides, 1 for a centre, n or n - 1 joins."""
        every = gcd(*(self.times_of(ref.piece) for ref in seam.refs))
        return max(every // (2 if seam.own_mirror else 1) - seam.open_ends, 1)

    def seams_of(self, ref: Ref) -> tuple[Seam, ...]:
        """The seams an edge takes part in."""
        return tuple(seam for seam in self.seams if ref in seam.refs)

    def with_pieces(self, *changed: Piece) -> Pattern:
        """The pattern with pieces of the same name replaced and new ones added at the end."""
        by_name = {piece.name: piece for piece in changed}
        kept = tuple(by_name.pop(piece.name, piece) for piece in self.pieces)
        return replace(self, pieces=kept + tuple(by_name.values()))

    def without(self, names: Iterable[str]) -> Pattern:
        """The pattern with some pieces taken away and their names remembered."""
        gone = set(names)
        return replace(
            self,
            pieces=tuple(p for p in self.pieces if p.name not in gone),
            spent=self.spent + tuple((name, NO_STEP) for name in sorted(gone)),
        )

    def with_seams(self, *seams: Seam) -> Pattern:
        """The pattern with seams added."""
        return self.sewn(self.seams + seams)

    def sewn(self, seams: tuple[Seam, ...], spent: Spent | None = None) -> Pattern:
        """The pattern with other seams, and other used-up names where they are given.

        Parameters
        ----------
        seams : all its seams
        spent : all its used-up names; those it has where None
        """
        return replace(self, seams=seams, spent=self.spent if spent is None else spent)


def _times(piece: Piece) -> int:
    return piece.times


@memoised
def _refs_in(piece: Piece) -> frozenset[Ref]:
    return frozenset(Ref(piece.name, edge.label) for edge in piece.edges)
