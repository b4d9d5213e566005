"""From what was typed or chosen in a control to the value of a field."""

from __future__ import annotations

from typing import Any

from cutwright.desk.style.editors import Editor, editors
from cutwright.desk.style.values import kept, numbers_in, parse_value
from cutwright.documents import problems_of
from cutwright.errors import DocumentError, MeasureError, StepError
from cutwright.style.document import parse_step
from cutwright.style.step import Step
from cutwright.style.unread import Unread
from cutwright.units import parse_length
from cutwright.words import _

LONGEST = 400


def typed(editor: Editor, raw: Any) -> Any:
    """The value of a field from what came out of its control."""
    if raw is None or (isinstance(raw, str) and not raw.strip() and editor.optional):
        return None
    if isinstance(raw, str):
        return _from_text(editor, raw.strip()[:LONGEST])
    if isinstance(raw, list):
        return _from_list(editor, raw)
    if editor.role == "place" and isinstance(raw, dict):
        return _place(raw)
    return raw


def _from_text(editor: Editor, text: str) -> Any:
    if editor.role == "flag":
        return text == "true"
    if editor.role == "length":
        return _length(text)
    if editor.numeric:
        return _number(text)
    if editor.role == "edge of piece":
        return _edge(text)
    if editor.role in ("shares", "lengths", "list"):
        return [_number(bit) for bit in numbers_in(text)]
    return text


def _from_list(editor: Editor, raw: list[Any]) -> list[Any]:
    if editor.role == "edges":
        return [_edge(each) if isinstance(each, str) else each for each in raw]
    return [each.strip() if isinstance(each, str) else each for each in raw]


def _length(text: str) -> float | str:
    """Centimetres from "4", "4,5", "1 3/4 in"; anything else is a sum and stays as it was written."""
    if not text:
        raise StepError(_("Write a length here, such as 4, 4.5 or 1 3/4 in."))
    text = parse_value(text)
    try:
        return round(parse_length(text, signed=True), 4)
    except MeasureError:
        return text


def _number(text: str) -> float:
    try:
        value = float(text.replace(",", ".").replace("−", "-"))
    except ValueError:
        raise StepError(
            _("“{text}” is not a number; write it like 2 or 1.7.").format(text=text[:40])
        ) from None
    return int(value) if value.is_integer() and abs(value) < 1e9 else value


def _edge(text: str) -> dict[str, str]:
    piece, _colon, edge = text.partition(":")
    return {"piece": piece.strip(), "edge": edge.strip()}


def _place(raw: dict[str, Any]) -> dict[str, Any] | None:
    if not raw.get("edge"):
        return None
    out: dict[str, Any] = {"edge": str(raw["edge"]), "near": str(raw.get("near") or "")}
    much = str(raw.get("much") or "").strip()
    if raw.get("how") == "distance":
        out["distance"] = _length(much) if much else 0.0
    else:
        out["share"] = _number(much) if much else 0.5
    return out


def changed(step: Step, field: str, raw: Any) -> Step:
    """The step with one field as it was typed; DocumentError in plain words where it cannot be."""
    known = editors(type(step))
    if field == "do" or field not in known or isinstance(step, Unread):
        raise StepError(_("This sentence has no word “{field}”.").format(field=field[:60]))
    value = typed(known[field], kept(getattr(step, field), raw))
    row: dict[str, Any] = step.model_dump(mode="json")
    if value is None and not known[field].optional:
        row.pop(field, None)
    else:
        row[field] = value
    _name_parts(step, field, row)
    return checked(row, field)


def checked(row: dict[str, Any], field: str = "") -> Step:
    """A step from its row, with only the problems of one field told where there are several."""
    from pydantic import ValidationError

    from cutwright.style.registry import step_class

    try:
        return step_class(str(row.get("do"))).model_validate(row)
    except ValidationError as fault:
        problems = problems_of(fault)
        raise DocumentError(_("This does not fit there:"), problems) from None


def _name_parts(step: Step, field: str, row: dict[str, Any]) -> None:
    """When pieces are chosen anew, give every one of them a name for what is cut from it."""
    known = editors(type(step))
    names = next((n for n, e in known.items() if e.role == "new pieces"), None)
    if known[field].role != "pieces" or names is None:
        return
    before = dict(zip(getattr(step, field), getattr(step, names), strict=False))
    row[names] = [before.get(piece, _("lower {piece}").format(piece=piece)) for piece in row[field]]


__all__ = ["changed", "checked", "parse_step", "typed"]
