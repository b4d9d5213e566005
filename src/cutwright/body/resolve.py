"""From a card with some measures to a body with all of them."""

from __future__ import annotations

from cutwright.body.body import Body, Note
from cutwright.body.card import BodyCard
from cutwright.body.estimate import Reading, complete
from cutwright.body.family import Family
from cutwright.body.plausibility import check
from cutwright.errors import MeasureError
from cutwright.messages import N_, Message, Typed, lines_of


def resolve(card: BodyCard) -> Body:
    """Complete a card: taped measures are kept, the rest estimated from them.

    Parameters
    ----------
    card : at least one of its family's `one_of` must be there (the bust or the hip)

    Raises
    ------
    MeasureError : a taped value lies beyond what a body can have, or too little was taped
    """
    impossible = [doubt for doubt in check(card) if doubt.stops]
    if impossible:
        raise MeasureError(lines_of([doubt.message for doubt in impossible]))
    kind = card.kind
    if not set(kind.one_of) & card.measures.keys():
        raise MeasureError(Message("too-little-taped", kind.without, name=Typed(card.name)))
    found = complete(card.measures, kind.tapes)
    readings = tuple(found[name] for name in kind.tapes)
    return Body(card.name, readings, _notes(readings, kind), card.family)


def _notes(readings: tuple[Reading, ...], kind: Family) -> tuple[Note, ...]:
    """Ask for the tape where an estimate is poor, with how far it may be out."""
    text = N_("{name} is estimated at {value:.1f} ± {spread:.1f} cm; please measure it.")
    tapes = kind.tapes
    return tuple(
        Note(
            reading.measure,
            Message(
                "please-tape",
                text,
                name=tapes[reading.measure].name,
                value=reading.value,
                spread=reading.spread,
            ),
        )
        for reading in readings
        if tapes[reading.measure].ask and not reading.taped
    )
