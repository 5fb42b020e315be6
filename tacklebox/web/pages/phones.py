"""Phones of the network: let in, paired by a QR, listed, shut out."""

import io

from fastapi import APIRouter, Request
from fastapi.responses import Response
from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException

from tacklebox.errors import BenchError
from tacklebox.web.phone_listener import Phones
from tacklebox.web.phones import OVERHEARD
from tacklebox.web.showing import form_of, go, page, shown_for, svg

router = APIRouter(prefix="/phones")


def _phones(request: Request) -> Phones:
    found: Phones = request.app.state.phones
    return found


@router.get("")
def listed(request: Request, fault: str = "") -> Response:
    """Whether phones are let in, the code that pairs one, and those that are paired."""
    phones = _phones(request)
    door = phones.door
    return page(
        shown_for(request),
        "phones.html",
        {
            "title": "Phones",
            "door": door,
            "is_pairing": door is not None and door.is_pairing,
            "paired": phones.paired.listed(),
            "overheard": "" if door is not None and door.is_secured else OVERHEARD,
            "fault": fault,
        },
    )


@router.post("/open")
async def begin(request: Request) -> Response:
    """Phones are let in from now on, until that is stopped or the bench is closed."""
    await form_of(request)
    try:
        await run_in_threadpool(_phones(request).begin)
    except BenchError as error:
        return await run_in_threadpool(listed, request, shown_for(request).word(error))
    return go("/phones")


@router.post("/close")
async def stop(request: Request) -> Response:
    """No phone is let in any more."""
    await form_of(request)
    await run_in_threadpool(_phones(request).stop)
    return go("/phones")


@router.post("/new")
async def new(request: Request) -> Response:
    """A code that pairs one phone, within five minutes."""
    await form_of(request)
    door = _phones(request).door
    if door is not None:
        request.app.state.pairing = door.new_pairing()
    return go("/phones#code")


@router.post("/shut-out")
async def shut_out(request: Request) -> Response:
    """A phone is let in no longer."""
    form = await form_of(request)
    await run_in_threadpool(_phones(request).paired.shut_out, form.get("phone", ""))
    return go("/phones")


@router.get("/code.svg")
def code(request: Request) -> Response:
    """The code as a QR; black on white in any light, so that a camera reads it."""
    door = _phones(request).door
    if door is None or not door.is_pairing:
        raise HTTPException(404)
    from qrcode.image.svg import SvgPathFillImage
    from qrcode.main import QRCode

    made = QRCode(border=4, image_factory=SvgPathFillImage)
    made.add_data(request.app.state.pairing)
    drawn = io.BytesIO()
    made.make_image().save(drawn)
    return svg(drawn.getvalue().decode())
