"""``tacklebox match bag``: what is ticked off the pack list, and what came home of it."""

from itertools import groupby
from typing import TYPE_CHECKING, Annotated

import typer

from tacklebox.cli.common import Json, desk_of
from tacklebox.cli.match_options import MatchArg
from tacklebox.cli.output import say, say_folded, show_answer
from tacklebox.errors import AskedWronglyError

if TYPE_CHECKING:
    from tacklebox.desk.bag import Bag, InBag

Lines = list[str] | None


def bag(
    context: typer.Context,
    match: MatchArg,
    into: Annotated[
        Lines, typer.Option("--tick", help='Tick it: its number, a code, its words, or "all".')
    ] = None,
    out: Annotated[Lines, typer.Option("--untick", help="Take its tick away.")] = None,
    came: Annotated[
        Lines, typer.Option("--home", help='After the match: it came home; "all" did.')
    ] = None,
    not_home: Annotated[Lines, typer.Option("--not-home", help="It did not come home.")] = None,
    as_json: Json = False,
) -> None:
    """Tick off what is in the bag, and say afterwards what came home; it moves no stock."""
    from tacklebox.desk import bag as bags

    desk = desk_of(context)
    if (into or out) and (came or not_home):
        raise AskedWronglyError(
            "--tick and --untick go before the match, --home and --not-home after it.",
            right="Say the one, then the other.",
        )
    if into or out:
        found = bags.put(desk, match, into=into or (), out=out or ())
    elif came or not_home:
        found = bags.home(desk, match, came=came or (), not_home=not_home or ())
    else:
        found = bags.show(desk, match)
    if as_json:
        show_answer(found)
    else:
        _show(found)


def _show(found: "Bag") -> None:
    if not found.lines:
        say(f"Nothing was ticked for {found.match}.")
        return
    numbered = list(enumerate(found.lines, 1))
    for heading, lines in groupby(numbered, key=lambda one: one[1].heading):
        say(f"{heading}:")
        for number, line in lines:
            box = "[x]" if line.ticked else "[ ]"
            say_folded(f"{number:>3} {box} {line.words}{_became(line, found)}")
    say(f"{found.taken} in the bag.")
    show_not_said(found.match, found.not_said)


def _became(line: "InBag", found: "Bag") -> str:
    words = [] if line.on_list else ["no longer on the list"]
    if line.ticked and not line.only_read and (found.debriefed or line.became != "not said"):
        words += [line.became.value, *([line.gone] if line.gone else [])]
    return f": {', '.join(words)}" if words else ""


def show_not_said(match: str, not_said: tuple[str, ...]) -> None:
    """Ask of what was in the bag and is not said to have come home."""
    if not_said:
        say_folded(
            f"Did it come home, or was it lost? Nobody said it of: {'; '.join(not_said)}. "
            f"`tacklebox match bag {match} --home all` says it of all, --not-home of what did not."
        )
