"""How names are written for the reader: those the program gives, in the language in force.

A name that somebody invented is shown as it was written.
"""

from __future__ import annotations

import re
from functools import lru_cache

from cutwright.documents.names import (
    ABOUT_BODIES,
    ABOUT_STYLES,
    BODIES,
    CLOTHS,
    ORDER,
    STYLES,
)
from cutwright.pattern.vocabulary import AND, COMPOSED, OF_PIECE, PART_OF
from cutwright.words import _, current_language, spaced

_PARTS = re.compile(rf"(, |; | \+ | / | ~ |{AND})")
_ENDING = re.compile(r"(?<=[^\W\d])(\.\d+)+$")
_PART_OF = re.compile(r"part (\d+) of (\d+)")
_ORDERS = {ORDER.format(style=s, body=b): (s, b) for s in STYLES for b in BODIES}
_KNOWN = frozenset((*STYLES, *ABOUT_STYLES, *BODIES, *ABOUT_BODIES, *CLOTHS))


def name_text(name: str) -> str:
    """A name, or several parted by commas, in the language in force.

    "skirt front: hem" is told as the hem of the skirt front. The number of a part is left out:
    "waist.1" is told as the waist.
    """
    return spaced("".join(_part(part) for part in _PARTS.split(name) if part))


def _part(part: str) -> str:
    if part == AND:
        return _(AND)
    if _PARTS.fullmatch(part):
        return part
    piece, colon, edge = part.partition(": ")
    return _(OF_PIECE).format(piece=_one(piece), edge=name_text(edge)) if colon else _one(part)


def _one(name: str) -> str:
    if part := _PART_OF.fullmatch(name):
        return _(PART_OF).format(number=part[1], count=part[2])
    bare = _ENDING.sub("", name)
    shown = _(bare) if bare else name
    if shown != bare or current_language() == "en":
        return shown
    for pattern in COMPOSED:
        before, _hole, after = pattern.partition("{name}")
        inner = bare[len(before) : len(bare) - len(after)]
        if inner and bare == f"{before}{inner}{after}":
            return _(pattern).format(name=_one(inner))
    return shown


def retold(line: str, names: tuple[str, ...]) -> str:
    """A line with every one of these names in it told in the language in force."""
    if current_language() == "en" or not names:
        return line
    return _finder(names).sub(lambda m: name_text(m.group()), line)


@lru_cache(maxsize=64)
def _finder(names: tuple[str, ...]) -> re.Pattern[str]:
    longest_first = sorted(names, key=lambda n: (-len(n), n))
    return re.compile(r"(?<![\w-])(?:" + "|".join(map(re.escape, longest_first)) + r")(?![\w-])")


def called(name: str) -> str:
    """A name or a line about a document that ships, in the language in force; any other as it is."""
    if name in _ORDERS:
        style, body = _ORDERS[name]
        return _(ORDER).format(style=_(style), body=_(body))
    return _(name) if name in _KNOWN else name


def sentence_case(text: str) -> str:
    """The text with its first letter large."""
    return text[:1].upper() + text[1:]


def title_of(name: str) -> str:
    """The name of a piece as a heading."""
    return sentence_case(name_text(name))
