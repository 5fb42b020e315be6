"""The command ``tacklebox``.

A command imports what it needs when it runs, and the help is plain text, for both are felt.
"""

import errno
import gc
import os
import re
import sys
from collections.abc import Sequence
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer
from typer.core import TyperGroup
from typer.exceptions import TyperException

from tacklebox.cli.common import PLAIN
from tacklebox.cli.edge import refuse_hopeless, safe_streams
from tacklebox.errors import AskedWronglyError, BenchError, nearest_word

if TYPE_CHECKING:
    from typer._click import Command, Context, HelpFormatter

# Name: its module, what it is there (a command's function or a group's app), and a line of
# help. Only the module of the command that is called is imported.
COMMANDS: dict[str, tuple[str, str, str]] = {
    "open": ("opening", "open_", "The bench in your browser: all of this by mouse and keys."),
    "stock": ("stock", "app", "Tackle in stock: add, list, count, buy, take."),
    "recipe": ("recipes", "app", "Recipes: list, show, start one of your own."),
    "check": ("rigs", "check", "Say whether a rig holds together; nothing is tied."),
    "settle": ("settle", "settle", "How a rig falls, and when the float should have settled."),
    "tie": ("rigs", "tie", "Tie from stock: rigs get codes, stock stays true."),
    "rigs": ("rigs", "app", "Tied rigs: list, add those that are there, strip, mark lost."),
    "hooklengths": ("hooklengths", "app", "The wallet: hooklengths and their batches."),
    "reels": ("reels", "app", "Reels and top kits: what line or elastic is on them."),
    "labels": ("labels", "labels", "Print labels for winders and the wallet as PDF."),
    "paper": ("papers", "app", "Label papers: list, test, put right."),
    "tie-sheet": ("papers", "tie_sheet", "The bench's page: cut lengths, knots, shot, drawers."),
    "low": ("low", "low", "What runs low, how far stock reaches, what to buy."),
    "venue": ("venues", "app", "Waters and their rules: what may be fished there."),
    "match": ("matches", "app", "Matches: what is ready, what to tie, what to buy."),
    "feed": ("feed", "feed", "Groundbait and loose feed for a match, by the venue's limit."),
    "measure": ("measure", "app", "Your own pull tests, weighings and bucket tests."),
    "shot": ("trade", "shot_app", "Which shot balances a float, or replaces other shot."),
    "cast": ("trade", "cast", "What a cast pulls on the line; wraps and turns for the clip."),
    "law": ("trade", "law", "Lead in the box that is forbidden, and the usual cautions."),
    "phones": ("phones", "app", "Phones that were paired: list them, shut one out."),
    "audit": ("care", "audit", "Prove that the whole box is in order."),
    "find": ("finding", "find", "Find tackle, a rig by its code, a recipe, a reel."),
    "settings": ("settings", "settings", "What is set: where copies go, paper, chances."),
    "undo": ("care", "undo", "Undo the last action as a whole; again for the one before."),
    "redo": ("care", "redo", "Do again what was undone last."),
    "copy": ("care", "copy", "Copy the box to one file, even while others write."),
    "restore": ("care", "restore", "Put a copy back, once it is found in order."),
    "export": ("care", "export", "The whole box as plain files: CSV and TOML."),
    "import": ("care", "import_", "Read an export into an empty box."),
    "help": (
        "help",
        "help_",
        "Read on recipe keys, reels, matches, papers, settling, sources, times.",
    ),
    "demo": ("demo", "demo", "The whole job on a demo box in a folder of its own."),
}


_TOO_MANY = re.compile(r"Got unexpected extra arguments?(?:\(s\))? \((.*)\)")


class _Commands(TyperGroup):
    """The commands of the table, each made when it is called."""

    def invoke(self, ctx: "Context") -> Any:
        """Run the command; where the box is damaged and nothing said so before, that is told."""
        try:
            return super().invoke(ctx)
        except (BenchError, OSError, RuntimeError, UnicodeEncodeError):
            raise
        except TyperException as error:
            if found := _TOO_MANY.match(error.message):
                error.message = (
                    f'"{found[1]}" is more than is asked for here.\n'
                    '  What belongs together stands in quotes, like "85 m" or "hook 18 spade".'
                )
            raise
        except Exception as error:
            from tacklebox.desk.care import damage_behind

            desk = ctx.meta.get("desk")
            fault = damage_behind(desk) if desk else None
            if fault is None:
                raise
            raise fault from error

    def list_commands(self, ctx: "Context") -> list[str]:  # noqa: ARG002
        return list(COMMANDS)

    def get_command(self, ctx: "Context", cmd_name: str) -> "Command":  # noqa: ARG002
        if cmd_name not in COMMANDS:
            raise AskedWronglyError(
                f'there is no command "{cmd_name}".', right=nearest_word(cmd_name, list(COMMANDS))
            )
        module, attribute, _ = COMMANDS[cmd_name]
        made: Any = getattr(import_module(f"tacklebox.cli.{module}"), attribute)
        if not isinstance(made, typer.Typer):
            function, made = made, typer.Typer(**PLAIN)
            made.command(name=cmd_name)(function)
        command = typer.main.get_command(made)
        command.name = cmd_name
        return command

    def format_commands(self, ctx: "Context", formatter: "HelpFormatter") -> None:  # noqa: ARG002
        with formatter.section("Commands"):
            formatter.write_dl([(name, line) for name, (_, _, line) in COMMANDS.items()])


app = typer.Typer(
    cls=_Commands,
    help="Terminal tackle in stock, rigs as recipes, labels for winders.",
    no_args_is_help=True,
    **PLAIN,
)


@app.callback()
def _choose_box(
    context: typer.Context,
    box: Annotated[
        Path | None,
        typer.Option(help="The folder of your box; else TACKLEBOX_BOX, else your data folder."),
    ] = None,
) -> None:
    """Terminal tackle in stock, rigs as recipes, labels for winders."""
    context.obj = box


def main(words: Sequence[str]) -> int:
    """Run the command line with these words; an error for the angler is told in words.

    Returns the exit code. What holds for the whole process is left to ``run``.
    """
    with safe_streams():
        return _main(words)


def _main(words: Sequence[str]) -> int:
    try:
        refuse_hopeless(words)
        app(list(words), prog_name="tacklebox")
    except SystemExit as ended:
        return int(ended.code or 0)
    except UnicodeEncodeError as error:
        if error.reason != "surrogates not allowed":
            raise
        _tell(f'"{error.object[:60]}" is no text: there are bytes in it that are no UTF-8.')
        return 2
    except BenchError as error:
        from tacklebox.cli.faults import word_fault
        from tacklebox.cli.which import say_which

        if said := say_which(words, error):
            return main(said)

        typer.echo(word_fault(error), err=True)
        return error.exit_code
    except OSError as error:
        if error.filename is None:  # not of a file that was named: see ``run``
            raise
        _tell(f"{error.filename}: it cannot be used: {error.strerror}.")
        return 1
    return 0


def run() -> None:
    """Be the program: run the command line with the words it was called with, and end."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(encoding="utf-8", errors="replace")
    gc.set_threshold(200_000, 20, 20)  # a command ends before what it leaves behind could matter
    try:
        sys.exit(main(sys.argv[1:]))
    except BrokenPipeError:
        sys.exit(0)
    except OSError as error:
        if error.errno not in (errno.ENOSPC, errno.EIO, errno.EFBIG, errno.EBADF):
            raise
        # What is shown is shown last, so what was asked for is done.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())  # not tried again at the end
        _tell(
            f"What was done is done, but could not be shown: {error.strerror}. Make room where the "
            "output goes; `tacklebox audit` and `tacklebox rigs list` show how things stand."
        )
        sys.exit(1)
    finally:
        gc.freeze()  # the interpreter's last collections would look through all that was imported


def _tell(fault: str) -> None:
    from tacklebox.cli.output import fold_refusal

    typer.echo(fold_refusal(fault), err=True)
