"""The whole work sheet, put together from its parts."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

from cutwright.body.body import Body
from cutwright.checks.proof import Proof
from cutwright.drawing.lay_words import LayTable
from cutwright.drawing.primitives import Drawing
from cutwright.drawing.type import whole_box
from cutwright.finish.finished import FinishedPattern
from cutwright.lay.plan import Lay
from cutwright.pattern.result import Finding
from cutwright.style.document import Style
from cutwright.style.replay import Replay
from cutwright.wording.names import called
from cutwright.words import _, current_language, spaced
from cutwright.worksheet.cautions import care_section, cautions_section, notes_section
from cutwright.worksheet.cutting import cutting_section, seams_section
from cutwright.worksheet.looks import CAPITALS
from cutwright.worksheet.making_words import making_section
from cutwright.worksheet.measures import measures_section
from cutwright.worksheet.pictures import PictureRoom, pieces_picture
from cutwright.worksheet.proof import proof_section
from cutwright.worksheet.ready import ready_section
from cutwright.worksheet.sheet import Block, Picture, Pictures, Section, Sheet, SheetTable, Text
from cutwright.worksheet.steps import step_sections
from cutwright.worksheet.trade_words import trade_words_section
from cutwright.worksheet.used import measures_used

_LAY_SHARES = (0.05, 0.19, 0.18, 0.14, 0.15, 0.15, 0.14)

LARGER = 1.5
"""How much larger words in drawings are in a large print."""


FULL = (16.4, 8.5)
"""Room for a picture of a step that stands alone with nothing at its side, cm."""


class Worked(Protocol):
    """What came of a style on a body, as far as the sheet reads it."""

    @property
    def style(self) -> Style: ...  # noqa: D102
    @property
    def body(self) -> Body: ...  # noqa: D102
    @property
    def replay(self) -> Replay: ...  # noqa: D102
    @property
    def finished(self) -> FinishedPattern: ...  # noqa: D102
    @property
    def proof(self) -> Proof: ...  # noqa: D102


@dataclass(frozen=True, slots=True)
class SheetOptions:
    """What a sheet is told beside the work itself.

    Parameters
    ----------
    style : what the style is called in the reader's language, in place of its name
    who : for whom or which size, in place of the body's name
    cloth : the cloth in words, where no lay tells it
    date, revision : as they are to be printed; empty leaves them out
    large : large print
    lays : the lays of the garment, one a material; their lengths go into the list of what to have
    lay_pictures : drawings of lays with their captions
    lay_tables : how each lay is put down by hand
    """

    style: str = ""
    who: str = ""
    cloth: str = ""
    date: str = ""
    revision: str = ""
    large: bool = False
    lays: tuple[Lay, ...] = ()
    lay_pictures: tuple[tuple[str, Drawing], ...] = ()
    lay_tables: tuple[LayTable, ...] = ()


def worksheet_data(work: Worked, options: SheetOptions | None = None) -> Sheet:
    """The work sheet of a work as plain data, in the language in force."""
    options = options or SheetOptions()
    pattern = work.finished.pattern
    used = measures_used(work.replay)
    sections = (
        head_section(work, options),
        ready_section(work.finished, options.lays),
        measures_section(work.body, used, pattern),
        Section("steps", _("Steps")),
        *step_sections(work.replay, room(options.large)),
        cutting_section(work.finished),
        *_lays(options),
        seams_section(pattern),
        making_section(pattern),
        proof_section(work.proof, pattern, findings_of(work)),
        cautions_section(pattern),
        care_section(pattern),
        trade_words_section(),
        notes_section(),
    )
    who = options.who or work.body.name
    title = options.style or work.style.name
    foot = " · ".join(filter(None, [title, who, options.date]))
    subtitle = _("Work sheet for {who}").format(who=who)
    return Sheet(title, subtitle, sections, current_language(), foot, options.large)


def room(large: bool) -> PictureRoom:
    """The room of a picture of a step, with larger words in a large print."""
    return PictureRoom(capitals=CAPITALS * LARGER, alone=FULL) if large else PictureRoom()


def findings_of(work: Worked) -> tuple[Finding, ...]:
    """What was found by proof and finishing, each once; what a step found stands at the step."""
    told = {f.message for f in work.replay.findings}
    every = (*work.proof.findings, *work.finished.findings)
    return tuple(f for f in dict.fromkeys(every) if f.message not in told)


def head_section(work: Worked, options: SheetOptions) -> Section:
    """For whom, in which cloth, when; and the finished pieces."""
    facts = (
        (_("Cloth"), options.cloth or ", ".join(called(lay.cloth.name) for lay in options.lays)),
        (_("Date"), options.date),
        (_("Revision"), options.revision),
        (_("Pieces"), str(len(work.finished.pieces))),
    )
    told = " · ".join(spaced(f"{name}: {text}") for name, text in facts if text)
    blocks: list[Block] = [Text(told, "facts")]
    pieces = [p.piece for p in work.finished.pieces]
    if pieces:
        words = CAPITALS * (LARGER if options.large else 1.0)
        picture = pieces_picture(pieces, PictureRoom(17.0, 7.5, words), "", lengths=False)
        blocks.append(Pictures((picture,)))
    return Section("head", _("Pattern pieces"), tuple(blocks))


def _lays(options: SheetOptions) -> tuple[Section, ...]:
    """The lay of each cloth as a drawing, and how it is put down by hand."""
    if not options.lay_pictures:
        return ()
    blocks: list[Block] = [
        Pictures((_fitted(drawing, caption),)) for caption, drawing in options.lay_pictures
    ]
    for table in options.lay_tables:
        blocks += [Text(" ".join(table.sentences)), SheetTable(table.head, table.rows, _LAY_SHARES)]
    return (Section("lay", _("How the pieces lie on the cloth"), tuple(blocks)),)


def _fitted(drawing: Drawing, caption: str) -> Picture:
    box = whole_box(drawing)
    scale = min(17.0 / max(box[2] - box[0], 1), 12.0 / max(box[3] - box[1], 1))
    return Picture(drawing, box, caption, caption, scale)
