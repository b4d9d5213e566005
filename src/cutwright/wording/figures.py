"""What each figure is called: one template a code."""

from __future__ import annotations

from cutwright.numerals import short
from cutwright.pattern.sum import Figure, Unit, children, leaves
from cutwright.wording.names import name_text
from cutwright.wording.sums import SumLine, Writer, number_text
from cutwright.wording.terms import origin
from cutwright.words import N_, _, spaced

TEMPLATES = {
    "across-back": N_("half across back"),
    "across-chest": N_("half across chest"),
    "allowance": N_("allowance of {edge} of {piece}"),
    "armhole": N_("armhole"),
    "armhole-depth": N_("armhole depth"),
    "armhole-half": N_("armhole, all round"),
    "back-at-the-bust": N_("back, from the centre to the side at the bust"),
    "back-dart-length": N_("back darts, from the waist down"),
    "band-length": N_("length of the {piece}"),
    "band-width": N_("width of the {piece} as cut, without allowance"),
    "back-hip": N_("back, from the centre to the side at the hip"),
    "back-shoulder": N_("back, straight line from neck to shoulder end"),
    "below-hip": N_("length below the hip"),
    "centre-hollow": N_("hollow of the centre back at the waist"),
    "front-dart-place": N_("front dart from the centre"),
    "inner-part-down": N_("bust dart mouth below the neck point"),
    "inner-part-out": N_("bust dart mouth outside the neck point"),
    "outer-part-down": N_("bust dart mouth below the turned neck point"),
    "outer-part-out": N_("bust dart mouth outside the turned neck point"),
    "dart-middle-out": N_("middle of the mouth outside the bust point"),
    "dart-middle-up": N_("middle of the mouth above the bust point"),
    "front-hip": N_("front, from the centre to the side at the hip"),
    "front-neck-level": N_("side neck point of the front below the nape"),
    "front-shoulder-across": N_("shoulder end of the front, from the centre"),
    "front-shoulder-level": N_("shoulder end of the front below the nape"),
    "neck-over-bust": N_("side neck point above the bust point"),
    "shoulder-drop": N_("shoulder end of the back below the nape"),
    "shoulder-run": N_("shoulder end of the back, from the neck point outwards"),
    "side-out": N_("hem beyond the hip at each side"),
    "side-rise": N_("hem rises at the side by"),
    "side-taken": N_("taken in at each side"),
    "skirt-length": N_("length"),
    "turned-neck-across": N_("neck point turned by the bust dart, from the centre"),
    "turned-neck-level": N_("neck point turned by the bust dart, below the nape"),
    "bust-dart": N_("bust dart"),
    "bust-point-level": N_("bust point below the nape"),
    "bust-points": N_("bust point from the centre front"),
    "bust-to-waist": N_("bust point to waist, along the front"),
    "closed-back-waist": N_("back waist with the darts closed"),
    "closed-front-waist": N_("front waist with the darts closed"),
    "copied-edge": N_("{edge} of the {piece}"),
    "cut-edge": N_("{edge} of {piece}, on both sides of the cut"),
    "dart-angle": N_("{dart} of {piece}, angle"),
    "dart-leg": N_("leg of the {dart} of {piece}"),
    "beside-leg": N_("left beside each leg of {dart} of {piece}"),
    "dart-mouth": N_("{dart} of {piece}, width of the mouth"),
    "dart-top": N_("upper points of the waist darts"),
    "depth": N_("depth of the {piece}"),
    "drawn-up": N_("{edge} of {piece} to be drawn up by"),
    "drawn-up-over": N_("{edge} of {piece} to be drawn up over"),
    "each-part": N_("each part of the {piece}"),
    "flare": N_("flare at each side"),
    "flounce-length": N_("length of the {piece}"),
    "flounce-hem": N_("hem of the {piece}"),
    "folded-out": N_("folded out of the {edge} of {piece}"),
    "folded-edge": N_("{edge} of the {piece}, with the darts folded shut"),
    "free-edge": N_("free edge of each part of the {piece}"),
    "front-at-the-bust": N_("front, from the centre to the side at the bust"),
    "front-dart-length": N_("front darts, from the waist down"),
    "fullness": N_("fullness of the {piece}"),
    "half-bust": N_("half bust"),
    "half-hem": N_("half hem"),
    "half-hip": N_("half hip"),
    "half-neckline": N_("half neckline"),
    "half-waist": N_("half waist"),
    "hem": N_("hem"),
    "hem-level": N_("hem below the nape"),
    "hem-longer": N_("hem longer than the seam by"),
    "hem-radius": N_("radius of the hem"),
    "hip-depth": N_("hip below the waist"),
    "hip-level": N_("hip below the nape"),
    "hip-outside": N_("hip outside the waist at each side"),
    "hollow": N_("taken out at the centre, both halves"),
    "joined-along": N_("{edge} of {piece}"),
    "lean-apart": N_("the sides differ in their lean by"),
    "lean-shared": N_("both sides lean from the grain"),
    "length": N_("{edge} of {piece}"),
    "let-go": N_("waist of {piece} now looser by"),
    "neck-depth": N_("front neck depth"),
    "neck-rise": N_("rise of the back neck"),
    "neck-width": N_("neck width"),
    "neckline": N_("neckline, all round"),
    "opened": N_("{edge} of {piece} opened by"),
    "opened-in-each-part": N_("opened in each part"),
    "radius": N_("radius of the {piece}"),
    "sewn-to": N_("edges the {piece} is sewn to, all round"),
    "shoulder": N_("shoulder"),
    "shoulder-slope": N_("shoulder slope"),
    "side-dart": N_("dart from the side"),
    "slash-spacing": N_("from slash to slash"),
    "slashes": N_("slashes in each part of the {piece}"),
    "strip-length": N_("length of the {piece}"),
    "strips": N_("strips of the {piece}"),
    "taken-in": N_("waist taken in, half"),
    "to-take-in": N_("to take in at the waist, half"),
    "turn": N_("turn of the {piece}"),
    "waist": N_("waist"),
    "waist-level": N_("waist below the nape"),
    "waist-radius": N_("radius of the waist edge"),
    "width-as-cut": N_("width of {piece} as cut"),
    "zip-end": N_("end of the zip below the top of {piece}"),
    "zip-opening": N_("opening for the zip"),
}
"""What a figure is called, by its code; {piece}, {edge} and {dart} are those it is about."""


def what(figure: Figure) -> str:
    """What a figure is, in the language in force: "length of the hem flounce"."""
    part = name_text(figure.part)
    return _(TEMPLATES[figure.code]).format(piece=name_text(figure.piece), edge=part, dart=part)


def sum_of(figure: Figure) -> SumLine:
    """The sum of a figure in parts, each number with where it comes from."""
    return Writer(figure).written()


def how(figure: Figure) -> str:
    """How a figure came about: its sum, or where it was read off."""
    if children(figure.term):
        return str(sum_of(figure))
    (leaf,) = leaves(figure.term)
    return origin(leaf, figure.piece)


def much(figure: Figure) -> str:
    """The value of a figure with its unit: "12.5 cm"."""
    match figure.unit:
        case Unit.CM:
            return _("{number} cm").format(number=number_text(figure.value))
        case Unit.DEGREE:
            return short(figure.value) + "°"
        case Unit.NUMBER:
            return short(figure.value)


def figure_text(figure: Figure) -> str:
    """A figure with how it came about: "hem, all round: 27.4 + 26.1 = 53.5"."""
    if children(figure.term):
        return spaced(f"{what(figure)}: {how(figure)}")
    return spaced(f"{what(figure)}: {much(figure)}, {how(figure)}")
