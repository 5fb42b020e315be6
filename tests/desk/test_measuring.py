"""Pull tests as they are said: one reading or several, of an item by its number or in words."""

from pathlib import Path

import pytest

from tacklebox.desk import Desk, adding, care, measuring
from tacklebox.errors import AskedWronglyError
from tacklebox.stock.measuring import read_pulls

LB = 0.45359237  # NIST SP 811, appendix B


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    made = Desk(tmp_path / "box")
    for words in ("nylon 0.10 2.6 lb", "nylon 0.14 4.5 lb", "hook 18"):
        adding.add(made, words)
    return made


@pytest.mark.parametrize(
    ("said", "kg"),
    [
        ("2.6lb 2.5lb 2.7lb", [2.6 * LB, 2.5 * LB, 2.7 * LB]),
        ("2.6 lb", [2.6 * LB]),
        ("1.1, 1.15 and 1.2 kg", [1.1, 1.15, 1.2]),
        ("2 lb 8 oz 2 lb 10 oz", [2.5 * LB, (2 + 10 / 16) * LB]),
        ("1150 g; 2.5lb", [1.15, 2.5 * LB]),
        ("1lb8 1lbs7", [1.5 * LB, (1 + 7 / 16) * LB]),
        ("2½lb 2¾ lb", [2.5 * LB, 2.75 * LB]),
    ],
)
def test_several_readings_in_one_breath(said: str, kg: list[float]) -> None:
    assert read_pulls(said) == pytest.approx(kg)


@pytest.mark.parametrize("said", ["", "2.6", "2.6 lb or so", "lb", "2.6 lb 2.5", "3 mm"])
def test_what_is_no_reading_is_refused(said: str) -> None:
    with pytest.raises(AskedWronglyError):
        read_pulls(said)


def test_three_readings_are_one_action(desk: Desk) -> None:
    kept = measuring.record_pull(desk, "1", "2.6lb 2.5lb 2.7lb")
    assert [one.number for one in kept.readings] == [1, 2, 3]
    assert kept.readings[0].words == "broke at 2.6 lb (1.18 kg), plain line"
    assert kept.now[0].readings == 3
    care.undo(desk)
    assert measuring.readings_of(desk, "1").readings == ()


def test_one_slip_among_them_keeps_none(desk: Desk) -> None:
    with pytest.raises(AskedWronglyError, match="too far off") as refused:
        measuring.record_pull(desk, "1", "2.6lb 26lb 2.7lb")
    assert refused.value.field == "reading"
    assert measuring.readings_of(desk, "1").readings == ()
    assert care.last_done(desk).what == "add"  # type: ignore[union-attr]


@pytest.mark.parametrize(
    ("words", "item", "reading"),
    [
        ("1 2.6lb 2.5lb", "1", "2.6lb 2.5lb"),
        ("1 2.6 lb", "1", "2.6 lb"),
        ("nylon 0.14 4.4lb 4.6lb", "nylon 0.14", "4.4lb 4.6lb"),
        ("0.14 4.4 lb", "0.14", "4.4 lb"),
        ("1 2.1lb 2.2lb 2.6lb", "1", "2.1lb 2.2lb 2.6lb"),
        ("nylon 0.12 4.4lb", "nylon", "0.12 4.4lb"),  # there is none: the fault names it
    ],
)
def test_the_item_by_its_number_or_in_words(
    desk: Desk, words: str, item: str, reading: str
) -> None:
    assert measuring.item_and_reading(desk, words.split()) == (item, reading)


def test_words_that_are_one_are_the_item(desk: Desk) -> None:
    assert measuring.item_and_reading(desk, ["nylon 0.14 4.5 lb", "4.4lb", "4.6lb"]) == (
        "nylon 0.14 4.5 lb",
        "4.4lb 4.6lb",
    )


def test_what_was_taken_as_read_leaves_the_box_in_order(desk: Desk) -> None:
    """However far from what is printed: else no copy could be made of it any more."""
    for words in ("waggler straight 5BB", "elastic 4 6 m", "olivette 0.8 g"):
        adding.add(desk, words)
    measuring.record_pull(desk, "2", "200 kg", as_read=True)
    measuring.record_pull(desk, "2", "5 g", as_read=True)
    measuring.record_bucket(desk, "4", "50 g", as_read=True)
    measuring.record_weighing(desk, "6", "900 g", count=1, as_read=True)
    measuring.record_stretch(desk, "5", "3 kg")
    assert care.audit(desk).in_order
    with pytest.raises(AskedWronglyError, match="cannot be right"):
        measuring.record_stretch(desk, "5", "40 kg")
