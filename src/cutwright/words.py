"""The one door for every sentence a user reads.

`_` and `ngettext` look a message up in the catalogue of the language in force; `N_` marks a
text that is declared in one place and shown in another. The language is a context variable, so
that two requests can be answered in two languages at once.
"""

from __future__ import annotations

import gettext as _gettext
from contextvars import ContextVar
from functools import cache
from pathlib import Path

LOCALES = Path(__file__).parent / "locales"
_language: ContextVar[str] = ContextVar("cutwright_language", default="en")


@cache
def _catalogue(language: str) -> _gettext.NullTranslations:
    return _gettext.translation("cutwright", LOCALES, languages=[language], fallback=True)


def speak(language: str) -> None:
    """Choose the language (a code such as "en") for what this task shows from now on."""
    _language.set(language)


def spoken() -> str:
    """The code of the language in force."""
    return _language.get()


def _(message: str) -> str:
    """The message in the language in force; the English text where there is no other."""
    return _catalogue(_language.get()).gettext(message)


def ngettext(one: str, many: str, count: int) -> str:
    """The message for one or for many, by the rules of the language in force."""
    return _catalogue(_language.get()).ngettext(one, many, count)


def N_(message: str) -> str:  # noqa: N802  (the usual name of this marker)
    """Mark a text for the catalogue without looking it up yet."""
    return message
