"""The command line words the field of a fault, and what would help, for itself."""

import pytest

from tacklebox.cli.faults import fault_as_said, option
from tacklebox.errors import AskedWronglyError, BenchError, ManyFaultsError


@pytest.mark.parametrize(
    ("field", "said"),
    [
        ("sound_from", "--sound-from"),
        ("set.depth", "--set depth"),
        ("recipe", "RECIPE"),
        ("wanted.hooklength-fine", "RECIPE=COUNT hooklength-fine"),
        ("", ""),
    ],
)
def test_a_field_is_an_option_or_an_argument(field: str, said: str) -> None:
    assert option(field) == said


def test_a_fault_says_where_what_and_what_would_help() -> None:
    fault = AskedWronglyError('nothing is called "x".', where="row 3", see="stock.listed")
    assert fault_as_said(fault.in_field("item")) == (
        'ITEM, row 3: nothing is called "x". `tacklebox stock list` shows what there is.'
    )


def test_the_field_nearest_to_the_fault_is_kept() -> None:
    fault = AskedWronglyError("too long.", field="set.depth")
    assert fault.in_field("recipe").field == "set.depth"


def test_faults_told_together_are_worded_one_by_one() -> None:
    rows: list[str | BenchError] = [
        AskedWronglyError("in the box already.", where="line 2", see="stock.buy 7"),
        "line 3: no",
    ]
    assert fault_as_said(ManyFaultsError("2 rows cannot be read.", rows)) == (
        "2 rows cannot be read.\n  line 2: in the box already. Write `tacklebox stock buy 7` for "
        "more of it, or give this one its own --name.\n  line 3: no"
    )
