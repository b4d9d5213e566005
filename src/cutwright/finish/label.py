"""The words on a piece, as data: its name and number, garment, for whom, how it is cut, allowance, date."""

from __future__ import annotations

from dataclasses import dataclass

from cutwright.finish.cut_line import CutLine
from cutwright.finish.options import FinishOptions
from cutwright.messages import N_, Length, Message, N_plural, Text, Typed
from cutwright.pattern.edge import EdgeKind
from cutwright.pattern.piece import Cut, Material, Piece, in_interfacing

_MATERIALS = {
    Material.MAIN: N_("main cloth"),
    Material.SECOND: N_("second cloth"),
    Material.LINING: N_("lining"),
    Material.INTERLINING: N_("interlining"),
    Material.INTERFACING: N_("interfacing"),
}
"""What a cloth is called where it has no name of its own."""


@dataclass(frozen=True, slots=True)
class Label:
    """What a piece's label says; `cutwright.wording.labels` makes the words.

    Parameters
    ----------
    piece : the piece's name, the title of the label
    lines : the lines below it; parts of a line stand beside each other
    cut : how the piece is cut, which is also one of the lines
    """

    piece: str
    lines: tuple[tuple[Text, ...], ...]
    cut: Message


def label_of(
    piece: Piece,
    line: CutLine,
    options: FinishOptions,
    number: int = 1,
    count: int = 1,
) -> Label:
    """The label of a piece.

    Parameters
    ----------
    piece : the piece
    line : its cut line
    options : what the cutter says of finishing
    number, count : the how-manieth piece it is, from 1, and of how many

    Returns
    -------
    the label; what is not told is left out
    """
    cut = how_cut(piece, options)
    place = Message("piece-of", N_("piece {number} of {count}"), number=number, count=count)
    made = Message("day", "{day}", day=options.made) if options.made else None
    lines: list[tuple[Text | None, ...]] = [
        (place,),
        (Typed(options.garment),),
        (Typed(options.who), Typed(options.order)),
        (cut,),
        (allowance_included(piece, line),),
        (made, revision_message(options.revision)),
    ]
    there = (tuple(part for part in each if part) for each in lines)
    return Label(piece.name, tuple(each for each in there if each), cut)


def revision_message(revision: str) -> Message | None:
    """Which revision of the style or the order; nothing where none is told."""
    if not revision:
        return None
    return Message("revision", N_("revision {number}"), number=Typed(revision))


def how_cut(piece: Piece, options: FinishOptions) -> Message:
    """How a piece is cut: "Cut 1 on the fold in main cloth, the same in interfacing", "Cut 1 pair in main cloth · Cut 1 in lining".

    Parameters
    ----------
    piece : the piece
    options : holds the names of the cloths

    Returns
    -------
    the sentence as data
    """
    told = _way(piece, piece.cut, options)
    for cut in piece.also:
        if cut == in_interfacing(piece.cut):
            told = Message("cut-stiff", N_("{cut}, the same in interfacing"), cut=told)
    for cut in piece.also:
        if cut != in_interfacing(piece.cut):
            more = _way(piece, cut, options)
            told = Message("cut-also", "{first} · {more}", first=told, more=more)
    return told


def _way(piece: Piece, cut: Cut, options: FinishOptions) -> Message:
    named = dict(options.cloths).get(cut.material)
    cloth = Typed(named) if named else _MATERIALS[cut.material]
    if piece.on_fold:
        return Message(
            "cut-on-fold", N_("Cut {count} on the fold in {cloth}"), count=cut.copies, cloth=cloth
        )
    if cut.mirrored and cut.copies % 2 == 0:
        pairs = N_plural("Cut {count} pair in {cloth}", "Cut {count} pairs in {cloth}")
        return Message("cut-pairs", pairs, count=cut.copies // 2, cloth=cloth)
    return Message("cut", N_("Cut {count} in {cloth}"), count=cut.copies, cloth=cloth)


def allowance_included(piece: Piece, line: CutLine) -> Message | None:
    """What the cut line includes: "Allowance included: 1.5, neckline 1, hem 3.5 cm".

    Parameters
    ----------
    piece : the piece
    line : its cut line

    Returns
    -------
    the sentence as data, lengths in cm; None where nothing but the fold is there
    """
    amounts: dict[str, float] = {}
    weight: dict[float, float] = {}
    for edge in piece.outer_edges:
        if edge.kind is EdgeKind.FOLD:
            continue
        amount = line.edge(edge.label).allowance
        amounts.setdefault(edge.name, amount)
        weight[amount] = weight.get(amount, 0.0) + edge.length
    if not amounts:
        return None
    if not any(amounts.values()):
        return Message("no-allowance", N_("No allowance included"))
    counts = {a: sum(1 for v in amounts.values() if v == a) for a in weight}
    usual = max(weight, key=lambda a: (counts[a], weight[a]))
    others = [
        Message("edge-amount", "{edge} {amount}", edge=name, amount=Length(amount))
        for name, amount in amounts.items()
        if amount != usual
    ]
    return Message(
        "allowance-included",
        N_("Allowance included: {amounts} {unit}"),
        amounts=(Length(usual), *others),
    )
