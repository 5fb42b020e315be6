"""Phrases broken off, shuffled, or run into another: read, asked or refused in words, never a fault."""

import random
from collections.abc import Callable, Iterator

import pytest

from tacklebox.errors import BenchError
from tacklebox.stock.naming.reading import read
from tests.stock.naming.table import PHRASES

EACH = 150


def broken_off(some: random.Random, words: list[str], _: list[str]) -> list[str]:
    return [word for word in words if some.random() < 0.75] or words


def shuffled(some: random.Random, words: list[str], _: list[str]) -> list[str]:
    return some.sample(words, len(words))


def run_together(some: random.Random, words: list[str], other: list[str]) -> list[str]:
    return words[: some.randint(1, len(words))] + other[some.randint(0, len(other) - 1) :]


Change = Callable[[random.Random, list[str], list[str]], list[str]]


@pytest.mark.parametrize("change", [broken_off, shuffled, run_together])
def test_whatever_is_typed_is_answered(change: Change) -> None:
    assert dict(unanswered(random.Random(EACH), change)) == {}


def unanswered(some: random.Random, change: Change) -> Iterator[tuple[str, str]]:
    for _ in range(EACH):
        words, other = (some.choice(PHRASES).said.split() for _ in range(2))
        text = " ".join(change(some, words, other))
        try:
            made = read(text)
        except BenchError:
            continue
        except Exception as error:
            yield text, repr(error)
        else:
            if not made.readings:
                yield text, "nothing to choose from"
