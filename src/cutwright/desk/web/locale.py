"""The reader's language: from the address, the choice made before, or what the browser asks for."""

from __future__ import annotations

from contextvars import ContextVar
from dataclasses import dataclass
from functools import cache
from urllib.parse import parse_qsl, urlencode

from starlette.datastructures import Headers, MutableHeaders
from starlette.requests import cookie_parser
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from cutwright.words import current_language, languages, set_language

COOKIE = "cutwright_language"
_YEAR = 365 * 24 * 3600
_rest: ContextVar[tuple[tuple[str, str], ...]] = ContextVar("cutwright_address", default=())
"""What else the address of the request asks for, so that a switch of language keeps it."""


@dataclass(frozen=True, slots=True)
class Choice:
    """A language one can switch to: its code, its own name for itself, the way there."""

    code: str
    name: str
    href: str
    here: bool


class LocaleMiddleware:
    """Chooses the language of every request before anything is said."""

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer in the reader's language; one asked for in the address is remembered."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        headers = Headers(scope=scope)
        query = parse_qsl(scope["query_string"].decode("latin-1"), keep_blank_values=True)
        there = languages()
        asked = next((value for name, value in query if name == "lang" and value in there), "")
        held = cookie_parser(headers.get("cookie", "")).get(COOKIE, "")
        before = (
            held if held in there else accepted_language(headers.get("accept-language", ""), there)
        )
        set_language(asked or before)
        _rest.set(tuple((name, value) for name, value in query if name not in ("lang", "token")))

        async def remembering(message: Message) -> None:
            if asked and message["type"] == "http.response.start":
                keep = f"{COOKIE}={asked}; Path=/; Max-Age={_YEAR}; SameSite=Strict; HttpOnly"
                MutableHeaders(scope=message).append("set-cookie", keep)
            await send(message)

        await self.app(scope, receive, remembering)


def accepted_language(header: str, there: tuple[str, ...]) -> str:
    """The language a browser likes best (its Accept-Language) of those there are; else English."""
    ranked = []
    for place, part in enumerate(header[:1000].split(",")):
        tag, _semicolon, weight = part.strip().partition(";")
        ranked.append((-_weight(weight), place, tag.strip().casefold()))
    for below, _place, tag in sorted(ranked):
        found = [c for c in there if c.casefold().replace("_", "-") in (tag, tag.partition("-")[0])]
        if found and below < 0:
            return found[-1]
    return "en"


def _weight(text: str) -> float:
    name, _equals, value = text.replace(" ", "").partition("=")
    if name != "q":
        return 1.0
    try:
        return min(max(float(value), 0.0), 1.0)
    except ValueError:
        return 0.0


def choices() -> list[Choice]:
    """The languages one can switch to from here, as the head of a page offers them."""
    rest = list(_rest.get())
    return [
        Choice(
            code,
            own_name(code),
            "?" + urlencode([*rest, ("lang", code)]),
            code == current_language(),
        )
        for code in languages()
    ]


@cache
def own_name(code: str) -> str:
    """What a language calls itself; its code where nobody knows."""
    from babel.core import Locale, UnknownLocaleError

    try:
        name = Locale.parse(code).get_display_name(code) or code
    except (UnknownLocaleError, ValueError):
        return code
    return name[:1].upper() + name[1:]
