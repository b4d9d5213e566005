"""From a pattern document back to lines: what another program would do with it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from cutwright.finish.document_form import CurveEntry, PatternDocument, PieceEntry
from cutwright.geometry.curve import Cubic, Curve, Line
from cutwright.geometry.path import Path
from cutwright.geometry.point import Point
from cutwright.messages import N_, Message


def read_document(data: Mapping[str, Any]) -> PatternDocument:
    """The document in plain lists and words, of format 2 or 1.

    Format 1 told figures in words; they are kept as "written" terms. Raises pydantic's ValidationError.
    """
    if data.get("format") != 1:
        return PatternDocument.model_validate(data)
    figures = [_written(figure) for figure in data.get("figures", [])]
    return PatternDocument.model_validate({**data, "format": 2, "figures": figures})


def _written(old: Mapping[str, Any]) -> dict[str, Any]:
    words = f"{old['what']}: {old['how']}" if old["how"] else str(old["what"])
    value = old["value"]
    term = {"kind": "written", "value": value, "text": words}
    return {"step": 0, "code": "written", "value": value, "unit": old["unit"], "term": term}


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
    """The entry of the piece of that name.

    Parameters
    ----------
    document : a pattern document
    name : of the piece

    Raises
    ------
    LookupFailed : the document has no such piece
    """
    from cutwright.errors import LookupFailed

    for piece in document.pieces:
        if piece.name == name:
            return piece
    raise LookupFailed(
        Message(
            "no-piece-document", N_('There is no piece "{piece}" in this document.'), piece=name
        )
    )


def _point(pair: Sequence[float]) -> Point:
    return complex(pair[0], pair[1])
