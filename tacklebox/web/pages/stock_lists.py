"""Before tackle is put in: words read while they are typed, a list looked through before it is taken."""

import secrets
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from fastapi import APIRouter, Request
from fastapi.responses import Response
from starlette.concurrency import run_in_threadpool
from starlette.datastructures import UploadFile

from tacklebox.errors import BenchError
from tacklebox.web.showing import coming, form_of, go, page, shown_for

if TYPE_CHECKING:
    from tacklebox.desk import Desk
    from tacklebox.desk.looking_through import ListLookedThrough

router = APIRouter(prefix="/stock")
MOST_LISTS = 5  # that wait to be taken
NAME = "list.csv"


@router.get("/reading")
def reading(request: Request, words: str = "") -> Response:
    """How the words are read, for the form that shows it while he types."""
    from tacklebox.desk import looking_through

    shown = shown_for(request)
    values: dict[str, object] = {"read": None, "fault": ""}
    if words.strip():
        try:
            values["read"] = looking_through.read_as(words)
        except BenchError as error:
            values["fault"] = shown.word(error)
    return page(shown, "stock_reading.html", values)


@router.post("/list")
async def send(request: Request) -> Response:
    """A list that waits here, to be looked through and taken."""
    sent: bytes | None = None
    await form_of(request)
    file = (await request.form()).get("file")
    if isinstance(file, UploadFile):
        sent = await file.read()
    lists: dict[str, bytes] = request.app.state.lists
    key = secrets.token_hex(16)
    lists[key] = sent or b""
    for old in list(lists)[:-MOST_LISTS]:
        del lists[old]
    return go(f"/stock/list/{key}")


@router.get("/list/{key}")
def looked_through(request: Request, key: str, as_printed: str = "", wait: str = "") -> Response:
    """The list as it would be taken, row by row."""
    return _page(request, key, as_printed=bool(as_printed), fault="", wait=bool(wait))


@router.post("/list/{key}")
async def take(request: Request, key: str) -> Response:
    """All rows of the list are put in, or none."""
    form = await form_of(request)
    return await run_in_threadpool(_take, request, key, bool(form.get("as_printed")))


def _take(request: Request, key: str, as_printed: bool) -> Response:
    from tacklebox.desk import adding, changes

    shown = shown_for(request)
    sent = request.app.state.lists.get(key)
    if sent is None:
        changes.refuse_done(shown.desk)
        return _page(request, key, as_printed=as_printed, fault="")
    with _as_file(sent) as file:
        try:
            done = adding.import_csv(shown.desk, file, as_printed=as_printed)
        except BenchError as error:
            fault = shown.refused(error)
            return _page(request, key, as_printed=as_printed, fault=fault)
    request.app.state.lists.pop(key, None)
    return go(f"/stock?put_in={len(done.rows)}")


@contextmanager
def _as_file(sent: bytes) -> Iterator[Path]:
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / NAME
        file.write_bytes(sent)
        yield file


def _look_through(desk: "Desk", sent: bytes, as_printed: bool) -> "ListLookedThrough":
    from tacklebox.desk import looking_through

    with _as_file(sent) as file:
        return looking_through.look_through(desk, file, as_printed=as_printed)


def _page(
    request: Request, key: str, *, as_printed: bool, fault: str, wait: bool = True
) -> Response:
    shown = shown_for(request)
    sent = request.app.state.lists.get(key)
    found = None
    if sent:
        found = (shown.ask if wait else shown.ready)(_look_through, shown.desk, sent, as_printed)
        if found is None:
            where = f"/stock/list/{key}?wait=1" + ("&as_printed=1" if as_printed else "")
            return coming(shown, "A list looked through", "It is being looked through.", where)
    values = {
        "title": "A list looked through",
        "found": found,
        "gone": sent is None,
        "key": key,
        "as_printed": as_printed,
        "fault": fault,
    }
    return page(shown, "stock_list.html", values, 400 if fault or sent is None else 200)
