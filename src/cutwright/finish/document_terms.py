"""The sums of figures in pattern.json: each term with its value, no words of any language."""

from __future__ import annotations

from typing import Any

from cutwright.finish.document_form import TermEntry
from cutwright.pattern.sum import (
    Chosen,
    Compound,
    DraftRule,
    Earlier,
    EdgeLength,
    Leaf,
    Limited,
    Number,
    Op,
    ReadOff,
    Rounded,
    Solved,
    Taped,
    Term,
    Trigonometric,
    children,
)


def term_entry(term: Term) -> TermEntry:
    """The entry of a term with those it is made of."""
    inner = [term_entry(each) for each in children(term)] or None
    return TermEntry(value=term.value + 0.0, terms=inner, **_fields(term))


def _fields(term: Term) -> dict[str, Any]:
    return _compound(term) if isinstance(term, Compound) else _leaf(term)


def _leaf(term: Leaf) -> dict[str, Any]:
    match term:
        case Taped(measure=measure):
            return {"kind": "taped", "measure": measure}
        case EdgeLength(ref=ref):
            return {"kind": "edge", "piece": ref.piece, "edge": ref.edge}
        case ReadOff(code=code, piece=piece):
            return {"kind": "drawn", "code": code, "piece": piece or None}
        case Chosen(field=field, text=text):
            return {"kind": "chosen", "field": field, "text": text or None}
        case DraftRule(code=code, source=source):
            return {"kind": "rule", "code": code, "source": source.value}
        case Number(code=code):
            return {"kind": "number", "code": code or None}
        case Earlier(figure=figure):
            return {"kind": "earlier", "code": figure.code}


def _compound(term: Compound) -> dict[str, Any]:
    match term:
        case Op(sign=sign):
            return {"kind": "operation", "sign": sign.value}
        case Trigonometric(fn=fn):
            return {"kind": "found", "code": fn.value}
        case Rounded(way=way, step=step):
            return {"kind": "rounded", "way": way.value, "step": step}
        case Limited(bound=bound):
            return {"kind": "limited", "bound": bound.value}
        case Solved():
            return {"kind": "solved"}
