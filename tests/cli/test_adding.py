"""``tacklebox stock add`` where somebody types: number keys, and what was assumed."""

import io
import json
import sys
from pathlib import Path
from unittest.mock import patch

import pytest

from tacklebox.cli.adding import ask_or_refuse, show_added
from tacklebox.desk import Desk, adding, stock
from tacklebox.errors import AskedWronglyError
from tests.cli.runs import run, unfolded


class Keys(io.StringIO):
    """What is typed at a terminal."""

    def isatty(self) -> bool:
        return True


def typed(desk: Desk, words: str, *keys: str) -> str:
    """Put in what the words and the keys say; the words that it got."""
    with patch.object(sys, "stdin", Keys("".join(f"{key}\n" for key in keys))):
        text, answers = ask_or_refuse(
            words, lambda said, so_far: adding.question(desk, said, answers=so_far), can_ask=True
        )
    return adding.add(desk, text, answers=answers).item.words


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    return Desk(tmp_path / "box")


def test_a_number_key_chooses_the_reading(desk: Desk, capsys: pytest.CaptureFixture[str]) -> None:
    assert typed(desk, "3AA waggler", "7", "2") == "waggler 3AB straight"
    shown = capsys.readouterr().out
    assert "  1  waggler 3AAA straight" in shown
    assert "A number from 1 to 2, or 0." in shown


def test_what_may_be_typed_goes_by_letters_so_that_a_number_is_a_size(
    desk: Desk, capsys: pytest.CaptureFixture[str]
) -> None:
    assert typed(desk, "yellow elastic 6m", "6") == "elastic 6 yellow"
    assert "  f  elastic 12 yellow 6 m" in capsys.readouterr().out
    assert typed(desk, "red elastic 6m", "F") == "elastic 12 red"


def test_the_words_of_a_choice_choose_it(desk: Desk) -> None:
    assert typed(desk, "3AA waggler", "Waggler 3AB straight") == "waggler 3AB straight"


def test_how_much_is_left_is_never_taken_by_enter_alone(
    desk: Desk, capsys: pytest.CaptureFixture[str]
) -> None:
    assert typed(desk, "a few size 14 eyed hooks", "", "7") == "hook 14 eyed"
    shown = capsys.readouterr().out
    assert "  a  hook 14 eyed (note: a few): 10 of it" in shown
    assert "The letter a, or 0." in shown
    assert str(stock.show(desk, "1").item.on_hand) == "7"


def test_none_of_them_asks_for_other_words(desk: Desk) -> None:
    assert typed(desk, "3AA waggler", "0", "waggler 4BB insert") == "waggler 4BB insert"


def test_what_is_missing_may_be_typed(desk: Desk) -> None:
    assert typed(desk, "pole float", "4x20") == "pole 4×20"


def test_yes_is_more_of_what_he_has(desk: Desk) -> None:
    typed(desk, "2.2 lb nylon 0.10")
    assert typed(desk, "nylon 0.10 2.2 lb", "y") == "nylon 0.10 mm 2.2 lb"
    assert typed(desk, "nylon 0.10 1 kg", "y") == "nylon 0.10 mm 2.2 lb"
    assert len(stock.listed(desk).items) == 1
    assert typed(desk, "nylon 0.10 1 kg", "n") == "nylon 0.10 mm 1 kg"


def test_what_was_assumed_is_told_with_what_says_otherwise(
    desk: Desk, capsys: pytest.CaptureFixture[str]
) -> None:
    show_added(adding.add(desk, "winder 18 cm"))
    show_added(adding.add(desk, "0.14 line"))
    show_added(adding.add(desk, "no 8 shot"))
    shown = " ".join(capsys.readouterr().out.split())
    assert "taken as usual: 20 mm wide (common practice)." in shown
    assert "nylon (common practice); a spool of 100 m (common practice)." in shown
    assert "`tacklebox stock edit 2 --pack LENGTH`, `tacklebox stock reword 2 WORDS`" in shown
    assert "Item 3: shot No 8 tin, plenty, not counted." in shown
    assert "`tacklebox stock count 3 NUMBER`" in shown


def test_where_nobody_types_it_is_refused_with_the_readings(tmp_path: Path) -> None:
    box = tmp_path / "box"
    said = run("stock", "add", "3AA waggler", box=box, expect=2).stderr
    assert 'Say "waggler 3AAA straight" or "waggler 3AB straight".' in said
    run("stock", "add", "hook 18", box=box)
    said = run("stock", "add", "hook 18", box=box, expect=2).stderr
    assert "Write `tacklebox stock buy 1` for more of it" in said
    with pytest.raises(AskedWronglyError):
        ask_or_refuse("3AA waggler", adding.question_of_words, can_ask=False)


def test_lead_that_may_not_weight_a_line_is_bought_with_a_caution(tmp_path: Path) -> None:
    box = tmp_path / "box"
    run("stock", "add", "shot AAA lead pack 20", box=box)
    said = unfolded(run("stock", "buy", "1", box=box).stdout)
    assert said.startswith(
        "shot AAA lead: 40 on hand.\nCAUTION: shot AAA of lead, 0.8 g: in England"
    )
    assert "\nCAUTION: Lead weights over 0.06 g" in said
    assert json.loads(run("stock", "buy", "1", "--json", box=box).stdout)["forbidden_lead"]
