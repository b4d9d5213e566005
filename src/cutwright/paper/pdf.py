"""True-size PDF with layers: each layer is drawn once and shown through windows on many pages.

A plate is a drawing on one layer and is painted once. Shown in several places it is a form object
with optional content, which every leaf puts, clipped, where it lies; shown once it is written into
its page. reportlab makes the fonts, pikepdf the file. Sizes are given in cm and turned into points
(1/72 inch) here only. The same input gives the same bytes.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
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

    shown = Counter(part.plate for leaf in leaves for part in leaf.parts)
    codes, fonts = _painted(list(shown), pens)
    with Pdf.open(BytesIO(fonts)) as pdf:
        font = pdf.pages[0].Resources.Font
        groups = _groups(pdf, shown)
        often = [plate for plate, count in shown.items() if count > 1]
        names = {plate: f"P{index}" for index, plate in enumerate(often)}
        forms = {names[p]: _form(pdf, p, codes[p], groups[p.layer], font) for p in often}
        resources = _resources(pdf, font, forms, groups)
        for leaf in leaves:
            _add(pdf, leaf, _page_code(leaf, names, codes, ground), resources)
        del pdf.pages[0]
        _describe(pdf, groups, title)
        out = BytesIO()
        pdf.save(out, min_version="1.5", deterministic_id=True, compress_streams=True)
    return out.getvalue()


class _Written:
    """The operators of one plate, as they are painted."""

    def __init__(self, document: Any) -> None:
        self._doc = document
        self.code: list[str] = []

    def addLiteral(self, s: str, _escaped: object = None) -> None:  # noqa: N802
        """Take some operators."""
        self.code.append(s)


def _painted(plates: Sequence[Plate], pens: Pens) -> tuple[dict[Plate, str], bytes]:
    """The operators of every plate, and a file with a bare page that has their fonts."""
    from reportlab.pdfbase.pdfmetrics import getFont
    from reportlab.pdfgen.canvas import Canvas

    register_fonts()
    fonts = {bold: getFont(name) for bold, name in SANS.items()}
    out = BytesIO()
    plain: Any = SANS[False]  # the types of this library ask for a number here
    canvas: Any = Canvas(out, invariant=1, pageCompression=0, initialFontName=plain)
    codes: dict[Plate, str] = {}
    for plate in plates:
        written = _Written(canvas._doc)
        paint(plate.drawing, written, pens, fonts, scale=plate.scale)
        codes[plate] = "\n".join(written.code)
    canvas.showPage()
    canvas.save()
    return codes, out.getvalue()


def register_fonts() -> None:
    """Make the shipped fonts known to reportlab, once."""
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    known = pdfmetrics.getRegisteredFontNames()
    for name in SANS.values():
        if name not in known:
            pdfmetrics.registerFont(TTFont(name, str(FONTS / f"{name}.ttf")))


def _groups(pdf: Pdf, plates: Iterable[Plate]) -> dict[str, Object]:
    """What switches each layer on and off, by the layer."""
    from pikepdf import Dictionary, Name, String

    return {
        layer: pdf.make_indirect(Dictionary(Type=Name.OCG, Name=String(_(LAYER_WORDS[layer]))))
        for layer in dict.fromkeys(plate.layer for plate in plates)
    }


def _form(pdf: Pdf, plate: Plate, code: str, group: Object, font: Object) -> Object:
    from pikepdf import Array, Dictionary, Name

    left, top, right, bottom = _box(plate)
    form = pdf.make_stream(code.encode("ascii"), Type=Name.XObject, Subtype=Name.Form)
    form.BBox = Array([left * K, -bottom * K, right * K, -top * K])
    form.Resources = Dictionary(Font=font)
    form.OC = group
    return form


def _resources(
    pdf: Pdf, font: Object, forms: dict[str, Object], groups: dict[str, Object]
) -> Object:
    """The fonts, forms and layers that pages name; one for all pages."""
    from pikepdf import Dictionary

    shown: Any = {f"/{name}": form for name, form in forms.items()}
    layers: Any = {f"/{_layer_name(layer)}": group for layer, group in groups.items()}
    return pdf.make_indirect(
        Dictionary(Font=font, XObject=Dictionary(shown), Properties=Dictionary(layers))
    )


def _box(plate: Plate) -> Box:
    if plate.box is not None:
        return plate.box
    left, top, right, bottom = (side * plate.scale for side in whole_box(plate.drawing))
    return left - 1, top - 1, right + 1, bottom + 1


def _layer_name(layer: str) -> str:
    """The name of a layer in the resources; names have no spaces."""
    return layer.title().replace(" ", "")


def _page_code(
    leaf: Leaf, names: dict[Plate, str], codes: dict[Plate, str], ground: str | None
) -> str:
    """The operators of a page: each part clipped and moved, as a form or written out on its layer."""
    code: list[str] = []
    if ground:
        red, green, blue = rgb(ground)
        area = f"0 0 {leaf.width * K:.4f} {leaf.height * K:.4f}"
        code.append(f"q {red:.4f} {green:.4f} {blue:.4f} rg {area} re f Q")
    for part in leaf.parts:
        clip = ""
        if part.clip:
            left, top, right, bottom = part.clip
            y = (leaf.height - bottom) * K
            size = f"{(right - left) * K:.4f} {(bottom - top) * K:.4f}"
            clip = f"{left * K:.4f} {y:.4f} {size} re W n "
        x, y = part.at.real * K, (leaf.height - part.at.imag) * K
        name = names.get(part.plate)
        layer = _layer_name(part.plate.layer)
        seen = f"/{name} Do" if name else f"/OC /{layer} BDC\n{codes[part.plate]}\nEMC"
        code.append(f"q {clip}1 0 0 1 {x:.5f} {y:.5f} cm {seen} Q")
    return "\n".join(code)


def _add(pdf: Pdf, leaf: Leaf, code: str, resources: Object) -> None:
    from pikepdf import Array, Dictionary, Name, Page

    page = Dictionary(
        Type=Name.Page,
        MediaBox=Array([0, 0, leaf.width * K, leaf.height * K]),
        Resources=resources,
        Contents=pdf.make_stream(code.encode("ascii")),
    )
    pdf.pages.append(Page(page))


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
