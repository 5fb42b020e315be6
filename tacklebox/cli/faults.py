"""A fault of the desk in the command line's words: the field as an option, what helps as a command."""

from tacklebox.cli.output import fold_refusal
from tacklebox.desk.answers import Fault
from tacklebox.errors import BenchError
from tacklebox.errors import BenchError, ManyFaultsError

# Fields that are arguments; every other field is the option of the same name.
ARGUMENTS = {
    "item": "ITEM",
    "words": "what it is",
    "amount": "AMOUNT",
    "change": "CHANGE",
    "reading": "READING",
    "number": "NUMBER",
    "recipe": "RECIPE",
    "count": "COUNT",
    "match": "MATCH",
    "venue": "VENUE",
    "paper": "PAPER",
    "code": "CODE",
    "file": "FILE",
    "wanted": "RECIPE=COUNT",
}

# What a question of the desk is asked by here, as a sentence.
COMMANDS = {
    "stock.listed": "`tacklebox stock list` shows what there is.",
    "output.replace": "With --replace it is written over.",
    "stock.of_kind": "`tacklebox stock list --kind {}` shows those.",
    "measure.pull": "Give it by --line, or pull it and record that with `tacklebox measure pull`.",
    "stock.buy": "Write `tacklebox stock buy {}` for more of it, or give this one its own --name.",
    "stock.count": "Count it and put the count right with `tacklebox stock count`.",
    "stock.as_printed": "If the packet really says so, add --as-printed.",
    "measure.of": "`tacklebox measure list ITEM` shows the numbers.",
    "measure.as_read": "If that is what it read, add --as-read.",
}


def word_fault(error: BenchError | Fault) -> str:
    """The fault as it is shown on the command line, folded at 80 columns."""
    return fold_refusal(fault_as_said(error))


def fault_as_said(error: BenchError | Fault) -> str:
    """The fault in one line: option or argument, file or part, what was wrong, what would be right."""
def fault_as_said(error: BenchError) -> str:
    """The fault in one line: option or argument, file or part, what was wrong, what would be right.

    Faults told together are a line each, under their heading.
    """
    if isinstance(error, ManyFaultsError):
        lines = [f if isinstance(f, str) else fault_as_said(f) for f in error.faults]
        return "\n  ".join([error.heading, *lines])
    places = [place for place in (option(error.field), error.where) if place]
    start = ", ".join(places) + ": " if places else ""
    ends = [end for end in (error.right, _command(error.see)) if end]
    return start + " ".join([error.what, *ends])


def option(field: str) -> str:
    """What a field is called on the command line: "set.depth" is ``--set depth``."""
    if not field:
        return ""
    head, _, rest = field.partition(".")
    word = ARGUMENTS.get(head) or "--" + head.replace("_", "-")
    return f"{word} {rest}" if rest else word


def _command(see: str) -> str:
    question, _, words = see.partition(" ")
    return COMMANDS[question].format(words) if question else ""
