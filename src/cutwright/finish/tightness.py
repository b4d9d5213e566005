"""Whether the cut line can run beside a hollow edge: its least radius against its allowance."""

from __future__ import annotations

from collections.abc import Iterator

from cutwright.finish.cut_line import CutLine
from cutwright.geometry.hollow import tightest
from cutwright.messages import N_, Message
from cutwright.pattern.piece import Piece
from cutwright.pattern.result import Finding, Severity

CODE = "allowance-too-tight"
_SPARE = 0.02
"""What a radius must be more than the allowance, cm."""


def tight_edges(piece: Piece, line: CutLine) -> Iterator[Finding]:
    """Edges that turn more tightly than their allowance is wide: it would fold over itself there.

    Parameters
    ----------
    piece : the piece
    line : its cut line

    Returns
    -------
    a warning for each such edge, its value the least radius, cm
    """
    amounts = {edge.label: edge.allowance for edge in line.edges}
    for edge in piece.outer_edges:
        amount = amounts.get(edge.label, 0.0)
        radius, at = tightest(edge.curves)
        if not amount or radius >= amount + _SPARE:
            continue
        text = Message(
            "turns-radius-cm-but-allowance",
            N_(
                'The "{edge}" of "{piece}" turns with a radius of {radius:.1f} cm, but its allowance is {amount:.1f} cm '
                "wide and would not lie flat there. Allow less at this edge, or draw it deeper or less wide, so that "
                "it turns more gently."
            ),
            edge=edge.label,
            piece=piece.name,
            radius=radius,
            amount=amount,
        )
        yield Finding(CODE, Severity.WARNING, f"{piece.name}: {edge.label}", text, radius, at)
