"""Options of the form KEY=VALUE."""

import pytest

from tacklebox.cli.common import pairs
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
