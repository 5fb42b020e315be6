"""Many items at once from a CSV file: all of its rows, or none and every bad row told."""

import csv
import re
from codecs import BOM_UTF8, BOM_UTF16_BE, BOM_UTF16_LE
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from datetime import date
from io import StringIO
from pathlib import Path

from sqlmodel import Session

from tacklebox.errors import AskedWronglyError, BenchError, ManyFaultsError, nearest_word
from tacklebox.inputs import read_file
from tacklebox.stock.amounts import packet_as_said, read_amount, read_price_cents
from tacklebox.stock.care.box import Box
from tacklebox.stock.care.waiting import Notice, Progress, keep_quiet
from tacklebox.stock.entering import (
    NewItem,
    add_item,
    counted_by_tubs,
    put_more,
    refuse_two_sayings,
)
from tacklebox.stock.ledger import begin
from tacklebox.stock.levels import read_level
from tacklebox.stock.naming.writing import write
from tacklebox.stock.notation import read_notation
from tacklebox.stock.same_items import same_items
from tacklebox.stock.tables import MEASURED_KINDS, Item

COLUMNS = ("item", "name", "place", "pack", "price", "minimum", "packs", "amount", "level", "same")
SAYS_SAME = {"yes": True, "y": True, "same": True, "no": False, "n": False, "another": False}
OLDER = {"keep": "minimum"}  # headings of files written for earlier versions
ANSWER_SAME = 'Write yes under "same" for more of it, no for another one.'
_NONE = "\x1f"  # stands in no file
_MARK_MISREAD = BOM_UTF8.decode("cp1252")
MOST_BYTES = 16_000_000
MOST_FAULTS = 50  # that are told


@dataclass(frozen=True)
class _CsvRow:
    number: int  # the line it ends on in the file
    cells: dict[str, str]


@dataclass
class Read:
    """The items that the rows of a file made, and those that were there, of which there is more now.

    ``rows`` are both, an item for each row of the file.
    """

    added: list[Item] = field(default_factory=list)
    more: list[Item] = field(default_factory=list)
    rows: list[Item] = field(default_factory=list)


def import_items(
    box: Box,
    path: Path,
    on: date,
    *,
    as_printed: bool = False,
    each: Callable[[Item, NewItem], None] = lambda _item, _new: None,
    notice: Notice = keep_quiet,
) -> Read:
    """Add every row of the file as a new item, in one transaction; ``each`` is told of every new one,
    ``notice`` how far it is where that takes long.

    Columns: item (the one-line notation; needed), name, place, pack (number or length of
    one packet), price (of a packet), minimum, either packs or amount, level, and same: whether what may
    be in the box already, said in another unit, is it. Who undoes an import mends the file and repeats
    it: its items have the numbers that they had.

    Raises ManyFaultsError listing the bad rows, of very many the first; nothing is saved then.
    """
    rows = _read_rows(path)
    faults: list[BenchError] = []
    read = Read()
    looked_at = 0
    progress = Progress(notice)
    with box.writing() as session:
        action = begin(session, f"import {path.name}", on)
        for row in rows:
            if len(faults) == MOST_FAULTS:
                break  # it is another sort of file, perhaps a long one
            looked_at += 1
            progress(f"Row {looked_at:,} of {len(rows):,}…")
            try:
                new = _new_item(row.cells)
                if kept := _kept_already(session, new, row.cells.get("same", "")):
                    put_more(session, action, kept, new)
                    read.more.append(kept)
                    read.rows.append(kept)
                    continue
                read.added.append(add_item(session, action, new, as_printed=as_printed))
                read.rows.append(read.added[-1])
                each(read.added[-1], new)
            except BenchError as error:
                faults.append(error.without_field().at(f"line {row.number}"))
        if faults:
            rest = len(rows) - looked_at
            more = f"; {rest} after them were not looked at" if rest else ""
            raise ManyFaultsError(
                f"{path.name}: {len(faults)} of {looked_at} rows cannot be read{more}; none was saved.",
                faults,
            )
    return read


def _kept_already(session: Session, new: NewItem, same: str) -> Item | None:
    """The item that a row is more of, None for another one; what has a name of its own is another.

    Raises AskedWronglyError for what may be there already, where the row does not say whether it is it.
    """
    said = SAYS_SAME.get(same.strip().lower()) if same.strip() else None
    if same.strip() and said is None:
        raise AskedWronglyError(f'"{same.strip()}" under "same" is no answer.', right=ANSWER_SAME)
    if said is False or (new.name and not said):
        return None
    found = same_items(session, new.described)
    words = write(new.described)
    if said:
        if not found:
            raise AskedWronglyError(f'"{words}" is not in the box, so there is no more of it.')
        return found[0]
    if not found:
        return None
    item = found[0]
    if item.name == words:
        raise AskedWronglyError(
            f'"{words}" is in the box already, or in a row before: item {item.id}.',
            right='Write yes under "same" for more of it.',
        )
    raise AskedWronglyError(
        f'"{words}" may be what you have already: item {item.id}, {item.name}.', right=ANSWER_SAME
    )


def read_cells(path: Path, most_bytes: int = MOST_BYTES) -> Iterator[tuple[int, list[str]]]:
    """The cells of a CSV as spreadsheets write it, each row with the line it ends on.

    UTF-8, UTF-16 with its mark, or Windows-1252; comma, semicolon or tab; rows without any cell are left
    out. Raises AskedWronglyError for a file that cannot be read, is too long or is no CSV.
    """
    try:
        text = _decoded(read_file(path, most_bytes))
    except UnicodeError:
        raise AskedWronglyError(
            "the file is no text of UTF-8, UTF-16 or Windows-1252.",
            where=path.name,
            right="Save it as CSV in UTF-8.",
        ) from None
    first = re.split(r"[\r\n]", text, maxsplit=1)[0]
    separator = max(",;\t", key=first.count)
    if separator not in first:
        separator = _NONE  # of one column, where "0,14 mm" is one cell
    try:
        # newline="" leaves line ends inside a cell as they are
        table = csv.reader(StringIO(text, newline=""), delimiter=separator, strict=True)
        for cells in table:
            if any(cell.strip() for cell in cells):
                yield table.line_num, cells
    except csv.Error as error:
        raise AskedWronglyError(
            f"the file is no CSV: {error}.", where=path.name, right="Save it as CSV again."
        ) from None


def _decoded(raw: bytes) -> str:
    """The text; UTF-16 tells itself by its byte order mark, Windows-1252 by being no UTF-8."""
    if raw.startswith((BOM_UTF16_LE, BOM_UTF16_BE)):
        return raw.decode("utf-16")
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        return raw.decode("cp1252")
    return _as_meant(text) if text.startswith(_MARK_MISREAD) else text


def _as_meant(text: str) -> str:
    """UTF-8 that a spreadsheet took for Windows-1252, as its misread mark tells, and wrote as UTF-8 again."""
    raw = bytearray()
    for letter in text:
        try:
            raw += letter.encode("cp1252")
        except UnicodeEncodeError:
            raw += letter.encode("latin-1")  # five bytes that Windows-1252 has no letter for
    return raw.decode("utf-8-sig")


def _read_rows(path: Path) -> list[_CsvRow]:
    lines = read_cells(path)
    heading = [cell.strip().lower() for cell in next(lines, (1, []))[1]]
    heading = [OLDER.get(cell, cell) for cell in heading]
    while heading and not heading[-1]:  # a spreadsheet writes columns that were once in use
        heading.pop()
    _check_heading(heading, path)
    rows = []
    for line, cells in lines:
        if any(cell.strip() for cell in cells[len(heading) :]):
            raise AskedWronglyError(
                f"line {line} has {len(cells)} cells under {len(heading)} headings.",
                where=path.name,
                right="Put a cell that holds the separator in quotes.",
            )
        rows.append(_CsvRow(line, dict(zip(heading, cells, strict=False))))
    return rows


def _check_heading(heading: list[str], path: Path) -> None:
    for cell in heading:
        if cell not in COLUMNS:
            raise AskedWronglyError(
                f'"{cell:.60}" is no column.', where=path.name, right=nearest_word(cell, COLUMNS)
            )
        if heading.count(cell) > 1:
            raise AskedWronglyError(
                f'the column "{cell}" stands there twice.',
                where=path.name,
                right="Take one of them away.",
            )
    if "item" not in heading:
        raise AskedWronglyError(
            'the first line has no column "item".',
            where=path.name,
            right=f"Columns: {', '.join(COLUMNS)}.",
        )


def _new_item(cells: dict[str, str]) -> NewItem:
    described = counted_by_tubs(read_notation(cells["item"]))
    measured = described.kind in MEASURED_KINDS
    get = {key: (cells.get(key) or "").strip() for key in COLUMNS}
    if get["packs"] and get["amount"]:
        raise AskedWronglyError(
            f"packs ({get['packs']}) and amount ({get['amount']}) both say how much there is.",
            right="Give one of them.",
        )
    new = NewItem(
        described,
        name=get["name"],
        place=get["place"],
        pack_size=read_amount(get["pack"], measured) if get["pack"] else None,
        pack_said=packet_as_said(get["pack"], measured),
        pack_price_cents=read_price_cents(get["price"]) if get["price"] else None,
        minimum=get["minimum"],
        packs=read_amount(get["packs"], False) if get["packs"] else None,
        amount=get["amount"],
        level=read_level(get["level"]) if get["level"] else "",
    )
    refuse_two_sayings(new)
    return new
