"""What a page is told when something cannot be done: plain words, a fitting number, never a traceback."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from fastapi.responses import JSONResponse, Response
from starlette.exceptions import HTTPException

from cutwright.book.errors import BusyBookError, ConflictError, DamagedBookError, NotInBookError
from cutwright.desk.book.contents import backup_words
from cutwright.desk.web.pages import page
from cutwright.documents.sentences import told_problems
from cutwright.errors import MOST_PROBLEMS, CutwrightError, DocumentError
from cutwright.messages import Text, Typed, text_of
from cutwright.numerals import by_custom
from cutwright.unforeseen import UnforeseenError, foreseen
from cutwright.wording.message_text import message_text
from cutwright.wording.names import called
from cutwright.words import _


def tell_faults(app: FastAPI) -> None:
    """Let an application answer every fault in words."""
    app.add_exception_handler(CutwrightError, _own)
    app.add_exception_handler(RequestValidationError, _invalid)
    app.add_exception_handler(HTTPException, _http)
    app.add_exception_handler(Exception, _unforeseen)


async def told_fault(request: Request, fault: Exception) -> tuple[int, Any]:
    """The number and the words with which a page of ours is answered that something went wrong."""
    answer = await (_own if isinstance(fault, CutwrightError) else _unforeseen)(request, fault)
    return answer.status_code, json.loads(bytes(answer.body))


async def _own(request: Request, fault: Exception) -> Response:
    assert isinstance(fault, CutwrightError)
    if isinstance(fault, ConflictError):
        return _told(request, 409, message_text(fault), extra=_both(fault))
    if isinstance(fault, DamagedBookError) and not _is_api(request):
        backup = backup_words(fault.backup) if fault.backup else ""
        return page("damaged.html", 503, fault=fault, backup=backup)
    status = 422
    if isinstance(fault, NotInBookError):
        status = 404
    elif isinstance(fault, BusyBookError | DamagedBookError):
        status = 503
    if isinstance(fault, DocumentError):
        return _told(request, status, message_text(fault.title), fault.problems)
    return _told(request, status, message_text(fault))


def _both(fault: ConflictError) -> dict[str, Any]:
    """Both versions of a conflict, as documents and as sentences."""
    return {
        "current": fault.current,
        "mine": fault.mine,
        "theirs": fault.theirs,
        "mine_lines": sentences_of(fault.mine),
        "theirs_lines": sentences_of(fault.theirs),
    }


def sentences_of(content: dict[str, Any]) -> list[str]:
    """A document in lines to be read side by side: the sentences of a style, the measures of a body."""
    from cutwright.style.document import stored_style
    from cutwright.wording.sentences import sentence

    if isinstance(content.get("steps"), list):
        style = stored_style(content)
        return [called(style.name), *(sentence(step) for step in style.steps)]
    measures = content.get("measures")
    if isinstance(measures, dict):
        return [called(str(content.get("name", ""))), *_measure_lines(measures)]
    return [f"{name}: {value}" for name, value in content.items()]


def _measure_lines(measures: dict[str, Any]) -> list[str]:
    """Measures as they are called, with their values, cm or degrees."""
    from cutwright.body.measures import MEASURES

    return [
        f"{_(MEASURES[name].name) if name in MEASURES else name} {by_custom(str(value))}"
        for name, value in measures.items()
    ]


async def _invalid(request: Request, fault: Exception) -> Response:
    assert isinstance(fault, RequestValidationError)
    inside = ({**error, "loc": error["loc"][1:]} for error in fault.errors())
    problems = told_problems(inside)[:MOST_PROBLEMS]
    return _told(request, 422, _("This cannot be read:"), problems)


async def _http(request: Request, fault: Exception) -> Response:
    assert isinstance(fault, HTTPException)
    texts = {404: _("There is nothing at this address."), 405: _("That cannot be done here.")}
    text = texts.get(fault.status_code, _("The request cannot be read."))
    answer = _told(request, fault.status_code, text)
    for name, value in (fault.headers or {}).items():
        answer.headers[name] = value
    return answer


async def _unforeseen(request: Request, fault: Exception) -> Response:
    """A fault of our own: its code is told and noted with the path of the code, without a word of the request.

    What was saved before it is saved, so the page is asked to look again.
    """
    told = foreseen(fault)
    code = told.code if isinstance(told, UnforeseenError) else ""
    text = _(
        "Something went wrong inside the desk (code {code}). Load the page again: it shows what is "
        "saved. Please report the code."
    ).format(code=code)
    return _told(request, 500, text)


def _is_api(request: Request) -> bool:
    return request.url.path.startswith("/api/")


def _told(
    request: Request,
    status: int,
    text: str,
    problems: Sequence[tuple[Text | str, Text]] = (),
    extra: dict[str, Any] | None = None,
) -> Response:
    told = [
        {"place": message_text(text_of(place)), "text": message_text(words)}
        for place, words in problems or [("", Typed(text))]
    ]
    if _is_api(request):
        return JSONResponse({"message": text, "problems": told, **(extra or {})}, status)
    return page("fault.html", status, message=text, problems=told, extra=extra or {})
