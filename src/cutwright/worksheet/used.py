"""Which measures a style asks for: those in the sums of its figures."""

from __future__ import annotations

from cutwright.body.measures import MEASURES
from cutwright.pattern.sum import Chosen, Earlier, Taped, Term, leaves
from cutwright.style.formula import names_in
from cutwright.style.replay import Replay


def measures_used(done: Replay) -> frozenset[str]:
    """The ids of the measures from which the figures of a style come."""
    results = [stage.result for stage in done.stages]
    figures = [figure for result in results for figure in (*result.figures, *result.workings)]
    return frozenset(name for figure in figures for name in _in(figure.term))


def _in(term: Term) -> frozenset[str]:
    found: set[str] = set()
    for leaf in leaves(term):
        match leaf:
            case Taped(measure=measure):
                found.add(measure)
            case Chosen(text=text) if text:
                found.update(name for name in names_in(text) if name in MEASURES)
            case Earlier(figure=figure):
                found |= _in(figure.term)
            case _:
                pass
    return frozenset(found)
