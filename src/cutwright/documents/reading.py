"""From JSON to a document, with every problem named at once."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn, TypeVar

from cutwright.documents.disk import read_json
from cutwright.documents.sentences import problems_of
from cutwright.documents.text import MOST_IN_ONE, more_values_than
from cutwright.errors import DocumentError
from cutwright.messages import N_, Message

if TYPE_CHECKING:
    from pydantic import BaseModel

    Model = TypeVar("Model", bound=BaseModel)


def read_document(
    path: Path, model: type[Model], title: Message | str, formats: Sequence[int] = (1,)
) -> Model:
    """Read a document of one kind from the disk.

    Parameters
    ----------
    path : the file
    model : the pydantic model of this kind of document
    title : what it is, for the first line of an error: "The body card wren.json"
    formats : the format numbers that can be read
    """
    return validated(read_json(path, title), model, title, formats)


def validated(
    raw: object,
    model: type[Model],
    title: Message | str,
    formats: Sequence[int] = (1,),
    most: int = MOST_IN_ONE,
) -> Model:
    """A document from its JSON value, or a `DocumentError` with every problem and its place."""
    from pydantic import ValidationError

    if not isinstance(raw, dict):
        _refuse(
            title,
            Message("no-object", N_("it must be a list of names and values in curly brackets.")),
        )
    number = raw.get("format")
    if isinstance(number, bool) or not isinstance(number, int):
        _refuse(
            title,
            Message(
                "format-missing",
                N_('the format number is missing; write "format": {newest}.'),
                newest=max(formats),
            ),
            "format",
        )
    if number not in formats:
        newer = number > max(formats)
        text = (
            N_("format {number} is newer than this program, which reads up to {newest}; update it.")
            if newer
            else N_("format {number} is not known; this program reads up to {newest}.")
        )
        code = "format-newer" if newer else "format-unknown"
        _refuse(title, Message(code, text, number=number, newest=max(formats)), "format")
    if more_values_than(raw, most):
        _refuse(
            title, Message("more-values-than", N_("it holds more than {most} values."), most=most)
        )
    try:
        return model.model_validate(raw)
    except ValidationError as fault:
        raise DocumentError(title, problems_of(fault)) from fault


def _refuse(title: Message | str, text: Message, place: str = "") -> NoReturn:
    raise DocumentError(title, [(place, text)])
