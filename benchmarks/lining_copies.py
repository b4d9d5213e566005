"""A step of the benchmarks alone: pieces copied for a lining, so that a garment of many pieces can be timed."""

from __future__ import annotations

from dataclasses import replace
from typing import ClassVar, Literal

from cutwright.body.body import Body
from cutwright.pattern.change import account
from cutwright.pattern.edge import Ref
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.result import Result
from cutwright.pattern.seam import Seam, Side
from cutwright.style.document import Style
from cutwright.style.registry import register
from cutwright.style.step import Step


@register
class LiningCopies(Step):
    """Copy pieces, and the seams between them, under names of their own."""

    SENTENCE: ClassVar[str] = "Copy {pieces} for the {layer}."
    HELP: ClassVar[str] = "For timing only."
    do: Literal["lining_copies"] = "lining_copies"
    pieces: tuple[str, ...]
    layer: str = "lining"

    def apply(self, pattern: Pattern, body: Body) -> Result:
        """Set each copy and the seams that lie wholly between copies beside what there is."""
        made = tuple(replace(pattern.piece(name), name=self._copied(name)) for name in self.pieces)
        seams = tuple(
            seam.with_rows([self._sides(row) for row in seam.rows])
            for seam in pattern.seams
            if self._between(seam)
        )
        changed = replace(pattern, pieces=(*pattern.pieces, *made), seams=(*pattern.seams, *seams))
        return Result(changed, account(pattern, changed))

    def _copied(self, name: str) -> str:
        return f"{name} {self.layer}"

    def _between(self, seam: Seam) -> bool:
        return all(ref.piece in self.pieces for ref in seam.refs)

    def _sides(self, sides: tuple[Side, ...]) -> tuple[Side, ...]:
        return tuple(replace(s, ref=Ref(self._copied(s.ref.piece), s.ref.edge)) for s in sides)


def lined(style: Style) -> Style:
    """The ready-made dress with its pieces copied for lining and interlining, and facings: 20 pieces."""
    from cutwright.style.document import parse_step

    copied = ["front", "back", "skirt front", "skirt back", "hem flounce", "neck flounce"]
    extra = [
        {"do": "facing", "kind": "armhole", "pieces": ["front", "back"]},
        {"do": "lining_copies", "pieces": copied, "layer": "lining"},
        {"do": "lining_copies", "pieces": copied, "layer": "interlining"},
    ]
    return Style(f"{style.name}, lined", (*style.steps, *map(parse_step, extra)), style.about)
