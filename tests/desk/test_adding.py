"""Tackle that is put in: what is asked, what was assumed, and what is there already."""

from dataclasses import replace
from pathlib import Path

import pytest

from tacklebox.desk import Desk, adding, care, stock
from tacklebox.desk.adding import NewStock
from tacklebox.desk.looking_through import look_through
from tacklebox.errors import AskedWronglyError, ManyFaultsError


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    return Desk(tmp_path / "box")


def offered(desk: Desk, words: str, *answers: str) -> list[str]:
    """What is asked with the words and the answers so far."""
    asked = adding.question(desk, words, answers=answers)
    return [one.answer for one in asked.choices] if asked else []


def test_what_is_sure_is_not_asked(desk: Desk) -> None:
    assert adding.question(desk, "hook 18 barbless spade") is None


@pytest.mark.parametrize(
    ("words", "first"),
    [
        ("3AA waggler", "waggler 3AAA straight"),
        ("nylon 0.14 1,000 m", "nylon 0.14 mm 1000 m"),
        ("groundbait feeder 1 1/2 oz", "feeder cage 1 1/2 oz"),
        ("20s barbless x2", "2 packets of hook 20 barbless"),
    ],
)
def test_what_is_not_sure_is_asked_and_the_chosen_reading_taken(
    desk: Desk, words: str, first: str
) -> None:
    choices = offered(desk, words)
    assert choices[0] == first
    for choice in choices:
        assert adding.question(desk, words, answers=[choice]) is None
    added = adding.add(desk, words, answers=[first])
    assert added.item.words in first


def test_what_is_missing_may_be_said_instead_of_chosen(desk: Desk) -> None:
    asked = adding.question(desk, "pole float")
    assert asked is not None
    assert asked.answer_like != ""
    assert adding.add(desk, "pole float", answers=["4x18"]).item.words == "pole 4×18"


def test_how_much_is_left_is_asked_where_that_is_said_vaguely(desk: Desk) -> None:
    words = "a bit left of the 0.12 50 m spool"
    asked = adding.question(desk, words)
    assert asked is not None
    assert (asked.about, asked.answer_like) == ("left", "20 m left")
    added = adding.add(desk, words, answers=["15 m left"]).item
    assert (added.words, added.on_hand.value) == ("nylon 0.12 mm", 15_000)


def test_what_was_put_right_is_in_the_box_and_the_slip_is_not(desk: Desk) -> None:
    added = adding.add(desk, "cage feeder 20g, no 30g it says on the bottom, x2 £2.50 each").item
    assert (added.words, added.on_hand.value) == ("feeder cage 30 g", 2)


def test_one_question_may_follow_another(desk: Desk) -> None:
    adding.add(desk, "waggler 3AAA straight")
    assert offered(desk, "3AA waggler", "waggler 3AAA straight") == ["same"]
    more = adding.add(desk, "3AA waggler", answers=["waggler 3AAA straight", "same"])
    assert (more.more, more.item.on_hand.value) == (True, 2)


def test_where_nobody_can_answer_it_is_refused_with_the_readings(desk: Desk) -> None:
    with pytest.raises(AskedWronglyError) as refused:
        adding.add(desk, "3AA waggler")
    assert refused.value.field == "words"
    assert refused.value.right == 'Say "waggler 3AAA straight" or "waggler 3AB straight".'
    assert stock.listed(desk).items == ()


def test_an_answer_that_was_not_offered_is_refused(desk: Desk) -> None:
    with pytest.raises(AskedWronglyError, match="not asked for"):
        adding.add(desk, "3AA waggler", answers=["waggler 5BB"])


@pytest.mark.parametrize(
    ("words", "assumed"),
    [
        ("0.14 line", {"material": "nylon", "pack": "a spool of 100 m"}),
        ("hook 18", {"pack": "10 in a packet"}),
        ("nylon 0.14 100 yd spool", {}),
        ("box of 50 hooks 14 eyed", {}),
        ("hooks 14 eyed packet of 20", {}),
        ("winder 18 cm", {"width": "20 mm wide"}),
        ("4BB waggler", {"shape": "waggler straight"}),
        ("no 8 shot, a tub", {"material": "tin", "level": "a tub that is not counted, plenty"}),
        (
            "bb shot, tub nearly gone",
            {"material": "tin", "level": "a tub that is not counted, low"},
        ),
    ],
)
def test_what_nobody_said_is_assumed_and_told(
    desk: Desk, words: str, assumed: dict[str, str]
) -> None:
    added = adding.add(desk, words)
    assert {one.figure: one.words for one in added.assumed} == assumed
    assert all(one.because for one in added.assumed)


def test_a_packet_that_is_said_beside_the_words_is_not_assumed(desk: Desk) -> None:
    added = adding.add(desk, "6 lb nylon", NewStock(pack="100yds"))
    assert [one.figure for one in added.assumed] == []
    assert (str(added.item.packet), added.item.on_hand.value) == ("100 yd", 91440)
    assert str(added.item.on_hand) == "100 yd"
    assert adding.add(desk, "hook 16", NewStock(pack="25")).item.on_hand.value == 25


@pytest.mark.parametrize(
    ("first", "again"),
    [
        ("nylon 0.10 2.2 lb", "nylon 0.10 1 kg"),
        ("nylon 0.10 1 kg", "2.2 lb nylon .1"),
        ("1/2 oz bomb", "14 g bomb"),
        ("hooklength 18 to 0.10 10 in", "18 to 0.10 25 cm"),
        ("winder 7 in", "winder 18 cm"),
    ],
)
def test_the_same_in_another_unit_is_asked_and_its_first_wording_stays(
    desk: Desk, first: str, again: str
) -> None:
    had = adding.add(desk, first).item
    asked = adding.question(desk, again)
    assert asked is not None
    assert asked.about == "same"
    assert f"the {had.name} that you have" in asked.choices[0].words
    more = adding.add(desk, again, NewStock(packs=2, place="tray"), answers=["same"])
    assert (more.item.number, more.item.words, more.item.place) == (had.number, had.words, "tray")
    assert more.item.on_hand.value == had.on_hand.value + 2 * had.packet.value
    another = adding.add(desk, again, answers=["another"])
    assert another.item.number == had.number + 1


def test_more_of_what_is_there_is_one_action_that_is_undone(desk: Desk) -> None:
    adding.add(desk, "hook 18")
    adding.add(desk, "hook 18", NewStock(price="1.80"), answers=["same"])
    care.undo(desk)
    row = stock.show(desk, "1").item
    assert (row.on_hand.value, row.packet_price_cents) == (10, None)
    assert care.audit(desk).in_order


def test_shot_that_is_counted_is_put_in_by_the_usual_tub(desk: Desk) -> None:
    added = adding.add(desk, "AAA shot about 30 loose")
    assert added.item.on_hand.value == 30
    assert "100 in a packet" in [one.words for one in added.assumed]
    assert adding.add(desk, "20 BB shot", NewStock(pack="25")).item.on_hand.value == 20


def test_a_name_of_its_own_makes_it_another(desk: Desk) -> None:
    adding.add(desk, "hook 18")
    assert adding.question(desk, "hook 18", NewStock(name="the old eighteens")) is None
    assert adding.add(desk, "hook 18", NewStock(name="the old eighteens")).item.number == 2


@pytest.mark.parametrize(
    ("words", "beside", "field"),
    [
        ("2 packets of 10 size 16 hooks", NewStock(amount="25"), "amount"),
        ("2 packets of 10 size 16 hooks", NewStock(packs=3), "packs"),
        ("nylon 0.14 mm 4 lb 100 m, 60 m left", NewStock(amount="40 m"), "amount"),
        ("size 16 hooks pack 10", NewStock(pack="25"), "pack"),
        ("nylon 0.14 mm 4 lb 100 m", NewStock(pack="50 m"), "pack"),
        ("size 16 hooks £1.80", NewStock(price="2.20"), "price"),
    ],
)
def test_two_sayings_of_one_thing_are_refused(
    desk: Desk, words: str, beside: NewStock, field: str
) -> None:
    with pytest.raises(AskedWronglyError, match="beside them") as refused:
        adding.add(desk, words, beside)
    assert refused.value.field == field
    assert stock.listed(desk).items == ()


def test_one_count_said_twice_is_one_count(desk: Desk) -> None:
    added = adding.add(desk, "2 packets of 10 size 16 hooks", NewStock(amount="20"))
    assert added.item.on_hand.value == 20


def test_a_packet_and_its_price_said_twice_alike_are_taken_once(desk: Desk) -> None:
    said = NewStock(pack="100 m", price="£4.50")
    added = adding.add(desk, "nylon 0.14 mm 4 lb 100 m £4.50", said)
    assert added.item.on_hand.value == 100_000


def test_two_counts_in_one_row_of_a_file_are_refused(desk: Desk, tmp_path: Path) -> None:
    file = tmp_path / "stock.csv"
    file.write_text("item,packs\n2 packets of 10 size 16 hooks,3\n", encoding="utf-8")
    with pytest.raises(ManyFaultsError, match="20 of it, and 30"):
        adding.import_csv(desk, file)
    assert stock.listed(desk).items == ()


@pytest.mark.parametrize("field", ["pack", "amount", "minimum"])
def test_a_thousand_with_a_comma_is_asked_about_in_each_field(desk: Desk, field: str) -> None:
    with pytest.raises(AskedWronglyError, match="1000 or 1") as refused:
        adding.add(desk, "6 lb nylon", replace(NewStock(), **{field: "1,000 m"}))  # type: ignore[arg-type]
    assert refused.value.field == field
    assert stock.listed(desk).items == ()


def test_a_file_says_levels_and_is_refused_with_the_readings(desk: Desk, tmp_path: Path) -> None:
    file = tmp_path / "stock.csv"
    file.write_text("item,level,amount\nno 8 shot,low,\nswivel 12,,30\n", encoding="utf-8")
    imported = adding.import_csv(desk, file)
    assert imported.items == (1, 2)
    assert [(one.assumed.words, one.items) for one in imported.assumed] == [
        ("tin", (1,)),
        ("10 in a packet", (2,)),
    ]
    assert [str(row.on_hand) for row in stock.listed(desk).items] == ["low", "30"]
    file.write_text(
        'item,level,amount\n3AA waggler,,\nhook 18,half,\nhook 16,low,\n6 lb line,,"1,000 m"\n',
        encoding="utf-8",
    )
    with pytest.raises(ManyFaultsError) as refused:
        adding.import_csv(desk, file)
    told = str(refused.value)
    assert 'line 2: "3AA waggler" may be read in several ways. Say "waggler 3AAA straight"' in told
    assert 'line 3: "half" is no level.' in told
    assert '"1,000" may be 1000 or 1.' in told
    assert len(stock.listed(desk).items) == 2


def test_a_list_looked_through_shows_what_there_would_be_more_of(
    desk: Desk, tmp_path: Path
) -> None:
    adding.add(desk, "nylon 0.10 mm 2.2 lb 50 m")
    file = tmp_path / "receipt.csv"
    receipt = "item,same\nnylon 0.10 mm 1 kg 50 m,{}\nhook 18,\n"
    file.write_text(receipt.format(""), encoding="utf-8")
    first, _ = look_through(desk, file).rows
    assert 'Write yes under "same"' in first.fault
    file.write_text(receipt.format("yes"), encoding="utf-8")
    more, new = look_through(desk, file).rows
    assert (more.words, str(more.amount)) == ("nylon 0.10 mm 2.2 lb", "100 m")
    assert (new.words, str(new.amount)) == ("hook 18", "10")
    done = adding.import_csv(desk, file)
    assert (done.rows, done.items, done.more) == ((1, 2), (2,), (1,))


def test_a_list_with_a_doubtful_row_tells_how_the_others_are_read(
    desk: Desk, tmp_path: Path
) -> None:
    file = tmp_path / "list.csv"
    file.write_text("price,Item\n,hks 18 spade pk 10\n,feeder 20\n", encoding="utf-8")
    good, doubtful = look_through(desk, file).rows
    assert (good.words, good.fault, good.amount) == ("hook 18 spade pack 10", "", None)
    assert not doubtful.words
    assert "feeder cage 20 g" in doubtful.fault
