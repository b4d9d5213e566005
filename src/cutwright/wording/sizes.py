"""Sizes of the charts as a reader asks for them and sees them named."""

from __future__ import annotations

from cutwright.body.card import BodyCard
from cutwright.body.families import FAMILIES, family_named
from cutwright.body.family import Family
from cutwright.body.size_charts import size, size_name, sizes
from cutwright.body.tape import WOMEN
from cutwright.errors import StepError
from cutwright.wording.message_text import message_text
from cutwright.words import _


def size_card(girth: float, stature: str | float = "regular", family: str = WOMEN) -> BodyCard:
    """The card of a size, as `size` makes it, with its name in the reader's language.

    Parameters
    ----------
    girth, stature : as in `size`, in cm
    family : id of the family of figures
    """
    kind = family_named(family)
    card = size(girth, stature, kind)
    return card.model_copy(update={"name": message_text(size_name(girth, stature, kind))})


def size_asked(text: str) -> BodyCard:
    """The card of a size as `size_choices` writes it: "88,regular" or "88,regular,women".

    Raises
    ------
    StepError : it is not written so
    MeasureError : the chart has no such size
    """
    girth, row, family = (*text.split(",", 2), "", "")[:3]
    try:
        wanted = float(girth)
    except ValueError:
        raise StepError(_("A size is written as bust and row, such as 88,regular.")) from None
    return size_card(wanted, row or "regular", family or WOMEN)


def size_choices() -> list[tuple[str, str, bool]]:
    """Every size of every family: as it is asked for, what it is called, whether it is proposed."""
    return [
        (
            f"{girth},{row},{kind.id}",
            message_text(size_name(girth, row, kind)),
            _proposed(kind, girth, row),
        )
        for kind in FAMILIES.values()
        for girth, row in sizes(kind)
    ]


def few_sizes(kind: Family) -> list[tuple[str, str]]:
    """Every second size of a family in the row that is proposed: as it is asked for, what it is called."""
    if kind.chart is None:
        return []
    row = kind.chart.offered[1]
    return [
        (f"{girth},{row},{kind.id}", message_text(size_name(girth, row, kind)))
        for girth in kind.chart.girths[1::2]
    ]


def _proposed(kind: Family, girth: int, row: str) -> bool:
    return kind.id == WOMEN and kind.chart is not None and kind.chart.offered == (girth, row)
