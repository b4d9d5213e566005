"""Setting the words of a label: inside a piece, as large as it allows, or beside it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache, partial
from math import sqrt

from cutwright.drawing.leader import leader, place_beside
from cutwright.drawing.primitives import Item, Layer, Words
from cutwright.drawing.type import text_width, wrapped
from cutwright.finish.finished import FinishedPiece
from cutwright.geometry.point import Point
from cutwright.geometry.room import Room
from cutwright.wording.labels import LabelWords, label_words

TITLE = 1.6
"""Height of the title against that of the other lines."""

LEADING = 2.0
"""From baseline to baseline against the height of capitals."""

LARGEST, SMALLEST = 0.6, 0.18
_STEPS = 8
_NARROW = 14.0
"""Width of a narrow block in heights of capitals."""
_SLIM = 10.0
"""The same of a column that stands in a band."""
_RAGGED = 6.0
"""How much longer than its share a line may be, since words are not broken, in heights of capitals."""


@dataclass(frozen=True, slots=True)
class LabelBlock:
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
def block(label: LabelWords) -> LabelBlock:
    """The label as a block: the title above its lines."""
    return _set([(label.title, TITLE, True), *((text, 1.0, False) for text in label.lines)])


@lru_cache(maxsize=256)
def narrow(label: LabelWords) -> LabelBlock:
    """The label as a block no wider than its title needs, long lines wrapped."""
    wide = max(text_width(label.title, TITLE, bold=True), _NARROW)
    lines = [(label.title, TITLE, True)]
    lines += [(part, 1.0, False) for text in label.lines for part in wrapped(text, 1.0, wide)]
    return _set(lines)


@lru_cache(maxsize=256)
def slim(label: LabelWords) -> LabelBlock:
    """The label as a column for facings and other bands: the title is wrapped, too."""
    words = (text_width(word, TITLE, bold=True) for word in label.title.split())
    wide = max(_SLIM, *words)
    lines = [(part, TITLE, True) for part in wrapped(label.title, TITLE, wide)]
    lines += [(part, 1.0, False) for text in label.lines for part in wrapped(text, 1.0, wide)]
    return _set(lines)


def _set(lines: Sequence[tuple[str, float, bool]]) -> LabelBlock:
    width = max(text_width(text, share, bold=bold) for text, share, bold in lines)
    return LabelBlock(tuple(lines), width, lines[0][1] + LEADING * (len(lines) - 1) + 0.4)


@lru_cache(maxsize=256)
def in_lines(count: int, label: LabelWords) -> LabelBlock:
    """The label run on in that many lines, the title first."""
    text = label.in_one()
    wide = text_width(text, 1.0, bold=True) / count + (_RAGGED if count > 1 else 1.0)
    lines = [(part, 1.0, True) for part in wrapped(text, 1.0, wide, bold=True)]
    return _set(lines)


one_line, two_lines, three_lines = (partial(in_lines, count) for count in (1, 2, 3))

_WAYS: tuple[tuple[Callable[[LabelWords], LabelBlock], Point, float], ...] = (
    (block, 1 + 0j, 1.0),
    (one_line, 1 + 0j, 0.7),
    (block, -1j, 0.75),
    (one_line, -1j, 0.55),
    (narrow, 1 + 0j, 0.72),
    (narrow, -1j, 0.6),
    (two_lines, 1 + 0j, 0.55),
    (two_lines, -1j, 0.45),
    (three_lines, 1 + 0j, 0.5),
    (three_lines, -1j, 0.4),
    (slim, 1 + 0j, 0.45),
    (slim, -1j, 0.4),
)
"""How a label may be set, which way it runs, and what that is worth against its size."""


BESIDE = 0.25
"""Height of capitals of a label that stands beside its piece, cm."""


def set_label(finished: FinishedPiece, room: Room, wish: Point) -> list[Item]:
    """The label's words at the largest size that fits, upright if that costs little.

    Where they fit nowhere inside the piece they stand beside it, with a leader.

    Parameters
    ----------
    room : free room laid out along the x axis
    wish : where the middle should be, if there is room
    """
    label, tag = label_words(finished.label), finished.name
    found = _inside(label, room, wish, finished.piece.area)
    if found is not None:
        setting, capitals, middle, along = found
        return setting.at(middle, capitals, along, tag)
    setting = narrow(label)
    wide, high = setting.width * BESIDE, setting.height * BESIDE
    middle, end = place_beside(finished.cut_line.outline, wide, high)
    words = setting.at(middle, BESIDE, 1 + 0j, tag)
    return [*words, *leader(words, end, tag)]


def _inside(
    label: LabelWords, room: Room, wish: Point, area: float
) -> tuple[LabelBlock, float, Point, Point] | None:
    """How the label is set inside its piece, its height of capitals, its middle, its direction."""
    most = min(LARGEST, max(0.28, 0.015 * sqrt(abs(area))))
    best: tuple[float, LabelBlock, float, Point, Point] | None = None
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
    return None if best is None else best[1:]
