"""``tacklebox open``: the pages, in the browser of this machine."""

from pathlib import Path
from typing import Annotated

import typer

from tacklebox.cli.common import NUMBER, desk_of
from tacklebox.cli.output import say, say_folded
from tacklebox.errors import AskedWronglyError


def open_(
    context: typer.Context,
    port: Annotated[
        int, typer.Option(help="The port to listen on; else any that is free.", **NUMBER)
    ] = 0,
    browser: Annotated[
        bool, typer.Option(help="Open the browser; else the address is printed.")
    ] = True,
    icon: Annotated[
        bool, typer.Option("--icon", help="Put a starter of it on the desktop, and end.")
    ] = False,
    phone: Annotated[
        bool, typer.Option("--phone", help="Let phones of your network in: to look, tick, debrief.")
    ] = False,
    certificate: Annotated[
        Path | None,
        typer.Option(help="With --phone: your own certificate; phones may do all then."),
    ] = None,
    key: Annotated[Path | None, typer.Option(help="The key of the certificate.")] = None,
) -> None:
    """Open the bench in your browser; Ctrl-C here closes it."""
    if icon:
        from tacklebox.web.starter import put_on_desktop

        starter = put_on_desktop(context.obj)
        say_folded(f"A click on {starter.file} opens the bench. {starter.caution}".rstrip())
        return
    from tacklebox.web.server import Certificate
    from tacklebox.web.starting import open_pages

    if bool(certificate) != bool(key) or (certificate and not phone):
        raise AskedWronglyError(
            "a certificate goes with its key and with --phone.",
            where="--certificate",
            right="Give --phone --certificate FILE --key FILE.",
        )
    own = Certificate(certificate, key) if certificate and key else None
    open_pages(desk_of(context), port=port, browser=browser, phone=phone, certificate=own, say=say)
