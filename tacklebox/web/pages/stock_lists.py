"""Before tackle is put in: words read while they are typed, a list looked through before it is taken."""

import secrets
import tempfile
from pathlib import Path

from fastapi import APIRouter, Request
from fastapi.responses import Response
from starlette.concurrency import run_in_threadpool
from starlette.datastructures import UploadFile

from tacklebox.errors import BenchError
from tacklebox.web.showing import form_of, go, page, shown_for

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
async def look_through(request: Request) -> Response:
    """A list as it would be taken, row by row; it waits here until that is said."""
    sent: bytes | None = None
    await form_of(request)
    file = (await request.form()).get("file")
    if isinstance(file, UploadFile):
        sent = await file.read()
    return await run_in_threadpool(_look_through, request, sent or b"")


def _look_through(request: Request, sent: bytes) -> Response:
    lists: dict[str, bytes] = request.app.state.lists
    key = secrets.token_hex(16)
    lists[key] = sent
    for old in list(lists)[:-MOST_LISTS]:
        del lists[old]
    return _page(request, key, as_printed=False, fault="", status=200)


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
        return _page(request, key, as_printed=as_printed, fault="Choose it again.", status=400)
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / NAME
        file.write_bytes(sent)
        try:
            done = adding.import_csv(shown.desk, file, as_printed=as_printed)
        except BenchError as error:
            fault = shown.refused(error)
            return _page(request, key, as_printed=as_printed, fault=fault, status=400)
    request.app.state.lists.pop(key, None)
    return go(f"/stock?put_in={len(done.rows)}")


def _page(request: Request, key: str, *, as_printed: bool, fault: str, status: int) -> Response:
    from tacklebox.desk import looking_through

    shown = shown_for(request)
    sent = request.app.state.lists.get(key)
    found = None
    if sent:
        with tempfile.TemporaryDirectory() as folder:
            file = Path(folder) / NAME
            file.write_bytes(sent)
            found = looking_through.look_through(shown.desk, file, as_printed=as_printed)
    values = {
        "title": "A list looked through",
        "found": found,
        "key": key,
        "as_printed": as_printed,
        "fault": fault,
    }
    return page(shown, "stock_list.html", values, status)
