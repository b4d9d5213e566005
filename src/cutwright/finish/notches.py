"""The balance marks of all seams put on the pieces, where they are declared to go."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace

from cutwright.geometry.path import point_at
from cutwright.geometry.point import on_grid
from cutwright.memo import memoised
from cutwright.pattern.mark import MarkKind
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Mark, Piece
from cutwright.pattern.sewing.mark_pairs import BalanceMark, NotchSpot
from cutwright.pattern.sewing.mark_places import USUAL, NotchRules
from cutwright.pattern.sewing.seam_marks import seam_marks

_SAME = 0.05
_GRID = 1e7
"""Lines to a cm of the grid on which a notch lies, so that it stays when only the paper it meets is drawn anew."""


def notched(pattern: Pattern, rules: NotchRules = USUAL) -> Pattern:
    """The pattern with the balance marks of all its seams on its pieces.

    Parameters
    ----------
    pattern : the pattern
    rules : when a seam is marked

    Returns
    -------
    the pattern, pieces that have all their marks the very same

    Raises
    ------
    LookupFailed : an edge of a seam is not there
    """
    found: dict[str, list[Mark]] = defaultdict(list)
    for seam in seam_marks(pattern, rules):
        for place in seam.balance:
            spots = [spot for spot in place.spots if spot is not None]
            for spot in spots:
                found[spot.piece.name].append(
                    _mark(place, spot, alone=len(spots) < len(place.spots))
                )
    changed = [_marked(pattern.piece(name), wished=tuple(m)) for name, m in found.items()]
    return pattern.with_pieces(*changed) if changed else pattern


def _mark(place: BalanceMark, spot: NotchSpot, alone: bool) -> Mark:
    """A notch; one that lies opposite a seam or an end says which."""
    return Mark(
        MarkKind.NOTCH,
        on_grid(point_at(spot.edge.curves, spot.own), _GRID),
        "2" if place.behind else "1",
        edge=spot.edge.label,
        meets=place.meets if alone else "",
        copies=spot.copies,
    )


@memoised
def _marked(piece: Piece, *, wished: tuple[Mark, ...]) -> Piece:
    """The piece with those of the marks that it does not have yet; the same place is marked once."""
    kept = list(piece.marks)
    for mark in wished:
        place = next((i for i, there in enumerate(kept) if _same(mark, there)), None)
        if place is None:
            kept.append(mark)
        else:
            kept[place] = _both(piece, kept[place], mark)
    return replace(piece, marks=tuple(kept)) if tuple(kept) != piece.marks else piece


def _same(one: Mark, other: Mark) -> bool:
    notches = one.kind is MarkKind.NOTCH and other.kind is MarkKind.NOTCH
    return notches and one.edge == other.edge and abs(one.at - other.at) <= _SAME


def _both(piece: Piece, there: Mark, more: Mark) -> Mark:
    """One mark for two that fall together."""
    copies = tuple(sorted({*there.copies, *more.copies}))
    if not there.copies or not more.copies or len(copies) == piece.times:
        copies = ()
    meets = there.meets if not more.meets or more.meets == there.meets else more.meets
    return replace(there, copies=copies, meets=meets if there.meets in ("", meets) else there.meets)
