"""Which language the command line speaks."""

from __future__ import annotations

import os
from collections.abc import Sequence

from cutwright.errors import CutwrightError
from cutwright.words import _, languages

PLACE = "CUTWRIGHT_LANG"


def chosen(arguments: Sequence[str]) -> tuple[str, list[str]]:
    """The language wished for, and the arguments without that wish.

    `--lang de` may stand anywhere; without it the environment's CUTWRIGHT_LANG counts, then
    English. It is read before all else, so that help, too, comes in that language.
    """
    rest = list(arguments)
    wish = os.environ.get(PLACE, "")
    for at, word in enumerate(rest):
        if word == "--":
            break
        if word == "--lang" and at + 1 < len(rest):
            wish = rest[at + 1]
            del rest[at : at + 2]
            break
        if word.startswith("--lang="):
            wish = word.partition("=")[2]
            del rest[at]
            break
    wish = wish or "en"
    if wish not in languages():
        raise CutwrightError(
            _('There are no words for the language "{wish}"; there are: {known}.').format(
                wish=wish, known=", ".join(languages())
            )
        )
    return wish, rest
