"""Writing a finished pattern down as the document pattern.json.

Coordinates are rounded to 1e-5 cm, which changes no length by more than 1e-4 cm; ends that meet
are rounded alike, so outlines stay closed.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from cutwright.body.tape import WOMEN
from cutwright.finish.cut_line import CutEdge
from cutwright.finish.document_form import (
    CurveEntry,
    CutEntry,
    DartEntry,
    DiamondEntry,
    EdgeEntry,
    FigureEntry,
    FindingEntry,
    LabelEntry,
    LayerEntry,
    LevelEntry,
    MarkEntry,
    PatternDocument,
    PieceEntry,
    SeamEntry,
    SideEntry,
    pattern_json,
    pattern_schema,
)
from cutwright.finish.document_terms import term_entry
from cutwright.finish.finished import FinishedPattern, FinishedPiece
from cutwright.finish.label import Label
from cutwright.geometry.curve import Curve, Line
from cutwright.geometry.point import Point
from cutwright.pattern.edge import Ref
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Mark
from cutwright.pattern.result import Finding
from cutwright.pattern.seam import Seam, Side
from cutwright.pattern.sum import Figure

__all__ = ["PatternDocument", "pattern_document", "pattern_json", "pattern_schema"]

_PLACES = 5


def pattern_document(
    finished: FinishedPattern,
    *,
    style: str = "",
    body: str = "",
    family: str = WOMEN,
    figures: Iterable[Figure] = (),
    findings: Iterable[Finding] = (),
) -> PatternDocument:
    """The document of a finished pattern.

    Parameters
    ----------
    finished : the pattern ready to cut
    style, body : names of the style and the body it was worked on
    family : id of the body's family of figures
    figures : the arithmetic of all steps
    findings : what steps and checks found; what finishing found is added

    Returns
    -------
    the document, lengths in cm
    """
    return PatternDocument(
        style=style,
        body=body,
        family=family,
        pieces=[_piece(piece) for piece in finished.pieces],
        seams=[_seam(finished.pattern, seam) for seam in finished.pattern.seams],
        figures=[
            FigureEntry(
                step=f.step,
                code=f.code,
                piece=f.piece,
                part=f.part,
                value=_number(f.value),
                unit=f.unit.value,
                term=term_entry(f.term),
            )
            for f in figures
        ],
        findings=[_finding(f) for f in (*findings, *finished.findings)],
    )


def _number(value: float) -> float:
    """A number short enough to read, exact enough to cut by (and no minus nought)."""
    return round(value, _PLACES) + 0.0


def _spot(p: Point) -> list[float]:
    return [_number(p.real), _number(p.imag)]


def _curve(label: str, curve: Curve) -> CurveEntry:
    points = [_spot(p) for p in curve.controls]
    if isinstance(curve, Line):
        return CurveEntry(edge=label, line=points)
    return CurveEntry(edge=label, cubic=points)


def _piece(finished: FinishedPiece) -> PieceEntry:
    piece = finished.piece
    cut, *also = (
        CutEntry(copies=c.copies, mirrored=c.mirrored, on_fold=piece.on_fold, material=c.material)
        for c in piece.cuts
    )
    return PieceEntry(
        name=piece.name,
        cut=cut,
        also=also,
        stitch_line=[_curve(edge.label, c) for edge in piece.edges for c in edge.curves],
        cut_line=[_curve(edge.label, c) for edge in finished.cut_line.edges for c in edge.curves],
        edges=_edges(finished),
        marks=[_mark(mark) for mark in finished.marks],
        grain=[_spot(p) for p in finished.grain],
        darts=_darts(finished),
        diamonds=[
            DiamondEntry(
                name=d.name,
                top=_spot(d.top),
                bottom=_spot(d.bottom),
                near=_spot(d.near),
                far=_spot(d.far),
                side=d.side,
            )
            for d in piece.diamonds
        ],
        levels=[LevelEntry(name=v.name, points=[_spot(p) for p in v.points]) for v in piece.levels],
        label=_label(finished.label),
        side=piece.side,
        area=_number(piece.area),
    )


def _darts(finished: FinishedPiece) -> list[DartEntry]:
    kept = {trimmed.dart: trimmed.kept for trimmed in finished.cut_line.trimmed}
    return [
        DartEntry(
            name=dart.name,
            tip=_spot(dart.tip),
            pivot=_spot(dart.pivot),
            intake=_number(finished.piece.intake(dart)),
            kept=_number(kept.get(dart.name, 0.0)),
            side=dart.side,
        )
        for dart in finished.piece.darts
    ]


def _edges(finished: FinishedPiece) -> list[EdgeEntry]:
    line = finished.cut_line
    cut: dict[str, CutEdge] = {edge.label: edge for edge in (*line.edges, *line.swallowed)}
    return [
        EdgeEntry(
            name=edge.label,
            kind=edge.kind.value,
            length=_number(edge.length),
            allowance=_allowance(cut.get(edge.label)),
            side=edge.side,
        )
        for edge in finished.piece.edges
    ]


def _allowance(edge: CutEdge | None) -> float:
    return 0.0 if edge is None else _number(edge.allowance)


def _mark(mark: Mark) -> MarkEntry:
    to = None if mark.to is None else _spot(mark.to)
    return MarkEntry(
        kind=mark.kind,
        at=_spot(mark.at),
        to=to,
        edge=mark.edge,
        text=mark.text,
        amount=None if mark.amount is None else _number(mark.amount),
        meets=mark.meets,
        copies=list(mark.copies),
        pressed=mark.pressed,
    )


def _seam(pattern: Pattern, seam: Seam) -> SeamEntry:
    rows = zip(seam.rows, pattern.times(seam), strict=True)
    sides = [_sides(pattern, row, times) for row, times in rows]
    lengths = [_number(length) for length in pattern.seam_lengths(seam)]
    return SeamEntry(
        a=sides[0],
        b=sides[1],
        a_length=lengths[0],
        b_length=lengths[1],
        ratio=_number(seam.ratio),
        ease=_number(seam.ease),
        kind=seam.kind,
        sewn=pattern.how_often(seam),
        layers=[
            LayerEntry(
                edges=edges,
                length=length,
                part=layer.part,
                ratio=_number(layer.ratio),
                ease=_number(layer.ease),
            )
            for layer, edges, length in zip(seam.layers, sides, lengths, strict=True)
        ],
    )


def _sides(pattern: Pattern, sides: Sequence[Side], times: Sequence[int]) -> list[SideEntry]:
    out: list[SideEntry] = []
    for side, count in zip(sides, times, strict=True):
        parts = [edge.label for edge in pattern.edge_parts(Ref(side.ref.piece, side.ref.edge))]
        out.append(
            SideEntry(
                piece=side.ref.piece,
                edge=side.ref.edge,
                parts=parts[::-1] if side.backwards else parts,
                backwards=side.backwards,
                times=count,
                strand=side.strand,
            )
        )
    return out


def _label(label: Label) -> LabelEntry:
    """The label in English: the document has no language."""
    title = label.piece[:1].upper() + label.piece[1:]
    return LabelEntry(title=title, lines=[" · ".join(map(str, line)) for line in label.lines])


def _finding(finding: Finding) -> FindingEntry:
    value = None if finding.value is None else _number(finding.value)
    return FindingEntry(
        code=finding.code,
        level=finding.level,
        where=finding.where,
        text=str(finding.message),
        value=value,
    )
