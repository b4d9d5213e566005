"""The steps of the sheet: a sentence, before and after, and the arithmetic line by line."""

from __future__ import annotations

from cutwright.numerals import PAPER, in_inches, length_words
from cutwright.pattern.sum import Figure, Unit
from cutwright.style.replay import Replay, Stage
from cutwright.wording.figures import figure_text
from cutwright.wording.message_text import message_text
from cutwright.wording.names import sentence_case
from cutwright.wording.reasons import reasons
from cutwright.wording.sentences import sentence
from cutwright.words import _
from cutwright.worksheet.pictures import PictureRoom, step_pictures
from cutwright.worksheet.points import cut_lines, draft_tables, drawn_tables
from cutwright.worksheet.sheet import Beside, Block, Pictures, Section, Text


def step_sections(done: Replay, room: PictureRoom | None = None) -> tuple[Section, ...]:
    """A section for each step that was done, and one that says where the work stopped."""
    out = [_step(stage, index + 1, room) for index, stage in enumerate(done.stages)]
    if done.trouble is not None:
        text = _("The work stopped here: {trouble}").format(trouble=message_text(done.trouble))
        out.append(Section("stopped", _("Not done"), (Text(text, "caution"),), 2, together=True))
    return tuple(out)


def _step(stage: Stage, count: int, room: PictureRoom | None) -> Section:
    blocks: list[Block] = [Text(sentence(stage.step), "sentence"), *why(stage)]
    pictures = step_pictures(stage, room)
    lines = [*cut_lines(stage)]
    lines += [Text(figure_line(figure), "sum") for figure in stage.result.figures]
    lines += [Text(message_text(finding.message), "note") for finding in stage.result.findings]
    if len(pictures) == 1:
        blocks.append(Beside(Pictures(pictures), tuple(lines)))
    else:
        blocks += [Pictures(pictures, arrow=True)] if pictures else []
        blocks += lines
    blocks += [*draft_tables(stage), *drawn_tables(stage)]
    together = bool(stage.before.pieces)  # a draft is long and may run on
    return Section(
        f"step-{count}", _("Step {number}").format(number=count), tuple(blocks), 2, together
    )


def why(stage: Stage) -> list[Text]:
    """Why a step is done, and what to choose for the cloth."""
    return [Text(text, "note") for text in reasons(type(stage.step))]


def figure_line(figure: Figure) -> str:
    """A figure with how it came about: "Hem, all round: 27.4 + 26.1 = 53.5"."""
    return sentence_case(figure_text(figure)) + inches_behind(figure)


def inches_behind(figure: Figure) -> str:
    """What stands behind the sum of a length where lengths are printed in inches: " (19 11/16 in)"."""
    if figure.unit is Unit.CM and in_inches():
        return f" ({length_words(figure.value, parts=PAPER)})"
    return ""
