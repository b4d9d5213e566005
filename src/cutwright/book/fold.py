"""Writing text so that a search finds it however it was typed."""

from __future__ import annotations

import unicodedata

ESCAPE = "!"
MOST_WORDS = 20
MOST_SIGNS = 500


def fold(*texts: str) -> str:
    """The texts in one line without case, accents and doubled spaces.

    Done here and not in the database, because SQLite knows the case of unaccented Latin only
    and capitals in Greek drop their accents: "ΕΛΕΝΗ" has to find "Ελένη".
    """
    parts = unicodedata.normalize("NFKD", " ".join(texts).casefold()).casefold()
    return " ".join("".join(sign for sign in parts if not _is_silent(sign)).split())


def patterns(words: str) -> list[str]:
    """A LIKE pattern for each word that was typed, of the first few; escape sign is `ESCAPE`."""
    found = []
    for word in fold(words[:MOST_SIGNS]).split()[:MOST_WORDS]:
        for sign in (ESCAPE, "%", "_"):
            word = word.replace(sign, ESCAPE + sign)
        found.append(f"%{word}%")
    return found


def _is_silent(sign: str) -> bool:
    """Accents, and signs that are no text at all."""
    if unicodedata.combining(sign):
        return True
    return unicodedata.category(sign) in ("Cc", "Cs") and not sign.isspace()
