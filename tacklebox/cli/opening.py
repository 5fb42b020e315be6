"""``tacklebox open``: the pages, in the browser of this machine."""

from typing import Annotated

import typer

from tacklebox.cli.common import NUMBER, desk_of
from tacklebox.cli.output import say


def open_(
    context: typer.Context,
    port: Annotated[
        int, typer.Option(help="The port to listen on; else any that is free.", **NUMBER)
    ] = 0,
    browser: Annotated[
        bool, typer.Option(help="Open the browser; else the address is printed.")
    ] = True,
) -> None:
    """Open the bench in your browser; Ctrl-C here closes it."""
    from tacklebox.web.starting import open_pages

    open_pages(desk_of(context), port=port, browser=browser, say=say)
