"""The document of a finished pattern, pattern.json: its form and its published schema.

Lengths are centimetres, x to the right, y down. A line is a list of curves in order, closed.
"""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Field, model_validator

from cutwright.body.tape import WOMEN
from cutwright.messages import N_, Message
from cutwright.pattern.mark import MarkKind, Pressed
from cutwright.pattern.piece import Material
from cutwright.pattern.result import Severity
from cutwright.pattern.role import BodySide
from cutwright.pattern.seam import LayerPart

Spot = Annotated[list[float], Field(min_length=2, max_length=2, description=N_("x and y in cm"))]


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
            raise ValueError(
                Message("line-or-cubic", N_("Each curve is either a line or a cubic."))
            )
        return self


class CutEntry(_Plain):
    """How a piece is cut in one cloth."""

    copies: int
    mirrored: bool
    on_fold: bool
    material: Material = Material.MAIN


class EdgeEntry(_Plain):
    """One edge of the stitch line: its label, what it is for, its length and allowance in cm.

    `side`: on paper that lies across the centre, the wearer's side on which it lies.
    """

    name: str
    kind: str
    length: float
    allowance: float
    side: BodySide = BodySide.BOTH


class DartEntry(_Plain):
    """A dart with its mouth on the outline; closing it about `pivot` brings the legs together.

    `kept`: what is left beside each leg where its fold is cut away, cm; 0 where the fold is whole.
    """

    name: str
    tip: Spot
    pivot: Spot
    intake: float
    kept: float = 0.0
    side: BodySide = BodySide.BOTH


class DiamondEntry(_Plain):
    """A waist dart with two points, inside the piece."""

    name: str
    top: Spot
    bottom: Spot
    near: Spot
    far: Spot
    side: BodySide = BodySide.BOTH


class MarkEntry(_Plain):
    """A mark: a notch, a drill hole, from where to where an edge is gathered or eased, a zip's end.

    `amount`: what is drawn up, the length of the opening, or an overlap, cm. Of a notch, `meets`
    names the edge that lies opposite on the other side of the seam, and `copies` the copies of the
    piece that it is for, from 1; empty: all.
    """

    kind: MarkKind
    at: Spot
    to: Spot | None = None
    edge: str | None = None
    text: str = ""
    amount: float | None = None
    meets: str = ""
    copies: list[int] = []
    pressed: Pressed | None = None


class LevelEntry(_Plain):
    """A girth line of the body across the piece."""

    name: str
    points: list[Spot]


class LabelEntry(_Plain):
    """The words printed on the piece."""

    title: str
    lines: list[str]


class PieceEntry(_Plain):
    """One piece, its stitch line and its cut line, both closed and clockwise to the eye.

    `side`: the wearer's side it is for, where left and right have papers of their own.
    """

    name: str
    cut: CutEntry
    also: Annotated[list[CutEntry], Field(description=N_("the same paper in other cloths"))] = []
    stitch_line: list[CurveEntry]
    cut_line: list[CurveEntry]
    edges: list[EdgeEntry]
    marks: list[MarkEntry]
    grain: Annotated[list[Spot], Field(min_length=2, max_length=2)]
    darts: list[DartEntry] = []
    diamonds: list[DiamondEntry] = []
    levels: list[LevelEntry] = []
    label: LabelEntry
    side: BodySide = BodySide.BOTH
    area: float = Field(description=N_("inside the stitch line, cm2"))


class SideEntry(_Plain):
    """One edge of a row; `parts` are the labels of its living parts in the order they are sewn.

    `backwards`: sewn against the direction of the stitch line. `times`: how often it counts
    when the seam is looked at once. `strand`: where the seam is sewn at two places, the one this
    edge belongs to, 1 or 2; 0: it is sewn at each.
    """

    piece: str
    edge: str
    parts: list[str]
    backwards: bool
    times: int
    strand: int = 0


class LayerEntry(_Plain):
    """One layer of cloth in a seam: what it is in the garment, its edges, its length in cm.

    It is `ratio` times as long as the seam and longer by `ease` cm.
    """

    edges: list[SideEntry]
    length: float
    part: LayerPart
    ratio: float
    ease: float


class SeamEntry(_Plain):
    """Layers sewn together, all listed from the same end; lengths in cm, every edge counted.

    `layers`: in the order in which they lie, right side of the garment first. `a` and `b` are the
    first two of them, `ratio` and `ease` those of the layer that is drawn up. `sewn`: how often the
    garment has this seam.
    """

    a: list[SideEntry]
    b: list[SideEntry]
    a_length: float
    b_length: float
    ratio: float
    ease: float
    kind: str
    sewn: int
    layers: list[LayerEntry] = []


class TermEntry(_Plain):
    """One part of a sum and its value; which fields stand beside `kind` depends on it.

    "taped": measure. "edge": piece, edge. "drawn", "number": code. "chosen": field, text (where it is a sum).
    "rule": code, source. "earlier": code (of the figure). "operation": sign, terms. "found": code (sin, cos, leg: √(a² − b²)), terms. "rounded": way, step, terms.
    "limited": bound, terms (the value, the limit). "solved": terms (the sum that proves it). "written": text,
    a line of arithmetic from a file of format 1.
    """

    kind: Literal[
        "taped", "edge", "drawn", "chosen", "rule", "number", "earlier", "operation", "found", "rounded",
        "limited", "solved", "written",
    ]  # fmt: skip
    value: float
    measure: str | None = None
    piece: str | None = None
    edge: str | None = None
    code: str | None = None
    field: str | None = None
    text: str | None = None
    source: str | None = None
    sign: Literal["+", "-", "*", "/"] | None = None
    way: Literal["up", "nearest", "none"] | None = None
    step: float | None = None
    bound: Literal["at most", "at least"] | None = None
    terms: list[TermEntry] | None = None


class FigureEntry(_Plain):
    """A figure that a step worked out, without words: what it is (code), what it is about, and its sum.

    `step` is the number of the step, from 1; 0 in a file of format 1, which held the words of it.
    """

    step: int
    code: str
    piece: str = ""
    part: str = ""
    value: float
    unit: str
    term: TermEntry


class FindingEntry(_Plain):
    """Something doubtful or wrong, with its stable code and the value found."""

    code: str
    level: Severity
    where: str
    text: str
    value: float | None = None


class PatternDocument(_Plain):
    """A pattern ready to cut, for other programs to read."""

    format: Literal[2] = 2
    unit: Literal["cm"] = "cm"
    style: str
    body: str
    family: str = WOMEN
    pieces: list[PieceEntry]
    seams: list[SeamEntry]
    figures: list[FigureEntry]
    findings: list[FindingEntry]


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
