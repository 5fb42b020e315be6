"""The pages as one application: the guard in front, each subject's pages behind it."""

import gc
import sys
from collections.abc import Callable
from functools import partial
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING, Any

from fastapi import Depends, FastAPI, Request
from fastapi.exceptions import RequestValidationError
from fastapi.responses import HTMLResponse, PlainTextResponse, Response
from fastapi.staticfiles import StaticFiles
from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.middleware.gzip import GZipMiddleware

from tacklebox.errors import AlreadyDoneError, BenchError
from tacklebox.web.collecting import COLLECTING
from tacklebox.web.entry import COOKIE, Door
from tacklebox.web.guard import App, Guard, Message, Receive, Scope, Send, token_of
from tacklebox.web.kept import KeptAnswers
from tacklebox.web.long_work import LongWork
from tacklebox.web.phone_listener import Phones
from tacklebox.web.phones import PhoneDoor, PhoneGuard
from tacklebox.web.showing import Shown, page, refuse_hopeless, shown_for

if TYPE_CHECKING:
    from tacklebox.desk import Desk

HERE = Path(__file__).parent
# By how an address begins: the modules of its pages, in the order in which they are asked.
SUBJECTS = {
    "": ("start",),
    "next": ("start",),
    "find": ("start",),
    "stock": ("stock_lists", "stock"),
    "recipes": ("recipe_forms", "recipes", "settling"),
    "rigs": ("rigs",),
    "wallet": ("wallet",),
    "reels": ("reels",),
    "labels": ("labels",),
    "matches": ("match_lists", "match_forms", "debriefs", "matches"),
    "season": ("season",),
    "phones": ("phones",),
    "venues": ("venues",),
    "care": ("care",),
}


class _LoadedAtNeed:
    """Loads a subject's pages when the first of them is asked for, since opening the bench is felt.

    What was loaded stays, so it is not looked through again for what is left behind: that would stop a
    page in a hundred for longer than it takes.
    """

    def __init__(self, app: App, pages: FastAPI) -> None:
        self.app, self.pages = app, pages
        self.loaded: set[str] = set()
        self.modules = 0

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] == "http":
            start = scope["path"].removeprefix("/").partition("/")[0]
            for subject in SUBJECTS.get(start, ()):
                if subject not in self.loaded:
                    _load(self.pages, subject)
                    self.loaded.add(subject)
        await self.app(scope, receive, send)
        if self.modules != len(sys.modules):
            self.modules = len(sys.modules)
            gc.freeze()
        COLLECTING.answered()


def _load(pages: FastAPI, subject: str) -> None:
    pages.include_router(import_module(f"tacklebox.web.pages.{subject}").router)


class _DamageTold:
    """Tells of the box's damage where a page fails by it as nothing foresaw."""

    def __init__(self, app: App, desk: "Desk") -> None:
        self.app, self.desk = app, desk

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        begun = False

        async def noted(message: Message) -> None:
            nonlocal begun
            begun = True
            await send(message)

        try:
            await self.app(scope, receive, noted)
        except Exception:
            from tacklebox.desk.care import damage_behind

            fault = None if begun else await run_in_threadpool(damage_behind, self.desk)
            if fault is None:
                raise
            await _fault(Request(scope, receive), fault)(scope, receive, send)


class _InHisUnits:
    """Each page tells what was computed in the units that are set for the box."""

    def __init__(self, app: App, desk: "Desk") -> None:
        self.app, self.desk = app, desk

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        with self.desk.in_his_units():
            await self.app(scope, receive, send)


def make_app(
    desk: "Desk",
    door: Door,
    *,
    phones: Phones | None = None,
    close: Callable[[], None] = lambda: None,
) -> Guard:
    """The whole of the bench, to be served by its own door or by that for phones; ``close`` ends the
    serving."""
    app = FastAPI(
        docs_url=None,
        redoc_url=None,
        openapi_url=None,
        dependencies=[Depends(refuse_hopeless)],
    )
    app.state.desk, app.state.door, app.state.kept = desk, door, KeptAnswers(desk)
    app.add_middleware(_DamageTold, desk=desk)
    app.add_middleware(_InHisUnits, desk=desk)
    app.state.close, app.state.long_work = close, LongWork(desk)
    app.state.lists = {}  # that were sent and wait to be taken
    app.state.written = {}  # files of his own, by the key of their form
    app.state.forms = {}  # of recipes that are being made, for the pictures of their verdicts
    app.add_middleware(GZipMiddleware, minimum_size=1000)
    app.mount("/static", StaticFiles(directory=HERE / "static"), name="static")
    app.add_route("/enter", _enter)
    app.add_route("/state", _state)
    app.add_route("/long", _how_far)
    app.add_exception_handler(AlreadyDoneError, _done_already)
    app.add_exception_handler(BenchError, _fault)
    app.add_exception_handler(HTTPException, _missing)
    app.add_exception_handler(RequestValidationError, _missing)
    app.add_middleware(_LoadedAtNeed, pages=app)
    if isinstance(door, PhoneDoor):
        _load(app, "pair")
        return PhoneGuard(app, door)
    app.state.phones, app.state.pairing = phones or Phones(desk, partial(make_app, desk)), ""
    return Guard(app, door)


def _enter(request: Request) -> Response:
    """The door: a token of one use becomes a cookie, by a page that goes on by itself."""
    door: Door = request.app.state.door
    session = door.enter(token_of(request.url.query.encode()))
    if session is None:
        return HTMLResponse(
            shown_for(request).render("closed.html", {"title": "The bench is closed"}),
            status_code=403,
        )
    answer = HTMLResponse(shown_for(request).render("enter.html", {"title": "Tacklebox"}))
    answer.set_cookie(COOKIE, session, httponly=True, samesite="strict", path="/")
    return answer


def _state(request: Request) -> Response:
    """The mark of the box as it is now, by which a page that is open sees that it was changed."""
    from tacklebox.desk.changes import state_with_bags

    return PlainTextResponse(state_with_bags(request.app.state.desk))


async def _how_far(request: Request) -> Response:
    """How far the long work has come that goes on; read beside it, for it asks nothing of the box."""
    return PlainTextResponse(request.app.state.long_work.now())


def _fault(request: Request, error: Exception) -> Response:
    """A fault that no form of its own shows: on a page, with the way back."""
    assert isinstance(error, BenchError)
    shown: Shown = shown_for(request)
    asked = "shown" if request.method == "GET" else "done"
    return page(
        shown,
        "fault.html",
        {"title": f"That cannot be {asked}", "fault": shown.word(error), "back": _back(request)},
        status=400 if error.exit_code == 2 else 409,
    )


def _done_already(request: Request, error: Exception) -> Response:
    """The same form came twice: what it asked for is done, once."""
    assert isinstance(error, AlreadyDoneError)
    said = {"title": "Done already", "words": str(error), "back": _back(request)}
    return page(shown_for(request), "done_already.html", said)


def _missing(request: Request, error: Exception) -> Response:
    """No such page, also where an address has words for a number."""
    if not isinstance(error, HTTPException):
        error = HTTPException(404)
    words = {404: "There is no such page.", 405: "That is not done here."}
    shown = shown_for(request)
    answer: dict[str, Any] = {
        "title": "Not found",
        "fault": words.get(error.status_code, str(error.detail)),
        "back": "/",
    }
    return page(shown, "fault.html", answer, status=error.status_code)


def _back(request: Request) -> str:
    """The page above that whose form was sent; the room of one that cannot be shown."""
    path = request.url.path
    room = f"/{path.split('/')[1]}"
    above = path.rsplit("/", 1)[0] or "/"
    return room if request.method == "GET" and room != path else above
