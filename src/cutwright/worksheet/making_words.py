"""The order of making told in sentences."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from itertools import chain

from cutwright.checks.case import laid_seams
from cutwright.checks.opening import Opening, openings
from cutwright.numerals import length_words, number
from cutwright.pattern.edge import EdgeKind, Ref
from cutwright.pattern.parts.facings import facings
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.role import BODY
from cutwright.pattern.seam import LayerPart, Seam, SeamKind, SeamLayer
from cutwright.wording.names import name_text
from cutwright.words import N_, _
from cutwright.worksheet.amounts import BIAS_WIDTH, bias_length
from cutwright.worksheet.making import order_of_making
from cutwright.worksheet.making_darts import darts_words
from cutwright.worksheet.making_fitting import fitting
from cutwright.worksheet.making_needs import neighbours
from cutwright.worksheet.making_table import MakingTask
from cutwright.worksheet.parts import (
    cornered,
    drops,
    in_one_seam,
    kinds_of,
    wholly_open,
)
from cutwright.worksheet.sheet import Section, Text

_EASED = 0.3
"""From this ease on the longer edge is held in on purpose, cm."""

_CLIP = N_("Trim the allowances and clip the curves.")
_POINT = N_("Clip right into the point.")
_UNDERSTITCH = N_(
    "Turn the facing in and understitch it: sew the allowances to the facing, 2 mm from the seam, as "
    "far as the machine reaches, so that the facing rolls to the inside. Press."
)

_SAYS = {
    "mark": N_(
        "Mark every notch, dart, drill point and gathering line on the cloth before the paper comes off."
    ),
    "interface": N_(
        "Iron the interfacing to the wrong side of the {pieces}, pressing without sliding. "
        "Try the heat on a scrap first."
    ),
    "staystitch": N_(
        "Staystitch these edges just inside the allowance, from both ends to the middle, so that they "
        "do not stretch: {edges}."
    ),
    "bias": N_(
        "Cut bias strips {width} wide, {length} long in all, at 45° to the selvedge from what is left of "
        "the cloth. Join them and press the joins open. Bought bias binding does as well."
    ),
    "overcast": N_(
        "Finish (overcast) the raw edges of these seams while each piece is flat: {names}."
    ),
    "ends": N_(
        "Join the ends of the {pieces} right sides together, matching notches, and press the joins open."
    ),
    "neaten": N_("Finish (overcast) the outer edges of the {pieces}."),
    "tie": N_("Fold the {pieces} lengthwise, right sides together, sew, turn and press."),
    "hem flounce": N_("Hem the free edges of the {pieces} with a narrow hem while it is flat."),
    "facing shoulder": N_("Join the facings to each other and press the seams open: {joins}."),
    "panel": N_("Sew these seams and press them open: {joins}."),
    "shoulder": N_("Sew the shoulder seams and press them open."),
    "waist": N_("Sew the waist seam while the sides are still open, and press it up: {joins}."),
    "gather": N_(
        "Run two rows of long stitches beside the stitch line of the upper edge of the {pieces}, draw them "
        "up to {cm} and spread the gathers evenly between the notches."
    ),
    "pleats": N_(
        "Fold the pleats and tucks of the {pieces} from notch to notch, press them the way the arrows show and "
        "baste them across: {edges}."
    ),
    "draw up": N_(
        "Run two rows of long stitches between the marks and draw the edge up to the length of the "
        "one it is sewn to: {edges}."
    ),
    "armhole facing": N_(
        "Sew the armhole facings to the armholes, right sides together, while the sides are open."
    ),
    "combined facing": N_(
        "Sew the facing to neckline and armholes, right sides together, while the sides and the "
        "centre back are open."
    ),
    "finish": N_(
        "Finish these edges with the bias strip: sew it on right sides together, trim, turn it to the "
        "inside and sew it down: {edges}."
    ),
    "neck facing": N_(
        "Sew the neck facing to the neckline, right sides together, matching shoulders and centres."
    ),
    "row neck": N_(
        "Sew the {pieces} to the neckline, matching notches. Trim the allowances, finish them together "
        "and press them down."
    ),
    "row bound": N_(
        "Bind the edge with the {pieces}: sew it on right sides together, fold it over the edge and sew it "
        "down inside."
    ),
    "facing centre": N_(
        "Turn the ends of the {pieces} in at the zip and sew them to its tape by hand."
    ),
    "set in": N_(
        "Set the sleeves into the armholes, matching notches, the ease spread over the crown."
    ),
    "row waist": N_(
        "Sew the {pieces} to the waist, matching its marks to seams and centres. Fold it lengthwise, right "
        "sides together, sew the ends, turn it, and sew the inner edge down by hand."
    ),
    "hook": N_(
        "Sew the hook and bar to the ends of the {pieces}, or make a buttonhole and sew on the button."
    ),
    "hang": N_(
        "Hang the garment up for a day, since a flared edge drops. Try it on and level the lower edge "
        "from the floor before anything is sewn to it."
    ),
    "row": N_(
        "Sew the {pieces} to the lower edge, right sides together, matching notches and seams. Finish the "
        "allowances together and press them up."
    ),
    "finish round": N_("Turn in and sew down the edges that are still open: {edges}."),
    "press": N_("Press the whole garment from the wrong side."),
}


def making_section(pattern: Pattern) -> Section:
    """The order of making, numbered, with the fitting before the final seams."""
    out: list[Text] = []
    for count, task in enumerate(order_of_making(pattern), start=1):
        out.append(Text(f"{count}.\t{task_words(pattern, task)}", "task"))
        if task.kind == "fit":
            out += [Text(text, "look") for text in fitting(pattern)]
    return Section("making", _("Order of making"), tuple(out))


def task_words(pattern: Pattern, task: MakingTask) -> str:
    """What is done, with the pieces and edges it is done to."""
    own = _OWN.get(task.kind)
    if own is not None:
        return own(pattern, task)
    seams = [pattern.seams[index] for index in task.seams]
    said = [
        _(_SAYS[task.kind]).format(
            pieces=pieces_words(_doing(pattern, task)),
            edges=edges_words(task.edges),
            names=", ".join(task_edges(task)),
            joins=joins_words(seams),
            cm=length_words(task.cm),
            width=length_words(BIAS_WIDTH, 0),
            length=length_words(bias_length(pattern), 0),
        )
    ]
    return " ".join([*said, *_eased(pattern, seams)])


def _doing(pattern: Pattern, task: MakingTask) -> tuple[str, ...]:
    """The pieces to name: of a row only those that are sewn on."""
    if task.kind.startswith("row") and task.seams:
        return tuple(dict.fromkeys(ref.piece for ref in _on(pattern, pattern.seams[task.seams[0]])))
    return task.pieces


def _on(pattern: Pattern, seam: Seam) -> tuple[Ref, ...]:
    """The row of a seam that is sewn on to the body of the garment."""
    first = all(pattern.piece(ref.piece).role in BODY for ref in seam.layers[0].refs)
    return tuple(r for layer in (seam.layers[1:] if first else seam.layers[:1]) for r in layer.refs)


def pieces_words(names: Iterable[str]) -> str:
    """Names of pieces in a row: "front, back and waistband"."""
    shown = [name_text(name) for name in dict.fromkeys(names)]
    if len(shown) < 2:
        return "".join(shown)
    *first, last = shown
    return _("{first} and {last}").format(first=", ".join(first), last=last)


def task_edges(task: MakingTask) -> tuple[str, ...]:
    """The edges of a task by name alone, each name once."""
    return tuple(dict.fromkeys(name_text(ref.edge) for ref in task.edges))


def edges_words(edges: Iterable[Ref]) -> str:
    """Edges with their pieces: "neckline (front, back), armhole (front, back)"."""
    by_edge: dict[str, list[str]] = {}
    for ref in edges:
        by_edge.setdefault(ref.edge, []).append(ref.piece)
    return ", ".join(
        f"{name_text(edge)} ({pieces_words(pieces)})" for edge, pieces in by_edge.items()
    )


def joins_words(seams: Iterable[Seam]) -> str:
    """What is sewn to what, by pieces: "front to skirt front, along the waist"."""
    by_edge: dict[str, list[str]] = {}
    for seam in seams:
        edge = " / ".join(dict.fromkeys(name_text(ref.edge) for ref in seam.refs))
        one, *others = ([ref.piece for ref in layer.refs] for layer in seam.layers)
        a, b = pieces_words(one), pieces_words(chain.from_iterable(others))
        both = _("{piece}, left to right").format(piece=a)
        by_edge.setdefault(edge, []).append(
            both if a == b else _("{one} to {other}").format(one=a, other=b)
        )
    return "; ".join(f"{', '.join(joins)} ({edge})" for edge, joins in by_edge.items())


def _held(seam: Seam) -> SeamLayer:
    """The layer that is longer."""
    return seam.drawn if seam.ease > 0 else seam.layers[seam.base]


def _eased(pattern: Pattern, seams: Iterable[Seam]) -> list[str]:
    """How much is held in, where an edge is longer on purpose."""
    return [
        _("Ease in the {piece} by {cm} between the notches.").format(
            piece=pieces_words(ref.piece for ref in _held(seam).refs),
            cm=length_words(abs(seam.ease)),
        )
        for seam in seams
        if abs(seam.ease) > _EASED
    ]


def _baste(pattern: Pattern, task: MakingTask) -> str:
    names = list(task_edges(task))
    if any(p.darts or p.diamonds for p in pattern.pieces):
        names.insert(0, _("darts"))
    return _("Baste for the fitting, with long stitches that come out easily: {edges}.").format(
        edges=", ".join(names)
    )


def _fit(pattern: Pattern, task: MakingTask) -> str:
    return _("First fitting: put it on, close the opening with pins, and look:")


def _darts(pattern: Pattern, task: MakingTask) -> str:
    return darts_words([pattern.piece(name) for name in task.pieces])


def _all_openings(pattern: Pattern) -> tuple[Opening, ...]:
    return in_one_seam(pattern, openings(laid_seams(pattern)))


def _ends_in(pattern: Pattern, seam: Seam) -> Opening | None:
    """The opening whose lower end lies in a seam."""
    for opening in _all_openings(pattern):
        first = opening.stretches[0]
        if Ref(first.piece, first.edge.name) in seam.refs:
            return opening
    return None


def _centre(pattern: Pattern, task: MakingTask) -> str:
    out = []
    for index in task.seams:
        seam = pattern.seams[index]
        edge = name_text(seam.refs[0].edge)
        pieces = pieces_words(ref.piece for ref in seam.refs)
        if _ends_in(pattern, seam) is None:
            words = _("Sew the {edge} seam ({pieces}) and press it open.")
        else:
            words = _("Sew the {edge} seam ({pieces}) below the opening and press it open.")
        out.append(words.format(edge=edge, pieces=pieces))
    return " ".join(out)


def _side(pattern: Pattern, task: MakingTask) -> str:
    out = [_("Sew each side seam in one go from top to bottom and press it open.")]
    if any(set(p) <= facings(pattern) for p in _pieces_of(pattern, task)):
        out.append(_("Sew on into the facing, which is opened out for it."))
    for index in task.seams:
        opening = _ends_in(pattern, pattern.seams[index])
        if opening is not None:
            words = _("On one side, usually the left, leave {cm} open from the top for the zip.")
            out.append(words.format(cm=length_words(opening.cm)))
    if any(_across(pattern, ref) for index in task.seams for ref in pattern.seams[index].refs):
        out.append(_("Match the seams that it crosses."))
    return " ".join([*out, *_eased(pattern, [pattern.seams[i] for i in task.seams])])


def _across(pattern: Pattern, side: Ref) -> bool:
    """Whether a side crosses a seam between an upper and a lower piece."""
    piece = pattern.piece(side.piece)
    meeting = {Ref(piece.name, name) for name in neighbours(piece, side.edge)}
    return any(
        meeting & set(seam.refs)
        for seam in pattern.seams
        if seam.kind == SeamKind.PLAIN
        and kinds_of(pattern, seam.refs) <= {EdgeKind.WAIST, EdgeKind.SEAM}
    )


def _pieces_of(pattern: Pattern, task: MakingTask) -> list[tuple[str, ...]]:
    return [tuple(ref.piece for ref in pattern.seams[index].refs) for index in task.seams]


def _zip(pattern: Pattern, task: MakingTask) -> str:
    opening = _all_openings(pattern)[task.place]
    edge = name_text(opening.stretches[0].edge.name)
    out = [
        _("Set the zip in at the {edge}; the opening is {cm} long.").format(
            edge=edge, cm=length_words(task.cm)
        )
    ]
    whole = [s.piece for s in opening.stretches if wholly_open(s)]
    if whole:
        words = _(
            "In the {pieces} this edge is open along its whole length; only the zip is sewn to it."
        )
        out.append(words.format(pieces=pieces_words(whole)))
    if opening.stretches[0].edge.kind is EdgeKind.CENTRE:
        out.append(_("The sides are still open, so the work lies flat."))
    return " ".join(out)


def _facing(pattern: Pattern, task: MakingTask) -> str:
    seams = [pattern.seams[index] for index in task.seams]
    between = [ref.piece for seam in seams for ref in seam.refs_of(LayerPart.COLLAR)]
    out = [_(_SAYS[task.kind]), _(_CLIP)]
    if between:
        words = _(
            "Lay the {pieces} between garment and facing first and sew all layers in one seam."
        )
        out.insert(0, words.format(pieces=pieces_words(between)))
    if cornered(pattern, [r for seam in seams for r in seam.other_than(LayerPart.FACING)]):
        out.append(_(_POINT))
    if task.kind == "combined facing":
        out.append(_("Turn it by drawing each back through its shoulder."))
    return " ".join([*out, _(_UNDERSTITCH)])


def _hem(pattern: Pattern, task: MakingTask) -> str:
    if any(drops(pattern, ref) for ref in task.edges):
        return _(
            "Hang the garment up for a day, since a flared edge drops. Try it on, level the hem from the "
            "floor, turn it up and sew it."
        )
    return _("Try the garment on, level the hem from the floor, turn it up and sew it.")


_OWN: dict[str, Callable[[Pattern, MakingTask], str]] = {
    "baste": _baste, "fit": _fit, "darts": _darts, "centre": _centre, "side": _side, "zip": _zip,
    "armhole facing": _facing, "neck facing": _facing, "combined facing": _facing, "hem": _hem,
}  # fmt: skip


def ratio_words(seam: Seam) -> str:
    """How the layers differ: even, eased, or gathered so many times."""
    if seam.drawn.gathered:
        return _("gathered, {ratio} to 1").format(ratio=number(seam.ratio, 2))
    if abs(seam.ease) > 0.05:
        return _("{ease} held in").format(ease=length_words(seam.ease))
    return _("even")
