"""A pattern made ready to cut: cut lines, balance marks, grain, labels."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from cutwright.errors import LookupFailed
from cutwright.finish.allowances import Treatment, treatments
from cutwright.finish.cut_line import CutLine, cut_line, outer_edges
from cutwright.finish.grain import grain_line
from cutwright.finish.label import Label, label_of
from cutwright.finish.marks import dart_marks, gather_marks
from cutwright.finish.notches import notched
from cutwright.finish.options import FinishOptions
from cutwright.geometry.offset import offset_paths
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


Asked = tuple[Piece, tuple[tuple[str, Treatment], ...], tuple[Mark, ...], FinishOptions, str]
"""All that a finished piece depends on: piece, allowances, gathers, options, language."""

_MOST = 256
_done: dict[Asked, FinishedPiece] = {}


def finish(pattern: Pattern, options: FinishOptions | None = None) -> FinishedPattern:
    """Make a pattern ready to cut; a piece that did not change is taken over as it was made.

    Raises GeometryError, naming the corner, where no allowance can be added.
    """
    options = options or FinishOptions()
    marked = notched(pattern, options.notches)
    by_piece: dict[str, list[tuple[str, Treatment]]] = {}
    for (name, label), treatment in treatments(marked, options.allowances).items():
        by_piece.setdefault(name, []).append((label, treatment))
    asked: list[Asked] = [
        (
            piece,
            tuple(by_piece.get(piece.name, ())),
            tuple(gather_marks(marked, piece)),
            options,
            spoken(),
        )
        for piece in marked.pieces
    ]
    pieces = _remembered(asked)
    findings = tuple(_rounded(piece) for piece in pieces if piece.cut_line.rounded)
    return FinishedPattern(marked, pieces, findings)


def forget() -> None:
    """Let go of all pieces that were finished before."""
    _done.clear()


def _remembered(asked: Sequence[Asked]) -> tuple[FinishedPiece, ...]:
    """What was asked for, made where it was not made before; the oldest are forgotten."""
    found = [_done.get(one) for one in asked]
    new = [one for one, done in zip(asked, found, strict=True) if done is None]
    made = iter(_made(new))
    out: list[FinishedPiece] = []
    for one, done in zip(asked, found, strict=True):
        piece = next(made) if done is None else done
        _done[one] = piece
        out.append(piece)
    while len(_done) > _MOST:
        _done.pop(next(iter(_done)), None)
    return tuple(out)


def _made(asked: Sequence[Asked]) -> list[FinishedPiece]:
    """Pieces made ready to cut, the lines beside all their edges drawn in one go."""
    edges = [outer_edges(one[0]) for one in asked]
    amounts = [dict(one[1]) for one in asked]
    lines = offset_paths(
        [edge.curves for row in edges for edge in row],
        [amounts[i][edge.label].amount for i, row in enumerate(edges) for edge in row],
    )
    out: list[FinishedPiece] = []
    begin = 0
    for (piece, _treated, gathers, options, _language), by_label, row in zip(
        asked, amounts, edges, strict=True
    ):
        beside = lines[begin : begin + len(row)]
        begin += len(row)
        line = cut_line(piece, by_label, options.allowances, beside)
        marks = (*piece.marks, *dart_marks(piece, options), *gathers)
        label = label_of(piece, line, options)
        out.append(FinishedPiece(piece, line, marks, grain_line(piece), label, options.levels))
    return out


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
