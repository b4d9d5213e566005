"""The lesson form of a sheet: the steps on a reference body, blanks for the student's own figures.

Which numbers of a sum are left blank is found by working the same style on a body of other
measures: what changes belongs to the body, what stays belongs to the style.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

from cutwright.body.body import Body
from cutwright.body.measures import MEASURES
from cutwright.numerals import by_custom
from cutwright.pattern.result import Figure
from cutwright.style.replay import Replay, Stage, replay
from cutwright.words import _, spaced, spoken
from cutwright.worksheet.cautions import cautions_section, notes_section
from cutwright.worksheet.measures import figure_block, value_of
from cutwright.worksheet.names import sentence, sentence_case, sum_line
from cutwright.worksheet.pictures import Room, step_pictures
from cutwright.worksheet.points import cut_lines, draft_tables, drawn_tables, measured_line
from cutwright.worksheet.sheet import (
    Beside,
    Blank,
    Block,
    Exercise,
    Pictures,
    Section,
    Sheet,
    Table,
    Text,
)
from cutwright.worksheet.steps import figure_line
from cutwright.worksheet.used import measures_used
from cutwright.worksheet.whole import FULL, SheetOptions, Worked, room

_NUMBER = re.compile(r"(?<![\w.])\d+(?:\.\d+)?")
_FACTORS = {"round": 1.04, "across": 1.03, "one side": 1.02, "along": 0.97, "angle": 1.0}


def lesson_data(work: Worked, options: SheetOptions | None = None) -> Sheet:
    """The lesson of a style on a reference body, in the language in force."""
    options = options or SheetOptions()
    used = measures_used(work.style.steps, work.body)
    other = replay(work.style.steps, other_body(work.body))
    steps = _steps(work.replay, other, replace(room(options.large), alone=FULL))
    sections = (
        _how_to(),
        _measures(work.body, used),
        Section("steps", _("Steps")),
        *(section for section, _exercises in steps),
        cautions_section(work.finished.pattern),
        _answers(work.replay, [exercises for _section, exercises in steps]),
        notes_section(),
    )
    who = options.who or work.body.name
    title = options.style or work.style.name
    foot = " · ".join(filter(None, [title, _("lesson"), options.date]))
    subtitle = _("Lesson, with {who} as the reference body").format(who=who)
    return Sheet(title, subtitle, sections, spoken(), foot, options.large, kind="lesson")


def other_body(body: Body) -> Body:
    """A body of other measures than this, near enough that the same steps can be done."""
    readings = tuple(
        replace(r, value=round(r.value * _FACTORS[MEASURES[r.measure].extent], 1))
        for r in body.readings()
    )
    return Body(body.name, readings)


def _how_to() -> Section:
    texts = (
        _(
            "Work each step in half or quarter scale, or full size. Write your own figures into the "
            "blanks: those of the reference body stand in the drawings, in the ruler figures and on "
            "the answer page at the end."
        ),
        _(
            "Take each sum from left to right. Measure edges on your own paper to the millimetre "
            "before you multiply, and round only where the arrow says so."
        ),
        _(
            "Every edge that a step draws anew or measures has its length on the reference body beside "
            "it. Working on that body, true your line until it measures the same: a millimetre that is "
            "multiplied grows."
        ),
    )
    return Section("how", _("How to use this sheet"), tuple(Text(text) for text in texts))


def _measures(body: Body, used: frozenset[str]) -> Section:
    wanted = [r for r in body.readings() if r.measure in used]
    rows = [
        (str(count), _(MEASURES[r.measure].name), value_of(r), "")
        for count, r in enumerate(wanted, start=1)
    ]
    head = ("", _("Measure"), _("Reference"), _("Yours"))
    table = Table(head, tuple(rows), (0.07, 0.45, 0.22, 0.26), frozenset({2}))
    blocks: tuple[Block, ...] = (Beside(figure_block(wanted), (table,)),) if wanted else ()
    return Section("measures", _("Measures, cm"), blocks)


def _steps(done: Replay, other: Replay, room: Room) -> list[tuple[Section, list[Exercise]]]:
    out: list[tuple[Section, list[Exercise]]] = []
    for index, stage in enumerate(done.stages):
        twin = other.stages[index] if index < len(other.stages) else None
        out.append(_step(stage, twin, index + 1, room))
    return out


def _step(
    stage: Stage, twin: Stage | None, count: int, room: Room
) -> tuple[Section, list[Exercise]]:
    blocks: list[Block] = [Text(sentence(stage.step), "sentence")]
    pictures = step_pictures(stage, room)
    if pictures:
        blocks.append(Pictures(pictures, arrow=len(pictures) > 1))
    blocks += [*cut_lines(stage), *measured_line(stage)]
    exercises: list[Exercise] = []
    for place, figure in enumerate(stage.result.figures):
        like = _twin(figure, place, twin)
        exercise = exercise_of(figure, like, stage, f"s{count}.f{place + 1}")
        if exercise is None:
            blocks.append(Text(figure_line(figure, stage), "sum"))
        else:
            blocks.append(exercise)
            exercises.append(exercise)
    blocks += [*draft_tables(stage), *drawn_tables(stage)]
    title = _("Step {number}").format(number=count)
    together = bool(stage.before.pieces)  # a draft is long and may run on
    return Section(f"step-{count}", title, tuple(blocks), 2, together), exercises


def _twin(figure: Figure, place: int, twin: Stage | None) -> Figure | None:
    """The same figure on the other body."""
    figures = twin.result.figures if twin is not None else ()
    if place < len(figures) and figures[place].what == figure.what:
        return figures[place]
    return None


def exercise_of(figure: Figure, like: Figure | None, stage: Stage, key: str) -> Exercise | None:
    """A figure as a sum with blanks; None where there is nothing to reckon."""
    if "=" not in figure.how and "→" not in figure.how:
        return None
    parts: list[str | Blank] = []
    at = count = 0
    for match, blank in _found(figure.how, None if like is None else like.how):
        if not blank:
            continue
        count += 1
        parts.append(sum_line(figure.how[at : match.start()], stage.after))
        parts.append(Blank(f"{key}.b{count}", by_custom(match.group())))
        at = match.end()
    parts.append(sum_line(figure.how[at:], stage.after))
    if not count:
        return None
    what = sentence_case(sum_line(figure.what, stage.after))
    return Exercise(what, tuple(parts), sum_line(figure.how, stage.after))


def _found(how: str, other: str | None) -> Iterator[tuple[re.Match[str], bool]]:
    """Every number of a sum, and whether it belongs to the body and is left blank."""
    mine = list(_NUMBER.finditer(how))
    theirs = [m.group() for m in _NUMBER.finditer(other or "")]
    for index, match in enumerate(mine):
        if len(theirs) == len(mine):
            yield match, match.group() != theirs[index]
        else:
            yield match, how[: match.start()].rstrip().endswith(("=", "→"))


def _answers(done: Replay, exercises: list[list[Exercise]]) -> Section:
    blocks: list[Block] = []
    for index, (stage, row) in enumerate(zip(done.stages, exercises, strict=False), start=1):
        if row:
            head = _("Step {number}").format(number=index)
            blocks.append(Text(spaced(f"{head}: {sentence(stage.step)}"), "note"))
        blocks += [Text(spaced(f"{exercise.what}: {exercise.worked}"), "sum") for exercise in row]
    return Section("answers", _("Answers for the reference body"), tuple(blocks), new_page=True)


def exercises(sheet: Sheet) -> tuple[Exercise, ...]:
    """Every sum with blanks of a lesson, in order."""
    return tuple(
        block
        for section in sheet.sections
        for block in section.blocks
        if isinstance(block, Exercise)
    )
