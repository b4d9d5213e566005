"""The published JSON Schemas of the documents."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from cutwright.errors import CutwrightError
from cutwright.words import _
from cutwright.workshop.gallery import know_all_steps


def _body() -> dict[str, Any]:
    from cutwright.body.card import card_schema

    return card_schema()


def _style() -> dict[str, Any]:
    from cutwright.style.document import style_schema

    know_all_steps()
    return style_schema()


def _cloth() -> dict[str, Any]:
    from cutwright.lay.cloth import Cloth

    return Cloth.model_json_schema()


def _pattern() -> dict[str, Any]:
    from cutwright.finish.document import pattern_schema

    return pattern_schema()


SCHEMAS: dict[str, Callable[[], dict[str, Any]]] = {
    "body": _body,
    "style": _style,
    "cloth": _cloth,
    "pattern": _pattern,
}


def schema_of(document: str) -> dict[str, Any]:
    """The schema of a document by its name; raises CutwrightError naming what there is."""
    if document not in SCHEMAS:
        raise CutwrightError(
            _('There is no document "{name}". There is: {there}.').format(
                name=document, there=", ".join(SCHEMAS)
            )
        )
    return SCHEMAS[document]()
