"""The referee sees each kind of fault when a sound packet is spoilt."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import replace
from functools import cache
from typing import Any

import pytest

from cutwright.drawing.primitives import Drawing, Stroke, Words
from cutwright.finish.document import pattern_json
from cutwright.geometry.move import Move
from cutwright.workshop.gallery import load_body, load_style
from cutwright.workshop.packet import document_of
from cutwright.workshop.work import Work, work
from tests.packet.referee import judged, judgement

Spoil = Callable[[dict[str, Any]], None]


@cache
def sound() -> Work:
    """A dress in which no rule is broken that is spoilt below."""
    return work(load_style("orchard-dress"), load_body("the-rower"))


def piece(document: dict[str, Any], name: str) -> dict[str, Any]:
    return next(p for p in document["pieces"] if p["name"] == name)


def edge(document: dict[str, Any], name: str, label: str) -> dict[str, Any]:
    return next(e for e in piece(document, name)["edges"] if e["name"] == label)


def _allowance(document: dict[str, Any]) -> None:
    edge(document, "front", "armhole")["allowance"] = 1.5


def _notch(document: dict[str, Any]) -> None:
    mark = next(m for m in piece(document, "skirt back")["marks"] if m["edge"] == "side")
    mark["at"] = [mark["at"][0] + 0.3, mark["at"][1] + 0.9]


def _radius(document: dict[str, Any]) -> None:
    edge(document, "back", "neckline")["allowance"] = 40.0


def _crowd(document: dict[str, Any]) -> None:
    marks = piece(document, "front")["marks"]
    mouth = next(m for m in marks if m["kind"] == "dart mouth")
    marks.append(
        {**mouth, "kind": "notch", "text": "1", "at": [mouth["at"][0] + 0.2, mouth["at"][1]]}
    )


def _grain(document: dict[str, Any]) -> None:
    piece(document, "back")["grain"] = [[0.0, -30.0], [0.0, 10.0]]


SPOILT = [
    ("allowance", _allowance), ("notch", _notch), ("radius", _radius),
    ("cut line", _allowance), ("marks crowd", _crowd), ("grain outside", _grain),
]  # fmt: skip


@pytest.mark.parametrize(("rule", "spoil"), SPOILT)
def test_a_spoilt_document(rule: str, spoil: Spoil) -> None:
    document = json.loads(json.dumps(pattern_json(document_of(sound()))))
    before = {m for m in judgement(document, ()) if m.rule == rule}
    spoil(document)
    assert {m for m in judgement(document, ()) if m.rule == rule} - before


def _far(item: Any) -> Any:
    return replace(item, at=item.at + 300) if isinstance(item, Words) else item


def _heaped(item: Any) -> Any:
    return replace(item, at=0j) if isinstance(item, Words) else item


def _level(item: Any) -> Any:
    low = isinstance(item, Stroke) and item.tag == "front: bust"
    return replace(item, path=tuple(c.moved(_DOWN) for c in item.path)) if low else item


_DOWN = Move.by(2j)
WRITTEN = [
    ("words outside", _far), ("words on words", _heaped),
    ("bust level off", _level),
]  # fmt: skip


@pytest.mark.parametrize(("rule", "spoil"), WRITTEN)
def test_a_spoilt_drawing(rule: str, spoil: Callable[[Any], Any]) -> None:
    document = pattern_json(document_of(sound()))
    drawings = [(n, Drawing(tuple(map(spoil, d.items)))) for n, d in sound().drawings()]
    before = [m for m in judged(sound()) if m.rule == rule]
    after = [m for m in judgement(document, drawings) if m.rule == rule]
    assert len(after) > len(before) or set(after) - set(before)
