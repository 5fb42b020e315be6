"""Hostile forms, addresses and headers, made from the forms that the pages themselves show."""

import asyncio
import time
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from html.parser import HTMLParser
from pathlib import Path
from random import Random
from typing import Any, Self
from urllib.parse import quote, urlencode

import httpx

from tacklebox.desk import Desk
from tacklebox.signs import written_out
from tacklebox.web.app import make_app
from tacklebox.web.entry import FIELD, KEY, Door
from tests.long.hostile_words import TABLES, WORDS

PAGES = (
    "/", "/find", "/stock", "/stock/3", "/stock/rows", "/recipes", "/recipes/mine",
    "/recipes/pole-canal-shot", "/recipes/mine/edit", "/recipes/mine/text", "/recipes/mine/answer",
    "/recipes/pole-canal-shot/fall", "/rigs", "/rigs/add", "/rigs/{rig}", "/wallet", "/wallet/{batch}",
    "/reels", "/matches", "/matches/_new", "/matches/open", "/matches/open/edit", "/matches/open/bank.html",
    "/matches/been/debrief", "/venues", "/venues/pond", "/season", "/season/matches.csv", "/care",
    "/labels", "/labels/sheet.svg", "/labels/papers", "/stock/reading", "/matches/open/pack",
    "/matches/open/shopping",
)  # fmt: skip
HEADERS = (
    {"cookie": "x" * 5000},
    {"content-length": "9" * 30},
    {"content-length": "-1"},
    {"content-type": "multipart/form-data"},
    {"content-type": "multipart/form-data; boundary=" + "x" * 3000},
    {"content-type": "application/x-www-form-urlencoded; charset=utf-16"},
    {"range": "bytes=-1,0-" + "9" * 3000},
    {"if-none-match": "\x9b2J"},
    {"accept-encoding": "gzip;q=" + "9" * 3000},
)
FORM = {"content-type": "application/x-www-form-urlencoded"}


@dataclass(frozen=True)
class Request:
    """What is asked of the pages, and what is hostile about it."""

    name: str
    method: str
    path: str
    body: bytes = b""
    headers: dict[str, str] = field(default_factory=dict)


class Forms(HTMLParser):
    """The forms of a page that write something: where each goes, and its fields as they are filled in."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.found: list[tuple[str, dict[str, str]]] = []
        self._fields: dict[str, str] | None = None
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        has = {name: value or "" for name, value in attrs}
        if tag == "form":
            self._fields = {} if has.get("method") == "post" else None
            if self._fields is not None:
                self.found.append((has.get("action", ""), self._fields))
        if self._fields is None:
            return
        if tag in ("input", "textarea", "select", "button") and has.get("name"):
            self._fields.setdefault(has["name"], has.get("value", ""))
        if has.get("formaction"):
            self.found.append((has["formaction"], self._fields))


class Pages:
    """The pages of a box, asked in this process by one who came in by the door."""

    def __init__(self, box: Path) -> None:
        door = Door("127.0.0.1:8000")
        self._desk, self._running = Desk(box), asyncio.Runner()
        guarded = make_app(self._desk, door)

        async def app(scope: Any, receive: Any, send: Any) -> None:
            await guarded(scope | {"state": {}}, receive, send)  # as the server does

        transport = httpx.ASGITransport(app, raise_app_exceptions=False)
        self._client = httpx.AsyncClient(transport=transport, base_url=door.origin)
        self._ask(Request("", "GET", f"/enter?token={door.new_token()}"))

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self._running.run(self._client.aclose())
        self._running.close()
        self._desk.close()

    def _ask(self, one: Request) -> httpx.Response:
        asked = self._client.request(
            one.method, one.path, content=one.body or None, headers=one.headers
        )
        return self._running.run(asked)

    def hostile_requests(self, paths: Sequence[str]) -> list[Request]:
        """Everything hostile that can be made from these pages."""
        found: list[Request] = []
        for path in paths:
            shown = self._ask(Request("", "GET", path))
            assert shown.status_code == 200, (path, shown.text[-300:])
            forms = Forms(shown.text).found
            found += [one for form in forms for one in _of_form(*form)]
            found += _of_address(path, [action for action, _ in forms[:2]])
        return found

    def fault_of(self, one: Request, most_s: float) -> str:
        """What is wrong with the answer; "" where nothing is, or where no browser could ask it."""
        begun = time.process_time()
        try:
            answer = self._ask(one)
        except (httpx.InvalidURL, UnicodeEncodeError):
            return ""
        if answer.status_code >= 500:
            return str(answer.status_code)
        if time.process_time() - begun > most_s:
            return "it takes too long"
        kind = answer.headers.get("content-type", "")
        if kind.startswith(("text", "image/svg", "application/json")):
            said = answer.text.replace("\r\n", "\n")  # as the lines of a CSV end
            return "a raw sign" if written_out(said) != said else ""
        return ""


def _of_form(action: str, fields: dict[str, str]) -> Iterator[Request]:
    for name, table in TABLES.items() if "text" in fields else ():
        said = urlencode(fields | {"text": table.decode("utf-8", "replace")}).encode()
        yield Request(f"{action} text: {name}", "POST", action, said, FORM)
    for name, hostile in WORDS.items():
        for one in fields:
            if one not in (FIELD, KEY):
                said = urlencode(fields | {one: hostile}, errors="surrogatepass").encode()
                yield Request(f"{action} {one}: {name}", "POST", action, said, FORM)


def _of_address(path: str, actions: Sequence[str]) -> Iterator[Request]:
    for name, hostile in WORDS.items():
        said = quote(hostile[:20_000], safe="", errors="surrogatepass")
        yield Request(f"{path}/…: {name}", "GET", f"{path}/{said}")
        yield Request(f"{path}?…: {name}", "GET", f"{path}?words={said}&done={said}&kind={said}")
    for header in HEADERS:
        yield Request(f"{path}: {header}", "GET", path, headers=header)
        for action in actions:
            yield Request(f"{action}: {header}", "POST", action, b"\xff--\r\n=&=", header)


def chosen(asked: Sequence[Request], count: int) -> list[Request]:
    """So many of them, the same ones each time."""
    return Random(15).sample(asked, min(count, len(asked)))
