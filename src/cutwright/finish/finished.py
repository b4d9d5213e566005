"""A pattern made ready to cut: cut lines, balance marks, grain, labels."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from cutwright.errors import LookupFailed
from cutwright.finish.allowances import Allowances, Treatment, treatments
from cutwright.finish.cut_line import CutLine, cut_line
from cutwright.finish.grain import grain_line
from cutwright.finish.label import Label, label_of
from cutwright.finish.marks import dart_marks, gather_marks
from cutwright.finish.notches import notched
from cutwright.finish.options import FinishOptions
from cutwright.finish.tightness import tight_edges
from cutwright.finish.trimmed_darts import trimmed_darts
from cutwright.geometry.point import Point
from cutwright.memo import memoised
from cutwright.messages import N_, Message
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Mark, Material, Piece
from cutwright.pattern.result import Finding, Severity
from cutwright.pattern.sewing.continued import EdgeKey


@dataclass(frozen=True, slots=True)
class CutPiece:
    """A piece with its cut line, which is all that its outlines are drawn from."""

    piece: Piece
    line: CutLine

    @property
    def name(self) -> str:
        """The name of the piece."""
        return self.piece.name


@dataclass(frozen=True, slots=True)
class CutPattern:
    """Every piece with its cut line; `treatments` tell what is left beyond each edge, by piece and label."""

    pieces: tuple[CutPiece, ...]
    treatments: Mapping[EdgeKey, Treatment]


@dataclass(frozen=True, slots=True)
class FinishedPiece:
    """A piece ready to cut.

    `cut` is the piece as it was drafted with its cut line. `marks` are those of the draft, its balance
    marks and what follows from darts and gathers.
    """

    piece: Piece
    cut: CutPiece
    marks: tuple[Mark, ...]
    label: Label
    levels: bool = True

    @property
    def cut_line(self) -> CutLine:
        """The line it is cut along."""
        return self.cut.line

    @property
    def name(self) -> str:
        """The name of the piece."""
        return self.piece.name

    @property
    def grain(self) -> tuple[Point, Point]:
        """The two ends of the grain line where it is printed; its place is looked for when it is first asked for."""
        return grain_line(self.piece)

    @property
    def stiff(self) -> bool:
        """Whether it is cut in interfacing, too."""
        return self.piece.cut_in(Material.INTERFACING) is not None


@dataclass(frozen=True, slots=True)
class FinishedPattern:
    """All pieces ready to cut; `pattern` carries the balance marks, for whoever proves them.

    `allowances` tells what is left beyond each edge, by piece and label, cm; `options` are what the
    cutter said: for whom, on which day.
    """

    pattern: Pattern
    pieces: tuple[FinishedPiece, ...]
    findings: tuple[Finding, ...] = ()
    allowances: Mapping[EdgeKey, float] = field(default_factory=dict)
    options: FinishOptions = FinishOptions()

    def piece(self, name: str) -> FinishedPiece:
        """The finished piece of that name.

        Raises
        ------
        LookupFailed : there is none; the message names what there is
        """
        for piece in self.pieces:
            if piece.name == name:
                return piece
        self.pattern.piece(name)
        raise LookupFailed(Message("not-finished", N_('"{piece}" was not finished.'), piece=name))


def cut_lines(pattern: Pattern, options: FinishOptions | None = None) -> CutPattern:
    """The cut line of every piece; one that did not change is taken over as it was drawn.

    Parameters
    ----------
    pattern : the pattern to be cut
    options : its allowances; the usual ones where none are given

    Raises
    ------
    GeometryError : no allowance can be added; the message names the corner
    """
    table = (options or FinishOptions()).allowances
    treated: dict[str, list[tuple[str, Treatment]]] = {}
    every = treatments(pattern, table)
    for (name, label), treatment in every.items():
        treated.setdefault(name, []).append((label, treatment))
    pieces = tuple(
        _cut(piece, treated=tuple(treated.get(piece.name, ())), table=table)
        for piece in pattern.pieces
    )
    return CutPattern(pieces, every)


@memoised
def _cut(
    piece: Piece, *, treated: tuple[tuple[str, Treatment], ...], table: Allowances
) -> CutPiece:
    return CutPiece(piece, cut_line(piece, dict(treated), table))


def finish(pattern: Pattern, options: FinishOptions | None = None) -> FinishedPattern:
    """Make a pattern ready to cut; a piece that did not change is taken over as it was made.

    Parameters
    ----------
    pattern : the pattern, with stitch lines only
    options : what the cutter says of finishing; None for what is usual

    Returns
    -------
    every piece with cut line, marks and label, and what is doubtful about them

    Raises
    ------
    GeometryError : no allowance can be added to a piece; the message names the corner
    LookupFailed : an edge of a seam is not there
    """
    options = options or FinishOptions()
    cut = cut_lines(pattern, options)
    marked = notched(pattern, options.notches)
    pieces = tuple(
        _finished(
            piece,
            its,
            gathers=tuple(gather_marks(marked, piece)),
            options=options,
            number=number,
            count=len(marked.pieces),
        )
        for number, (piece, its) in enumerate(zip(marked.pieces, cut.pieces, strict=True), 1)
    )
    findings = tuple(f for piece in pieces for f in _doubts(piece))
    amounts = {key: treatment.amount for key, treatment in cut.treatments.items()}
    return FinishedPattern(marked, pieces, findings, amounts, options)


@memoised
def _finished(
    piece: Piece,
    cut: CutPiece,
    *,
    gathers: tuple[Mark, ...],
    options: FinishOptions,
    number: int,
    count: int,
) -> FinishedPiece:
    """One piece made ready to cut: everything it depends on is named here."""
    marks = (*piece.marks, *dart_marks(piece, options), *gathers)
    label = label_of(piece, cut.line, options, number, count)
    return FinishedPiece(piece, cut, marks, label, options.levels)


@memoised
def _doubts(piece: FinishedPiece) -> tuple[Finding, ...]:
    """What is doubtful about the cut line of a piece."""
    rounded = (_rounded(piece),) if piece.cut_line.rounded else ()
    return (
        *rounded,
        *tight_edges(piece.piece, piece.cut_line),
        *trimmed_darts(piece.piece, piece.cut_line),
    )


def _rounded(piece: FinishedPiece) -> Finding:
    return Finding(
        "allowance-rounded",
        Severity.NOTE,
        piece.name,
        Message(
            "edges-too-short-too-hollow",
            N_(
                'The edges of "{piece}" are too short or too hollow for mitred corners; the allowance '
                "is drawn round it, its corners rounded."
            ),
            piece=piece.name,
        ),
    )
