"""What stands in the words of a letter as its reader writes it, and how that is read back.

A document holds the English names of measures, pieces and edges and numbers with a point; a reader
sees and types names of the language in force and its decimal sign.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import lru_cache
from typing import Any

from cutwright.body.measures import MEASURES
from cutwright.numerals import decimal_sign
from cutwright.wording.names import name_text
from cutwright.wording.sentences import shown, value_words
from cutwright.words import _, current_language

_BETWEEN_DIGITS = re.compile(r"(?<=\d),(?=\d)")
_QUOTED = re.compile(r"(\"[^\"]*\"|'[^']*')")


def format_value(value: object) -> str:
    """A value of a field as it is shown: numbers and names by the reader's custom."""
    if isinstance(value, str) and _QUOTED.search(value):  # a sum that names edges
        return "".join(
            bit if n % 2 else value_words(bit) for n, bit in enumerate(_QUOTED.split(value))
        )
    text = value_words(shown(value))
    numbers = isinstance(value, tuple | list) and all(isinstance(v, int | float) for v in value)
    if numbers and decimal_sign(current_language()) == ",":
        return "; ".join(format_value(each) for each in value)  # type: ignore[attr-defined]
    return text


def parse_value(text: str) -> str:
    """A number or a sum as a document holds it, from how its reader wrote it."""
    names = _measures(current_language())
    bits = _QUOTED.split(text)
    for n in range(0, len(bits), 2):
        bit = bits[n]
        if decimal_sign(current_language()) == ",":
            bit = _BETWEEN_DIGITS.sub(".", bit)
        if names is not None:
            bit = names[0].sub(lambda found: names[1][found.group().casefold()], bit)
        bits[n] = bit.replace("×", "*").replace("÷", "/").replace("−", "-")
    return "".join(bits)


def numbers_in(text: str) -> list[str]:
    """The numbers of a list, parted by semicolons or commas."""
    if ";" in text:
        bits = text.split(";")
    elif decimal_sign(current_language()) == ",":
        bits = re.split(r",\s+", text)
    else:
        bits = text.split(",")
    return [bit.strip() for bit in bits if bit.strip()]


def kept(before: Any, raw: Any) -> Any:
    """What was typed as a name, or the name as it was where nobody changed how it is shown."""
    if isinstance(raw, list) and isinstance(before, tuple | list):
        old: Mapping[str, str] = {name_text(each): each for each in before if isinstance(each, str)}
        return [old.get(each, each) if isinstance(each, str) else each for each in raw]
    if isinstance(raw, str) and isinstance(before, str) and raw.strip() == name_text(before):
        return before
    return raw


@lru_cache(maxsize=16)
def _measures(language: str) -> tuple[re.Pattern[str], dict[str, str]] | None:
    """How measures are called in a language, and which they are; names of two measures are left out."""
    ids: dict[str, list[str]] = {}
    for ident, measure in MEASURES.items():
        ids.setdefault(_(measure.name).casefold(), []).append(ident)
    known = {name: found[0] for name, found in ids.items() if len(found) == 1}
    known |= {ident.casefold(): ident for ident in MEASURES}
    longest_first = sorted(known, key=len, reverse=True)
    pattern = rf"(?<![\w])({'|'.join(map(re.escape, longest_first))})(?![\w])"
    return re.compile(pattern, re.IGNORECASE), known
