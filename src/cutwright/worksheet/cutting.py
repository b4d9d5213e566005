"""The cutting list with thumbnails, and the table of seams."""

from __future__ import annotations

from collections.abc import Iterator

from cutwright.drawing.piece import edge_ink
from cutwright.drawing.primitives import Drawing, Ink, Item, Layer, Stroke
from cutwright.drawing.signs import arrow
from cutwright.finish.finished import FinishedPattern, FinishedPiece
from cutwright.geometry.outline import bounds
from cutwright.geometry.path import polyline
from cutwright.numerals import bare, by_custom, in_inches, unit_name
from cutwright.pattern.edge import EdgeKind
from cutwright.pattern.mark import MarkKind
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.seam import Seam, SeamKind
from cutwright.wording.message_text import message_text
from cutwright.wording.names import name_text, sentence_case, title_of
from cutwright.words import N_, _, ngettext
from cutwright.worksheet.making_words import ratio_words
from cutwright.worksheet.sheet import Picture, Section, SheetTable, Text

THUMB = 1.6
"""Largest side of a thumbnail on paper, cm."""


def cutting_section(finished: FinishedPattern) -> Section:
    """Every piece with how it is cut."""
    rows = tuple(
        (thumbnail(p), title_of(p.name), message_text(p.label.cut), _grain(p), _allowance(p))
        for p in finished.pieces
    )
    head = (
        _("Drawing"),
        _("Piece"),
        _("Cut"),
        _("Grain"),
        _("Allowance, in") if in_inches() else _("Allowance, cm"),
    )
    return Section(
        "cutting", _("Cutting list"), (SheetTable(head, rows, (0.11, 0.16, 0.27, 0.22, 0.24)),)
    )


def thumbnail(piece: FinishedPiece) -> Picture:
    """A piece made small: cut line, stitch line, darts, grain."""
    items: list[Item] = [
        Stroke(piece.cut_line.outline, Ink.PAPER, Layer.CUT, closed=True, fill=True)
    ]
    items += [Stroke(e.curves, Ink.CUT, Layer.CUT) for e in piece.cut_line.edges]
    for edge in piece.piece.edges:
        items.append(Stroke(edge.curves, edge_ink(edge, Ink.STITCH), Layer.STITCH))
    for d in piece.piece.diamonds:
        items.append(
            Stroke(polyline([d.top, d.far, d.bottom, d.near, d.top]), Ink.DART, Layer.STITCH)
        )
    items += arrow(*piece.grain, Ink.GRAIN)
    box = bounds(piece.cut_line.outline)
    scale = min(THUMB / max(box[2] - box[0], box[3] - box[1]), 0.12)
    rim = 0.05 / scale
    seen = (box[0] - rim, box[1] - rim, box[2] + rim, box[3] + rim)
    return Picture(Drawing(tuple(items)), seen, name_text(piece.name), scale=scale)


def _grain(piece: FinishedPiece) -> str:
    if piece.piece.on_fold:
        return _("fold on the straight grain")
    return _("straight, along the arrow")


def _allowance(piece: FinishedPiece) -> str:
    """The usual allowance first, then the edges that differ."""
    amounts: dict[str, float] = {}
    for edge in piece.piece.outer_edges:
        if edge.kind is not EdgeKind.FOLD:
            amounts.setdefault(edge.name, piece.cut_line.edge(edge.label).allowance)
    if not any(amounts.values()):
        return _("none")
    values = list(amounts.values())
    usual = max(dict.fromkeys(values), key=values.count)
    if in_inches():
        others = [
            f"{name_text(name)} {bare(value)}" for name, value in amounts.items() if value != usual
        ]
        return ", ".join([bare(usual), *others])
    others = [f"{name_text(name)} {value:g}" for name, value in amounts.items() if value != usual]
    return by_custom(", ".join([f"{usual:g}", *others]))


def seams_section(pattern: Pattern) -> Section:
    """Every seam: which edge to which, both lengths, ease or ratio, notches, kind of seam."""
    rows = tuple(row for seam in pattern.seams for row in _seam_rows(pattern, seam))
    head = (
        _("This edge"), _("to this"), unit_name(), unit_name(), _("How"), _("Notches"), _("Seam"),
    )  # fmt: skip
    note = _(
        "Lengths of one half or one copy. Numbers are those of ISO 4915 (stitches) and ISO 4916 "
        "(seams); where only the class is sure, the class is given."
    )
    kinds = dict.fromkeys(_kind(seam) for seam in pattern.seams)
    numbered = "; ".join(f"{_(kind)}: {_(_NUMBERS[kind])}" for kind in kinds)
    table = SheetTable(head, rows, (0.215, 0.215, 0.065, 0.065, 0.12, 0.1, 0.22), frozenset({2, 3}))
    text = f"{note} {sentence_case(numbered)}."
    return Section("seams", _("Seams"), (table, Text(text, "note")))


def _seam_rows(pattern: Pattern, seam: Seam) -> Iterator[tuple[str, ...]]:
    """The first layer beside the second; each further layer on a line of its own."""
    first, *others = (
        " + ".join(name_text(str(ref)) for ref in layer.refs) for layer in seam.layers
    )
    own, *sizes = map(bare, pattern.seam_lengths(seam))
    if seam.own_mirror:
        others = [_("the same edge of the other half")] * len(others)
    marks, kind = _notches(pattern, seam), seam_type(seam)
    for number, (other, size) in enumerate(zip(others, sizes, strict=True)):
        if number == 0:
            yield first, other, own, size, ratio_words(seam), marks, kind
        else:
            yield "", other, "", size, "", "", ""


def _notches(pattern: Pattern, seam: Seam) -> str:
    """How many balance marks the seam has on its first row, double ones told apart."""
    labels = {
        (ref.piece, edge.label) for ref in seam.layers[0].refs for edge in pattern.edge_parts(ref)
    }
    marks = [
        m.text
        for piece in pattern.pieces
        for m in piece.marks
        if m.kind is MarkKind.NOTCH and m.edge and (piece.name, m.edge) in labels
    ]
    double = sum(1 for text in marks if text == "2")
    if not marks:
        return "–"
    if double == len(marks):
        return ngettext("{count} double", "{count} double", double).format(count=double)
    text = str(len(marks))
    if double:
        text += " " + ngettext("({count} double)", "({count} double)", double).format(count=double)
    return text


_PLAIN = N_("plain, pressed open")
_KINDS = {
    SeamKind.FACING: N_("faced, turned, pressed"),
    SeamKind.WAISTBAND: N_("band lapped over"),
    SeamKind.BINDING: N_("bound"),
    SeamKind.GATHERED: N_("plain, gathers on top"),
    SeamKind.EASED: N_("plain, eased"),
}
_NUMBERS = {
    _PLAIN: N_("seam 1.01.01, stitch 301"),
    _KINDS[SeamKind.FACING]: N_("seam of class 1, stitch 301"),
    _KINDS[SeamKind.WAISTBAND]: N_("seam of class 3, stitch 301"),
    _KINDS[SeamKind.BINDING]: N_("seam of class 3, stitch 301"),
    _KINDS[SeamKind.GATHERED]: N_("seam 1.01.01, stitch 301"),
    _KINDS[SeamKind.EASED]: N_("seam 1.01.01, stitch 301"),
}
"""Numbers of ISO 4916 and ISO 4915 by the kind of seam; from memory but for stitch 301."""


def _kind(seam: Seam) -> str:
    return _KINDS.get(seam.kind, _PLAIN)


def seam_type(seam: Seam) -> str:
    """The kind of seam in words."""
    kind = _kind(seam)
    return _(kind)
