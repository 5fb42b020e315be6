"""The winder tray: what is tied and ready, by its code; stripped, lost, labelled anew."""

import io

from fastapi import APIRouter, Request
from fastapi.responses import Response
from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException

from tacklebox.errors import BenchError
from tacklebox.web.showing import (
    EMPTY,
    Filled,
    Shown,
    form_of,
    go,
    page,
    pdf,
    shown_for,
    svg,
    try_form,
)

router = APIRouter(prefix="/rigs")


@router.get("")
def tray(request: Request, every: str = "", done: str = "") -> Response:
    """What is ready; with ``every`` what was stripped and lost too."""
    return _tray(request, bool(every), done, "")


@router.get("/add")
def add_page(request: Request) -> Response:
    """A form for rigs that were tied before, or bought."""
    return _add_page(request, EMPTY)


@router.get("/{code}")
def rig(request: Request, code: str, typed: str = "") -> Response:
    """One rig by the code on its label, or by the nearest to what was ``typed``."""
    return _rig(shown_for(request), code, EMPTY, typed=typed)


def _rig(
    shown: Shown, code: str, filled: Filled, status: int = 200, *, typed: str = ""
) -> Response:
    from tacklebox.desk import rigs

    one = shown.ask(rigs.show, shown.desk, code)
    title = f"{one.code} · {one.made.name}"
    values = {"title": title, "rig": one, "typed": typed, "filled": filled}
    return page(shown, "rig.html", values, status)


@router.post("/{code}/changed")
async def changed(request: Request, code: str) -> Response:
    """It is written as what it is now: a new rig, made from this one."""
    form = await form_of(request)
    return await run_in_threadpool(_changed, request, code, form)


def _changed(request: Request, code: str, form: dict[str, str]) -> Response:
    from tacklebox.desk import rigs

    shown = shown_for(request)
    said = {
        name: form.get(name, "") for name in ("hooklength", "depth", "shot_now", "carries", "note")
    }
    done, filled = try_form(shown, form, lambda: rigs.change(shown.desk, code, **said))
    return _rig(shown, code, filled, 400) if filled else go(f"/rigs/{done.now.code}")


@router.get("/{code}/drawing.svg")
def drawing(request: Request, code: str) -> Response:
    """The rig drawn as it was tied, with every distance."""
    from tacklebox.desk import rigs

    return svg(rigs.draw(shown_for(request).desk, code))


@router.get("/{code}/glance.svg")
def glance(request: Request, code: str) -> Response:
    """The rig drawn to be known at a glance."""
    from tacklebox.desk import rigs

    return svg(rigs.draw(shown_for(request).desk, code, glance=True))


@router.post("/{what}")
async def change(request: Request, what: str) -> Response:
    """Strip, lose or label those that are ticked."""
    form = await form_of(request)
    return await run_in_threadpool(_change, request, what, form)


def _change(request: Request, what: str, form: dict[str, str]) -> Response:
    from tacklebox.desk import labels, rigs

    shown = shown_for(request)
    if what == "add":
        return _add(request, form)
    codes = [key.removeprefix("code-") for key in form if key.startswith("code-")]
    if what not in ("strip", "lost", "labels"):
        raise HTTPException(404)
    if not codes and what != "labels":
        return _tray(request, False, "", "No rig is ticked.", Filled(form, {}))
    try:
        if what == "strip":
            rigs.strip(shown.desk, codes)
        elif what == "lost":
            rigs.lose(shown.desk, codes)
        else:
            paper = labels.OnPaper(form.get("paper", ""), form.get("start") or labels.OnPaper.start)
            printed = io.BytesIO()
            made = labels.print_rigs(shown.desk, printed, paper, codes)
            if not made.codes:
                return _tray(request, False, "", "Every rig that is ready has its label.")
            return pdf(printed.getvalue(), f"labels-{made.codes[0]}.pdf")
    except BenchError as error:
        return _tray(
            request, False, "", "", Filled(form, {"": shown.refused(error)}, at=error.field)
        )
    return go(f"/rigs?done={what}")


def _add(request: Request, form: dict[str, str]) -> Response:
    """Those that are there already."""
    from tacklebox.desk import rigs

    shown = shown_for(request)
    choices = {key: form[key] for key in ("plumbed", "over") if form.get(key, "").strip()}
    wanted = {form.get("recipe", ""): form.get("count", "")}
    try:
        rigs.add(shown.desk, wanted, choices, on=form.get("on", ""))
    except BenchError as error:
        at = error.field.removeprefix("set.")
        return _add_page(request, Filled(form, {"": shown.refused(error)}, at=at), 400)
    return go("/rigs?done=added")


def _add_page(request: Request, filled: Filled, status: int = 200) -> Response:
    from tacklebox.desk import recipes

    shown = shown_for(request)
    rigs = [one for one in shown.ask(recipes.listed, shown.desk).recipes if one.makes == "rig"]
    values = {
        "title": "Rigs that are there already",
        "recipes": rigs,
        "filled": filled,
    }
    return page(shown, "rigs_add.html", values, status)


def _tray(request: Request, every: bool, done: str, fault: str, filled: Filled = EMPTY) -> Response:
    from tacklebox.desk import labels, papers, rigs

    shown = shown_for(request)
    return page(
        shown,
        "rigs.html",
        {
            "title": "Winder tray",
            "owed": labels.owed(shown.desk),
            "rigs": shown.ask(rigs.listed, shown.desk, every=every),
            "papers": shown.ask(papers.listed, shown.desk).papers,
            "every": every,
            "done": done,
            "fault": fault,
            "filled": filled,
        },
        400 if fault or filled.faults else 200,
    )
