"""Showing: tables that fit 80 columns, and JSON. No colour, so nothing can rest on it."""

import json
import re
import textwrap
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

import typer

if TYPE_CHECKING:
    from tacklebox.desk.judgements import Judgement

WIDTH = 80
_COMMAND = re.compile(r"`[^`\n]{1,70}`")
_HELD = "\0"  # a blank that no line ends at
NARROWEST = 12


def say(text: str = "") -> None:
    """Print a line."""
    typer.echo(text)


def show_json(value: Any) -> None:
    """Print a value as JSON."""
    typer.echo(json.dumps(value, ensure_ascii=False, indent=2, default=str))


def show_answer(answer: object) -> None:
    """Print an answer of the desk as JSON."""
    from tacklebox.desk import as_json

    show_json(as_json(answer))


def show_judgement(judgement: "Judgement", why: bool) -> None:
    """Print a judgement in one line; with ``why`` its formula, its figures and where each is
    from. What is sound and dull is told with ``why`` alone."""
    if not (why or judgement.is_shown):
        return
    line = judgement.line[0].upper() + judgement.line[1:].rstrip(".")
    say_folded(f"{judgement.outcome.upper()}  {line}.")
    if why:
        if judgement.why:
            say_folded(judgement.why, "    ")
        if judgement.formula:
            say_folded(f"by {judgement.formula}", "    ")
        for fact in judgement.facts:
            say_folded(str(fact), "    ")


def show_table(head: Sequence[str], rows: Sequence[Sequence[str]], flexible: int = 1) -> None:
    """Print rows under headings; the flexible column folds so that all fits 80 columns."""
    columns = list(zip(head, *rows, strict=True))
    widths = [max(map(len, column)) for column in columns]
    others = sum(widths) - widths[flexible] + 2 * (len(head) - 1)
    widths[flexible] = max(min(widths[flexible], WIDTH - others), NARROWEST)
    line = "  ".join(f"{{:<{w}}}" for w in widths).format
    lines = []
    for row in [head, ["-" * w for w in widths], *rows]:
        if len(row[flexible]) <= widths[flexible]:
            lines.append(line(*row).rstrip())
            continue
        folded = textwrap.wrap(row[flexible], widths[flexible]) or [""]
        for index, piece in enumerate(folded):
            cells = [
                piece if i == flexible else (c if index == 0 else "") for i, c in enumerate(row)
            ]
            lines.append(line(*cells).rstrip())
    typer.echo("\n".join(lines))


def say_folded(text: str, indent: str = "") -> None:
    """Print a paragraph folded at 80 columns, later lines indented."""
    folded = textwrap.fill(
        text,
        WIDTH,
        initial_indent=indent,
        subsequent_indent=indent + "  ",
        break_on_hyphens=False,
    )
    typer.echo(folded)


def say_unprintable(unknown: str, *, err: bool = False) -> None:
    """Tell the characters that the printed page has not, if there are any."""
    if not unknown:
        return
    words = f"The font has no {', '.join(unknown)}: □ stands there instead, and is no box to tick."
    typer.echo(fold_refusal(words), err=err)


def fold_refusal(text: str) -> str:
    """What is told on stderr, folded at 80 columns: later lines are indented by two more.

    Commands in backticks are kept whole where they have room, and paths always.
    """
    folded = []
    for line in text.split("\n"):
        own = line[: len(line) - len(line.lstrip(" "))]
        held = _COMMAND.sub(lambda found: found.group().replace(" ", _HELD), line[len(own) :])
        pieces = textwrap.wrap(
            held,
            WIDTH,
            initial_indent=own,
            subsequent_indent=own + "  ",
            break_on_hyphens=False,
            break_long_words=False,
        )
        folded += pieces or [""]
    return "\n".join(folded).replace(_HELD, " ")
