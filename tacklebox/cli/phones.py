"""``tacklebox phones``: the phones that were paired with the box are listed, and shut out."""

from dataclasses import dataclass
from typing import Annotated

import typer

from tacklebox.cli.common import PLAIN, Json, desk_of
from tacklebox.cli.output import say, say_folded, show_answer, show_table
from tacklebox.errors import AskedWronglyError

app = typer.Typer(
    help="Phones that were paired with the box: list them, shut one out.",
    no_args_is_help=True,
    **PLAIN,
)


@dataclass(frozen=True)
class PhoneListed:
    """A phone that was paired: its number in the list, what it is called, since when."""

    number: int
    name: str
    since: str


@app.command("list")
def list_(context: typer.Context, as_json: Json = False) -> None:
    """List the phones that may come in while `tacklebox open` lets phones in."""
    from tacklebox.web.phones import paired_with

    paired = paired_with(desk_of(context).mark).listed()
    found = tuple(PhoneListed(n, one.name, one.since) for n, one in enumerate(paired, 1))
    if as_json:
        show_answer(found)
    elif found:
        show_table(["no.", "phone", "since"], [(str(p.number), p.name, p.since) for p in found])
    else:
        say_folded(
            "No phone is paired. `tacklebox open --phone` lets phones in, and shows the code."
        )


@app.command("shut-out")
def shut_out(
    context: typer.Context,
    phone: Annotated[
        str, typer.Argument(metavar="PHONE", help="Its number in the list, or its name.")
    ],
) -> None:
    """Let a phone in no longer, at once."""
    from tacklebox.web.phones import paired_with

    paired = paired_with(desk_of(context).mark)
    listed = paired.listed()
    named = [one for one in listed if one.name == phone.strip()]
    if not named and phone.strip().isdecimal() and 1 <= int(phone.strip()[:3]) <= len(listed):
        named = [listed[int(phone.strip()[:3]) - 1]]
    if len(named) != 1:
        what = "is no phone that is paired" if not named else "are several phones"
        raise AskedWronglyError(
            f'"{phone[:40]}" {what}.',
            field="phone",
            right="Say its number: `tacklebox phones list` has them.",
        )
    paired.shut_out(named[0].hashed)
    say(f"{named[0].name} is let in no longer.")
