"""Asking at the terminal which of several things was meant, and saying that in the words' place."""

import sys
from collections.abc import Sequence

from tacklebox.errors import BenchError, ManyFaultsError, SeveralFitError, ToConfirmError


def say_which(words: Sequence[str], error: BenchError) -> list[str] | None:
    """The command's words with what was chosen in the place of what fits several things.

    None where nobody can be asked, where nothing was chosen, or where it is not clear which of the
    command's words were meant. What is likely a slip is asked about too: a yes says that it is none.
    """
    several = _first(error)
    if "--json" in words or not sys.stdin.isatty():
        return None
    if isinstance(error, ToConfirmError):
        return _confirmed(words, error)
    if several is None:
        return None
    places = [at for at, word in enumerate(words) if several.said in _parts(word)]
    if len(places) != 1:
        return None
    from tacklebox.cli.adding import choose

    chosen = choose(several.what, several.readings)
    if not chosen:
        return None
    said, at = list(words), places[0]
    parts = [chosen if part.strip() == several.said else part for part in said[at].split("=")]
    said[at] = "=".join(parts)
    return said


def _confirmed(words: Sequence[str], error: ToConfirmError) -> list[str] | None:
    import typer

    from tacklebox.cli.faults import option
    from tacklebox.cli.output import say_folded

    say_folded(error.what[:1].upper() + error.what[1:])
    meant = typer.confirm("Is it so", default=False)
    return [*words, option(error.yes)] if meant else None


def _first(error: BenchError) -> SeveralFitError | None:
    """What can be asked of a fault; of several told together, where all can be."""
    if isinstance(error, SeveralFitError):
        return error
    if isinstance(error, ManyFaultsError):
        asked = [fault for fault in error.faults if isinstance(fault, SeveralFitError)]
        return asked[0] if asked and len(asked) == len(error.faults) else None
    return None


def _parts(word: str) -> list[str]:
    """A word as it may hold what was said: alone, or on either side of "="."""
    return [part.strip() for part in word.split("=")]
