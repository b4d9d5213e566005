"""A pattern made ready to cut: cut lines, balance marks, grain, labels."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

from cutwright.errors import LookupFailed
from cutwright.finish.allowances import Treatment, treatments
from cutwright.finish.cut_line import CutLine, cut_line
from cutwright.finish.grain import grain_line
from cutwright.finish.label import Label, label_of
from cutwright.finish.marks import dart_marks, gather_marks
from cutwright.finish.notches import notched
from cutwright.finish.options import FinishOptions
from cutwright.geometry.point import Point
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Mark, Piece
from cutwright.pattern.result import Finding
from cutwright.words import _, spoken


@dataclass(frozen=True, slots=True)
class FinishedPiece:
    """A piece ready to cut.

    `marks` are those of the draft, its balance marks and what follows from darts and gathers;
    `grain` are the two ends of the grain line where it is printed.
    """

    piece: Piece
    cut_line: CutLine
    marks: tuple[Mark, ...]
    grain: tuple[Point, Point]
    label: Label
    levels: bool = True

    @property
    def name(self) -> str:
        """The name of the piece."""
        return self.piece.name


@dataclass(frozen=True, slots=True)
class FinishedPattern:
    """All pieces ready to cut; `pattern` carries the balance marks, for whoever proves them."""

    pattern: Pattern
    pieces: tuple[FinishedPiece, ...]
    findings: tuple[Finding, ...] = ()

    def piece(self, name: str) -> FinishedPiece:
        """The finished piece of that name; raises LookupFailed naming what there is."""
        for piece in self.pieces:
            if piece.name == name:
                return piece
        self.pattern.piece(name)
        raise LookupFailed(_('"{piece}" was not finished.').format(piece=name))


def finish(pattern: Pattern, options: FinishOptions | None = None) -> FinishedPattern:
    """Make a pattern ready to cut; a piece that did not change is taken over as it was made.

    Raises GeometryError, naming the corner, where no allowance can be added.
    """
    options = options or FinishOptions()
    marked = notched(pattern, options.notches)
    by_piece: dict[str, list[tuple[str, Treatment]]] = {}
    for (name, label), treatment in treatments(marked, options.allowances).items():
        by_piece.setdefault(name, []).append((label, treatment))
    pieces = tuple(
        finish_piece(
            piece,
            tuple(by_piece.get(piece.name, ())),
            tuple(gather_marks(marked, piece)),
            options,
            spoken(),
        )
        for piece in marked.pieces
    )
    findings = tuple(_rounded(piece) for piece in pieces if piece.cut_line.rounded)
    return FinishedPattern(marked, pieces, findings)


@lru_cache(maxsize=256)
def finish_piece(
    piece: Piece,
    treated: tuple[tuple[str, Treatment], ...],
    gathers: tuple[Mark, ...],
    options: FinishOptions,
    language: str = "en",
) -> FinishedPiece:
    """One piece made ready to cut, remembered for the next time the same is asked."""
    by_label: Mapping[str, Treatment] = dict(treated)
    line = cut_line(piece, by_label, options.allowances)
    return FinishedPiece(
        piece,
        line,
        (*piece.marks, *dart_marks(piece, options), *gathers),
        grain_line(piece),
        label_of(piece, line, options),
        options.levels,
    )


def _rounded(piece: FinishedPiece) -> Finding:
    return Finding(
        "allowance-rounded",
        "note",
        piece.name,
        _(
            'The edges of "{piece}" are too short or too hollow for mitred corners; the allowance '
            "is drawn round it, its corners rounded."
        ).format(piece=piece.name),
    )
