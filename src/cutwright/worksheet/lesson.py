"""The lesson form of a sheet: the steps on a reference body, blanks for the student's own figures.

A number of a sum is left blank where a tape lies somewhere in it; what the style or a rule gives is printed.
"""

from __future__ import annotations

from dataclasses import replace

from cutwright.body.body import Body
from cutwright.finish.finished import FinishedPattern
from cutwright.pattern.sum import Figure, children, of_the_body
from cutwright.style.replay import Replay, Stage
from cutwright.wording.figures import sum_of, what
from cutwright.wording.names import sentence_case
from cutwright.wording.sentences import sentence
from cutwright.words import _, current_language, spaced
from cutwright.worksheet.cautions import cautions_section, notes_section
from cutwright.worksheet.cutting import cutting_section
from cutwright.worksheet.measures import figure_block, measures_heading, sums_note, value_of
from cutwright.worksheet.own_points import rule_tables
from cutwright.worksheet.pictures import PictureRoom, step_pictures
from cutwright.worksheet.points import cut_lines, draft_tables, drawn_tables, measured_line
from cutwright.worksheet.sheet import (
    Beside,
    Blank,
    Block,
    Exercise,
    Pictures,
    Section,
    Sheet,
    SheetTable,
    Text,
)
from cutwright.worksheet.steps import figure_line, inches_behind, why
from cutwright.worksheet.trade_words import trade_words_section
from cutwright.worksheet.used import measures_used
from cutwright.worksheet.whole import FULL, SheetOptions, Worked, room


def lesson_data(work: Worked, options: SheetOptions | None = None) -> Sheet:
    """The lesson of a style on a reference body, in the language in force."""
    options = options or SheetOptions()
    used = measures_used(work.replay)
    steps = _steps(work.replay, replace(room(options.large), alone=FULL))
    sections = (
        _how_to(),
        _measures(work.body, used),
        Section("steps", _("Steps")),
        *(section for section, _own in steps),
        _finishing(work.finished),
        cautions_section(work.finished.pattern),
        trade_words_section(),
        _answers(work.replay, [answers for _section, answers in steps]),
        notes_section(),
    )
    who = options.who or work.body.name
    title = options.style or work.style.name
    foot = " · ".join(filter(None, [title, _("lesson"), options.date]))
    subtitle = _("Lesson, with {who} as the reference body").format(who=who)
    return Sheet(title, subtitle, sections, current_language(), foot, options.large, kind="lesson")


def _how_to() -> Section:
    texts = (
        _(
            "Work each step in half or quarter scale, or full size, from your own measures or from those of the reference "
            "body. The figures of the reference body stand in the drawings and on the answer pages at the end."
        ),
        _(
            "Work each sum from left to right. What you wrote into a blank is used again in later lines. Measure edges on "
            "your own paper to the millimetre before you multiply, and round only where the arrow says so."
        ),
        _(
            "If you work with the reference figures, redraw each line until it measures what is printed: an error of 1 mm "
            "becomes several once it is multiplied."
        ),
    )
    return Section(
        "how", _("How to use this sheet"), (*(Text(text) for text in texts), *sums_note())
    )


def _finishing(finished: FinishedPattern) -> Section:
    """From stitch lines to pieces that can be cut: allowance, grain, fold, notches, and what to cut."""
    texts = (
        _(
            "Seam allowance: the lines drawn so far are stitch lines. Add the allowance outside them, as wide as the list "
            "says; the line you get is the cut line."
        ),
        _(
            "Grain line: draw it as the arrow in the small drawing shows, parallel to the selvedge of the cloth. Fold: an "
            'edge on the fold gets no allowance; write "fold" along it.'
        ),
        _(
            "Notches: mark both edges of each seam at the same distance from the same end, one notch at the front, two at "
            "the back. Mark dart mouths and dart points, and from where to where an edge is gathered."
        ),
    )
    cutting = cutting_section(finished)
    blocks = (*(Text(text) for text in texts), *cutting.blocks)
    return Section("cutting", _("Allowance, grain, notches and cutting list"), blocks)


def _measures(body: Body, used: frozenset[str]) -> Section:
    wanted = [r for r in body.readings() if r.measure in used]
    rows = [
        (str(count), _(body.kind.tape(r.measure).name), value_of(r), "")
        for count, r in enumerate(wanted, start=1)
    ]
    head = ("", _("Measure"), _("Reference"), _("Yours"))
    table = SheetTable(head, tuple(rows), (0.07, 0.45, 0.22, 0.26), frozenset({2}))
    blocks: tuple[Block, ...] = (
        (Beside(figure_block(wanted, body.kind), (table,)),) if wanted else ()
    )
    return Section("measures", measures_heading(), blocks)


def _steps(done: Replay, room: PictureRoom) -> list[tuple[Section, list[str]]]:
    """Each step with blanks, and its answers."""
    return [_step(stage, index, room) for index, stage in enumerate(done.stages, start=1)]


def _step(stage: Stage, count: int, room: PictureRoom) -> tuple[Section, list[str]]:
    blocks: list[Block] = [Text(sentence(stage.step), "sentence"), *why(stage)]
    pictures = step_pictures(stage, room)
    if pictures:
        blocks.append(Pictures(pictures, arrow=len(pictures) > 1))
    blocks += [*cut_lines(stage), *measured_line(stage)]
    answers: list[str] = []
    figures = (*stage.result.figures, *stage.result.workings)
    for place, figure in enumerate(figures):
        exercise = exercise_of(figure, f"s{count}.f{place + 1}")
        if exercise is None:
            blocks.append(Text(figure_line(figure), "sum"))
        else:
            blocks.append(exercise)
            answer = f"{exercise.what}: {exercise.worked}{inches_behind(figure)}"
            answers.append(spaced(answer))
    blocks += [*(rule_tables(stage) or draft_tables(stage)), *drawn_tables(stage)]
    title = _("Step {number}").format(number=count)
    together = bool(stage.before.pieces)  # a draft is long and may run on
    return Section(f"step-{count}", title, tuple(blocks), 2, together), answers


def exercise_of(figure: Figure, key: str) -> Exercise | None:
    """A figure as a sum whose numbers of the body are blank; None where there is nothing to work out."""
    if not children(figure.term) or not of_the_body(figure.term):
        return None
    line = sum_of(figure)
    parts: list[str | Blank] = []
    place = 0
    for part in line.parts:
        if isinstance(part, str):
            parts.append(part)
            continue
        blank = Blank(f"{key}.b{place + 1}", part.text, place)
        parts.append(blank if part.of_body else part.text)
        place += 1
    return Exercise(sentence_case(what(figure)), tuple(parts), line)


def _answers(done: Replay, answers: list[list[str]]) -> Section:
    blocks: list[Block] = []
    for index, (stage, row) in enumerate(zip(done.stages, answers, strict=False), start=1):
        if row:
            head = _("Step {number}").format(number=index)
            blocks.append(Text(spaced(f"{head}: {sentence(stage.step)}"), "note"))
        blocks += [Text(answer, "sum") for answer in row]
        if stage.result.points:
            blocks += draft_tables(stage)
    return Section("answers", _("Answers for the reference body"), tuple(blocks), new_page=True)


def exercises(sheet: Sheet) -> tuple[Exercise, ...]:
    """Every sum with blanks of a lesson, in order."""
    return tuple(
        block
        for section in sheet.sections
        for block in section.blocks
        if isinstance(block, Exercise)
    )
