"""Asking at the terminal what is meant, by one key; and telling what was assumed."""

import sys
from typing import TYPE_CHECKING

from tacklebox.cli.faults import command_for
from tacklebox.cli.output import say, say_folded
from tacklebox.cli.typed import number_typed, typed

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from tacklebox.desk.adding import Added, Imported, StockQuestion

NUMBERS, LETTERS = "123456789", "abcdefghi"
NEVER_AT_ONCE = ("left", "says")  # by Enter alone: how much there is, is what is asked
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
    sure = asked.about not in NEVER_AT_ONCE
    yes_or_no = asked.about == "same"
    return choose(asks, choices, asked.answer_like, yes_or_no=yes_or_no, sure=sure)


def choose(
    asks: str,
    choices: "Sequence[tuple[str, str]]",
    answer_like: str = "",
    *,
    yes_or_no: bool = False,
    sure: bool = True,
) -> str:
    """The answer that is chosen of those offered, each with its words; "" for none of them.

    Where ``answer_like`` shows what may be said instead, that is the answer as it was said, and the choices
    go by letters: a number may be a size. A choice's own words choose it, too. "y" is the first where there
    is no other, or with ``yes_or_no``, and "n" is the second then. Enter is the only one if that is ``sure``.
    """
    say_folded(asks)
    keys = LETTERS if answer_like else NUMBERS
    for key, (_, words) in zip(keys, choices, strict=False):
        say_folded(f"{key}  {words}", "  ")
    what = "letter" if answer_like else "number"
    like = f', or add what is missing, like "{answer_like}"' if answer_like else ""
    say_folded(f"Press its {what}{like}; 0 is none of them.")
    first = keys[0] if len(choices) == 1 and sure else ""
    last = keys[len(choices) - 1]
    while True:
        said = typed(f"Which [{first}]" if first else "Which", first)
        if said == "0":
            return ""
        if (chosen := _chosen(said, keys, choices)) is not None:
            return chosen
        if said.lower() in ("y", "yes") and (yes_or_no or len(choices) == 1):
            return choices[0][0]
        if said.lower() in ("n", "no") and yes_or_no:
            return choices[1][0] if len(choices) > 1 else ""
        if answer_like and said:
            return said
        one_of = f"A {what} from {keys[0]} to {last}" if len(choices) > 1 else f"The {what} {last}"
        say(f"{one_of}, or 0.")


def _chosen(said: str, keys: str, choices: "Sequence[tuple[str, str]]") -> str | None:
    """The answer whose key or words these are, None for neither."""
    shown = dict(zip(keys, choices, strict=False))
    if len(said) == 1 and said.lower() in shown:
        return shown[said.lower()][0]
    if number := number_typed(said, len(choices)) if keys == NUMBERS else 0:  # "02"
        return choices[number - 1][0]
    return next((answer for answer, words in choices if said.casefold() == words.casefold()), None)


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
