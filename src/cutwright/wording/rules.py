"""A sum told by names alone, for a hand that puts its own figures in: "waist − taken in at the side"."""

from __future__ import annotations

from cutwright.pattern.sum import (
    Chosen,
    Compound,
    DraftRule,
    Earlier,
    Fn,
    Leaf,
    Number,
    Op,
    ReadOff,
    Sign,
    Term,
    Trigonometric,
    children,
)
from cutwright.wording.figures import what
from cutwright.wording.sums import SIGNS, number_text, unit_of
from cutwright.wording.terms import EARLIER, label
from cutwright.words import _


def in_words(term: Term) -> str:
    """A term by the names of what goes into it; what is the same for every body stands as a number."""
    match term:
        case Op(sign=Sign.MINUS, terms=(Number(value=0), other)):
            return f"{SIGNS[Sign.MINUS]} {in_words(other)}"
        case Op(sign=sign, terms=terms):
            return f" {SIGNS[sign]} ".join(_inner(sign, part, k) for k, part in enumerate(terms))
        case Trigonometric(fn=Fn.LEG | Fn.SLANT, terms=(first, second)):
            between = SIGNS[Sign.MINUS if term.fn is Fn.LEG else Sign.PLUS]
            return f"√(({in_words(first)})² {between} ({in_words(second)})²)"
        case _ if isinstance(term, Compound):
            return in_words(children(term)[0])
        case _:
            return _leaf(term)


def _inner(sign: Sign, term: Term, place: int) -> str:
    text = in_words(term)
    loose = isinstance(term, Op) and term.sign in (Sign.PLUS, Sign.MINUS)
    bracket = loose and (sign in (Sign.TIMES, Sign.OVER) or (sign is Sign.MINUS and place > 0))
    return f"({text})" if bracket else text


def _leaf(leaf: Leaf) -> str:
    match leaf:
        case Number() | DraftRule() | Chosen():
            return number_text(leaf.value, unit_of(leaf))
        case ReadOff(code="centre-inside"):
            return label(leaf)
        case ReadOff():  # read off the reference body's paper
            return f"{number_text(leaf.value)} {label(leaf)}"
        case Earlier(figure=figure):
            named = EARLIER.get(figure.code)
            return _(named) if named else what(figure)
        case _:
            return label(leaf)
