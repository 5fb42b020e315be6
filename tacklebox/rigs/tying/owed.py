"""Labels that were to be printed with a tying: a kill between the two leaves word of it in the box's folder.

The word is the number of the last action before the tying, so that what was tied after it and has no label
can be told by the next that opens the box.
"""

from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from sqlmodel import col, func, select

from tacklebox.boxfolder import LABELS_OWED, read_note, write_note
from tacklebox.errors import BenchError
from tacklebox.stock.care.box import Box
from tacklebox.stock.made import Batch, Tied
from tacklebox.stock.tables import Action, State


@contextmanager
def labels_owed(box: Box) -> Iterator[None]:
    """While something is tied and its labels are printed; what fails in words says so itself."""
    word = box.folder / LABELS_OWED
    with box.reading() as session:
        last = session.exec(select(func.max(Action.id))).one() or 0
    with suppress(OSError):
        write_note(word, str(last))
    try:
        yield
    except BenchError:
        _let_go(word)
        raise
    _let_go(word)


def _let_go(word: Path) -> None:
    with suppress(OSError):  # whatever it is, what was tied is tied
        word.unlink(missing_ok=True)


def codes_owed(box: Box) -> list[str]:
    """The rigs and batches that were to get their labels and have none; without any, the word goes."""
    word = box.folder / LABELS_OWED
    noted = read_note(word)
    last = int(noted[:18]) if noted.isdecimal() else -1
    with box.reading() as session:
        codes = (
            []
            if last < 0
            else [
                *session.exec(
                    select(Tied.code).where(
                        Tied.action_id > last,
                        Tied.state == State.READY,
                        col(Tied.labelled_on).is_(None),
                    )
                ),
                *session.exec(
                    select(Batch.code).where(
                        Batch.action_id > last, Batch.left > 0, col(Batch.labelled_on).is_(None)
                    )
                ),
            ]
        )
    if not codes:
        _let_go(word)
    return codes
