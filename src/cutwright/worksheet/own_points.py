"""The points of a draft as rules, so that a lesson can be drafted on one's own body.

A corner or a level has its rule from the draft itself. What lies between, on a curve or at a shoulder dart, is told by its share of the
straight line between the two ruled places beside it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from cutwright.geometry.point import Point
from cutwright.numerals import short
from cutwright.pattern.piece import Piece
from cutwright.pattern.point_rule import PointRule
from cutwright.style.replay import Stage
from cutwright.wording.names import title_of
from cutwright.wording.rules import in_words
from cutwright.words import _
from cutwright.worksheet.points import DraftPlace, drafted_pieces, outline_spots, spots
from cutwright.worksheet.sheet import Block, SheetTable, Text


@dataclass(frozen=True, slots=True)
class BetweenPlaces:
    """A place by the ruled places before and after it: `along` and `out` are shares of the straight line between them.

    `out` counts from the line to the outside of the piece.
    """

    before: DraftPlace
    after: DraftPlace
    along: float
    out: float

    def set_between(self, before: Point, after: Point) -> Point:
        """Where it comes to lie between two places, on paper where the outline runs clockwise to the eye."""
        return before + (after - before) * complex(self.along, -self.out)


def rule_of(place: DraftPlace, rules: Sequence[PointRule]) -> PointRule | None:
    """The rule of a place; none for one that has only its share."""
    return next((r for r in rules if (r.meet, r.level) == (place.meet, place.level)), None)


def share_between(
    piece: Piece, place: DraftPlace, rules: Sequence[PointRule]
) -> BetweenPlaces | None:
    """The share of a place on the outline; None inside the piece or where fewer than two places are ruled."""
    row = list(outline_spots(piece))
    ruled = [k for k, other in enumerate(row) if rule_of(other, rules)]
    index = next((k for k, other in enumerate(row) if other == place), None)
    if index is None or len(ruled) < 2:
        return None
    before = row[max((k for k in ruled if k < index), default=ruled[-1])]
    after = row[min((k for k in ruled if k > index), default=ruled[0])]
    line = after.at - before.at
    share = (place.at - before.at) / line
    return BetweenPlaces(before, after, share.real, -share.imag)


def rule_tables(stage: Stage) -> tuple[Block, ...]:
    """A table of rules for each piece that a step drafted, with room for one's own figures."""
    rules = stage.result.points
    if not rules:
        return ()
    note = _(
        "Set each point from your own figures above. Across: from centre front or centre back. Down: from the level of the "
        "nape, or of the waist for a skirt (0); a minus is above it. A point told by shares lies on the straight line "
        "between two others and so much of that line beside it. Necklines and hems leave the centre square. Join straight "
        "edges with the ruler, the others with a smooth curve."
    )
    return (Text(note, "note"), *(_table(p, rules) for p in drafted_pieces(stage)))


def _table(piece: Piece, rules: Sequence[PointRule]) -> SheetTable:
    own = [rule for rule in rules if rule.piece == piece.name]
    places = list(spots(piece))
    rows = tuple(
        (str(count), place.words, *_told(piece, place, own, places), "")
        for count, place in enumerate(places, start=1)
    )
    head = ("", title_of(piece.name), _("across"), _("down"), _("yours"))
    return SheetTable(head, rows, (0.05, 0.27, 0.32, 0.24, 0.12))


def _told(
    piece: Piece, place: DraftPlace, rules: Sequence[PointRule], places: Sequence[DraftPlace]
) -> tuple[str, str]:
    rule = rule_of(place, rules)
    if rule is not None:
        return in_words(rule.across), in_words(rule.down)
    share = share_between(piece, place, rules)
    if share is None:
        return _("as on the reference body"), ""
    along = _("{percent} % of the straight line from {one} to {other}").format(
        percent=short(100 * share.along, 1),
        one=places.index(share.before) + 1,
        other=places.index(share.after) + 1,
    )
    beside = short(100 * abs(share.out), 1)
    if beside == "0":
        return along, _("on the line")
    out = _("{percent} % of it outwards") if share.out > 0 else _("{percent} % of it inwards")
    return along, out.format(percent=beside)
