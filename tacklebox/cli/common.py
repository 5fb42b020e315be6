"""What all commands share: the desk they ask, and options that read KEY=VALUE."""

from collections.abc import Sequence
from typing import TYPE_CHECKING, Annotated, Any

import typer

from tacklebox.errors import AskedWronglyError

if TYPE_CHECKING:
    from tacklebox.desk import Desk


# Plain help: no colour, and no time spent on it.
PLAIN: dict[str, Any] = {
    "add_completion": False,
    "rich_markup_mode": None,
    "pretty_exceptions_enable": False,
}


def whole_number(said: str | int) -> int:
    """A number as it is typed: digits alone, so that "1_0" or "1e3" is none. Raises BadParameter."""
    if isinstance(said, int):
        return said
    digits = said.strip()
    if not (digits.isascii() and digits.removeprefix("-").isdecimal() and len(digits) <= 9):
        raise typer.BadParameter(f'"{said[:20]}" is no whole number. Write it like 10.')
    return int(digits)


# Of an option whose value is a number
NUMBER: dict[str, Any] = {"parser": whole_number, "metavar": "NUMBER"}


def number_up_to(most: int) -> dict[str, Any]:
    """Of an option whose value is a number from 1."""

    def read(said: str | int) -> int:
        number = whole_number(said)
        if not 1 <= number <= most:
            raise typer.BadParameter(f"{number} is not from 1 to {most}.")
        return number

    return {"parser": read, "metavar": "NUMBER"}


Json = Annotated[bool, typer.Option("--json", help="Print JSON.")]
On = Annotated[str, typer.Option("--on", help="The day it was done, like 2026-03-05.")]
Set = Annotated[
    list[str] | None,
    typer.Option("--set", help='What is chosen, like "depth=1.5 m"; hooklength=NAME too.'),
]
Plumbed = Annotated[str, typer.Option(help='The depth of the water, like "5 ft".')]
Over = Annotated[str, typer.Option(help='How much lies over it: "2 in"; else by the recipe.')]
Use = Annotated[
    list[str] | None, typer.Option("--use", help='A part from this item: "rig line=12".')
]

# How options of the form KEY=VALUE are written.
_LIKE = {
    "HOOKLENGTH=COUNT": "18 to 0.10 6 in=12",
    "--set": "depth=1.5 m",
    "--use": "rig line=12",
    "--tackle-lost": "hook 20=3",
    "--changed": "A01T depth=1.1 m",
    "lost": "hook 20=3",  # as the walk asks for it
    "RECIPE=COUNT": "hooklength-fine=6",
    "RIG=COUNT": "pole-canal-shot=6",
}
Why = Annotated[bool, typer.Option("--why", help="Show formulas, figures, sources.")]
Water = Annotated[str, typer.Option(help="Temperature of the water in °C; else 10.")]
SoundFrom = Annotated[
    str, typer.Option("--sound-from", help="Sound from this chance, in percent, that it holds.")
]
DoubtfulFrom = Annotated[
    str,
    typer.Option("--doubtful-from", help="Doubtful from this chance, in percent; else it fails."),
]


def desk_of(context: typer.Context) -> "Desk":
    """The desk that the command asks, closed when it ends; what is worth a notice meanwhile goes to
    stderr."""
    from tacklebox.desk import Desk

    desk: Desk | None = context.meta.get("desk")
    if desk is None:
        desk = context.meta["desk"] = Desk(context.obj, notice=_notice)
        context.find_root().call_on_close(desk.close)
        context.find_root().with_resource(desk.in_his_units())
    return desk


def _notice(words: str) -> None:
    typer.echo(words, err=True)


def with_depth(choices: dict[str, str], plumbed: str, over: str) -> dict[str, str]:
    """The choices, with what the options for the depth say."""
    said = {"plumbed": plumbed, "over": over}
    return choices | {name: words for name, words in said.items() if words}


def pairs(texts: Sequence[str] | None, option: str, *, alone: bool = False) -> dict[str, str]:
    """Options of the form KEY=VALUE as a mapping; a fault shows the form of that option. ``alone``: KEY may
    stand without a value."""
    found: dict[str, str] = {}
    for text in texts or ():
        key, equals, value = text.partition("=")
        if not equals and option in ("RECIPE=COUNT", "RIG=COUNT"):  # "three pole canal"
            from tacklebox.desk.wants import want_in_words

            key, value = want_in_words(text)
        key, value = key.strip(), value.strip()
        if not key or not (value or (alone and not equals)):
            raise AskedWronglyError(
                f'"{text}" is not understood.',
                where=option,
                right=f'Write it like "{_LIKE.get(option, "depth=1.5 m")}".',
            )
        if key in found:
            raise AskedWronglyError(f"{key} is given twice.", where=option, right="Give it once.")
        found[key] = value
    return found
