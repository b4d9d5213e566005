"""The words on a piece: its name and number, garment, for whom, how it is cut, allowance, date."""

from __future__ import annotations

from dataclasses import dataclass

from cutwright.finish.cut_line import CutLine
from cutwright.finish.options import FinishOptions
from cutwright.numerals import day_words, short
from cutwright.pattern.edge import Kind
from cutwright.pattern.piece import Piece
from cutwright.pattern.vocabulary import told
from cutwright.words import _, ngettext


@dataclass(frozen=True, slots=True)
class Label:
    """The lines of a label; `title` is the piece's name, `cut` the line that says how it is cut."""

    title: str
    lines: tuple[str, ...]
    cut: str = ""

    def in_one(self) -> str:
        """The label as a single line, for narrow strips."""
        return " · ".join([self.title, *self.lines])


def label_of(
    piece: Piece,
    line: CutLine,
    options: FinishOptions,
    number: int = 1,
    count: int = 1,
    stiff: bool = False,
) -> Label:
    """The label of a piece, the `number`th of `count`; a `stiff` one is cut in interfacing, too."""
    cut = how_cut(piece, options, stiff)
    made = day_words(options.made) if options.made else ""
    lines = [
        _("piece {number} of {count}").format(number=number, count=count),
        options.garment,
        " · ".join(filter(None, [options.who, options.order])),
        cut,
        allowance_words(piece, line),
        " · ".join(filter(None, [made, revision_words(options.revision)])),
    ]
    return Label(sentence_case(told(piece.name)), tuple(text for text in lines if text), cut)


def sentence_case(text: str) -> str:
    """The text with its first letter large."""
    return text[:1].upper() + text[1:]


def revision_words(revision: str) -> str:
    """Which revision of the style or the order; nothing where none is told."""
    return _("revision {number}").format(number=revision) if revision else ""


def how_cut(piece: Piece, options: FinishOptions, stiff: bool = False) -> str:
    """ "Cut 1 on the fold in main cloth", "Cut 1 pair in lining", "Cut 2 in main cloth, the same in interfacing"."""
    cloth = dict(options.cloths).get(piece.cut.material) or _material(piece.cut.material)
    copies = piece.cut.copies
    if piece.on_fold:
        text = _("Cut {count} on the fold in {cloth}")
    elif piece.cut.mirrored and copies % 2 == 0:
        copies //= 2
        text = ngettext("Cut {count} pair in {cloth}", "Cut {count} pairs in {cloth}", copies)
    else:
        text = _("Cut {count} in {cloth}")
    cut = text.format(count=copies, cloth=cloth)
    return _("{cut}, the same in interfacing").format(cut=cut) if stiff else cut


def _material(material: str) -> str:
    names = {
        "main": _("main cloth"),
        "lining": _("lining"),
        "interlining": _("interlining"),
        "interfacing": _("interfacing"),
    }
    return names.get(material, material)


def allowance_words(piece: Piece, line: CutLine) -> str:
    """What the cut line includes: "Allowance included: 1.5, neckline 1, hem 3.5 cm"."""
    amounts: dict[str, float] = {}
    weight: dict[float, float] = {}
    for edge in piece.edges:
        if edge.kind in (Kind.LEG, Kind.FOLD):
            continue
        amount = line.edge(edge.label).allowance
        amounts.setdefault(edge.name, amount)
        weight[amount] = weight.get(amount, 0.0) + edge.length
    if not amounts:
        return ""
    if not any(amounts.values()):
        return _("No allowance included")
    counts = {a: sum(1 for v in amounts.values() if v == a) for a in weight}
    usual = max(weight, key=lambda a: (counts[a], weight[a]))
    others = [
        f"{told(name)} {short(amount)}" for name, amount in amounts.items() if amount != usual
    ]
    shown = ", ".join([short(usual), *others])
    return _("Allowance included: {amounts} cm").format(amounts=shown)
