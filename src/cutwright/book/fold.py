"""Writing text so that a search finds it however it was typed."""

from __future__ import annotations

import unicodedata

ESCAPE = "!"


def fold(*texts: str) -> str:
    """The texts in one line without case, accents and doubled spaces.

    Done here and not in the database, because SQLite knows the case of unaccented Latin only
    and capitals in Greek drop their accents: "ΕΛΕΝΗ" has to find "Ελένη".
    """
    line = " ".join(" ".join(texts).split())
    parts = unicodedata.normalize("NFKD", line.casefold()).casefold()
    return "".join(sign for sign in parts if not _is_silent(sign))


def patterns(words: str) -> list[str]:
    """A LIKE pattern for each word that was typed; escape sign is `ESCAPE`."""
    found = []
    for word in fold(words).split():
        for sign in (ESCAPE, "%", "_"):
            word = word.replace(sign, ESCAPE + sign)
        found.append(f"%{word}%")
    return found


def _is_silent(sign: str) -> bool:
    """Accents, and signs that are no text at all."""
    return bool(unicodedata.combining(sign)) or unicodedata.category(sign) in ("Cc", "Cs")
