"""Documents on their way into a book that would not open afterwards: sound JSON, but no card, style or cloth."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Any

from cutwright.book.content import thaw
from cutwright.book.nouns import DocumentKind
from cutwright.book.soundness import MOST_TOLD, Rows
from cutwright.documents import Problem
from cutwright.errors import CutwrightError, DocumentError
from cutwright.messages import Text

Check = Callable[[DocumentKind, object], object]
"""Reads a document of a kind; raises CutwrightError where that cannot be. The book itself does not know
what stands in its documents."""
Placed = tuple[str, DocumentKind, object]
"""A document with its place in what is taken in."""


def unreadable(found: Iterable[Placed], check: Check) -> list[Problem]:
    """Each document that could not be read afterwards, with the first thing that is wrong; 40 at most."""
    problems: list[Problem] = []
    for place, kind, content in found:
        try:
            check(kind, content)
        except CutwrightError as fault:
            inner, text = _first(fault)
            problems.append((", ".join(filter(None, (place, inner))), text))
            if len(problems) == MOST_TOLD:
                break
    return problems


def _first(fault: CutwrightError) -> tuple[str, Text]:
    if isinstance(fault, DocumentError) and fault.problems:
        place, text = fault.problems[0]
        return str(place), text
    return "", fault.message


def in_tables(tables: Mapping[str, Rows]) -> Iterator[Placed]:
    """Every measure set and cloth in the rows of a book, at every revision and as orders froze them.

    A style is left out: it opens whatever stands in it, and shows a sentence that cannot be read.
    """
    kinds = {row["id"]: DocumentKind(row["kind"]) for row in tables["document"]}
    titles = {row["id"]: row["title"] for row in tables["document"]}
    for row in tables["revision"]:
        kind = kinds[row["document_id"]]
        if kind in (DocumentKind.BODY, DocumentKind.CLOTH):
            yield f"{row['title']} ({row['number']})", kind, thaw(row["content"])
    for row in tables["correction"]:
        if kinds[row["document_id"]] is DocumentKind.BODY:
            yield titles[row["document_id"]], DocumentKind.BODY, thaw(row["proposed"])
    for row in tables["orders"]:
        for kind, content in frozen_parts(thaw(row["frozen"])):
            if kind is not DocumentKind.STYLE:
                yield titles[row["id"]], kind, content


def frozen_parts(frozen: Mapping[str, Any]) -> Iterator[tuple[DocumentKind, object]]:
    """The body, the style and the cloths that an order has frozen."""
    for name, kind in (("body", DocumentKind.BODY), ("style", DocumentKind.STYLE)):
        if frozen.get(name) is not None:
            yield kind, frozen[name]
    cloths = frozen.get("cloths")
    for cloth in cloths if isinstance(cloths, list) else ():
        yield DocumentKind.CLOTH, cloth
