"""``tacklebox help``: what there is to read on a subject."""

from typing import Annotated

import typer

from tacklebox.cli.common import Json
from tacklebox.cli.output import say, say_folded, show_answer, show_table


def help_(
    topic: Annotated[
        str | None, typer.Argument(metavar="TOPIC", help="The subject; none lists them.")
    ] = None,
    as_json: Json = False,
) -> None:
    """Read on a subject: recipe keys, papers, sources, corrections, times."""
    from tacklebox.desk import topics

    if topic is None:
        found = topics.listed()
        if as_json:
            show_answer(found)
        else:
            show_table(["topic", "on"], [(one.topic, one.title) for one in found])
        return
    one = topics.topic(topic)
    if as_json:
        show_answer(one)
        return
    say(one.title)
    for paragraph in one.paragraphs:
        if not paragraph.startswith("- "):
            say()
        say_folded(paragraph)
