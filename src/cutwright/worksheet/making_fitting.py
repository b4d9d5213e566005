"""What to look at when the basted garment is tried on."""

from __future__ import annotations

from cutwright.pattern.edge import EdgeKind
from cutwright.pattern.parts.facings import is_band
from cutwright.pattern.pattern import Pattern
from cutwright.words import _
from cutwright.worksheet.parts import is_flounce, points_at_bust


def fitting(pattern: Pattern) -> list[str]:
    """What to look at in the first fitting, for the parts this pattern has."""
    kinds = {e.kind for p in pattern.pieces for e in p.edges}
    bust = any(points_at_bust(p, d) for p in pattern.pieces for d in p.darts)
    at_waist = EdgeKind.WAIST in kinds or any(is_band(p) for p in pattern.pieces)
    asked = (
        (EdgeKind.SIDE in kinds, _("Do the side seams hang straight down?")),
        (EdgeKind.SHOULDER in kinds, _("Does the shoulder seam lie on top of the shoulder?")),
        (bust, _("Do the bust darts point at the bust and stop short of it?")),
        (EdgeKind.NECKLINE in kinds, _("Does the neckline lie flat when you bend forward?")),
        (
            EdgeKind.ARMHOLE in kinds,
            _("Can you reach forward without the armhole cutting in or gaping?"),
        ),
        (
            at_waist or any(p.level("waist") for p in pattern.pieces),
            _("Does the waist sit at the waist, and can you sit and breathe in it?"),
        ),
        (
            any(p.level("hip") for p in pattern.pieces),
            _("Does it slip over the hip without creases across?"),
        ),
        (EdgeKind.HEM in kinds, _("Is the hem level all round, in the shoes that will be worn?")),
        (
            any(is_flounce(p) for p in pattern.pieces),
            _("Pin the flounce on: does it fall evenly, and can you walk and climb stairs in it?"),
        ),
    )
    out = [text for wanted, text in asked if wanted]
    out.append(
        _(
            "Pin what is to be changed on both sides alike, mark it on the paper, then undo the basting."
        )
    )
    return out
