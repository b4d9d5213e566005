"""Widths and folds side by side: how much of each would have to be bought."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from pydantic import BaseModel

from cutwright.desk.cloth.cloths import FOLDS
from cutwright.desk.cloth.searches import Job, Source, State
from cutwright.desk.web.pages import fragment
from cutwright.errors import StoreError
from cutwright.lay.cloth import Cloth, Fold
from cutwright.lay.need import Offer, compare
from cutwright.lay.piece import LayPiece
from cutwright.lay.search import Budget
from cutwright.units import parse_length
from cutwright.wording.message_text import message_text
from cutwright.words import _, ngettext

MOST_WIDTHS = 6
PLACES = 300_000
"""Places tried for each width and fold: a second or less."""


@dataclass(frozen=True, slots=True)
class Compared:
    """The offers there are so far, the widths asked for, and what lies on the table."""

    widths: tuple[float, ...]
    now: tuple[float, Fold]
    offers: tuple[Offer, ...] = ()


class ComparedShown(BaseModel):
    """The table of widths and folds, as far as it is filled."""

    job: str
    state: State
    number: int
    said: str
    trouble: str
    html: str | None


@dataclass(frozen=True, slots=True)
class WidthRow:
    """One width with an offer, or none yet, for each fold."""

    width: float
    cells: tuple[Offer | None, ...]


def widths_of(text: str, cloth: Cloth) -> list[float]:
    """The widths somebody typed, with the cloth's own, narrowest first."""
    typed = [part for part in text.replace(";", ",").split(",") if part.strip()]
    if len(typed) > MOST_WIDTHS:
        raise StoreError(
            _("At most {most} widths are compared at once; {count} were given.").format(
                most=MOST_WIDTHS, count=len(typed)
            )
        )
    return sorted({cloth.width, *(parse_length(part) for part in typed)})


def compared(
    pieces: Sequence[LayPiece],
    cloth: Cloth,
    widths: Sequence[float],
    places: int = PLACES,
) -> Source[Compared]:
    """Every width in every fold, one after the other; each finding is all there are so far."""

    def source(stop: Callable[[], bool]) -> Iterator[Compared]:
        found = Compared(tuple(widths), (cloth.width, cloth.fold))
        yield found
        for width in widths:
            for fold in FOLDS:
                if stop():
                    return
                budget = Budget(places, stop=stop)
                more = compare(pieces, cloth, [width], [fold], budget=budget)
                found = replace(found, offers=(*found.offers, *more))
                yield found

    return source


def compared_shown(job: Job[Compared], after: int) -> ComparedShown:
    """The table as far as it is filled, for a page that has seen the table of number `after`."""
    found, number, state = job.latest, job.number, job.state
    done = len(found.offers) if found else 0
    said = ngettext("{count} way compared.", "{count} ways compared.", done)
    if state in ("waiting", "running"):
        said = _("{count} of {want} compared…")
    want = len(found.widths) * len(FOLDS) if found else 0
    return ComparedShown(
        job=job.ident,
        state=state,
        number=number,
        said=said.format(count=done, want=want) if found else "",
        trouble=job.trouble,
        html=_table(found) if found and number > after else None,
    )


def _table(found: Compared) -> str:
    offers = found.offers
    by_way = {(o.width, o.fold): o for o in offers}
    rows = [
        WidthRow(width, tuple(by_way.get((width, fold)) for fold in FOLDS))
        for width in found.widths
    ]
    lengths = [o.need.to_buy for o in offers if o.need]
    return fragment(
        "lay_compared.html",
        rows=rows,
        folds=[(fold, _(words)) for fold, words in FOLDS.items()],
        least=min(lengths, default=0.0),
        reasons=list(dict.fromkeys(message_text(o.reason) for o in offers if o.reason)),
        now=found.now,
    )
