"""The guard: each request is looked at before any page is, and each answer is sealed."""

from collections.abc import Awaitable, Callable, MutableMapping
from typing import Any
from urllib.parse import parse_qs

from starlette.exceptions import HTTPException

from tacklebox.web.entry import COOKIE, Door

MOST_BYTES = 40_000_000  # of one form or upload
TOO_MUCH = "That is too much for one form."
SAFE = ("GET", "HEAD")
OPEN_PATHS = ("/enter", "/static/house.css")
HEADERS = (
    (
        b"content-security-policy",
        b"default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; "
        b"connect-src 'self'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'",
    ),
    (b"x-content-type-options", b"nosniff"),
    (b"referrer-policy", b"same-origin"),
    (b"cross-origin-opener-policy", b"same-origin"),
    (b"cross-origin-resource-policy", b"same-origin"),
)
NOT_KEPT = (b"cache-control", b"no-store")
# What a form was answered with: the way back to it shows that again, where the browser would ask whether
# to send the form once more.
KEPT_FOR_BACK = (b"cache-control", b"private, no-cache")

Scope = MutableMapping[str, Any]
Message = MutableMapping[str, Any]
Receive = Callable[[], Awaitable[Message]]
Send = Callable[[Message], Awaitable[None]]
App = Callable[[Scope, Receive, Send], Awaitable[None]]


class Guard:
    """An ASGI application in front of the pages."""

    def __init__(self, pages: App, door: Door) -> None:
        self.pages = pages
        self.door = door

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            if scope["type"] == "lifespan":
                await self.pages(scope, receive, send)
            return
        headers = {
            key.decode("latin-1"): value.decode("latin-1") for key, value in scope["headers"]
        }
        refusal = self._refusal(scope, headers)
        if refusal:
            await _plain(send, *refusal)
            return

        received = 0
        kept = NOT_KEPT if scope["method"] in SAFE else KEPT_FOR_BACK

        async def limited() -> Message:
            nonlocal received
            message = await receive()
            received += len(message.get("body", b""))
            if received > MOST_BYTES:
                raise HTTPException(413, TOO_MUCH)
            return message

        async def sealed(message: Message) -> None:
            if message["type"] == "http.response.start":
                known = {name for name, _ in message["headers"]}
                message["headers"] = [
                    *message["headers"],
                    *(pair for pair in (*HEADERS, kept) if pair[0] not in known),
                ]
            await send(message)

        scope["state"]["session"] = session_of(headers)
        await self.pages(scope, limited, sealed)

    def _refusal(self, scope: Scope, headers: dict[str, str]) -> tuple[int, str] | None:
        """Why the request is not let in, with the status that says so."""
        if not self.door.is_own_host(headers.get("host", "")):
            return 421, "This is not the address of the bench."
        path = scope["path"]
        if path == "/enter" and scope["method"] in SAFE:
            return None  # the token is looked at there; it comes from a file, so from no origin
        if not self.door.is_own_origin(headers.get("origin")):
            return 403, "Only the bench's own pages may ask."
        if headers.get("sec-fetch-site", "none") not in ("none", "same-origin"):
            return 403, "Only the bench's own pages may ask."
        if path not in OPEN_PATHS and not self.door.knows(session_of(headers)):
            return 403, "The bench is closed to this browser. Run `tacklebox open` again."
        if int(_digits(headers.get("content-length", "0"))) > MOST_BYTES:
            return 413, TOO_MUCH
        return None


def session_of(headers: dict[str, str]) -> str:
    """The session that the cookie names, "" where there is none."""
    for part in headers.get("cookie", "").split(";"):
        name, _, value = part.strip().partition("=")
        if name == COOKIE:
            return value
    return ""


def token_of(query: bytes) -> str:
    """The one-use token in the address of the door."""
    return parse_qs(query.decode("latin-1")).get("token", [""])[0]


def _digits(text: str) -> str:
    return text if text.isascii() and text.isdecimal() and len(text) < 12 else "0"


async def _plain(send: Send, status: int, words: str) -> None:
    body = words.encode()
    await send(
        {
            "type": "http.response.start",
            "status": status,
            "headers": [
                (b"content-type", b"text/plain; charset=utf-8"),
                (b"content-length", str(len(body)).encode()),
                *HEADERS,
                NOT_KEPT,
            ],
        }
    )
    await send({"type": "http.response.body", "body": body})
