"""What a page is told of a lay that is being looked for: the lay, its figures, how far the search is."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from pydantic import BaseModel, ConfigDict, Field

from cutwright.desk.cloth.lay_svg import Held, lay_svg
from cutwright.desk.cloth.searches import Job, State
from cutwright.desk.web.pages import fragment
from cutwright.drawing.lay import lay_captions
from cutwright.lay.cloth import Fold, Nap
from cutwright.lay.need import Need, advice
from cutwright.lay.plan import Placement
from cutwright.numerals import by_custom
from cutwright.wording.message_text import message_text
from cutwright.words import _
from cutwright.workshop.laying import LaidWork, example_words


class ClothWish(BaseModel):
    """Which cloth, what of it is changed, and what is pinned; empty means as its card has it.

    `width` stays as it was typed, so that inches stay inches.
    """

    model_config = ConfigDict(extra="forbid")
    cloth: str = Field(max_length=80)
    width: str = Field(default="", max_length=40)
    fold: Fold | None = None
    nap: Nap | None = None
    pins: list[Placement] = Field(default_factory=list, max_length=200)


@dataclass(frozen=True, slots=True)
class ShownLay:
    """A lay with what is pinned in it, how much of the cloth is in the cupboard, and the wish."""

    laid: LaidWork
    pinned: frozenset[Held]
    left: float | None
    wish: ClothWish


class LayShown(BaseModel):
    """A lay as the page shows it; `svg` and `facts` only when the page does not have them yet.

    `pieces` are the placements in the order of the groups of the drawing, x counted from where
    their stretch of the cloth starts: pins are sent back in just this way.
    """

    job: str
    state: State
    number: int
    said: str
    trouble: str
    svg: str | None
    facts: str | None
    pieces: list[Placement]


def lay_shown(job: Job[ShownLay], after: int) -> LayShown:
    """Where a search stands, for a page that has seen the lay of number `after`."""
    found, number, state = job.latest, job.number, job.state
    fresh = found if number > after else None
    return LayShown(
        job=job.ident,
        state=state,
        number=number,
        said=by_custom(_said(state, found, job.first)),
        trouble=job.trouble,
        svg=lay_svg(fresh.laid, fresh.pinned) if fresh else None,
        facts=_facts(fresh) if fresh else None,
        pieces=_from_their_stretch(fresh.laid) if fresh else [],
    )


def _facts(found: ShownLay) -> str:
    """The figures of a lay, and how it is put down by hand."""
    rows = fact_rows(found.laid, found.left)
    return fragment("lay_facts.html", rows=rows, table=found.laid.table())


def _from_their_stretch(laid: LaidWork) -> list[Placement]:
    parts = laid.lay.parts
    return [p.model_copy(update={"x": p.x - parts[p.part].start}) for p in laid.lay.placements]


def _said(state: State, found: ShownLay | None, first: ShownLay | None) -> str:
    if found is None or first is None:
        texts: dict[State, str] = {
            "waiting": _("Waiting until another lay is ready…"),
            "running": _("Placing the pieces…"),
            "stopped": _("Stopped before the first lay."),
        }
        return texts.get(state, "")
    now = found.laid.lay.length
    saved = first.laid.lay.length - now
    so_far = _("{now:.1f} cm").format(now=now)
    if saved > 0.05:
        so_far = _("{now:.1f} cm, {saved:.1f} cm less than the first lay").format(
            now=now, saved=saved
        )
    if state in ("waiting", "running"):
        return _("Looking for a shorter lay: {so_far} so far.").format(so_far=so_far)
    if state == "stopped":
        return _("Stopped. The best lay so far: {so_far}.").format(so_far=so_far)
    return _("The best lay found: {so_far}.").format(so_far=so_far)


def fact_rows(laid: LaidWork, left: float | None) -> list[tuple[str, str]]:
    """What is said of a lay: terms with their words."""
    found, cloth = laid.need, laid.lay.cloth
    rows = [(_("To buy"), _to_buy(found))]
    if found.price:
        rows.append((_("Cost"), _cost(found)))
    if cloth.shrinks_along:
        washing = _("{cm:.1f} cm before washing").format(cm=found.before_washing)
        rows.append((_("Shrinkage"), washing))
    rows += [
        (_("Length used"), _("{cm:.1f} cm").format(cm=found.used)),
        (
            _("In the pieces"),
            _("{share:.0f} % of the cloth").format(share=100 * found.utilisation),
        ),
        (_("Verified"), lay_captions(laid.lay, "")[2]),
        (_("Width"), message_text(advice(laid.pieces, cloth))),
    ]
    rows += [(_("Cloth"), text) for text in example_words(cloth)] if left is None else []
    if left is not None:
        rows.append((_("In stock"), _enough(found, left)))
    return [(term, by_custom(words)) for term, words in rows]


def _to_buy(found: Need) -> str:
    text = _("{metres:.2f} m").format(metres=found.to_buy / 100)
    if found.plies > 1:
        text = _("{length} for each of {plies} layers").format(length=text, plies=found.plies)
    return text


def _cost(found: Need) -> str:
    values: dict[str, Any] = {
        "price": found.price,
        "currency": found.cloth.currency,
        "metre": found.cloth.price,
    }
    return _("{price:.2f} {currency}, at {metre:.2f} a metre").format(**values)


def _enough(found: Need, left: float) -> str:
    want = found.before_washing * found.plies
    if left >= want:
        return _("{left:.0f} cm are there, which is enough.").format(left=left)
    return _("{left:.0f} cm are there, {short:.0f} cm too little.").format(
        left=left, short=want - left
    )
