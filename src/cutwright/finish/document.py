"""The finished pattern as a document: pattern.json, with its published schema.

Lengths are centimetres, x to the right, y down. Coordinates are rounded to 1e-5 cm, which changes
no length by more than 1e-4 cm; ends that meet are rounded alike, so outlines stay closed.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Field, model_validator

from cutwright.finish.cut_line import CutEdge
from cutwright.finish.finished import FinishedPattern, FinishedPiece
from cutwright.geometry.curve import Curve, Line
from cutwright.geometry.point import Point
from cutwright.pattern.edge import Kind, Ref
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Mark
from cutwright.pattern.result import Figure, Finding
from cutwright.pattern.seam import Seam, Side
from cutwright.words import _

_PLACES = 5

Spot = Annotated[list[float], Field(min_length=2, max_length=2, description="x and y in cm")]


class _Plain(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid")


class CurveEntry(_Plain):
    """One curve of a line: straight (`line`, two points) or a cubic Bezier (`cubic`, four)."""

    edge: str
    line: Annotated[list[Spot], Field(min_length=2, max_length=2)] | None = None
    cubic: Annotated[list[Spot], Field(min_length=4, max_length=4)] | None = None

    @model_validator(mode="after")
    def _either(self) -> CurveEntry:
        if (self.line is None) == (self.cubic is None):
            raise ValueError(_("Each curve is either a line or a cubic."))
        return self


class CutEntry(_Plain):
    """How a piece is cut in cloth."""

    copies: int
    mirrored: bool
    on_fold: bool
    material: str = "main"


class EdgeEntry(_Plain):
    """One edge of the stitch line: its label, what it is for, its length and allowance in cm."""

    name: str
    kind: str
    length: float
    allowance: float


class DartEntry(_Plain):
    """A dart with its mouth on the outline; closing it about `pivot` brings the legs together."""

    name: str
    tip: Spot
    pivot: Spot
    intake: float


class DiamondEntry(_Plain):
    """A waist dart with two points, inside the piece."""

    name: str
    top: Spot
    bottom: Spot
    near: Spot
    far: Spot


class MarkEntry(_Plain):
    """A mark: a notch, a drill hole, from where to where an edge is gathered, the end of a zip."""

    kind: str
    at: Spot
    to: Spot | None = None
    edge: str | None = None
    text: str = ""


class LevelEntry(_Plain):
    """A girth line of the body across the piece."""

    name: str
    points: list[Spot]


class LabelEntry(_Plain):
    """The words printed on the piece."""

    title: str
    lines: list[str]


class PieceEntry(_Plain):
    """One piece, its stitch line and its cut line, both closed and clockwise to the eye."""

    name: str
    cut: CutEntry
    stitch_line: list[CurveEntry]
    cut_line: list[CurveEntry]
    edges: list[EdgeEntry]
    marks: list[MarkEntry]
    grain: Annotated[list[Spot], Field(min_length=2, max_length=2)]
    darts: list[DartEntry] = []
    diamonds: list[DiamondEntry] = []
    levels: list[LevelEntry] = []
    label: LabelEntry
    area: float = Field(description="inside the stitch line, cm2")


class SideEntry(_Plain):
    """One edge of a row; `parts` are the labels of its living parts in the order they are sewn.

    `backwards`: sewn against the direction of the stitch line. `times`: how often it counts
    when the seam is looked at once.
    """

    piece: str
    edge: str
    parts: list[str]
    backwards: bool
    times: int


class SeamEntry(_Plain):
    """Two rows sewn together, both listed from the same end; lengths in cm, every edge counted."""

    a: list[SideEntry]
    b: list[SideEntry]
    a_length: float
    b_length: float
    ratio: float
    ease: float
    kind: str


class FigureEntry(_Plain):
    """One line of arithmetic."""

    step: str
    what: str
    value: float
    unit: str
    how: str


class FindingEntry(_Plain):
    """Something doubtful or wrong, with its stable code and the value found."""

    code: str
    level: Literal["note", "warning", "fault"]
    where: str
    text: str
    value: float | None = None


class PatternDocument(_Plain):
    """A pattern ready to cut, for other programs to read."""

    format: Literal[1] = 1
    unit: Literal["cm"] = "cm"
    style: str
    body: str
    pieces: list[PieceEntry]
    seams: list[SeamEntry]
    figures: list[FigureEntry]
    findings: list[FindingEntry]


def pattern_document(
    finished: FinishedPattern,
    *,
    style: str = "",
    body: str = "",
    figures: Iterable[Figure] = (),
    findings: Iterable[Finding] = (),
) -> PatternDocument:
    """The document of a finished pattern.

    Parameters
    ----------
    style, body : names of the style and the body it was worked on
    figures : the arithmetic of all steps
    findings : what steps and checks found; what finishing found is added
    """
    return PatternDocument(
        style=style,
        body=body,
        pieces=[_piece(piece) for piece in finished.pieces],
        seams=[_seam(finished.pattern, seam) for seam in finished.pattern.seams],
        figures=[
            FigureEntry(step=f.step, what=f.what, value=_number(f.value), unit=f.unit, how=f.how)
            for f in figures
        ],
        findings=[_finding(f) for f in (*findings, *finished.findings)],
    )


def pattern_json(document: PatternDocument) -> dict[str, Any]:
    """The document as plain lists and words, empty fields of curves and marks left out."""
    return document.model_dump(mode="json", exclude_none=True)


def pattern_schema() -> dict[str, Any]:
    """The published JSON Schema of pattern.json."""
    schema = PatternDocument.model_json_schema()
    curve = schema["$defs"]["CurveEntry"]
    for name in ("line", "cubic"):  # written or left out, never null
        option = curve["properties"][name]
        curve["properties"][name] = next(o for o in option["anyOf"] if o.get("type") == "array")
    curve["oneOf"] = [{"required": ["line"]}, {"required": ["cubic"]}]
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **schema}


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
    cut = piece.cut
    return PieceEntry(
        name=piece.name,
        cut=CutEntry(
            copies=cut.copies, mirrored=cut.mirrored, on_fold=piece.on_fold, material=cut.material
        ),
        stitch_line=[_curve(edge.label, c) for edge in piece.edges for c in edge.curves],
        cut_line=[_curve(edge.label, c) for edge in finished.cut_line.edges for c in edge.curves],
        edges=_edges(finished),
        marks=[_mark(mark) for mark in finished.marks],
        grain=[_spot(p) for p in finished.grain],
        darts=[
            DartEntry(
                name=d.name, tip=_spot(d.tip), pivot=_spot(d.pivot), intake=_number(piece.intake(d))
            )
            for d in piece.darts
        ],
        diamonds=[
            DiamondEntry(
                name=d.name,
                top=_spot(d.top),
                bottom=_spot(d.bottom),
                near=_spot(d.near),
                far=_spot(d.far),
            )
            for d in piece.diamonds
        ],
        levels=[LevelEntry(name=v.name, points=[_spot(p) for p in v.points]) for v in piece.levels],
        label=LabelEntry(title=finished.label.title, lines=list(finished.label.lines)),
        area=_number(piece.area),
    )


def _edges(finished: FinishedPiece) -> list[EdgeEntry]:
    cut: dict[str, CutEdge] = {edge.label: edge for edge in finished.cut_line.edges}
    return [
        EdgeEntry(
            name=edge.label,
            kind=edge.kind.value,
            length=_number(edge.length),
            allowance=0.0 if edge.kind is Kind.LEG else _allowance(cut.get(edge.label)),
        )
        for edge in finished.piece.edges
    ]


def _allowance(edge: CutEdge | None) -> float:
    return 0.0 if edge is None else _number(edge.allowance)


def _mark(mark: Mark) -> MarkEntry:
    to = None if mark.to is None else _spot(mark.to)
    return MarkEntry(kind=mark.kind, at=_spot(mark.at), to=to, edge=mark.edge, text=mark.text)


def _seam(pattern: Pattern, seam: Seam) -> SeamEntry:
    ta, tb = pattern.times(seam)
    a_length, b_length = pattern.seam_lengths(seam)
    return SeamEntry(
        a=_sides(pattern, seam.a, ta),
        b=_sides(pattern, seam.b, tb),
        a_length=_number(a_length),
        b_length=_number(b_length),
        ratio=_number(seam.ratio),
        ease=_number(seam.ease),
        kind=seam.kind,
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
            )
        )
    return out


def _finding(finding: Finding) -> FindingEntry:
    level: Literal["note", "warning", "fault"] = "note"
    if finding.level in ("warning", "fault"):
        level = "warning" if finding.level == "warning" else "fault"
    value = None if finding.value is None else _number(finding.value)
    return FindingEntry(
        code=finding.code, level=level, where=finding.where, text=finding.text, value=value
    )
