"""True-size PDF with layers: each layer is drawn once and shown through windows on many pages.

A plate is a drawing on one layer; reportlab paints each plate once, pikepdf makes it a form object
with optional content and puts it, clipped, on every leaf that shows it. Sizes are given in cm and
turned into points (1/72 inch) here only. The same input gives the same bytes.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from io import BytesIO
from typing import TYPE_CHECKING, Any

from cutwright.drawing.inks import Pens
from cutwright.drawing.paint import POINTS_PER_CM as K
from cutwright.drawing.paint import paint, rgb
from cutwright.drawing.primitives import Drawing, Item, Layer
from cutwright.drawing.type import FONTS, SANS, whole_box
from cutwright.paper.pieces import PlacedPiece, Title
from cutwright.paper.traces import Box
from cutwright.words import N_, _, current_language

if TYPE_CHECKING:
    from pikepdf import Dictionary, Object, Pdf

LONGEST = 500.0
"""Longest side of a page, cm; readers stop at 14 400 points, which is 508 cm."""

_PARTING = "%-- plate --"

LAYER_WORDS = {
    Layer.CLOTH.value: N_("cloth"),
    Layer.STITCH.value: N_("stitch line"),
    Layer.CUT.value: N_("cut line"),
    Layer.MARKS.value: N_("marks"),
    Layer.TEXT.value: N_("text"),
    Layer.HELP.value: N_("help lines"),
    Layer.PROOF.value: N_("faults"),
    "title": N_("title and scale square"),
    "joining": N_("joining marks"),
    "grid": N_("calibration grid"),
}
"""What a reader of the file sees in its list of layers."""


@dataclass(frozen=True, slots=True, eq=False)
class Plate:
    """A drawing that is painted once, on a layer; `box` bounds it on paper in cm."""

    layer: str
    drawing: Drawing
    scale: float = 1.0
    box: Box | None = None


@dataclass(frozen=True, slots=True, eq=False)
class PlatePart:
    """A plate shown on a leaf: where its origin lies, and what is cut off, in cm of the leaf."""

    plate: Plate
    at: complex = 0j
    clip: Box | None = None


@dataclass(frozen=True, slots=True)
class Leaf:
    """One page, cm."""

    width: float
    height: float
    parts: tuple[PlatePart, ...]


def layer_plates(pieces: Sequence[PlacedPiece], box: Box) -> list[Plate]:
    """One plate for each layer that the pieces use, in the order of the layers."""
    groups: dict[Layer, list[Item]] = {layer: [] for layer in Layer}
    for piece in pieces:
        for item in piece.drawing.items:
            groups[item.layer].append(item)
    return [
        Plate(layer.value, Drawing(tuple(items)), box=box)
        for layer, items in groups.items()
        if items
    ]


def pdf_bytes(
    leaves: Sequence[Leaf], pens: Pens, title: Title, *, ground: str | None = None
) -> bytes:
    """The file that shows these leaves.

    `ground` is the colour of the page; None leaves the paper bare.
    """
    from pikepdf import Pdf

    plates = list({id(part.plate): part.plate for leaf in leaves for part in leaf.parts}.values())
    with Pdf.open(BytesIO(_painted(plates, pens))) as pdf:
        forms, groups = _forms(pdf, plates)
        for leaf in leaves:
            _add(pdf, leaf, forms, ground)
        del pdf.pages[0]
        _describe(pdf, groups, title)
        out = BytesIO()
        pdf.save(out, min_version="1.5", deterministic_id=True, compress_streams=True)
    return out.getvalue()


def _painted(plates: Sequence[Plate], pens: Pens) -> bytes:
    """Every plate on one page, parted by a comment that no painted thing can contain."""
    from reportlab.pdfgen.canvas import Canvas

    register_fonts()
    out = BytesIO()
    side = LONGEST * K
    plain: Any = SANS[False]  # the types of this library ask for a number here
    canvas = Canvas(
        out, pagesize=(side, side), invariant=1, pageCompression=0, initialFontName=plain
    )
    for plate in plates:
        canvas.addLiteral(_PARTING)
        paint(plate.drawing, canvas, pens, scale=plate.scale)
    canvas.save()
    return out.getvalue()


def register_fonts() -> None:
    """Make the shipped fonts known to reportlab, once."""
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    known = pdfmetrics.getRegisteredFontNames()
    for name in SANS.values():
        if name not in known:
            pdfmetrics.registerFont(TTFont(name, str(FONTS / f"{name}.ttf")))


def _forms(pdf: Pdf, plates: Sequence[Plate]) -> tuple[dict[int, Object], dict[str, Object]]:
    from pikepdf import Array, Dictionary, Name, String

    page = pdf.pages[0]
    codes = page.Contents.read_bytes().split(_PARTING.encode("ascii"))[1:]
    fonts = pdf.make_indirect(Dictionary(Font=page.Resources.Font))
    forms: dict[int, Object] = {}
    groups: dict[str, Object] = {}
    for plate, painted in zip(plates, codes, strict=True):
        if plate.layer not in groups:
            name = String(_(LAYER_WORDS[plate.layer]))
            groups[plate.layer] = pdf.make_indirect(Dictionary(Type=Name.OCG, Name=name))
        left, top, right, bottom = _box(plate)
        form = pdf.make_stream(painted.strip(), Type=Name.XObject, Subtype=Name.Form)
        form.BBox = Array([left * K, -bottom * K, right * K, -top * K])
        form.Resources = fonts
        form.OC = groups[plate.layer]
        forms[id(plate)] = form
    return forms, groups


def _box(plate: Plate) -> Box:
    if plate.box is not None:
        return plate.box
    left, top, right, bottom = (side * plate.scale for side in whole_box(plate.drawing))
    return left - 1, top - 1, right + 1, bottom + 1


def _add(pdf: Pdf, leaf: Leaf, forms: dict[int, Object], ground: str | None) -> None:
    from pikepdf import Dictionary

    page = pdf.add_blank_page(page_size=(leaf.width * K, leaf.height * K))
    names: dict[int, str] = {}
    code: list[str] = []
    if ground:
        red, green, blue = rgb(ground)
        area = f"0 0 {leaf.width * K:.4f} {leaf.height * K:.4f}"
        code.append(f"q {red:.4f} {green:.4f} {blue:.4f} rg {area} re f Q")
    for part in leaf.parts:
        name = names.setdefault(id(part.plate), f"P{len(names)}")
        clip = ""
        if part.clip:
            left, top, right, bottom = part.clip
            y = (leaf.height - bottom) * K
            size = f"{(right - left) * K:.4f} {(bottom - top) * K:.4f}"
            clip = f"{left * K:.4f} {y:.4f} {size} re W n "
        x, y = part.at.real * K, (leaf.height - part.at.imag) * K
        code.append(f"q {clip}1 0 0 1 {x:.5f} {y:.5f} cm /{name} Do Q")
    shown: Any = {f"/{name}": forms[key] for key, name in names.items()}
    page.Resources = Dictionary(XObject=Dictionary(shown))
    page.Contents = pdf.make_stream("\n".join(code).encode("ascii"))


def _describe(pdf: Pdf, groups: dict[str, Object], title: Title) -> None:
    """Layers that can be switched, no scaling by the print dialogue, a title and a fixed date."""
    from pikepdf import Array, Dictionary, Name, String

    order = [groups[layer] for layer in LAYER_WORDS if layer in groups]
    shown = Dictionary(Order=Array(order), ON=Array(order), Name=String(_("Layers")))
    pdf.Root.OCProperties = Dictionary(OCGs=Array(order), D=shown)
    pdf.Root.ViewerPreferences = Dictionary(PrintScaling=Name("/None"), DisplayDocTitle=True)
    pdf.Root.PageMode = Name.UseNone
    pdf.Root.Lang = String(current_language())
    about: Dictionary = Dictionary(Title=String(title.line() or _("Pattern")))
    about.Producer = String("Cutwright")
    if title.made:
        about.CreationDate = String(title.made.strftime("D:%Y%m%d000000Z"))
    pdf.trailer.Info = pdf.make_indirect(about)
