"""Before anything is put in: words as they are read while they are typed, a list as it would be taken."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from tacklebox.desk.adding import Assumed, import_csv, question_of_words
from tacklebox.desk.answers import Amount, on_hand
from tacklebox.desk.asking import in_field
from tacklebox.desk.opening import Desk
from tacklebox.errors import AskedWronglyError, BenchError, ManyFaultsError

MOST_ROWS = 500  # that are shown


@dataclass(frozen=True)
class ReadAs:
    """What words are read as: the item in words, what of it nobody said; or what must be asked, with what
    may be chosen."""

    words: str
    assumed: tuple[Assumed, ...]
    asks: str
    choices: tuple[str, ...] = ()


@dataclass(frozen=True)
class RowOfList:
    """A row of a list by its line in the file: what it says, what it would put in, or what is wrong."""

    line: int
    says: str
    words: str
    amount: Amount | None
    fault: str


@dataclass(frozen=True)
class ListLookedThrough:
    """A list as it would be taken; ``fault`` is what is wrong with the file as a whole.

    ``rows`` are those that are wrong and the first of the others, ``count`` is how many there are.
    ``unlikely`` are those of the wrong ones that would be taken as printed.
    """

    rows: tuple[RowOfList, ...]
    count: int
    faulty: int
    fault: str
    unlikely: int = 0


def read_as(words: str, answers: Sequence[str] = ()) -> ReadAs:
    """What is understood of the words, nothing put in. Raises AskedWronglyError where nothing is."""
    from tacklebox.desk.adding import described_by
    from tacklebox.stock.naming.writing import write_with_pack

    asked = question_of_words(words, answers)
    if asked:
        return ReadAs("", (), asked.asks, tuple(one.words for one in asked.choices))
    described = described_by(words, answers)
    assumed = tuple(
        Assumed(figure, taken.words, taken.because) for figure, taken in described.assumed.items()
    )
    return ReadAs(write_with_pack(described), assumed, "")


def look_through(desk: Desk, file: Path, *, as_printed: bool = False) -> ListLookedThrough:
    """What an import of the file would put in, row by row; nothing is put in.

    It is imported as it would be, and then left.
    """
    from tacklebox.stock.csv_file import read_cells
    from tacklebox.stock.tables import Item

    try:
        heads, *cells = in_field("file", lambda path: list(read_cells(path)), file)
    except BenchError as error:
        return ListLookedThrough((), 0, 0, str(error))
    except ValueError:
        return ListLookedThrough((), 0, 0, "the file is empty.")
    faults: dict[str, str] = {}
    unlikely = 0
    found: list[Item] = []
    try:
        with desk.box.writing() as session:
            added = import_csv(desk, file, as_printed=as_printed)
            found = [session.get_one(Item, number) for number in added.rows]
            session.expunge_all()
            raise _LeaveError
    except _LeaveError:
        pass
    except ManyFaultsError as error:
        told = [one for one in error.faults if isinstance(one, BenchError)]
        faults = {one.where: _says(one) for one in told}
        unlikely = sum(one.see == "stock.as_printed" for one in told)
        heading = error.heading
    except AskedWronglyError as error:
        return ListLookedThrough((), len(cells), 0, str(error))
    good = iter(found)
    rows = []
    room = MOST_ROWS - len(faults)
    for line, said in cells:
        fault, item = faults.get(f"line {line}", ""), next(good, None)
        if not fault and (room := room - 1) < 0:
            continue
        words = item.name if item else "" if fault else _read(heads[1], said)
        says = ", ".join(cell for cell in said if cell.strip())
        rows.append(RowOfList(line, says, words, on_hand(item) if item else None, fault))
    return ListLookedThrough(
        tuple(rows), len(cells), len(faults), heading if faults else "", unlikely
    )


def _read(heads: Sequence[str], cells: Sequence[str]) -> str:
    """What a good row names, where others of its list are wrong so that none was put in."""
    named = dict(zip((head.strip().lower() for head in heads), cells, strict=False))
    try:
        return read_as(named.get("item", "")).words
    except AskedWronglyError:
        return ""


class _LeaveError(Exception):
    """All of it is left as it was."""


def _says(fault: BenchError) -> str:
    return " ".join(part for part in (fault.what, fault.right) if part)
