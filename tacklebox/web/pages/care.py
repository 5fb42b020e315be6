"""Care of the box: looked through, undone, copied, put back, written out, read in, set."""

import io
import tempfile
import zipfile
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from fastapi import APIRouter, Request
from fastapi.responses import Response
from starlette.background import BackgroundTask
from starlette.concurrency import run_in_threadpool
from starlette.datastructures import UploadFile

from tacklebox.errors import AskedWronglyError, BenchError
from tacklebox.signs import written_out
from tacklebox.web.showing import EMPTY, Filled, form_of, go, page, shown_for, try_form, whole
from tacklebox.web.unpacking import NOT_SAVED, unpack

if TYPE_CHECKING:
    from tacklebox.desk.care import FaultFound

router = APIRouter(prefix="/care")
SETTINGS = ("copies", "paper", "sound_from", "doubtful_from", "units")


@router.get("")
def care_page(request: Request, done: str = "") -> Response:
    """How the box is, and what can be done for it."""
    return _page(request, done, EMPTY)


@router.post("/settings")
async def set_them(request: Request) -> Response:
    """What is set for the box."""
    form = await form_of(request)
    return await run_in_threadpool(_set, request, form)


def _set(request: Request, form: dict[str, str]) -> Response:
    from tacklebox.desk import settings

    shown = shown_for(request)
    # What he did not change stays as another page may have set it meanwhile.
    said = {n: form[n] for n in SETTINGS if n in form and form[n] != form.get(f"was-{n}")}
    _, filled = try_form(shown, form, lambda: settings.set_them(shown.desk, said))
    return _page(request, "", filled, 400) if filled else go("/care?done=set")


@router.post("/restore")
async def restore(request: Request) -> Response:
    """A copy is put back in the place of the box, which is set aside."""
    form = await form_of(request)
    return await run_in_threadpool(_restore, request, form)


def _restore(request: Request, form: dict[str, str]) -> Response:
    from tacklebox.desk import care, copies

    shown = shown_for(request)

    def put_back() -> str:
        known = {str(one.path): one.path for one in copies.to_put_back(shown.desk)}
        if form.get("copy") not in known:
            raise AskedWronglyError("that copy is not there any more.", field="copy")
        care.restore(shown.desk, known[form["copy"]], lambda _: bool(form.get("agree")))
        return form["copy"]

    _, filled = try_form(shown, form | {"form": "restore"}, lambda: shown.once(put_back))
    return _page(request, "", filled, 400) if filled else go("/care?done=restored")


@router.post("/import")
async def read_in(request: Request) -> Response:
    """An export is read into an empty box."""
    await form_of(request)
    file = (await request.form()).get("file")
    sent = await file.read() if isinstance(file, UploadFile) else b""
    return await run_in_threadpool(_read_in, request, sent)


def _read_in(request: Request, sent: bytes) -> Response:
    from tacklebox.desk import care

    shown = shown_for(request)

    def read() -> None:
        with tempfile.TemporaryDirectory() as folder:
            unpack(sent, Path(folder))
            care.read_in(shown.desk, Path(folder))

    _, filled = try_form(shown, {"form": "import"}, read)
    return _page(request, "", filled, 400) if filled else go("/care?done=read")


@router.post("/undo")
async def undo(request: Request) -> Response:
    """The last action is taken back as a whole, if it is still the one that was shown."""
    return await _turn(request, "Undone")


@router.post("/redo")
async def redo(request: Request) -> Response:
    """What was undone last is done again."""
    return await _turn(request, "Done again")


async def _turn(request: Request, title: str) -> Response:
    from tacklebox.desk import care

    form = await form_of(request)
    shown = shown_for(request)
    turn = care.undo if title == "Undone" else care.redo
    turned = await run_in_threadpool(
        turn, shown.desk, expected=whole(form.get("expected", "")), stamp=form.get("stamp", "")
    )
    return page(shown, "undone.html", {"title": title, "undone": turned})


@router.get("/export.zip")
def export(request: Request, rescue: str = "") -> Response:
    """The whole box as plain files in one download; of a damaged one what can be saved, with ``rescue``."""
    from tacklebox.desk import care

    shown = shown_for(request)
    packed = io.BytesIO()
    with tempfile.TemporaryDirectory() as folder, zipfile.ZipFile(packed, "w") as archive:
        exported = care.export(shown.desk, Path(folder) / "tacklebox-export", rescue=bool(rescue))
        for file in exported.files:
            archive.write(file, file.relative_to(folder), zipfile.ZIP_DEFLATED)
        if exported.not_saved:
            listed = "".join(f"{one.where}: {one.what}\n" for one in exported.not_saved)
            archive.writestr(NOT_SAVED, written_out(listed))
    name = f"tacklebox-{shown.desk.today()}.zip"
    return Response(
        packed.getvalue(),
        media_type="application/zip",
        headers={"Content-Disposition": f'attachment; filename="{name}"'},
    )


@router.post("/close")
async def close(request: Request) -> Response:
    """The bench is closed; what is being written is finished first."""
    await form_of(request)
    answer = page(shown_for(request), "closed_now.html", {"title": "The bench is closed"})
    answer.background = BackgroundTask(request.app.state.close)
    return answer


@router.post("/copy")
async def copy(request: Request) -> Response:
    """A copy to the folder that is set for it."""
    await form_of(request)
    return await run_in_threadpool(_copy, request)


def _copy(request: Request) -> Response:
    from tacklebox.desk import copies

    shown = shown_for(request)
    not_saved: list[FaultFound] = []

    def copied() -> str:
        made = copies.copy_there(shown.desk)
        not_saved.extend(made.not_saved)
        return str(made.copy)

    try:
        shown.once(copied)
    except BenchError as error:
        return _page(request, "", Filled({"form": "copy"}, {"": shown.refused(error)}), 400)
    if not_saved:
        return _page(request, "copied", Filled({}, {}), not_saved=not_saved)
    return go("/care?done=copied")


def _page(
    request: Request,
    done: str,
    filled: Filled,
    status: int = 200,
    not_saved: "Sequence[FaultFound]" = (),
) -> Response:
    from tacklebox.desk import care, copies, papers, settings, stock

    shown = shown_for(request)
    return page(
        shown,
        "care.html",
        {
            "title": "Care of the box",
            "history": care.history(shown.desk),
            "folder": shown.desk.box.folder,
            "audit": care.audit(shown.desk) if done == "audit" else None,
            "set_now": settings.settings(shown.desk),
            "papers": papers.listed(shown.desk).papers,
            "copies": copies.elsewhere(shown.desk),
            "to_put_back": copies.to_put_back(shown.desk)[:10],
            "is_empty": not shown.ask(stock.listed, shown.desk).items,
            "done": done,
            "not_saved": not_saved,
            "filled": filled,
        },
        status,
    )
