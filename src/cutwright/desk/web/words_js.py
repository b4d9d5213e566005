"""The few sentences that a page says without asking first, from the catalogue."""

from __future__ import annotations

from markupsafe import Markup

from cutwright.documents import json_text
from cutwright.words import _


def words_for_page() -> Markup:
    """The sentences as JSON for a data block of the page; safe inside a script element."""
    words = {
        "saved": _("saved"),
        "saving": _("saving…"),
        "drawn": _("drawn, not yet saved"),
        "unsaved": _("not saved"),
        "notSaved": _("not saved: {why}"),
        "changedElsewhere": _(
            "this was changed in another window too; leave the field to compare the two"
        ),
        "elsewhere": _("Changed in another window; this is how it stands now."),
        "away": _("The desk does not answer. What you did is kept here and sent when it is back."),
        "measureFirst": _("Point at where the tape begins."),
        "measureSecond": _("Now point at where it ends."),
        "measureOff": _("Measuring has ended."),
        "selected": _("Selected: {what}"),
        "take": _("Take {value}"),
        "close": _("Close"),
        "whatCan": _("What can be done here"),
        "offersFor": _("With {what}:"),
        "offersAny": _("With the paper as it is now:"),
        "looking": _("Trying what can be done…"),
        "nothing": _("Nothing is selected."),
        "undone": _("Undone."),
        "redone": _("Done again."),
        "takenOut": _("Removed. Undo brings it back."),
        "written": _("Written."),
        "day": _("Day"),
        "evening": _("Evening"),
        "compareOff": _("Nothing is laid under."),
        "sheetAnew": _("The sheet was made again, because the style was changed."),
        "lessonBehind": _(
            "The style or the body was changed meanwhile: reload this page for its figures."
        ),
        "lessonAway": _("The desk does not answer. Your figures are still here; try again."),
        "across": _("{value} cm straight across"),
        "along": _("{value} cm along the {edge}"),
    }
    return Markup(json_text(words).replace("<", "\\u003c"))
