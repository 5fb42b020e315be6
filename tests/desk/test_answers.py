"""Answers become JSON by one function, whatever they are made of."""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from pathlib import Path

import pytest

from tacklebox.desk import Amount, as_json


class _Level(StrEnum):
    LOW = "low"


@dataclass(frozen=True)
class _Answer:
    level: _Level
    on: date
    file: Path
    amounts: tuple[Amount, ...]
    by_name: dict[str, float]
    sure: bool
    price: int | None = None


def test_each_kind_of_field_is_known_to_json() -> None:
    answer = _Answer(
        _Level.LOW, date(2026, 3, 5), Path("a/b.pdf"), (Amount(3, "pieces", "3"),), {"x": 0.5}, True
    )
    assert as_json(answer) == {
        "level": "low",
        "on": "2026-03-05",
        "file": "a/b.pdf",
        "amounts": [{"value": 3, "unit": "pieces", "words": "3"}],
        "by_name": {"x": 0.5},
        "sure": True,
        "price": None,
    }
    assert type(as_json(_Level.LOW)) is str


def test_what_is_no_answer_is_refused() -> None:
    with pytest.raises(TypeError, match="object is no answer"):
        as_json({"deep": [object()]})
