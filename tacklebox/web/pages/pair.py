"""The one page that a phone gets before it is paired."""

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse, Response
from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException

from tacklebox.web.entry import COOKIE
from tacklebox.web.phones import OVERHEARD, PhoneDoor
from tacklebox.web.showing import shown_for

router = APIRouter()
MOST_LETTERS = 40
KEPT_S = 400 * 24 * 3600  # browsers keep a cookie no longer


@router.get("/pair")
def asked(request: Request, secret: str = "") -> Response:
    """What the QR leads to: nothing is used up by looking at it."""
    door: PhoneDoor = request.app.state.door
    overheard = "" if door.is_secured else OVERHEARD
    values = {"title": "Pair this phone", "secret": secret[:100], "overheard": overheard}
    return HTMLResponse(shown_for(request).render("pair.html", values))


@router.post("/pair")
async def pair(request: Request) -> Response:
    """The phone is let in from now on."""
    form = await request.form(max_files=0, max_fields=5)
    door: PhoneDoor = request.app.state.door
    name = " ".join(str(form.get("name", "")).split())[:MOST_LETTERS] or "a phone"
    session = await run_in_threadpool(door.pair, str(form.get("secret", "")), name)
    if session is None:
        raise HTTPException(
            403, "This code was used already, is older than five minutes, or was tried too often. "
            "Make a new one on the bench.",
        )  # fmt: skip
    answer = HTMLResponse(shown_for(request).render("enter.html", {"title": "Tacklebox"}))
    answer.set_cookie(
        COOKIE, session, max_age=KEPT_S, httponly=True, samesite="strict", path="/",
        secure=door.is_secured,
    )  # fmt: skip
    return answer
