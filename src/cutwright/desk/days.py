"""Days as a reader writes them."""

from __future__ import annotations

from datetime import date

from cutwright.words import _


def day_words(day: date) -> str:
    """A day in words: "11 February 2026"."""
    months = (
        _("January"), _("February"), _("March"), _("April"), _("May"), _("June"), _("July"),
        _("August"), _("September"), _("October"), _("November"), _("December"),
    )  # fmt: skip
    return _("{day} {month} {year}").format(day=day.day, month=months[day.month - 1], year=day.year)
