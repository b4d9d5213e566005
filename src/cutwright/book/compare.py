"""What changed between two documents: fields that came, went or changed, and for a style, steps."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from difflib import SequenceMatcher
from enum import StrEnum
from typing import Any

from cutwright.book.nouns import Content

STEPS = "steps"


class How(StrEnum):
    """What became of a field or a step."""

    ADDED = "added"
    REMOVED = "removed"
    CHANGED = "changed"
    MOVED = "moved"


@dataclass(frozen=True, slots=True)
class FieldChange:
    """One field that differs. `place` names it from the outside in; list places count from 0."""

    place: tuple[str | int, ...]
    how: How
    before: Any
    after: Any

    @property
    def by(self) -> float | None:
        """How much a number grew (cm where the field is a length); None for anything else."""
        if _is_number(self.before) and _is_number(self.after):
            return float(self.after - self.before)
        return None


@dataclass(frozen=True, slots=True)
class StepChange:
    """One step that differs; `was_at` and `now_at` are its places in the style, from 0."""

    how: How
    was_at: int | None
    now_at: int | None
    before: dict[str, Any] | None
    after: dict[str, Any] | None
    fields: tuple[FieldChange, ...] = ()


@dataclass(frozen=True, slots=True)
class Comparison:
    """All that differs between two documents; empty (false) when nothing does."""

    fields: tuple[FieldChange, ...]
    steps: tuple[StepChange, ...]

    def __bool__(self) -> bool:
        return bool(self.fields or self.steps)


def compare(before: Content, after: Content) -> Comparison:
    """What changed from one document to another of the same kind.

    Steps of a style are followed through: an equal step is the same step wherever it stands,
    and of the others, those that do the same thing at the same spot are one step that changed.
    """
    steps: tuple[StepChange, ...] = ()
    if _has_steps(before) and _has_steps(after):
        steps = tuple(_step_changes(before[STEPS], after[STEPS]))
        before = {key: value for key, value in before.items() if key != STEPS}
        after = {key: value for key, value in after.items() if key != STEPS}
    return Comparison(tuple(field_changes(before, after)), steps)


def followed(before: Sequence[dict[str, Any]], after: Sequence[dict[str, Any]]) -> list[int]:
    """For each step of one style, its place in a later state of the same; -1 where it went out."""
    old, new = [_canonical(step) for step in before], [_canonical(step) for step in after]
    places = [-1] * len(old)
    for tag, a, b, c, _d in SequenceMatcher(None, old, new, autojunk=False).get_opcodes():
        if tag == "equal":
            places[a:b] = range(c, c + b - a)
    for change in _step_changes(list(before), list(after)):
        if change.was_at is not None and change.now_at is not None:
            places[change.was_at] = change.now_at
    return places


def field_changes(
    before: object, after: object, place: tuple[str | int, ...] = ()
) -> Iterator[FieldChange]:
    """Every field that differs between two JSON values, the order of `before` first."""
    if isinstance(before, Mapping) and isinstance(after, Mapping):
        names = [*before, *(name for name in after if name not in before)]
        yield from _each(before, after, names, place)
    elif isinstance(before, list) and isinstance(after, list):
        old, new = dict(enumerate(before)), dict(enumerate(after))
        yield from _each(old, new, list(range(max(len(old), len(new)))), place)
    elif _canonical(before) != _canonical(after):
        yield FieldChange(place, How.CHANGED, before, after)


def _each(
    before: Mapping[Any, Any],
    after: Mapping[Any, Any],
    names: Sequence[Any],
    place: tuple[Any, ...],
) -> Iterator[FieldChange]:
    for name in names:
        here = (*place, name)
        if name not in after:
            yield FieldChange(here, How.REMOVED, before[name], None)
        elif name not in before:
            yield FieldChange(here, How.ADDED, None, after[name])
        else:
            yield from field_changes(before[name], after[name], here)


def _step_changes(before: list[dict[str, Any]], after: list[dict[str, Any]]) -> list[StepChange]:
    gone, come, pairs = _align(before, after)
    changes = [_changed(before, after, was, now) for was, now in pairs]
    changes += _moved(before, after, gone, come)
    changes += [StepChange(How.REMOVED, was, None, before[was], None) for was in gone]
    changes += [StepChange(How.ADDED, None, now, None, after[now]) for now in come]
    return sorted(changes, key=_where)


def _align(
    before: list[dict[str, Any]], after: list[dict[str, Any]]
) -> tuple[list[int], list[int], list[tuple[int, int]]]:
    """Places that went, places that came, and pairs that stayed but differ."""
    old, new = [_canonical(step) for step in before], [_canonical(step) for step in after]
    gone: list[int] = []
    come: list[int] = []
    pairs: list[tuple[int, int]] = []
    for tag, a, b, c, d in SequenceMatcher(None, old, new, autojunk=False).get_opcodes():
        if tag == "equal":
            continue
        left = [now for now in range(c, d) if new[now] not in old[a:b]]
        for was in range(a, b):
            same = (now for now in left if _alike(before[was], after[now]))
            match = None if old[was] in new else next(same, None)
            if match is None:
                gone.append(was)
            else:
                left = [now for now in left if now > match]
                pairs.append((was, match))
        taken = {now for _was, now in pairs}
        come += [now for now in range(c, d) if now not in taken]
    return gone, come, pairs


def _moved(
    before: list[dict[str, Any]], after: list[dict[str, Any]], gone: list[int], come: list[int]
) -> list[StepChange]:
    """Steps that went from one place and came, equal, at another; taken out of both lists."""
    changes = []
    for was in list(gone):
        for now in come:
            if _canonical(before[was]) == _canonical(after[now]):
                changes.append(StepChange(How.MOVED, was, now, before[was], after[now]))
                gone.remove(was)
                come.remove(now)
                break
    return changes


def _changed(
    before: list[dict[str, Any]], after: list[dict[str, Any]], was: int, now: int
) -> StepChange:
    fields = tuple(field_changes(before[was], after[now]))
    return StepChange(How.CHANGED, was, now, before[was], after[now], fields)


def _where(change: StepChange) -> tuple[int, int]:
    place = change.now_at if change.now_at is not None else change.was_at
    return (place if place is not None else 0, change.now_at is not None)


def _alike(one: dict[str, Any], other: dict[str, Any]) -> bool:
    """Whether two steps are the same sentence with other words in it."""
    return one.get("id") == other.get("id") and one.get("do") == other.get("do")


def _has_steps(document: Content) -> bool:
    steps = document.get(STEPS)
    return isinstance(steps, list) and all(isinstance(step, dict) for step in steps)


def _is_number(value: object) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool)


def _canonical(value: object) -> str:
    return json.dumps(value, sort_keys=True)
