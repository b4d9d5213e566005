"""What stands beside a number in a sum: the measure, the edge, the choice or the rule it comes from."""

from __future__ import annotations

from enum import Enum, auto

from cutwright.body.measures import MEASURES
from cutwright.pattern.edge import Ref, parse_label
from cutwright.pattern.sum import (
    Chosen,
    DraftRule,
    Earlier,
    EdgeLength,
    Leaf,
    Number,
    ReadOff,
    Taped,
)
from cutwright.wording.names import name_text
from cutwright.words import N_, _, current_language

DRAWN = {
    "opened": N_("opened"),
    "trued": N_("drawn smooth"),
    "longer": N_("longer"),
    "intake": "",
    "leg": N_("leg"),
    "leg-before": N_("leg before"),
    "leg-now": N_("leg now"),
    "slant": N_("slant"),
    "mouth": N_("mouth"),
    "dart-angle": N_("angle"),
    "back-neckline": N_("back neckline"),
    "front-neckline": N_("front neckline"),
    "shortened": N_("for the armhole"),
    "for-the-armhole": N_("for the armhole"),
    "hollow": N_("for the hollow of the centre back"),
    "dart-slant": N_("for the slant of the dart"),
    "waist-curve": N_("for the curve of the waist"),
    "centre-back": N_("centre back"),
    "two-sides": N_("two sides"),
    "back-darts": N_("back darts"),
    "front-darts": N_("front darts"),
    "back": N_("back"),
    "front": N_("front"),
    "lean": "",
    "side-taken": N_("taken in at the side"),
    "centre-inside": N_("centre back inwards at the bust"),
    "for-the-hip": N_("for the hip"),
    "folded-out": N_("folded out"),
    "half-width": N_("half width"),
}
"""Words for what is read off the paper, by its code."""

CHOSEN = {
    "bust_ease": N_("ease"),
    "waist_ease": N_("ease"),
    "hip_ease": N_("ease"),
    "neck_ease": N_("ease"),
    "across_back_ease": N_("ease"),
    "across_chest_ease": N_("ease"),
    "armhole_depth_ease": N_("ease"),
    "ease": N_("ease"),
    "overlap": N_("overlap"),
    "cloth": N_("width of the cloth"),
    "join": N_("allowance"),
    "allowance": N_("allowance"),
    "length": N_("length"),
    "shoulder_dart": N_("dart"),
    "shoulder_ease": N_("ease"),
    "wider": N_("wider"),
    "short_by": N_("short of the point"),
    "hollow": N_("hollow"),
    "beyond": N_("run on"),
    "widest": N_("widest part"),
    "depth": N_("depth"),
}
"""Words for what the cutter chose, by the field of the step; a field that is not here needs none."""

RULES = {
    "flare": "",
    "front-lower": "",
    "dart-inside": "",
    "dart-on-shoulder": "",
    "short-of-bust-point": "",
    "hollow-share": "",
    "most-hollow": "",
    "side-share": "",
    "skirt-side-share": "",
    "skirt-side-most": "",
    "dart-share": "",
    "neck-rise": "",
    "neck-rise-more": "",
    "neck-deeper": "",
    "back-narrower": "",
    "armhole-cap": "",
    "dart-top": "",
    "below-underarm": "",
    "least-side-dart": "",
    "bust-of-the-rule": "",
    "dart-of-the-rule": "",
    "dart-for-each-4-cm": "",
    "cup-share": "",
    "cup": "",
    "dart-for-each-cm-of-cup": "",
    "most-for-the-cup": "",
    "dart-kept-in": "",
    "back-waist-less": "",
}
"""Words for the figures of rules; most are told by the sentence of the figure itself."""

EARLIER = {
    "back-at-the-bust": N_("back at the bust"),
    "front-at-the-bust": N_("front at the bust"),
    "back-hip": N_("back at the hip"),
    "front-hip": N_("front at the hip"),
    "inner-part-down": N_("mouth below the neck point"),
    "inner-part-out": N_("mouth outside the neck point"),
    "outer-part-down": N_("mouth below the turned neck point"),
    "outer-part-out": N_("mouth outside the turned neck point"),
    "dart-middle-out": N_("middle of the mouth outwards"),
    "dart-middle-up": N_("middle of the mouth upwards"),
    "back-shoulder": N_("straight line"),
    "below-hip": N_("length below the hip"),
    "bust-points": N_("bust point from the centre"),
    "centre-hollow": N_("hollow"),
    "flare": N_("flare"),
    "front-neck-level": N_("side neck point of the front"),
    "front-shoulder-across": N_("shoulder end of the front, from the centre"),
    "front-shoulder-level": N_("shoulder end of the front"),
    "hem-level": N_("hem"),
    "hip-depth": N_("hip"),
    "hip-level": N_("hip"),
    "hip-outside": N_("hip outside the waist"),
    "neck-depth": N_("front neck depth"),
    "neck-over-bust": N_("neck point above the bust point"),
    "neck-rise": N_("rise of the back neck"),
    "shoulder": N_("shoulder"),
    "shoulder-drop": N_("shoulder end of the back"),
    "shoulder-run": N_("shoulder end from the neck point"),
    "shoulder-slope": N_("shoulder slope"),
    "side-out": N_("hem beyond the hip"),
    "side-rise": N_("rise at the side"),
    "side-taken": N_("taken in at the side"),
    "skirt-length": N_("length"),
    "to-take-in": N_("to take in"),
    "turned-neck-across": N_("turned neck point"),
    "turned-neck-level": N_("turned neck point"),
    "bust-dart": N_("bust dart"),
    "bust-point-level": N_("bust point"),
    "bust-to-waist": N_("bust point to waist"),
    "armhole-depth": N_("armhole depth"),
    "closed-back-waist": N_("back"),
    "dart-angle": N_("moved"),
    "each-part": N_("each part"),
    "flounce-length": N_("length"),
    "half-bust": N_("half bust"),
    "half-hip": N_("half hip"),
    "half-waist": N_("half waist"),
    "flounce-hem": N_("hem"),
    "hem-longer": N_("longer by"),
    "hem-radius": N_("radius"),
    "neck-width": N_("neck width"),
    "opened": N_("opened"),
    "opened-in-each-part": N_("opened"),
    "sewn-to": N_("seam"),
    "slashes": N_("slashes"),
    "turn": N_("turn"),
    "waist": "",
    "waist-level": N_("waist"),
    "waist-radius": N_("radius"),
    "zip-opening": N_("opening"),
}
"""What a figure is called in a later sum, by its code."""

NUMBERS = {
    "": "",
    "all-round": N_("all round"),
    "halves": "",
    "both-sides": N_("sides"),
    "two-sides": N_("sides"),
    "parts": N_("parts"),
    "strips": N_("strips"),
    "joins": "",
    "ends": "",
    "folded": "",
    "slashes": N_("slashes"),
    "each-4-cm": "",
    "degrees": "",
    "turn": "",
}
"""Words behind a plain number."""


class Tell(Enum):
    """By what an edge is told in a sum."""

    PIECE = auto()
    EDGE = auto()
    PART = auto()  # one edge in parts: which of them
    BOTH = auto()
    BEFORE = auto()  # the edge the figure is about, as it was
    NOTHING = auto()


def label(leaf: Leaf, edges: Tell = Tell.BOTH) -> str:
    """The words before a number in a sum."""
    match leaf:
        case Taped(measure=measure):
            return inside(_(MEASURES[measure].name))
        case EdgeLength(ref=ref):
            return _edge(ref, edges)
        case ReadOff(code=code, piece=piece):
            return " ".join(filter(None, (_looked_up(DRAWN[code]), name_text(piece))))
        case Chosen(field="ease", size=size) if size < 0:
            return _("eased in")
        case Chosen(field=field):
            return _looked_up(CHOSEN.get(field, ""))
        case DraftRule(code=code):
            return _looked_up(RULES[code])
        case Earlier(figure=figure):
            return _looked_up(EARLIER[figure.code])
        case Number():
            return ""


def _edge(ref: Ref, edges: Tell) -> str:
    match edges:
        case Tell.PIECE:
            return name_text(ref.piece)
        case Tell.EDGE:
            return name_text(ref.edge)
        case Tell.PART:
            return name_text(ref.edge) + "".join(f".{n}" for n in parse_label(ref.edge)[1])
        case Tell.BOTH:
            return name_text(f"{ref.piece}: {ref.edge}")
        case Tell.BEFORE:
            return _("before")
        case Tell.NOTHING:
            return ""


def origin(leaf: Leaf, piece: str) -> str:
    """Where a figure comes from that is no sum; `piece` is the one it is about."""
    match leaf:
        case Taped():
            return _("from the body")
        case EdgeLength(ref=ref) if piece and ref.piece != piece:
            return _("as on {piece}").format(piece=name_text(ref.piece))
        case EdgeLength() | ReadOff():
            return _("measured on the paper")
        case Chosen():
            return _("as asked for")
        case _:
            return ""


def behind(leaf: Leaf) -> str:
    """The words after a number: "parts"."""
    return _looked_up(NUMBERS[leaf.code]) if isinstance(leaf, Number) else ""


def inside(name: str) -> str:
    """A name as it stands inside a sentence; German keeps its capitals."""
    return name if current_language().startswith("de") else name[:1].lower() + name[1:]


def _looked_up(text: str) -> str:
    return _(text) if text else ""
