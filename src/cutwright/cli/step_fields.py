"""The fields of a step as lines to read: what each is, its unit and bounds, and its default."""

from __future__ import annotations

from collections.abc import Iterator

from cutwright.desk.style.editors import Editor, editors
from cutwright.style.step import Step
from cutwright.wording.names import name_text
from cutwright.wording.sentences import shown, value_words
from cutwright.words import N_, _, spaced

_UNITS = {"length": N_("cm"), "lengths": N_("cm"), "angle": N_("degrees")}
"""What a number of a role is counted in; a ratio, a share and a count have no unit."""


def field_lines(step: type[Step]) -> Iterator[str]:
    """One line for each field: "by: how much (cm, from 0 to 40; usual: 2)"."""
    for name, editor in editors(step).items():
        if name != "name":
            yield spaced(f"{name}: {_(editor.about)} ({'; '.join(_details(step, editor))})")


def _details(step: type[Step], editor: Editor) -> Iterator[str]:
    """What may stand in a field, and what does where nothing is written."""
    unit = _(_UNITS[editor.role]) if editor.role in _UNITS else ""
    low, high = (None if b is None else value_words(f"{b:g}") for b in (editor.low, editor.high))
    if low is not None and high is not None:
        yield _("from {low} to {high} {unit}").format(low=low, high=high, unit=unit).strip()
    elif unit:
        yield unit
    if editor.choices:
        yield _(" or ").join(
            f'"{word}" ({name_text(word)})' if name_text(word) != word else word
            for word in editor.choices
        )
    field = step.model_fields[editor.field]
    usual = "" if field.is_required() else value_words(shown(field.default))
    if field.is_required():
        yield _("needed")
    elif usual:
        yield _("usual: {value}").format(value=usual)
    else:
        yield _("may be left out")
