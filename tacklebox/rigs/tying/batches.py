"""Batches of hooklengths by their codes, and how many of one are meant."""

from collections.abc import Sequence
from dataclasses import dataclass

from sqlmodel import Session, select

from tacklebox.errors import AskedWronglyError
from tacklebox.stock.codes import near_codes, read_code
from tacklebox.stock.made import Batch
from tacklebox.stock.naming.tokens import as_said
from tacklebox.stock.tables import Item


@dataclass(frozen=True)
class Counted:
    """A code as typed, with how many of it were said: "A03P=3"; None where nothing was."""

    typed: str
    count: int | None


def read_counted(typed: str) -> Counted:
    """A code, and how many of it where that is said after a "=".

    Raises AskedWronglyError for a number that is none.

    >>> read_counted("A03P=3"), read_counted("A03P")
    (Counted(typed='A03P', count=3), Counted(typed='A03P', count=None))
    """
    code, sign, count = (piece.strip() for piece in typed.partition("="))
    if not sign:
        return Counted(code, None)
    return Counted(code, read_count(count))


def read_count(said: str) -> int:
    """How many hooklengths. Raises AskedWronglyError for what is no number of them."""
    said = said if any(map(str.isdigit, said)) else as_said(said)  # "ten"
    if not said.isdecimal() or not said.isascii() or len(said) > 4 or int(said) < 1:
        raise AskedWronglyError(
            f'"{said[:20]}" is no number of hooklengths.', right="Write a whole number from 1."
        )
    return int(said)


def find_batch(session: Session, typed: str) -> Batch | None:
    """The batch of a code as typed; None where no batch bears it."""
    try:
        code = read_code(typed)
    except AskedWronglyError:
        return None
    return session.exec(select(Batch).where(Batch.code == code)).first()


def count_of_batch(batch: Batch, item: Item, count: int | None) -> int:
    """How many of a batch are meant: as said, or the only one it holds.

    Raises AskedWronglyError where that is open, or it holds fewer.
    """
    if not batch.left:
        raise AskedWronglyError(
            f"none is left of batch {batch.code}, {item.name}.", right="Nothing was changed."
        )
    if count is None and batch.left > 1:
        raise AskedWronglyError(
            f"{batch.code} is a batch of hooklengths, of which {batch.left} are left.",
            right=f"Say how many: {batch.code}=1, for example.",
        )
    if count is not None and count > batch.left:
        raise AskedWronglyError(
            f"{batch.left} are left of batch {batch.code}, not {count}.",
            right="Nothing was changed.",
        )
    return 1 if count is None else count


def batch_codes(session: Session) -> list[str]:
    """The codes of all batches."""
    return list(session.exec(select(Batch.code)))


def near_batches(session: Session, typed: str) -> Sequence[str]:
    """Codes of batches that are near what was typed."""
    return near_codes(typed, batch_codes(session))
