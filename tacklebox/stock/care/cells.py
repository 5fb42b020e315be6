"""How a cell of an export is written, so that every spreadsheet leaves it as it is, and read again.

A whole number stands as it is, and so do words without a digit; before all else stands an apostrophe, which
no spreadsheet takes for a number, a date or a formula, in whatever country. One that takes the apostrophe
for its own and leaves it out does no harm: the cell is read the same. What came back otherwise all the same,
the row's ``check`` tells: letters, made of all its cells.
"""

import json
import math
import re
from collections.abc import Mapping, Sequence
from datetime import date, datetime
from unicodedata import category

from sqlalchemy import Column, TypeDecorator

from tacklebox.signs import written_out
from tacklebox.stock.checks import check_letters

STORED = "%Y-%m-%d %H:%M:%S.%f"  # a time, as SQLAlchemy keeps it in SQLite
# What a spreadsheet runs, or takes for a number or a date ("0012", "3/4"); apostrophes before it are ours.
_RUNS = re.compile(
    r"'*(?:[=+\-@\t\r]|(?!(?:0|[1-9][0-9]{0,14})\Z)[0-9.,:/ eE-]*[0-9][0-9.,:/ eE-]*\Z)"
)
_MOST_DIGITS = 10**15  # a spreadsheet keeps so many
# Words that a spreadsheet takes for yes and no, in the languages of its countries.
_YES_AND_NO = frozenset(
    "true false wahr falsch vrai faux verdadero falso vero verdadeiro waar onwaar sant falskt sann usann "
    "sand falsk tosi epätosi prawda fałsz pravda nepravda igaz hamis".split()
)
_KEPT_CONTROLS = "\n\t"


def write_cell(cell: object, *, may_be_nothing: bool = False) -> str:
    """A cell of SQLite's in the form that stays; "" is nothing, and where that ``may_be_nothing`` an empty
    text is told from it.

    >>> write_cell(18), write_cell(0.125), write_cell("waggler"), write_cell("5%"), write_cell("false")
    ('18', "'0.125", 'waggler', "'5%", "'false")
    """
    if cell is None:
        return ""
    if isinstance(cell, float) and cell.is_integer():
        cell = int(cell)
    if isinstance(cell, int):
        return str(cell) if abs(cell) < _MOST_DIGITS else f"'{cell}"
    text = repr(cell) if isinstance(cell, float) else str(cell)
    if text == "":
        return "'" if may_be_nothing else ""
    if text.startswith("\\") or any(_is_control(letter) for letter in text):
        return "'\\" + "".join(
            f"\\{ord(c):04x}" if _is_control(c) or c == "\\" else c for c in text
        )
    return text if _stays(text) else f"'{text}"


def _is_control(letter: str) -> bool:
    return (category(letter) == "Cc" and letter not in _KEPT_CONTROLS) or letter in "\ufffe\uffff"


def _stays(text: str) -> bool:
    """Whether every spreadsheet takes it for words: letters first, no digit, no space at its ends."""
    return (
        text[0].isalpha()
        and text == text.strip()
        and not any(letter.isnumeric() for letter in text)
        and text.casefold() not in _YES_AND_NO
    )


def read_text(cell: str) -> str:
    """The text that ``write_cell`` wrote.

    >>> read_text("'5%"), read_text("5%"), read_text("''tis")
    ('5%', '5%', "'tis")
    """
    if cell.startswith("'\\"):
        return re.sub(r"\\([0-9a-f]{4})", lambda found: chr(int(found[1], 16)), cell[2:])
    return cell.removeprefix("'")


def harmless(cell: str) -> str:
    """A text that no spreadsheet runs; exports before there was a check were written so.

    >>> harmless("=1+1"), harmless("hook 18"), harmless("0012"), harmless("18")
    ("'=1+1", 'hook 18', "'0012", '18')
    """
    return f"'{cell}" if _RUNS.match(cell) else cell


def cell_of_list(words: str) -> str:
    r"""A text of a list that is not read in again: no spreadsheet runs it, and nothing in it steers the
    terminal that it is shown on.

    >>> cell_of_list("=1+1"), cell_of_list("0012"), cell_of_list("mine\x1b[2J")
    ("'=1+1", "'0012", 'mine\\u001b[2J')
    """
    return harmless(written_out(words))


def read_text_of_once(cell: str) -> str:
    """What ``harmless`` wrote, as it was.

    >>> read_text_of_once("'=1+1"), read_text_of_once("'tis")
    ('=1+1', "'tis")
    """
    return cell[1:] if cell.startswith("'") and _RUNS.match(cell) else cell


def kind_of(column: "Column[object]") -> type:
    """What its cells are in Python."""
    held = column.type
    return (held.impl_instance if isinstance(held, TypeDecorator) else held).python_type


def read_cell(column: "Column[object]", cell: str, *, is_checked: bool = True) -> object:
    """A cell as SQLite holds it in the column. Raises ValueError saying what it should be.

    Not ``is_checked``: of an export from before there was a check.
    """
    if cell == "" and column.nullable:
        return None
    kind = kind_of(column)
    if kind is str:
        return read_text(cell) if is_checked else read_text_of_once(cell)
    plain, what = cell.removeprefix("'"), "number"
    try:
        if kind is date:
            what = "date like 2026-03-05"
            return date.fromisoformat(plain).isoformat()
        if kind is datetime:
            what = "date and time like 2026-03-05T10:00:00"
            return datetime.fromisoformat(plain).strftime(STORED)
        if plain.isascii() and "_" not in plain:
            return _number(kind, plain)
    except (ValueError, OverflowError):
        pass
    raise ValueError(f'{column.name}: "{cell[:40]}" is no {what}')


def _number(kind: type, cell: str) -> float | int:
    """A number of that type as SQLite holds it; raises ValueError."""
    if kind is float:
        number = float(cell.replace(",", "."))
        if math.isfinite(number):
            return number + 0.0  # no nothing below nothing
    else:
        whole = int(cell)
        if (whole in (0, 1)) if kind is bool else (abs(whole) < 2**63):
            return whole
    raise ValueError(cell)


def row_check(table: str, cells: Mapping[str, object]) -> str:
    """The check of a row by its columns, in whatever order: the same for the same cells, as ``read_cell``
    reads them.

    >>> row_check("shot", {"id": 1, "g": 0.125}), row_check("shot", {"id": 1, "g": 125.0})
    ('JJCPDW', 'KMQTKL')
    """
    return check_letters(json.dumps([table, sorted(cells.items())]))


def row_check_by_place(table: str, cells: Sequence[object]) -> str:
    """The check of a row as the first exports with checks had it, by the place of its cells.

    >>> row_check_by_place("shot", [1, 0.125])
    'XLCRCP'
    """
    return check_letters(json.dumps([table, *cells]))
