"""``tacklebox find``: anything in the box by its words or its code."""

from typing import Annotated

import typer

from tacklebox.cli.common import Json, desk_of
from tacklebox.cli.output import say, show_answer, show_table


def find(
    context: typer.Context,
    words: Annotated[list[str], typer.Argument(metavar="WORDS", help="Words, or a code.")],
    as_json: Json = False,
) -> None:
    """Find tackle, rigs by a code as it is typed, recipes, reels, venues and matches."""
    from tacklebox.desk import finding

    found = finding.find(desk_of(context), " ".join(words))
    if as_json:
        show_answer(found)
        return
    if not found.things:
        say("Nothing is called so.")
        return
    if found.things[0].nearest_to:
        say(f"There is no {found.things[0].nearest_to}; the nearest:")
    show_table(["what", "it is", "by"], [(one.sort, one.words, one.key) for one in found.things])
    if found.more:
        say(f"{found.more} more: say more words.")
