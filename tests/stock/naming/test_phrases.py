"""Every phrase of the table is read as the table says."""

import pytest

from tacklebox.errors import AskedWronglyError
from tacklebox.stock.naming.described import Described, Question
from tacklebox.stock.naming.reading import read
from tacklebox.stock.naming.writing import write_with_pack
from tests.stock.naming.table import SECTIONS, Phrase, faults_in, figures_of, in_si


@pytest.mark.parametrize("section", SECTIONS)
def test_reads_as_the_table_says(section: str) -> None:
    assert faults_in(section, check) == {}


def check(phrase: Phrase) -> None:
    if phrase.expected.startswith("!"):
        with pytest.raises(AskedWronglyError) as error:
            read(phrase.said)
        assert phrase.expected.removeprefix("!").strip() in str(error.value)
        return
    made = read(phrase.said)
    if phrase.expected.startswith("?"):
        assert isinstance(made, Question), made
        asked = phrase.expected.removeprefix("?")
        if asked.startswith(" "):
            offered = [write_with_pack(reading) for reading in made.readings]
            assert set(asked.strip().split(" | ")) <= set(offered), offered
        else:
            assert made.about == asked
            assert made.readings
            assert made.answer_like
        return
    assert isinstance(made, Described), made
    assert figures_of(made) == phrase.figures()
    for key, figure in made.figures.items():
        in_si(made.kind, key, figure)
