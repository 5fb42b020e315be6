"""Asking at the terminal what is meant, by number keys; and telling what was assumed."""

import sys
from typing import TYPE_CHECKING

from tacklebox.cli.faults import command_for
from tacklebox.cli.output import say, say_folded
from tacklebox.cli.typed import number_typed, typed

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from tacklebox.desk.adding import Added, Imported, StockQuestion

# What says otherwise than was assumed.
OTHERWISE = {
    "pack": "`tacklebox stock edit {} --pack {}`",
    "level": "`tacklebox stock count {} NUMBER`",
}


def ask_or_refuse(
    words: str,
    question: "Callable[[str, Sequence[str]], StockQuestion | None]",
    *,
    can_ask: bool,
) -> tuple[str, list[str]]:
    """The words and the answers that leave no ``question``, asked one after the other.

    Raises AskedWronglyError, with the readings, where there is no terminal to ask at.
    """
    answers: list[str] = []
    while asked := question(words, answers):
        if not (can_ask and sys.stdin.isatty()):
            raise asked.fault
        answer = _ask(asked)
        if answer:
            answers.append(answer)
        else:
            words, answers = typed("What is it, in other words", None), []
    return words, answers


def _ask(asked: "StockQuestion") -> str:
    """The answer, "" for none of those offered."""
    choices = [(one.answer, one.words) for one in asked.choices]
    instead = command_for(asked.see) if asked.about != "same" else ""  # that is one of the choices
    asks = f"{asked.asks} {instead}".strip()
    return choose(asks, choices, asked.answer_like, yes_or_no=asked.about == "same")


def choose(
    asks: str,
    choices: "Sequence[tuple[str, str]]",
    answer_like: str = "",
    *,
    yes_or_no: bool = False,
) -> str:
    """The answer that is chosen of those offered, each with its words; "" for none of them.

    Where ``answer_like`` shows what may be said instead, that is the answer as it was said. "y" is the first
    where there is no other, or with ``yes_or_no``, and "n" is the second then.
    """
    say_folded(asks)
    for number, (_, words) in enumerate(choices, 1):
        say_folded(f"{number}  {words}", "  ")
    like = f', or add what is missing, like "{answer_like}"' if answer_like else ""
    say_folded(f"Press its number{like}; 0 is none of them.")
    while True:
        said = typed(
            "Which [1]" if len(choices) == 1 else "Which", "1" if len(choices) == 1 else None
        )
        if said == "0":
            return ""
        if number := number_typed(said, len(choices)):
            return choices[number - 1][0]
        if said.lower() in ("y", "yes") and (yes_or_no or len(choices) == 1):
            return choices[0][0]
        if said.lower() in ("n", "no") and yes_or_no:
            return choices[1][0] if len(choices) > 1 else ""
        if answer_like:
            return said
        say(f"A number from 0 to {len(choices)}.")


def show_assumed_of(imported: "Imported") -> None:
    """Tell what was assumed of the items of a file."""
    if imported.assumed:
        say("Nobody said, so taken as usual:")
    for one in imported.assumed:
        numbers = ", ".join(map(str, one.items))
        words, because = one.assumed.words, one.assumed.because
        say_folded(f"{words} ({because}): {numbers}", "  ")


def show_added(added: "Added") -> None:
    """Tell what was put in, and what was assumed of it, with what says otherwise."""
    item = added.item
    much = f"{item.on_hand} on hand" if item.on_hand.counted else f"{item.on_hand}, not counted"
    say(f"Item {item.number}: {item.name}, {much}.")
    if added.assumed:
        usual = "; ".join(f"{one.words} ({one.because})" for one in added.assumed)
        say_folded(f"Nobody said, so taken as usual: {usual}.")
        unit = "LENGTH" if item.packet.unit == "mm" else "NUMBER"
        ways = {one.figure: OTHERWISE.get(one.figure, "") for one in added.assumed}
        other = "`tacklebox stock reword {} WORDS`" if "" in ways.values() else ""
        said = [way.format(item.number, unit) for way in (*ways.values(), other) if way]
        say_folded(f"To say otherwise: {', '.join(said)}.")
    if added.forbidden_lead:
        lead = added.forbidden_lead
        say_folded(f"{lead.outcome.upper()}: {lead.says}.")
