"""What no reader should meet in what is shown: braces, ids, labels with colons, English in another language."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from functools import cache

from babel.messages.catalog import Catalog
from babel.messages.pofile import read_po

from cutwright.pattern.vocabulary import PIECES
from cutwright.wording.names import name_text
from cutwright.words import LOCALES

EDGES = ("neckline", "shoulder", "armhole", "side", "hem", "waist", "centre front", "centre back")
WORD = re.compile(r"[A-Za-z]{4,}")
_BRACES = re.compile(r"\{[a-z_]*[:.!\w]*\}")
_UNDERSCORED = re.compile(r"\b[a-z]+(?:_[a-z]+)+\b")
_ID = re.compile(r"\b(?=[0-9a-f]*\d)(?=[0-9a-f]*[a-f])[0-9a-f]{16,}\b")


def slips(text: str, language: str, names: Iterable[str] = ()) -> Iterator[str]:
    """Every slip in a text that is shown in `language`; `names` are words of people and files."""
    for pattern in (_BRACES, _UNDERSCORED, _ID):
        yield from (found[0] for found in pattern.finditer(text))
    yield from (found[0] for found in labels().finditer(text))
    if language != "en":
        strange = english(language) - {name.casefold() for name in names}
        yield from (w[0] for w in WORD.finditer(text) if w[0].casefold() in strange)


def labels() -> re.Pattern[str]:
    """A piece and an edge with a colon between, as a document refers to them, in the language in force."""
    pieces, edges = ("|".join(re.escape(name_text(n)) for n in names) for names in (PIECES, EDGES))
    return re.compile(rf"(?<!\w)(?:{pieces})\s?: (?:{edges})(?!\w)")


@cache
def english(language: str) -> frozenset[str]:
    """Words of the English sentences that no sentence of this language has."""
    path = LOCALES / language / "LC_MESSAGES" / "cutwright.po"
    with path.open("rb") as file:
        catalogue: Catalog = read_po(file, locale=language)
    here: set[str] = set()
    there: set[str] = set()
    for message in catalogue:
        if message.id:
            here |= _words(message.id)
            there |= _words(message.string or "")
    return frozenset(here - there)


def _words(texts: str | Iterable[str]) -> set[str]:
    joined = texts if isinstance(texts, str) else " ".join(texts)
    joined = re.sub(r"\{[^}]*\}|%\(\w+\)s", " ", joined)
    return {word.casefold() for word in WORD.findall(joined)}
