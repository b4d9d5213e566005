"""The finished packet judged by code of the tests' own, whatever the program's checks say."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from cutwright.body import resolve
from cutwright.body.card import BodyCard
from cutwright.drawing.primitives import Drawing
from cutwright.finish.document import pattern_json
from cutwright.style.document import Style
from cutwright.workshop.packet import document_of
from cutwright.workshop.work import Work, work
from tests.packet import paper, seams
from tests.packet.reading import Document
from tests.packet.seams import Miss

RULES = (
    "allowance", "notch", "band not marked", "notch beside corner", "radius", "cut line", "marks crowd", "words outside", "words on words",
    "grain outside", "bust level broken", "bust level off", "not named",
)  # fmt: skip


ON_DOCUMENT = (
    seams.allowances, seams.notches, paper.beside,
    paper.radii, paper.cut_lines, paper.crowded, paper.grain,
)  # fmt: skip

ON_DRAWINGS = (paper.words, paper.levels, paper.named)


def judged(done: Work) -> Iterator[Miss]:
    """Everything the referee finds in a finished packet."""
    return judgement(pattern_json(document_of(done)), done.drawings())


def judgement(document: dict[str, Any], drawings: Sequence[tuple[str, Drawing]]) -> Iterator[Miss]:
    """Everything the referee finds in a pattern.json and the drawings of its pieces."""
    read = Document(document)
    for rule in ON_DOCUMENT:
        yield from rule(read)
    for look in ON_DRAWINGS:
        yield from look(read, drawings)


def worked(style: Style, card: BodyCard) -> Work | None:
    """A style worked on a woman; None where the program says that it cannot be."""
    done = work(style, resolve(card))
    return None if done.trouble is not None else done
