"""``tacklebox open``: the pages, in the browser of this machine."""

from typing import Annotated

import typer

from tacklebox.cli.common import NUMBER, desk_of
from tacklebox.cli.output import say, say_folded


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
) -> None:
    """Open the bench in your browser; Ctrl-C here closes it."""
    if icon:
        from tacklebox.web.starter import put_on_desktop

        starter = put_on_desktop(context.obj)
        say_folded(f"A click on {starter.file} opens the bench. {starter.caution}".rstrip())
        return
    from tacklebox.web.starting import open_pages

    open_pages(desk_of(context), port=port, browser=browser, say=say)
