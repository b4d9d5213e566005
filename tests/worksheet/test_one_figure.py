"""What is measured all round is one figure wherever it is printed."""

from __future__ import annotations

import pytest

from cutwright.pattern.sum import EdgeLength, Number, Op, Rounded, Sign, Term, children
from tests.worksheet.sheets import BODIES, STYLES, worked


def rounds(term: Term) -> list[tuple[float, list[EdgeLength], float]]:
    """Every length all round in a sum: its value, the edges of the half, and how often they count."""
    out = [found for inner in children(term) for found in rounds(inner)]
    inner = term.term if isinstance(term, Rounded) else term
    if isinstance(inner, Op) and inner.sign is Sign.TIMES and isinstance(inner.terms[-1], Number):
        half = inner.terms[0]
        edges = [t for t in (children(half) or (half,)) if isinstance(t, EdgeLength)]
        if inner.terms[-1].code == "all-round":
            out.append((term.value, edges, inner.terms[-1].value))
    return out


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("body", BODIES)
def test_a_length_all_round_is_that_of_the_paper(style: str, body: str) -> None:
    """The flounce's seam of 182.8 is not 182.9 in the list of seams: both are the same length to the millimetre."""
    for figure in worked(style, body).replay.figures:
        for value, edges, count in rounds(figure.term):
            exact = count * sum(edge.size for edge in edges)
            assert value == pytest.approx(exact, abs=0.051 + 0.005 * count * len(edges)), (
                figure.code
            )
