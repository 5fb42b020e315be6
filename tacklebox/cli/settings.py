"""``tacklebox settings``: what the angler set for his box."""

from typing import Annotated

import typer

from tacklebox.cli.common import Json, desk_of
from tacklebox.cli.output import show_answer, show_table


def settings(
    context: typer.Context,
    copies: Annotated[
        str | None, typer.Option(help='The folder for copies, on another drive; "" for none.')
    ] = None,
    paper: Annotated[
        str | None, typer.Option(help='What labels go on; "" for what fits each winder.')
    ] = None,
    sound_from: Annotated[
        str | None, typer.Option("--sound-from", help="Sound from this chance, in percent.")
    ] = None,
    doubtful_from: Annotated[
        str | None, typer.Option("--doubtful-from", help="Doubtful from this chance; else fails.")
    ] = None,
    units: Annotated[
        str | None,
        typer.Option(help='Told first: "imperial" (lb, oz, feet) or "metric"; "" as usual.'),
    ] = None,
    as_json: Json = False,
) -> None:
    """Show what is set for the box, or set it; at what age line is renewed: `tacklebox reels age`."""
    from tacklebox.desk import settings as desk_settings

    said = {
        "copies": copies,
        "paper": paper,
        "sound_from": sound_from,
        "doubtful_from": doubtful_from,
        "units": units,
    }
    changed = {name: words for name, words in said.items() if words is not None}
    now = desk_settings.set_them(desk_of(context), changed)
    if as_json:
        show_answer(now)
        return
    rows = [
        ("copies go to", now.copies or "no folder is set"),
        ("paper of labels", now.paper or "what fits each winder, or the wallet"),
        ("sound from", f"{now.sound_from or '90'} %"),
        ("doubtful from", f"{now.doubtful_from or '50'} %"),
        ("units told first", now.units or "as is usual for each figure"),
    ]
    show_table(["setting", "as it is"], rows)
