"""How much to buy and what it costs: shrinkage, the step cloth is sold in, widths and folds compared."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from pydantic import ValidationError

from cutwright.documents import problems_of
from cutwright.errors import LayError
from cutwright.lay.cloth import Cloth, Fold, Match, Nap
from cutwright.lay.cuts import pieces_for
from cutwright.lay.layout import best_lay
from cutwright.lay.piece import LayPiece, extent, whole
from cutwright.lay.plan import Lay
from cutwright.lay.search import Budget
from cutwright.messages import N_, Length, Message, lines_of

_ROUNDING = 1e-6


@dataclass(frozen=True, slots=True)
class Need:
    """What to buy for one lay: lengths in cm, price for all plies in the cloth's currency."""

    cloth: Cloth
    used: float
    before_washing: float
    to_buy: float
    plies: int
    price: float
    utilisation: float


@dataclass(frozen=True, slots=True)
class Notion:
    """Something bought by the piece or by length: a zip, buttons, thread."""

    name: str
    count: float
    price: float


@dataclass(frozen=True, slots=True)
class Bill:
    """What a garment's cloths and notions cost together."""

    needs: tuple[Need, ...]
    notions: tuple[Notion, ...]
    total: float
    currency: str


@dataclass(frozen=True, slots=True)
class Offer:
    """One way of buying: a width and a fold, with the need or the reason why it does not go."""

    width: float
    fold: Fold
    nap: Nap
    need: Need | None
    reason: Message | None = None


def need(lay: Lay) -> Need:
    """What to buy for a lay: longer for what washing takes, rounded up to what is sold."""
    cloth = lay.cloth
    before = lay.length / (1 - cloth.shrinks_along)
    to_buy = rounded_up(before, cloth.step)
    price = to_buy / 100 * cloth.price * cloth.plies
    return Need(cloth, lay.length, before, to_buy, cloth.plies, round(price, 2), lay.utilisation)


def rounded_up(length: float, step: float) -> float:
    """The length in whole steps: 80 in by the eighth of a yard is 81 in."""
    return math.ceil(length / step - _ROUNDING) * step


def bill(needs: Sequence[Need], notions: Sequence[Notion] = ()) -> Bill:
    """All cloths and notions added up; cloths must be priced in one currency."""
    currencies = sorted({n.cloth.currency for n in needs if n.price})
    if len(currencies) > 1:
        raise LayError(
            Message(
                "cloths-priced-bill-needs-currency",
                N_("The cloths are priced in {currencies}; one bill needs one currency."),
                currencies=", ".join(currencies),
            )
        )
    total = sum(n.price for n in needs) + sum(n.count * n.price for n in notions)
    return Bill(tuple(needs), tuple(notions), round(total, 2), currencies[0] if currencies else "")


def compare(
    pieces: Sequence[LayPiece],
    cloth: Cloth,
    widths: Iterable[float] = (),
    folds: Iterable[Fold] = ("lengthwise", "selvedges to the middle", "open"),
    naps: Iterable[Nap] = (),
    *,
    budget: Budget | None = None,
    matches: Iterable[Match] = (),
    seed: int = 1,
) -> list[Offer]:
    """The same pieces on every width and fold on offer, shortest to buy first.

    Widths are as sold, with the cloth's own selvedges; without any, only the cloth's own width is
    tried. What does not go is told with its reason, last.
    """
    offers = []
    allowed = budget or Budget(2_000_000)
    all_matches = tuple(matches)
    for width in list(widths) or [cloth.width]:
        for fold in folds:
            for nap in list(naps) or [cloth.nap]:
                one = Budget(allowed.places, allowed.seconds, allowed.stop)
                try:
                    other = Cloth.model_validate(
                        {**cloth.model_dump(), "width": width, "fold": fold, "nap": nap}
                    )
                    lay = best_lay(pieces, other, one, seed, matches=all_matches)
                    offers.append(Offer(width, fold, nap, need(lay)))
                except (LayError, ValidationError) as fault:
                    offers.append(
                        Offer(
                            width,
                            fold,
                            nap,
                            None,
                            _reason(fault),
                        )
                    )
    return sorted(offers, key=lambda o: (o.need is None, o.need.to_buy if o.need else 0.0))


def _reason(fault: LayError | ValidationError) -> Message:
    if isinstance(fault, LayError):
        return fault.message
    return lines_of([text for _place, text in problems_of(fault)])


def least_width(pieces: Sequence[LayPiece], cloth: Cloth) -> tuple[float, str]:
    """The usable width that the widest piece needs, and the name of that piece."""
    wanted = [p for p in pieces if p.material == cloth.material and p.copies]
    if not wanted:
        raise LayError(
            Message("nothing-cut", N_("There is nothing to cut from “{cloth}”."), cloth=cloth.name)
        )
    found = [(_least(piece), piece.name) for piece in wanted]
    return max(found)


def advice(pieces: Sequence[LayPiece], cloth: Cloth) -> Message:
    """What width the style asks for: "at least 150 wide, or the skirt must be seamed"."""
    width, name = least_width(pieces, cloth)
    sold = math.ceil((width / (1 - cloth.shrinks_across) + 2 * cloth.selvedge) / 5 - _ROUNDING) * 5
    doubled = max(
        (extent(p)[1] for p in pieces_for_width(pieces, cloth) if p.fold is not None or p.mirrored),
        default=0.0,
    )
    rows = 4 if cloth.fold == "selvedges to the middle" else 2
    across = rows * doubled / (1 - cloth.shrinks_across) + 2 * cloth.selvedge
    folded = math.ceil(across / 5 - _ROUNDING) * 5
    least = Message(
        "least-width",
        N_("At least {sold} {unit} wide, or “{piece}” must be seamed."),
        sold=Length(sold),
        piece=name,
    )
    if folded <= sold:
        return least
    more = N_("From {folded} {unit} everything can be cut on folded cloth.")
    return least.then(Message("least-folded-width", more, folded=Length(folded)))


def pieces_for_width(pieces: Sequence[LayPiece], cloth: Cloth) -> list[LayPiece]:
    """The pieces of the cloth's material as they would be cut from cloth wide enough for all."""
    wide = cloth.model_copy(update={"width": 500.0, "shrinks_across": 0.0, "selvedge": 0.0})
    return pieces_for(pieces, wide)


def _least(piece: LayPiece) -> float:
    along, across = extent(whole(piece))
    if piece.grain is None:
        return min(along, across)
    return 2 * piece.join + 1.0 if piece.strip else across
