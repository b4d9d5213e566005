"""The order of making told in sentences, and what to look at when the basted garment is tried on."""

from __future__ import annotations

from collections.abc import Sequence

from cutwright.numerals import cm, number
from cutwright.pattern.edge import Kind, Ref
from cutwright.pattern.mark import MarkKind
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.pattern.seam import Seam
from cutwright.pattern.vocabulary import told
from cutwright.words import N_, _
from cutwright.worksheet.making import order_of_making
from cutwright.worksheet.making_table import Task, is_strip
from cutwright.worksheet.names import dart_names
from cutwright.worksheet.sheet import Section, Text

_SAYS = {
    "mark": N_(
        "Mark every notch, dart, drill point and gathering line on the cloth before the paper comes off: {pieces}."
    ),
    "interface": N_(
        "Stiffen {pieces}: iron the interfacing to the wrong side, pressing without sliding. "
        "Try the heat on a scrap first."
    ),
    "staystitch": N_(
        "Staystitch just inside the seam allowance, so that the curves do not stretch: {edges}."
    ),
    "overcast": N_(
        "Neaten the edges that will lie open inside, while each piece is flat: {names}."
    ),
    "darts": N_(
        "Sew the darts of the {pieces} from the mouth to the point and knot the ends: {darts}. {press}"
    ),
    "ends": N_(
        "Join the parts of the {pieces} end to end, right sides together, and press the joins open: {seams}."
    ),
    "neaten": N_("Neaten the edges that stay free inside the garment: {edges}."),
    "hem flounce": N_("Hem the {pieces} while it still lies flat: {edges}."),
    "facing shoulder": N_("Join the facings to each other and press the seams open: {seams}."),
    "panel": N_("Sew {seams} and press the seam open."),
    "shoulder": N_("Sew the shoulders, each side, and press the seams open: {seams}."),
    "waist": N_(
        "Sew the waist seam of each part while the sides are still open, and press it up: {seams}."
    ),
    "gather": N_(
        "Run two rows of long stitches beside the stitch line of {edges}, draw them up to {cm} "
        "and spread the fullness evenly between the notches."
    ),
    "centre": N_(
        "Sew the centre seam below the opening, on through the waist, and press it open: {seams}."
    ),
    "centre alone": N_("Sew the centre seam below the opening and press it open: {seams}."),
    "centre whole": N_("Sew the centre seam and press it open: {seams}."),
    "zip": N_("Set the zip into the opening, {cm} long, while the sides are open: {edges}."),
    "armhole facing": N_(
        "Sew the armhole facings on while the sides are open, clip the curve, turn and press: {seams}."
    ),
    "combined facing": N_(
        "Sew the facing to neckline and armholes while sides, centre back and waist are open, clip the "
        "curves, turn it by drawing each back through its shoulder, and press: {seams}."
    ),
    "finish": N_(
        "Finish the open edges with a bias strip or a narrow turning while the work lies flat: {edges}."
    ),
    "neck facing": N_(
        "Sew the neck facing on, shoulder to shoulder, clip the curve, turn and press: {seams}."
    ),
    "row neck": N_("Sew {seams}, notch to notch; trim, and neaten the allowances together."),
    "facing centre": N_(
        "Turn the ends of the facing in at the zip and sew them to its tape by hand, instead of "
        "sewing them to each other: {seams}."
    ),
    "side": N_(
        "Sew each side seam in one go from top to bottom, seams meeting on the way, and press it open: {seams}."
    ),
    "set in": N_("Set the sleeves in, notch to notch, the ease spread over the crown: {seams}."),
    "row waist": N_("Sew {seams}, notch to notch; fold, and catch the inner edge down."),
    "row": N_(
        "Sew {seams} all round, notches and joins matched; press the allowances away from the fullness."
    ),
    "finish round": N_("Finish the edges that are still open: {edges}."),
    "hem": N_(
        "Let the garment hang for a day, level the hem, then turn it up and sew it: {edges}."
    ),
    "press": N_("Take out the basting and give everything a last press from the wrong side."),
}


def making_section(pattern: Pattern) -> Section:
    """The order of making, numbered, with the fitting before the final seams."""
    out: list[Text] = []
    for count, task in enumerate(order_of_making(pattern), start=1):
        out.append(Text(f"{count}.\t{task_words(pattern, task)}", "task"))
        if task.kind == "fit":
            out += [Text(text, "look") for text in fitting(pattern)]
    return Section("making", _("Order of making"), tuple(out))


def task_words(pattern: Pattern, task: Task) -> str:
    """What is done, with the pieces and edges it is done to."""
    if task.kind == "baste":
        return _baste_words(pattern, task)
    if task.kind == "fit":
        return _("First fitting: put it on, close the opening with pins, and look:")
    kind = task.kind
    if kind == "centre" and not _has_zip(pattern):
        kind = "centre whole"
    elif kind == "centre" and len(task.seams) == 1:  # no other seam crosses it
        kind = "centre alone"
    return _(_SAYS[kind]).format(
        pieces=", ".join(told(name) for name in task.pieces),
        edges=edges_words(task.edges),
        seams=seams_words([pattern.seams[i] for i in task.seams]),
        names=", ".join(edge_names(task)),
        darts=_darts_words([pattern.piece(n) for n in task.pieces]),
        press=_press_words([pattern.piece(n) for n in task.pieces]),
        cm=_task_cm(pattern, task),
    )


def _baste_words(pattern: Pattern, task: Task) -> str:
    names = list(edge_names(task))
    if any(p.darts or p.diamonds for p in pattern.pieces):
        names.insert(0, _("darts"))
    return _("Baste with long stitches that come out easily: {edges}.").format(
        edges=", ".join(names)
    )


def edge_names(task: Task) -> tuple[str, ...]:
    """The edges of a task by name alone, each name once."""
    return tuple(dict.fromkeys(told(ref.edge) for ref in task.edges))


def _has_zip(pattern: Pattern) -> bool:
    return any(m.kind is MarkKind.ZIP_END for p in pattern.pieces for m in p.marks)


def edges_words(edges: Sequence[Ref]) -> str:
    """Edges by piece: "front: neckline, armhole; back: neckline"."""
    by_piece: dict[str, list[str]] = {}
    for ref in edges:
        by_piece.setdefault(ref.piece, []).append(told(ref.edge))
    return "; ".join(f"{told(piece)}: {', '.join(names)}" for piece, names in by_piece.items())


def seams_words(seams: Sequence[Seam]) -> str:
    """Seams by what is sewn to what."""
    return "; ".join(seam_words(seam) for seam in seams)


def seam_words(seam: Seam) -> str:
    """One seam: "front: side to back: side"; an edge with its own mirror is named once."""
    a, b = (" + ".join(told(str(side.ref)) for side in row) for row in (seam.a, seam.b))
    if a == b:
        return _("{edge}, left to right").format(edge=a)
    return _("{one} to {other}").format(one=a, other=b)


def _darts_words(pieces: Sequence[Piece]) -> str:
    return ", ".join(told(name) for p in pieces for name in dart_names(p))


def _press_words(pieces: Sequence[Piece]) -> str:
    """Which way darts are pressed (common practice)."""
    names = {name for p in pieces for name in dart_names(p)}
    inward = any("waist" in n or "shoulder" in n or "neck" in n for n in names)
    down = any("bust" in n or "side" in n or "armhole" in n for n in names)
    if not (inward and down):
        alone = {
            (True, False): _("Press them towards the centre."),
            (False, True): _("Press them down."),
        }
        return alone.get((inward, down), "")
    return " ".join(
        (
            _("Press those of waist, shoulder and neck towards the centre."),
            _("Press those of bust and side down."),
        )
    )


def _task_cm(pattern: Pattern, task: Task) -> str:
    if task.kind != "gather":
        return cm(task.cm)
    index = int(task.key.split()[-1])
    seam = pattern.seams[index]
    whole = sum(pattern.piece(s.ref.piece).times * pattern.length(s.ref) for s in seam.b)
    return cm(whole)


def fitting(pattern: Pattern) -> list[str]:
    """What to look at in the first fitting, for the parts this pattern has."""
    kinds = {e.kind for p in pattern.pieces for e in p.edges}
    darts = {name for p in pattern.pieces for name in dart_names(p)}
    names = {level.name for p in pattern.pieces for level in p.levels}
    strips = any(is_strip(p) for p in pattern.pieces)
    asked = (
        (Kind.SIDE in kinds, _("Do the side seams hang straight down?")),
        (Kind.SHOULDER in kinds, _("Does the shoulder seam lie on top of the shoulder?")),
        (
            any("bust" in d or "side" in d for d in darts),
            _("Do the bust darts point at the bust and stop short of it?"),
        ),
        (Kind.NECKLINE in kinds, _("Does the neckline lie flat when you bend forward?")),
        (
            Kind.ARMHOLE in kinds,
            _("Can you reach forward without the armhole cutting in or gaping?"),
        ),
        (
            Kind.WAIST in kinds or "waist" in names,
            _("Does the waist sit at the waist, and can you sit and breathe in it?"),
        ),
        ("hip" in names, _("Does it slip over the hip without creases across?")),
        (Kind.HEM in kinds, _("Is the hem level all round, in the shoes that will be worn?")),
        (strips, _("Does the fullness fall evenly, and can you walk and climb stairs in it?")),
    )
    out = [text for wanted, text in asked if wanted]
    out.append(
        _(
            "Pin what is to be changed on both sides alike, mark it on the paper, then undo the basting."
        )
    )
    return out


def ratio_words(seam: Seam) -> str:
    """How the two rows differ: even, eased, or gathered so many times."""
    if seam.kind == "gathered" or seam.ratio > 1.02:
        return _("gathered, {ratio} to 1").format(ratio=number(seam.ratio, 2))
    if abs(seam.ease) > 0.05:
        return _("{ease} held in").format(ease=cm(seam.ease))
    return _("even")
