"""What lies on the table when a pattern is proved."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from itertools import chain

from cutwright.body.body import Body
from cutwright.checks.limits import HOUSE, Limits
from cutwright.errors import LookupFailed
from cutwright.memo import memoised
from cutwright.messages import N_, Message
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.pattern.result import Finding, Severity
from cutwright.pattern.seam import Seam
from cutwright.pattern.sewing.rows import Row, Stretch, rows_of_pieces


@dataclass(frozen=True, slots=True)
class LaidSeam:
    """A seam with the row of each of its layers."""

    seam: Seam
    rows: tuple[Row, ...]

    def __iter__(self) -> Iterator[Stretch]:
        """Walk every edge of every layer."""
        return chain.from_iterable(self.rows)

    @property
    def where(self) -> str:
        """A name for messages."""
        return self.seam.name


@memoised
def _laid(seam: Seam, *pieces: Piece) -> LaidSeam:
    """A seam laid out; the very same for as long as its pieces are."""
    return LaidSeam(seam, rows_of_pieces(seam, *pieces))


@dataclass(frozen=True, slots=True)
class Case:
    """A pattern with the body it is for, and its seams laid out once."""

    pattern: Pattern
    body: Body | None = None
    limits: Limits = HOUSE
    seams: tuple[LaidSeam, ...] = ()
    lost: tuple[Finding, ...] = ()
    sewn: frozenset[tuple[str, int]] = field(default_factory=frozenset)
    """Every edge that takes part in a seam: piece and identity (a facing may share an edge)."""
    allowances: Mapping[tuple[str, str], float] = field(default_factory=dict)
    """What is left beyond each edge, by piece and label, cm; empty before it is settled."""


def laid_seams(
    pattern: Pattern,
    body: Body | None = None,
    limits: Limits = HOUSE,
    allowances: Mapping[tuple[str, str], float] | None = None,
) -> Case:
    """Lay every seam out; one whose edge is not there becomes a fault instead of an error."""
    seams: list[LaidSeam] = []
    lost: list[Finding] = []
    for seam in pattern.seams:
        try:
            laid = _laid(seam, *(pattern.piece(ref.piece) for ref in seam.refs))
        except LookupFailed as fault:
            text = Message(
                "seam-names-edge-not",
                N_("This seam names an edge that is not there: {why}"),
                why=fault,
            )
            lost.append(Finding("seam-lost", Severity.FAULT, seam.name, text))
            continue
        seams.append(laid)
    sewn = {w.key for laid in seams for w in laid}
    return Case(
        pattern,
        body,
        limits,
        tuple(seams),
        tuple(lost),
        frozenset(sewn),
        allowances or {},
    )
