"""A size of the chart as a card that is named in the language in force."""

from __future__ import annotations

from cutwright.body.card import BodyCard
from cutwright.body.size_charts import size, size_name
from cutwright.wording.said import said


def size_card(bust: float, stature: str | float = "regular") -> BodyCard:
    """The card of a size, as `size` makes it, with its name in the reader's language."""
    card = size(bust, stature)
    return card.model_copy(update={"name": said(size_name(bust, stature))})
