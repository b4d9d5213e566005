"""Setting the words of a label where they fit inside a piece, as large as the piece allows."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import sqrt

from cutwright.drawing.primitives import Item, Layer, Words
from cutwright.drawing.type import text_width, wrapped
from cutwright.finish.label import Label
from cutwright.geometry.point import Point
from cutwright.geometry.room import Room

TITLE = 1.6
"""Height of the title against that of the other lines."""

LEADING = 2.0
"""From baseline to baseline against the height of capitals."""

LARGEST, SMALLEST = 0.6, 0.18
_STEPS = 8
_NARROW = 14.0
"""Width of a narrow block in heights of capitals."""


@dataclass(frozen=True, slots=True)
class Setting:
    """Lines of words with their heights, and the size of their block for capitals of 1 cm."""

    lines: tuple[tuple[str, float, bool], ...]
    width: float
    height: float

    def at(self, middle: Point, capitals: float, along: Point, tag: str) -> list[Item]:
        """The lines set with the block's middle at a place."""
        down = along * 1j
        top = middle - along * self.width * capitals / 2 - down * self.height * capitals / 2
        out: list[Item] = []
        y = 0.0
        for index, (text, share, bold) in enumerate(self.lines):
            y += share if not index else LEADING * max(share, 0.9)
            place = top + down * y * capitals
            out.append(
                Words(place, text, share * capitals, Layer.TEXT, along=along, bold=bold, tag=tag)
            )
        return out


@lru_cache(maxsize=256)
def block(label: Label) -> Setting:
    """The label as a block: the title above its lines."""
    return _set([(label.title, TITLE, True), *((text, 1.0, False) for text in label.lines)])


@lru_cache(maxsize=256)
def narrow(label: Label) -> Setting:
    """The label as a block no wider than its title needs, long lines wrapped."""
    wide = max(text_width(label.title, TITLE, bold=True), _NARROW)
    lines = [(label.title, TITLE, True)]
    lines += [(part, 1.0, False) for text in label.lines for part in wrapped(text, 1.0, wide)]
    return _set(lines)


@lru_cache(maxsize=256)
def short(label: Label) -> Setting:
    """The title and the line that says how it is cut, for small pieces."""
    cut = [(part, 1.0, False) for part in wrapped(label.cut, 1.0, _NARROW)]
    return _set([(label.title, 1.2, True), *cut])


def _set(lines: Sequence[tuple[str, float, bool]]) -> Setting:
    width = max(text_width(text, share, bold=bold) for text, share, bold in lines)
    return Setting(tuple(lines), width, lines[0][1] + LEADING * (len(lines) - 1) + 0.4)


@lru_cache(maxsize=256)
def one_line(label: Label) -> Setting:
    """The label as one line, the title first."""
    text = label.in_one()
    return Setting(((text, 1.0, True),), text_width(text, 1.0, bold=True), 1.4)


_WAYS: tuple[tuple[Callable[[Label], Setting], Point, float], ...] = (
    (block, 1 + 0j, 1.0),
    (one_line, 1 + 0j, 0.7),
    (block, -1j, 0.75),
    (one_line, -1j, 0.55),
    (narrow, 1 + 0j, 0.72),
    (narrow, -1j, 0.6),
    (short, 1 + 0j, 0.4),
    (short, -1j, 0.35),
)
"""How a label may be set, which way it runs, and what that is worth against its size."""


def set_label(label: Label, room: Room, wish: Point, area: float, tag: str = "") -> list[Item]:
    """The label's words at the largest size that fits, upright if that costs little.

    Parameters
    ----------
    room : free room laid out along the x axis
    wish : where the middle should be, if there is room
    area : of the piece, cm2; large pieces have larger words
    """
    most = min(LARGEST, max(0.28, 0.015 * sqrt(abs(area))))
    best: tuple[float, Setting, float, Point, Point] | None = None
    for made, along, worth in _WAYS:
        if best is not None and most * worth <= best[0]:
            continue
        setting, capitals = made(label), most
        for _step in range(_STEPS):
            if capitals < SMALLEST or (best is not None and capitals * worth <= best[0]):
                break
            width, height = setting.width * capitals, setting.height * capitals
            if along.imag:
                width, height = height, width
            middle = room.fits(width, height, wish)
            if middle is not None:
                best = (capitals * worth, setting, capitals, middle, along)
                break
            capitals *= 0.82
    if best is None:
        return _set([(label.title, 1.0, True)]).at(wish, SMALLEST, 1 + 0j, tag)
    _worth, setting, capitals, middle, along = best
    return setting.at(middle, capitals, along, tag)
