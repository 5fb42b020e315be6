"""Items entered, and what is kept beside their figures."""

from datetime import date

import pytest

from tacklebox.errors import AskedWronglyError
from tacklebox.stock.care.box import Box
from tacklebox.stock.entering import NewItem, add_item, edit_item
from tacklebox.stock.finding import find, load
from tacklebox.stock.ledger import begin, movements_of
from tacklebox.stock.notation import read_notation
from tests.stock.entered import add

DAY = date(2026, 3, 5)


@pytest.mark.parametrize(
    "name",
    [
        "../../etc",
        "a/b",
        'O\'Brien "best"',
        "🎣 hook",
        "x" * 300,
        "'; DROP TABLE item; --",
        "%s {}",
    ],
)
def test_odd_names_harm_nothing(box: Box, name: str) -> None:
    add(box, "hook 18 pack 10", name=name)
    with box.reading() as session:
        assert find(session, name).name == name
        assert len(load(session)) == 1


def test_what_a_terminal_would_obey_is_dropped(box: Box) -> None:
    assert add(box, "hook 18 pack 10", name="red\x1b[31m \x07hook\n").name == "red [31m hook"


def test_the_same_item_twice_is_told(box: Box) -> None:
    add(box, "hook 18 pack 10")
    with pytest.raises(AskedWronglyError, match="in the box already, as item 1"):
        add(box, "hooks size 18 pack 10")


@pytest.mark.parametrize(
    ("words", "what", "meant"),
    [
        (
            "fluorocarbon 0.16 6lb 12oz",
            "6 lb 12 oz",
            "0.16 mm at 6.75 lb (nylon, not fluorocarbon)",
        ),
        ("nylon 0.014 mm 4 lb", "4 lb", "0.14 mm at 4 lb"),
        ("nylon 0.20 mm 2 lb", "2 lb", "0.20 mm at 4.41 lb (2 kg, not lb)"),
        ("nylon 0.010 mm 1.9 kg", "1.9 kg", "0.10 mm at 0.862 kg (1.9 lb, not kg)"),
    ],
)
def test_a_strain_is_questioned_in_the_unit_that_was_said(
    box: Box, words: str, what: str, meant: str
) -> None:
    with pytest.raises(AskedWronglyError, match=f"breaks at {what} would bear") as refused:
        add(box, words)
    assert refused.value.right.startswith(f"Did you mean {meant}")


def test_impossible_line_is_questioned_before_it_is_stored(box: Box) -> None:
    with pytest.raises(AskedWronglyError, match=r"237,\d{3} MPa") as error:
        add(box, "nylon 0.010 mm 1.9 kg 100 m")
    assert "0.10 mm" in error.value.right
    with box.reading() as session:
        assert load(session) == []


@pytest.mark.parametrize(
    ("words", "more", "on_hand", "pack_size"),
    [
        ("hook 18 pack 10", {}, 10, 10),
        ("hook 18 pack 10", {"packs": 0}, 0, 10),
        ("hook 18 pack 10", {"packs": 3, "pack_size": 25}, 75, 25),
        ("hook 18 pack 10", {"amount": "7"}, 7, 10),
        ("nylon 0.12 mm 50 m", {"amount": "12.5 m"}, 12_500, 50_000),
        ("waggler 5BB insert", {}, 1, 1),
        ("feeder cage 30 g", {"packs": 2}, 2, 1),
        ("winder 13 cm 18 mm", {}, 1, 1),
    ],
)
def test_what_there_is_of_a_new_item(
    box: Box, words: str, more: dict[str, object], on_hand: int, pack_size: int
) -> None:
    item = add(box, words, **more)
    assert (item.on_hand, item.pack_size, item.added_on) == (on_hand, pack_size, DAY)
    with box.reading() as session:
        (first,) = movements_of(session, item)
    counted = ("counted", "first count") if "amount" in more else ("bought", "")
    assert (first.why, first.reason, first.on) == (*counted, DAY)


def test_what_is_kept_beside_the_figures(box: Box) -> None:
    item = add(
        box,
        "nylon 0.12 mm 1.6 kg 50 m",
        name="  fine\tline ",
        place="drawer  2",
        pack_price_cents=349,
        minimum="75 m",
    )
    assert (item.name, item.place, item.minimum) == ("fine line", "drawer 2", 75_000)
    assert item.pack_price_cents == 349
    assert add(box, "hook 18 pack 10").minimum == 0
    said = add(box, "3 for £5 feeder cage 30 g")
    assert (said.on_hand, said.pack_price_cents) == (3, 167)
    assert add(box, "feeder cage 40 g £2", pack_price_cents=150).pack_price_cents == 150


@pytest.mark.parametrize(
    ("words", "on_hand"),
    [
        ("hook 18", 10),
        ("18 to 0.10", 10),
        ("nylon 0.12 mm", 50_000),
        ("6 lb nylon", 150_000),
        ("elastic 4", 6_000),
        ("swivel 14", 10),
        ("waggler 4BB", 1),
        ("3 packets of hook 18", 30),
        ("a dozen 4BB wagglers", 12),
        ("half a spool of 0.12 nylon", 25_000),
        ("about 40 m left of 0.16 nylon", 40_000),
        ("half a packet of hook 18", 5),
        ("2 x part 'loop tyer'", 2),
    ],
)
def test_what_a_packet_usually_holds_is_taken(box: Box, words: str, on_hand: int) -> None:
    assert add(box, words).on_hand == on_hand


def test_how_many_shot_are_in_a_tub_nobody_knows(box: Box) -> None:
    item = add(box, "shot No 8")
    assert (item.level, item.on_hand, item.pack_size) == ("plenty", 0, 1)
    with pytest.raises(AskedWronglyError, match="does not say the number in a pack") as refused:
        add(box, "shot No 10", amount="40")
    assert "pack 150" in refused.value.right


def test_line_that_the_packet_really_prints_so_may_be_stored(box: Box) -> None:
    with pytest.raises(AskedWronglyError, match="such line bears 1500 to 10000 MPa"):
        add(box, "braid 0.10 mm 12 kg 100 m")
    with pytest.raises(AskedWronglyError, match="such line bears 500 to 1850 MPa") as refused:
        add(box, "nylon 0.12 mm 9 kg 50 m")
    assert refused.value.right.startswith("Did you mean 0.12 mm at 0.9 kg?")
    assert refused.value.see == "stock.as_printed"
    with pytest.raises(AskedWronglyError) as refused:
        add(box, "nylon 0.50 mm 700 kg 50 m")  # no slip of the pen makes that of a line
    assert refused.value.right.startswith("Look at the packet again.")
    add(box, "nylon 0.12 mm 50 m")  # with no strain there is nothing to question
    with box.writing() as session:
        new = NewItem(read_notation("nylon 0.12 mm 9 kg 50 m"))
        add_item(session, begin(session, "add", DAY), new, as_printed=True)


def test_an_item_is_edited_where_said_and_nowhere_else(box: Box) -> None:
    add(box, "nylon 0.12 mm 1.6 kg 50 m", name="fine", place="drawer 2", pack_price_cents=349)

    def edited(**change: str) -> tuple[object, ...]:
        with box.writing() as session:
            begin(session, "edit", DAY)
            edit_item(session, find(session, "1"), **change)
        with box.reading() as session:
            item = find(session, "1")
        return (
            item.name,
            item.place,
            item.pack_size,
            item.pack_price_cents,
            item.minimum,
            item.on_hand,
        )

    assert edited() == ("fine", "drawer 2", 50_000, 349, 0, 50_000)
    assert edited(name=" thin  one ") == ("thin one", "drawer 2", 50_000, 349, 0, 50_000)
    assert edited(name="thin one")[0] == "thin one"  # its own name is no other's
    assert edited(name="")[0] == "nylon 0.12 mm 1.6 kg"
    assert edited(place=" reel\n1 ")[1] == "reel 1"
    assert edited(pack="100 m")[2] == 100_000
    assert edited(price="4,20")[3] == 420
    assert edited(minimum="25 m")[4] == 25_000
    assert edited(place="", minimum="0")[1:] == ("", 100_000, 420, 0, 50_000)


def test_what_an_item_cannot_become(box: Box) -> None:
    add(box, "hook 18 pack 10")
    add(box, "hook 20 pack 10")
    with box.writing() as session:
        begin(session, "edit", DAY)
        hook = find(session, "2")
        edit_item(session, hook, pack="1")
        assert hook.pack_size == 1
        with pytest.raises(AskedWronglyError, match="at least one") as refused:
            edit_item(session, hook, pack="0")
        assert refused.value.field == "pack"
        with pytest.raises(AskedWronglyError, match="as item 1") as refused:
            edit_item(session, hook, name="hook 18")
        assert refused.value.see == "stock.buy 1"
        edit_item(session, hook, name="x" * 400)
        with pytest.raises(AskedWronglyError, match="401 letters") as refused:
            edit_item(session, hook, name="x" * 401)
        assert "400" in refused.value.right
