"""The few sentences that the cloth sheet says without asking first, from the catalogue."""

from __future__ import annotations

from markupsafe import Markup

from cutwright.documents import json_text
from cutwright.words import _


def lay_words() -> Markup:
    """The sentences as JSON for a data block of the page; safe inside a script element."""
    words = {
        "away": _("The desk does not answer. Try again when it is back."),
        "notSaved": _("not saved: {why}"),
        "gone": _("This lay is kept no longer; it is laid again."),
        "held": _("{piece}. Drag it, or move it by 1 cm with the arrow keys."),
        "heldOnFold": _("{piece}. It stays on the fold; drag it along the cloth."),
        "none": _("Point at a piece to pin it where you want it."),
        "pinnedCount": _("Pinned: {count}."),
        "letGoAll": _("Unpinned, because the cloth was changed."),
        "anew": _("The style or the body was changed meanwhile; the pieces are laid again."),
    }
    return Markup(json_text(words).replace("<", "\\u003c"))
