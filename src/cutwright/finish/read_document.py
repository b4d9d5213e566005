"""From a pattern document back to lines: what another program would do with it."""

from __future__ import annotations

from collections.abc import Sequence

from cutwright.finish.document_form import CurveEntry, PatternDocument, PieceEntry
from cutwright.geometry.curve import Cubic, Curve, Line
from cutwright.geometry.path import Path
from cutwright.geometry.point import Point


def read_curve(entry: CurveEntry) -> Curve:
    """The curve of an entry."""
    if entry.line is not None:
        return Line(*[_point(p) for p in entry.line])
    assert entry.cubic is not None
    return Cubic(*[_point(p) for p in entry.cubic])


def read_edges(entries: Sequence[CurveEntry]) -> list[tuple[str, Path]]:
    """The edges of a stitch or cut line in order, each with its curves."""
    out: list[tuple[str, Path]] = []
    for entry in entries:
        if out and out[-1][0] == entry.edge:
            out[-1] = (entry.edge, (*out[-1][1], read_curve(entry)))
        else:
            out.append((entry.edge, (read_curve(entry),)))
    return out


def read_outlines(piece: PieceEntry) -> tuple[Path, Path]:
    """The stitch line and the cut line of a piece as closed chains."""
    stitch = tuple(read_curve(entry) for entry in piece.stitch_line)
    return stitch, tuple(read_curve(entry) for entry in piece.cut_line)


def read_piece(document: PatternDocument, name: str) -> PieceEntry:
    """The entry of the piece of that name; raises LookupFailed."""
    from cutwright.errors import LookupFailed
    from cutwright.words import _

    for piece in document.pieces:
        if piece.name == name:
            return piece
    raise LookupFailed(_('There is no piece "{piece}" in this document.').format(piece=name))


def _point(pair: Sequence[float]) -> Point:
    return complex(pair[0], pair[1])
