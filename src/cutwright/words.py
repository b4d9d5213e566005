"""The one door for every sentence a user reads.

`_` and `ngettext` look a message up in the catalogue of the language in force; `N_` marks a
text that is declared in one place and shown in another. The language is a context variable, so
that two requests can be answered in two languages at once.
"""

from __future__ import annotations

import gettext as _gettext
import re
from contextvars import ContextVar
from functools import cache
from pathlib import Path

from cutwright.messages import N_ as N_  # one marker, at hand for those who also translate

LOCALES = Path(__file__).parent / "locales"
_STOPS = re.compile(r"(?<=\S)[:;](?=\s|$)")
_language: ContextVar[str] = ContextVar("cutwright_language", default="en")


@cache
def _catalogue(language: str) -> _gettext.NullTranslations:
    """The catalogue of a language, read from its source where that was not compiled."""
    code = language.replace("-", "_").partition("_")[0].lower()
    if not code.isascii() or not code.isalpha():
        return _gettext.NullTranslations()
    folder = LOCALES / code / "LC_MESSAGES"
    source, compiled = folder / "cutwright.po", folder / "cutwright.mo"
    if source.exists() and (
        not compiled.exists() or compiled.stat().st_mtime < source.stat().st_mtime
    ):
        return _from_source(source)
    return _gettext.translation("cutwright", LOCALES, languages=[code], fallback=True)


def _from_source(source: Path) -> _gettext.NullTranslations:
    """A catalogue compiled in memory: a fresh clone speaks every language without another command."""
    from io import BytesIO

    from babel.messages.mofile import write_mo
    from babel.messages.pofile import read_po

    with source.open("rb") as file:
        catalogue = read_po(file, locale=source.parents[1].name)
    compiled = BytesIO()
    write_mo(compiled, catalogue)
    compiled.seek(0)
    return _gettext.GNUTranslations(compiled)


@cache
def languages() -> tuple[str, ...]:
    """The codes of the languages there is a catalogue of, English first."""
    found = {file.parents[1].name for file in LOCALES.glob("*/LC_MESSAGES/cutwright.[mp]o")}
    return ("en", *sorted(found - {"en"}))


def set_language(language: str) -> None:
    """Choose the language (a code such as "en") for what this task shows from now on."""
    _language.set(language)


def current_language() -> str:
    """The code of the language in force."""
    return _language.get()


def _(message: str) -> str:
    """The message in the language in force; the English text where there is no other."""
    return _catalogue(_language.get()).gettext(message)


def ngettext(one: str, many: str, count: int) -> str:
    """The message for one or for many, by the rules of the language in force."""
    return _catalogue(_language.get()).ngettext(one, many, count)


def spaced(line: str) -> str:
    """A line put together here, with the space that French has before a colon and a semicolon."""
    if not current_language().startswith("fr"):
        return line
    return _STOPS.sub(lambda stop: ("\u00a0" if stop[0] == ":" else "\u202f") + stop[0], line)
