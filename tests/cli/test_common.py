"""Options of the form KEY=VALUE."""

import pytest
import typer

from tacklebox.cli.common import pairs, whole_number
from tacklebox.errors import AskedWronglyError


@pytest.mark.parametrize(
    ("option", "text", "right"),
    [
        ("--set", "depth", "depth=1.5 m"),
        ("--use", "rig line", "rig line=12"),
        ("--tackle-lost", "hook 16", "hook 20=3"),
        ("--tackle-lost", "=3", "hook 20=3"),
        ("lost", "hook 16=", "hook 20=3"),
        ("RECIPE=COUNT", "hooklength-fine", "hooklength-fine=6"),
    ],
)
def test_a_fault_shows_the_form_of_that_option(option: str, text: str, right: str) -> None:
    with pytest.raises(AskedWronglyError) as error:
        pairs([text], option)
    assert str(error.value) == f'{option}: "{text}" is not understood. Write it like "{right}".'
    assert len(pairs([right], option)) == 1  # which is understood


@pytest.mark.parametrize("said", ["1_0", "1e3", "1.234", "٣", "9" * 5000, ""])
def test_a_number_is_digits_alone(said: str) -> None:
    with pytest.raises(typer.BadParameter, match="no whole number"):
        whole_number(said)
    assert (whole_number(" 12 "), whole_number("-1"), whole_number(3)) == (12, -1, 3)
