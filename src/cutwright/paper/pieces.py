"""What comes to be printed: drawn pieces, each in its own frame, and what the sheet says of them."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from cutwright.drawing.primitives import Drawing
from cutwright.geometry.move import Move
from cutwright.numerals import day_words


@dataclass(frozen=True, slots=True)
class PlacedPiece:
    """A finished piece as it is drawn: its name and its drawing in cm, grain upright."""

    name: str
    drawing: Drawing

    def moved(self, move: Move) -> PlacedPiece:
        """The piece after a rigid move."""
        return PlacedPiece(self.name, self.drawing.moved(move))


@dataclass(frozen=True, slots=True)
class Title:
    """What stands in the corner of a sheet; a pattern's faults are printed there, too."""

    style: str = ""
    body: str = ""
    made: date | None = None
    revision: str = ""
    faults: tuple[str, ...] = ()

    def line(self) -> str:
        """Style, body, date and revision in one line."""
        day = day_words(self.made) if self.made else ""
        return " · ".join(part for part in (self.style, self.body, day, self.revision) if part)
