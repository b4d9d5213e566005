"""How much work a style is, counted from what it leaves on the table, and the most it may be.

The count is the same on every machine, in every command and whatever is remembered from before, so
that a style is refused everywhere or nowhere. Its weights are microseconds of one processor as they
were measured (`python -m benchmarks.style_load`, docs/performance.md).
"""

from __future__ import annotations

from math import ceil

from cutwright.errors import StepError
from cutwright.geometry.curve import Line
from cutwright.messages import N_, Message
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.pattern.result import Trace

MOST_LOAD = 1_500_000
"""The most that working a style once, with its proof and its drawings, may count, microseconds."""
MOST_CUT = 400
"""The most pieces of cloth that a garment may be cut into: copies of all pieces together."""

_STEP, _STEP_LINE, _STEP_CURVE, _STEP_TRACE = 2_000, 7, 80, 4.5
"""A step: each, each line and curve of the paper it draws, each of those for each trace it leaves."""
_PIECE, _LINE, _CURVE, _JOINED = 800, 30, 1_100, 500
"""Finishing, drawing and proof: each piece, line and curve, each copy that meets in a seam."""


def step_load(before: Pattern, after: Pattern, traces: tuple[Trace, ...]) -> float:
    """The work of one step and of the proof that it turned its paper well, microseconds."""
    known = set(map(id, before.pieces))
    lines, curves = _drawn(tuple(p for p in after.pieces if id(p) not in known))
    shown = len(traces) * (lines + curves) * _STEP_TRACE
    return _STEP + lines * _STEP_LINE + curves * _STEP_CURVE + shown


def paper_load(pattern: Pattern) -> float:
    """The work of making a pattern ready to cut, drawing and proving it, microseconds."""
    lines, curves = _drawn(pattern.pieces)
    copies = {piece.name: piece.times for piece in pattern.pieces}
    joined = sum(copies.get(ref.piece, 0) for seam in pattern.seams for ref in seam.refs)
    return len(pattern.pieces) * _PIECE + lines * _LINE + curves * _CURVE + joined * _JOINED


def refuse_heavy(steps: float, pattern: Pattern) -> None:
    """Refuse a step after which the style is more work than it may be, or the garment too many pieces.

    `steps` is the work of all steps so far, this one too. Raises `StepError`.
    """
    cut = sum(piece.cut.copies for piece in pattern.pieces)
    if cut > MOST_CUT:
        raise StepError(
            Message(
                "too-many-to-cut",
                N_(
                    "With this step {cut} pieces would have to be cut; a garment may have at most {most}. Take a "
                    "wider cloth, less fullness or fewer parts."
                ),
                cut=cut,
                most=MOST_CUT,
            )
        )
    load = steps + paper_load(pattern)
    if load > MOST_LOAD:
        raise StepError(
            Message(
                "too-much-work",
                N_(
                    "With this step the style would be {share} % of the work that one style may be. Ask for "
                    "fewer lines, cuts or parts, do several like steps in one, or make two styles of it."
                ),
                share=ceil(100 * load / MOST_LOAD),
            )
        )


def _drawn(pieces: tuple[Piece, ...]) -> tuple[int, int]:
    """How many straight lines and how many curves some outlines have."""
    every = [isinstance(curve, Line) for piece in pieces for curve in piece.outline]
    lines = sum(every)
    return lines, len(every) - lines
