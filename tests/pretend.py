"""A language that exists only in tests: every sentence of the catalogue between two marks."""

from __future__ import annotations

from pathlib import Path

from babel.messages.catalog import Catalog
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po

from cutwright import words

OPEN, CLOSE = "‹", "›"
CODE = "de"
"""A real code, so that customs of numbers and plurals are known."""


def marked(text: str) -> str:
    """A sentence in the language."""
    return f"{OPEN}{text}{CLOSE}"


def write_pretended(locales: Path) -> None:
    """Write the compiled catalogue of the language below a folder of languages."""
    with (words.LOCALES / "cutwright.pot").open("rb") as file:
        known = read_po(file)
    made = Catalog(locale=CODE)
    for message in known:
        if not message.id:
            continue
        both = isinstance(message.id, tuple)
        said = tuple(map(marked, message.id)) if both else marked(str(message.id))
        made.add(message.id, said, context=message.context)
    folder = locales / CODE / "LC_MESSAGES"
    folder.mkdir(parents=True)
    with (folder / "cutwright.mo").open("wb") as out:
        write_mo(out, made)
