"""Care of the box: looked through, undone, copied, written out."""

import io
import tempfile
import zipfile
from pathlib import Path

from fastapi import APIRouter, Request
from fastapi.responses import Response
from starlette.concurrency import run_in_threadpool

from tacklebox.signs import written_out
from tacklebox.web.showing import form_of, page, shown_for, whole

router = APIRouter(prefix="/care")


@router.get("")
def care_page(request: Request, done: str = "") -> Response:
    """How the box is, and what can be done for it."""
    from tacklebox.desk import care

    shown = shown_for(request)
    return page(
        shown,
        "care.html",
        {
            "title": "Care of the box",
            "history": care.history(shown.desk),
            "folder": shown.desk.box.folder,
            "audit": care.audit(shown.desk) if done == "audit" else None,
            "done": done,
        },
    )


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
            archive.writestr("not-saved.txt", written_out(listed))
    name = f"tacklebox-{shown.desk.today()}.zip"
    return Response(
        packed.getvalue(),
        media_type="application/zip",
        headers={"Content-Disposition": f'attachment; filename="{name}"'},
    )
