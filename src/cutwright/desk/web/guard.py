"""Who may come to the desk: who was handed the token, under the desk's own name, from its own page.

Everybody needs the token once, on this machine too, for other people may have an account on it. A
session cookie stands for it from then on.
"""

from __future__ import annotations

import hmac
import secrets
from collections.abc import Collection
from dataclasses import dataclass, field
from hashlib import sha256
from http.cookies import CookieError, SimpleCookie
from urllib.parse import parse_qs, quote, urlsplit

from starlette.datastructures import Headers, MutableHeaders
from starlette.responses import PlainTextResponse, RedirectResponse, Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from cutwright.words import _

LOCAL = ("127.0.0.1", "localhost", "::1")
LARGEST = 3_000_000
LARGEST_FILE = 200_000_000
FILES = ("/book/restore", "/book/import-client")

POLICY = (
    "default-src 'self'; img-src 'self' data:; object-src 'none'; base-uri 'none'; "
    "form-action 'self'; frame-ancestors 'none'"
)
UNUSED = "camera=(), geolocation=(), microphone=(), payment=(), usb=()"
"""What a page may not ask the browser for: the desk needs none of it."""


def new_token() -> str:
    """Something nobody can guess."""
    return secrets.token_urlsafe(24)


@dataclass(frozen=True, slots=True)
class House:
    """The names the desk answers to, and what opens its door.

    `token` opens it as often as one likes, for it is shown to the owner alone. A ticket opens it
    once: the address that a browser is started with can be read by everybody on the machine.
    """

    names: Collection[str] = LOCAL
    token: str = field(default_factory=new_token)
    tickets: set[str] = field(default_factory=set)

    def ticket(self) -> str:
        """A new ticket."""
        made = new_token()
        self.tickets.add(made)
        return made

    def admits(self, given: str) -> bool:
        """Whether this is the token, or a ticket that nobody has used; it is used up now."""
        if hmac.compare_digest(given.encode(), self.token.encode()):
            return True
        if given in self.tickets:
            self.tickets.remove(given)
            return True
        return False

    def knows(self, host: str) -> bool:
        """Whether a Host header names this desk."""
        try:
            name = urlsplit(f"//{host}").hostname
        except ValueError:
            return False
        return name in self.names

    @property
    def cookie(self) -> tuple[str, str]:
        """The cookie of a guest, name and value; the token cannot be read out of it.

        Each desk has a name of its own for it, for browsers do not keep the ports of a machine apart.
        """
        value = sha256(f"cutwright guest {self.token}".encode()).hexdigest()
        return f"cutwright_{value[:8]}", value[8:]


class Guard:
    """Looks at every request before anything else does."""

    def __init__(self, app: ASGIApp, house: House) -> None:
        self.app = app
        self.house = house

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Let a request through, or answer it at the door."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        headers = Headers(scope=scope)
        refused = self._refused(scope, headers)
        if refused is not None:
            await refused(scope, receive, self._dressed(scope, send))
            return
        limit = LARGEST_FILE if scope["path"] in FILES else LARGEST
        counted = _Counted(receive, limit)
        await self.app(scope, counted, self._dressed(scope, send))

    def _refused(self, scope: Scope, headers: Headers) -> Response | None:
        if not self.house.knows(headers.get("host", "")):
            return PlainTextResponse(_("The desk does not answer to this name."), 400)
        if scope["method"] not in ("GET", "HEAD", "OPTIONS") and not _own(headers):
            return PlainTextResponse(_("This was not sent from the desk's own page."), 403)
        limit = LARGEST_FILE if scope["path"] in FILES else LARGEST
        size = headers.get("content-length", "0")
        if not size.isdigit() or int(size) > limit:
            return PlainTextResponse(
                _("This is too large: at most {limit} bytes are taken here.").format(limit=limit),
                413,
            )
        return self._stranger(scope, headers)

    def _stranger(self, scope: Scope, headers: Headers) -> Response | None:
        """Let in who has the token, remember who had it, and turn everybody else away."""
        name, value = self.house.cookie
        given = parse_qs(scope["query_string"].decode("latin-1")).get("token", [""])[0]
        if given and self.house.admits(given):
            answer = RedirectResponse(_here(scope, headers), 303)
            answer.set_cookie(name, value, httponly=True, samesite="strict")
            return answer
        held = _cookie(headers.get("cookie", ""), name)
        if hmac.compare_digest(held.encode(), value.encode()):
            return None
        return PlainTextResponse(
            _("Open the address that the desk printed where it was started, or scan its code."), 403
        )

    def _dressed(self, scope: Scope, send: Send) -> Send:
        async def dressed(message: Message) -> None:
            if message["type"] == "http.response.start":
                out = MutableHeaders(scope=message)
                out.setdefault("content-security-policy", POLICY)
                out["x-content-type-options"] = "nosniff"
                out["referrer-policy"] = "same-origin"
                out["cross-origin-opener-policy"] = "same-origin"
                out["cross-origin-resource-policy"] = "same-origin"
                out["permissions-policy"] = UNUSED
                kept = scope["path"].startswith(("/static/", "/fonts/"))
                out.setdefault("cache-control", "no-cache" if kept else "no-store")
            await send(message)

        return dressed


def _own(headers: Headers) -> bool:
    """Whether a change was sent by a page of this very desk."""
    if headers.get("sec-fetch-site", "same-origin") not in ("same-origin", "none"):
        return False
    origin = headers.get("origin")
    if origin is None:
        return True
    try:
        return urlsplit(origin).netloc == headers.get("host", "")
    except ValueError:
        return False


def _here(scope: Scope, headers: Headers) -> str:
    """The address that was asked for, at this desk and without the token."""
    path = quote("/" + scope["path"].lstrip("/\\"))
    return f"{scope['scheme']}://{headers['host']}{path}"


def _cookie(header: str, name: str) -> str:
    jar: SimpleCookie = SimpleCookie()
    try:
        jar.load(header)
    except CookieError:
        return ""
    return jar[name].value if name in jar else ""


class _Counted:
    """A body that breaks off when it grows beyond its limit, whatever its header said."""

    def __init__(self, receive: Receive, limit: int) -> None:
        self.receive = receive
        self.left = limit

    async def __call__(self) -> Message:
        message = await self.receive()
        if message["type"] == "http.request":
            self.left -= len(message.get("body", b""))
            if self.left < 0:
                return {"type": "http.disconnect"}
        return message
