"""Checks against what stands outside this project, and the figures that have none.

``@outside(what, against, kind)`` marks a test as one; ``python -m tests.outside.table`` prints them
all in one table. Figures that no such check holds stand, by name and value, in
``no_outside_check.csv``.
"""

from collections.abc import Callable
from typing import TypeVar

import pytest

T = TypeVar("T", bound=Callable[..., object])

KINDS = (
    "published",  # a source that is named: a standard, an article, a guide, a law
    "library",  # a reference library's result for the same question
    "closed form",  # physics or mathematics worked out by hand or in closed form
    "other way",  # the same question answered by another method: enumeration, simulation
)


def outside(what: str, against: str, kind: str) -> Callable[[T], T]:
    """Marks a test as a check against something outside: what is checked, against what, its kind."""
    assert kind in KINDS, kind
    return pytest.mark.outside(what=what, against=against, kind=kind)
