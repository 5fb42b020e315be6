"""A fault of the desk in the command line's words: the field as an option, what helps as a command."""

from tacklebox.cli.fault_words import ARGUMENTS, COMMANDS
from tacklebox.cli.output import fold_refusal
from tacklebox.desk.answers import Fault
from tacklebox.errors import BenchError, ManyFaultsError


def word_fault(error: BenchError | Fault) -> str:
    """The fault as it is shown on the command line, folded at 80 columns."""
    return fold_refusal(fault_as_said(error))


def fault_as_said(error: BenchError | Fault) -> str:
    """The fault in one line: option or argument, file or part, what was wrong, what would be right.

    Faults told together are a line each, under their heading.
    """
    if isinstance(error, ManyFaultsError):
        lines = [f if isinstance(f, str) else fault_as_said(f) for f in error.faults]
        return "\n  ".join([error.heading, *lines])
    places = [place for place in (option(error.field), error.where) if place]
    start = ", ".join(places) + ": " if places else ""
    ends = [end.strip() for end in (error.right, command_for(error.see)) if end]
    between = "\n" if "\n" in error.what else " "  # what would be right stands below a list
    return start + between.join([error.what, *ends])


def option(field: str) -> str:
    """What a field is called on the command line: "set.depth" is ``--set depth``."""
    if not field:
        return ""
    head, _, rest = field.partition(".")
    word = ARGUMENTS.get(head) or "--" + head.replace("_", "-")
    return f"{word} {rest}" if rest else word


def command_for(see: str) -> str:
    """The command that a question of the desk is asked by here, as a sentence; "" for none."""
    question, _, words = see.partition(" ")
    return COMMANDS[question].format(words) if question else ""
