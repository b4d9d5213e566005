"""How darts are sewn and pressed."""

from __future__ import annotations

from collections.abc import Sequence

from cutwright.pattern.edge import EdgeKind
from cutwright.pattern.piece import Piece
from cutwright.wording.names import name_text
from cutwright.words import _
from cutwright.worksheet.parts import mouth_kind

INWARD = frozenset({EdgeKind.WAIST, EdgeKind.SHOULDER, EdgeKind.NECKLINE, EdgeKind.HEM})
DOWN = frozenset({EdgeKind.SIDE, EdgeKind.ARMHOLE, EdgeKind.CENTRE})


def darts_words(pieces: Sequence[Piece]) -> str:
    """Which darts are sewn, how, and which way they are pressed (common practice)."""
    names = "; ".join(
        f"{name_text(p.name)} ({', '.join(name_text(name) for name in p.dart_names())})"
        for p in pieces
    )
    out = []
    if any(p.darts for p in pieces):
        out.append(_("Sew the darts from the mouth to the point and knot the ends: {darts}."))
    if any(p.diamonds for p in pieces):
        out.append(
            _("Sew two-point darts from the middle to each point and clip them at the waist.")
            if out
            else _(
                "Sew the darts from the middle to each point, knot the ends, and clip them at the waist: {darts}."
            )
        )
    return " ".join([*out, *_pressed(pieces)]).format(darts=names)


def _pressed(pieces: Sequence[Piece]) -> list[str]:
    kinds = {mouth_kind(piece, dart) for piece in pieces for dart in piece.darts}
    inward = bool(kinds & INWARD) or any(p.diamonds for p in pieces)
    down = bool(kinds & DOWN)
    if inward and down:
        return [
            _("Press darts at waist, shoulder and neck towards the centre."),
            _("Press darts at side and armhole down."),
        ]
    if inward:
        return [_("Press them towards the centre.")]
    return [_("Press them down.")] if down else []
