"""What all answers share: amounts in words and figures, and JSON by one function."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, fields, is_dataclass, replace
from datetime import date
from enum import Enum
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from tacklebox.errors import BenchError

if TYPE_CHECKING:
    from tacklebox.stock.finding import Listed
    from tacklebox.stock.tables import Item


@dataclass(frozen=True, slots=True)
class Amount:
    """How much of an item: in its smallest unit, and as an angler reads it."""

    value: int
    unit: str  # "mm" of line and elastic, "pieces" of all else, "level" of what is not counted
    words: str

    def __str__(self) -> str:
        return self.words

    @property
    def counted(self) -> bool:
        """Whether it is a number or a length, and no level."""
        return self.unit != "level"


def amount(value: int, measured: bool, said: str = "") -> Amount:
    """An amount of the ledger, ``measured`` if it is a length in mm; ``said``: its spool, in his words."""
    from tacklebox.trade.units_first import first

    return _amount(value, measured, said, first() if measured else "")


def amount_of(item: "Item | Listed", value: int) -> Amount:
    """So much of an item."""
    return amount(value, item.measured, item.pack_said)


@lru_cache(maxsize=4096)  # a long list says few different ones
def _amount(value: int, measured: bool, said: str, _units: str) -> Amount:
    from tacklebox.stock.amounts import show_amount

    return Amount(value, "mm" if measured else "pieces", show_amount(value, measured, said))


def as_set(item: "Item | Listed", value: int) -> Amount:
    """A minimum of an item, or what of it is on a reel, as it was said."""
    from tacklebox.stock.amounts import show_round

    return replace(amount_of(item, value), words=show_round(value, item.measured, item.pack_said))


def on_hand(item: "Item | Listed") -> Amount:
    """How much there is of an item: counted, or its level in words."""
    return Amount(0, "level", item.level) if item.level else amount_of(item, item.on_hand)


def packet(item: "Item | Listed") -> Amount:
    """What a packet of it holds, in the words that were said."""
    holds = amount_of(item, item.pack_size)
    return replace(holds, words=item.pack_said) if item.pack_said else holds


def write_day(day: date, *, with_year: bool = False, short: bool = False) -> str:
    """A day as it is spoken: "Sunday 29 November"; ``short``: "Sun 29 Nov"."""
    from tacklebox.stock.dates import write_day as write

    return write(day, with_year=with_year, short=short)


@dataclass(frozen=True)
class NamedItem:
    """An item by its number and its name."""

    number: int
    name: str


@dataclass(frozen=True, slots=True)
class Fault:
    """What is wrong with one of several things, where the others are answered all the same."""

    what: str
    where: str
    right: str
    field: str = ""
    see: str = ""

    @classmethod
    def of(cls, error: BenchError) -> "Fault":
        """What the error says."""
        return cls(error.what, error.where, error.right, error.field, error.see)


def as_json(answer: object) -> Any:
    """An answer as what JSON knows: a dataclass by its fields, a choice by its word, a day in ISO 8601.

    Raises TypeError for what is no answer.

    >>> as_json(Amount(12_500, "mm", "12.5 m"))
    {'value': 12500, 'unit': 'mm', 'words': '12.5 m'}
    """
    if answer is None or isinstance(answer, bool | int | float):
        return answer.value if isinstance(answer, Enum) else answer
    if isinstance(answer, Enum):
        return answer.value
    if isinstance(answer, str):
        return str(answer)
    if isinstance(answer, date):
        return answer.isoformat()
    if isinstance(answer, Path):
        return str(answer)
    if is_dataclass(answer):
        return {f.name: as_json(getattr(answer, f.name)) for f in fields(answer)}
    if isinstance(answer, Mapping):
        return {str(as_json(key)): as_json(value) for key, value in answer.items()}
    if isinstance(answer, Sequence | set | frozenset):
        return [as_json(each) for each in answer]
    raise TypeError(f"{type(answer).__name__} is no answer of the desk")
