"""What is typed at a prompt: words as they are, and the number of a choice."""

import typer

from tacklebox.cli.output import say_folded
from tacklebox.errors import AskedWronglyError
from tacklebox.signs import refuse_no_words


def typed(question: str, default: str | None = "") -> str:
    """What is answered, without blanks at its ends; asked anew for what nothing could read.

    Enter takes the ``default``, "" for nothing; where that is None something must be said.
    """
    while True:
        try:
            said = str(typer.prompt(question, default=default, show_default=False)).strip()
            said.encode()
            refuse_no_words(said)
        except UnicodeError:  # bytes of another encoding
            say_folded("There are bytes in it that are no UTF-8.", "  ")
        except AskedWronglyError as error:
            say_folded(str(error), "  ")
        else:
            return said


def number_typed(said: str, most: int) -> int:
    """The number of a choice, from 1 to ``most``; 0 for what is none."""
    is_number = said.isascii() and said.isdecimal() and len(said) < 5
    return int(said) if is_number and 1 <= int(said) <= most else 0
