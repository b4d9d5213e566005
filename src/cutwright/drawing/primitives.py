"""What a drawing is made of: strokes, fills and words on named layers, in centimetres, y down."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from enum import StrEnum

from cutwright.geometry.move import Move
from cutwright.geometry.outline import bounds
from cutwright.geometry.path import Path, moved_path
from cutwright.geometry.point import Point
from cutwright.memo import memoised


class Layer(StrEnum):
    """Layers that can be switched on and off; they become layers of the printed file."""

    CLOTH = "cloth"
    STITCH = "stitch line"
    CUT = "cut line"
    MARKS = "marks"
    TEXT = "text"
    HELP = "help"  # dimensions, traces of a step
    PROOF = "proof"  # faults


class Ink(StrEnum):
    """What a stroke means; each device gives it its own width, colour and dashes."""

    STITCH = "stitch"
    CUT = "cut"
    FOLD = "fold"
    GRAIN = "grain"
    NOTCH = "notch"
    MARK = "mark"
    DART = "dart"
    LEVEL = "level"
    TEXT = "text"
    NOTE = "note"
    FAULT = "fault"
    PAPER = "paper"  # the body of a piece (fill)
    GONE = "gone"  # how it lay before
    SLASH = "slash"  # where it was cut
    WEDGE = "wedge"  # what was opened (fill)
    CLOSED = "closed"  # what was folded out (fill)
    PIVOT = "pivot"
    ARROW = "arrow"
    MEASURED = "measured"
    ADDED = "added"
    CLOTH = "cloth"
    FRAME = "frame"
    LEADER = "leader"  # from words to what they speak of


@dataclass(frozen=True, slots=True)
class Stroke:
    """A chain of curves drawn with an ink; `closed` joins end to start; `fill` paints the inside.

    `tag` names what it is for screens ("skirt front: hem"), shown and selectable there.
    """

    path: Path
    ink: Ink
    layer: Layer
    closed: bool = False
    fill: bool = False
    tag: str = ""

    def moved(self, move: Move) -> Stroke:
        """The stroke after a rigid move."""
        return replace(self, path=moved_path(self.path, move))


@dataclass(frozen=True, slots=True)
class Words:
    """One line of text: `at` is the anchor on the baseline, `size` the height of capitals in cm.

    `along` is the unit direction of reading; `anchor` is "start", "middle" or "end".
    """

    at: Point
    text: str
    size: float
    layer: Layer = Layer.TEXT
    ink: Ink = Ink.TEXT
    along: Point = 1 + 0j
    anchor: str = "start"
    bold: bool = False
    tag: str = ""

    def moved(self, move: Move) -> Words:
        """The words after a rigid move; they are never mirrored, only placed anew."""
        far = move(self.at + self.along)
        return replace(self, at=move(self.at), along=far - move(self.at))


@dataclass(frozen=True, slots=True)
class Dot:
    """A round spot of a given radius in cm."""

    at: Point
    radius: float
    ink: Ink
    layer: Layer
    fill: bool = True
    tag: str = ""

    def moved(self, move: Move) -> Dot:
        """The spot after a rigid move."""
        return replace(self, at=move(self.at))


Item = Stroke | Words | Dot


@dataclass(frozen=True, slots=True)
class Drawing:
    """Items in the order they are painted."""

    items: tuple[Item, ...] = ()

    def moved(self, move: Move) -> Drawing:
        """The drawing after a rigid move."""
        return Drawing(tuple(item.moved(move) for item in self.items))

    def __add__(self, other: Drawing) -> Drawing:
        return Drawing(self.items + other.items)

    @memoised
    def box(self) -> tuple[float, float, float, float]:
        """The upright box of all strokes and spots: left, top, right, bottom in cm."""
        boxes = [bounds(i.path) for i in self.items if isinstance(i, Stroke) and i.path]
        boxes += [
            (i.at.real - i.radius, i.at.imag - i.radius, i.at.real + i.radius, i.at.imag + i.radius)
            for i in self.items
            if isinstance(i, Dot)
        ]
        if not boxes:
            return (0.0, 0.0, 0.0, 0.0)
        return (
            min(b[0] for b in boxes),
            min(b[1] for b in boxes),
            max(b[2] for b in boxes),
            max(b[3] for b in boxes),
        )


def drawn_together(drawings: Iterable[Drawing]) -> Drawing:
    """Several drawings as one, painted in order."""
    return Drawing(tuple(item for drawing in drawings for item in drawing.items))
