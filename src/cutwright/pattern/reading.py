"""What a step reads of the paper it is given, written down while it works."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from typing import Self, TypeVar

from cutwright.frozen import remember
from cutwright.memo import memoised
from cutwright.pattern.edge import Edge, EdgeKind, Ref
from cutwright.pattern.pattern import Pattern, Spent
from cutwright.pattern.piece import Piece
from cutwright.pattern.seam import Seam

T = TypeVar("T")


@dataclass(slots=True)
class Reads:
    """What was read of a pattern: pieces looked at, lengths and other questions asked for.

    The names of pieces and edges, the kinds of edges, the seams and the used-up names always count as read.

    Parameters
    ----------
    given : the paper before the step
    pieces : those of its pieces that were looked at, by name
    lengths : sewn lengths of its edges that were asked for, cm
    asked : what was asked of its pieces, by their names and the question, and what was answered
    """

    given: Pattern
    pieces: dict[str, Piece] = field(default_factory=dict)
    lengths: dict[Ref, float] = field(default_factory=dict)
    asked: dict[tuple[str, Callable[[Piece], object]], object] = field(default_factory=dict)
    _papers: frozenset[int] = frozenset()

    def __post_init__(self) -> None:
        """Know the given paper by its identity."""
        self._papers = frozenset(map(id, self.given.pieces))

    def gave(self, piece: Piece) -> bool:
        """Whether a piece is of the given paper, and not drawn by the step."""
        return id(piece) in self._papers

    def look(self, piece: Piece) -> None:
        """Write down that a piece was looked at, unless the step drew it."""
        if id(piece) in self._papers:
            self.pieces[piece.name] = piece

    def hold(self, now: Pattern) -> bool:
        """Whether other paper would have been read just the same, to the last bit."""
        was = self.given
        return now is was or (
            now.names == was.names
            and now.seams == was.seams
            and now.spent == was.spent
            and all(map(_named_alike, now.pieces, was.pieces))
            and all(_same(now.piece(name), piece) for name, piece in self.pieces.items())
            and all(now.length(ref) == cm for ref, cm in self.lengths.items())
            and all(asks(now.piece(name)) == said for (name, asks), said in self.asked.items())
        )


def _same(a: Piece, b: Piece) -> bool:
    return a is b or a == b


def _named_alike(a: Piece, b: Piece) -> bool:
    return a is b or _names(a) == _names(b)


@memoised
def _names(piece: Piece) -> tuple[tuple[str, EdgeKind], ...]:
    return tuple((edge.label, edge.kind) for edge in piece.edges)


class ReadPattern(Pattern):
    """A pattern that writes down what is read of it, and so does every pattern made from it.

    What is asked by a method is written down as narrowly as that method reads; who takes `pieces` has read
    all of them. A piece that the step itself drew is nobody's reading.
    """

    __slots__ = ("_plain", "_reads")
    _plain: Pattern
    _reads: Reads

    def __init__(
        self,
        pieces: tuple[Piece, ...] = (),
        seams: tuple[Seam, ...] = (),
        spent: Spent = (),
    ) -> None:
        """A pattern made of pieces that were looked at before: nothing more of it is written down."""
        self._watch(Pattern(pieces, seams, spent), Reads(Pattern()))

    @classmethod
    def of(cls, pattern: Pattern) -> tuple[Self, Reads]:
        """The same paper watched, and what will have been read of it."""
        watched, reads = cls.__new__(cls), Reads(pattern)
        watched._watch(pattern, reads)
        return watched, reads

    def _watch(self, pattern: Pattern, reads: Reads) -> None:
        remember(self, "seams", pattern.seams)
        remember(self, "spent", pattern.spent)
        remember(self, "_plain", pattern)
        remember(self, "_reads", reads)

    def _watched(self, pattern: Pattern) -> Self:
        made = type(self).__new__(type(self))
        made._watch(pattern, self._reads)
        return made

    @property
    def pieces(self) -> tuple[Piece, ...]:
        """All pieces in order; each counts as looked at."""
        for piece in self._plain.pieces:
            self._reads.look(piece)
        return self._plain.pieces

    @property
    def names(self) -> tuple[str, ...]:
        """The names of the pieces in order."""
        return self._plain.names

    @property
    def refs(self) -> frozenset[Ref]:
        """Every edge of every piece by its full label."""
        return self._plain.refs

    def piece(self, name: str) -> Piece:
        """The piece of that name; it counts as looked at."""
        piece = self._plain.piece(name)
        self._reads.look(piece)
        return piece

    def named_edges(self, name: str) -> tuple[Edge, ...]:
        """The edges of a piece, of which the caller reads labels and kinds only."""
        return self._plain.named_edges(name)

    def ask(self, name: str, question: Callable[[Piece], T]) -> T:
        """What a function says of a piece; only the answer counts as read.

        Parameters
        ----------
        name : the piece
        question : what is asked of it, a function with a name of its own
        """
        piece = self._plain.piece(name)
        answer = question(piece)
        if self._reads.gave(piece):
            self._reads.asked[name, question] = answer
        return answer

    def shares(self, other: Pattern, name: str) -> bool:
        """Whether a piece is the very same paper in another pattern.

        Parameters
        ----------
        other : the other pattern
        name : a piece that is in both
        """
        return self._plain.shares(plain(other), name)

    def length(self, ref: Ref) -> float:
        """Sewn length of an edge, all its parts together, cm."""
        length = self._plain.length(ref)
        if self._reads.gave(self._plain.piece(ref.piece)):
            self._reads.lengths[ref] = length
        return length

    def with_pieces(self, *changed: Piece) -> Self:
        """The pattern with pieces of the same name replaced and new ones added at the end."""
        return self._watched(self._plain.with_pieces(*changed))

    def without(self, names: Iterable[str]) -> Self:
        """The pattern with some pieces taken away and their names remembered."""
        return self._watched(self._plain.without(names))

    def sewn(self, seams: tuple[Seam, ...], spent: Spent | None = None) -> Self:
        """The pattern with other seams, and other used-up names where they are given.

        Parameters
        ----------
        seams : all its seams
        spent : all its used-up names; those it has where None
        """
        return self._watched(self._plain.sewn(seams, spent))


def plain(pattern: Pattern) -> Pattern:
    """The pattern as it is, of which nobody writes down what is read."""
    return pattern._plain if isinstance(pattern, ReadPattern) else pattern
