"""Tying as the desk answers: codes, what is left, and why it is refused."""

from pathlib import Path
from typing import Any

import pytest

from tacklebox.desk import Desk, checking, rigs, tying
from tacklebox.errors import AskedWronglyError, CannotBeDoneError, StockShortError
from tacklebox.stock.care.box import open_box
from tests.desk.boxes import desk_at, make_desk
from tests.rigs.boxes import CANAL, add, make_box, on_hand

WEAK = tuple(words.replace("0.12 mm 1.6 kg", "0.12 mm 0.6 kg") for words in CANAL)


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    box = open_box(tmp_path / "box")
    for words in CANAL:
        add(box, words, packs=2)
    box.engine.dispose()
    return Desk(tmp_path / "box")


def test_rigs_get_codes_and_stock_stays_true(desk: Desk) -> None:
    tied = tying.tie(desk, "pole-canal-shot", {"depth": "1.5 m"}, count=2, on="2026-03-05")
    assert (tied.codes, tied.outcome, tied.name) == (("A01T", "A02R"), "sound", "Canal pole, shot")
    left = {item.name: item.on_hand.value for item in tied.left}
    assert left["pole 4×12"] == 0
    assert left.items() <= on_hand(desk.box).items()
    assert [str(one.tied_on) for one in rigs.listed(desk)] == ["2026-03-05"] * 2


def test_a_feeder_rig_has_its_caution_and_no_other(desk: Desk) -> None:
    assert tying.tie(desk, "pole-canal-shot", {}).cautions == ()
    for words in ("nylon 0.20 mm 3.6 kg 50 m", "swivel size 14 12 kg pack 10", "bead 4 mm pack 20",
                  "link swivel size 12 10 kg pack 10", "feeder cage 30 g"):  # fmt: skip
        add(desk.box, words)
    tied = tying.tie(desk, "feeder-running-paternoster", {})
    assert [caution.about for caution in tied.cautions] == ["trailing tackle"]


def test_what_stock_is_short_of_ties_nothing(desk: Desk) -> None:
    before = on_hand(desk.box)
    with pytest.raises(
        CannotBeDoneError, match="stock is short for 5 × Canal pole, shot"
    ) as refused:
        tying.tie(desk, "pole-canal-shot", {}, count=5)
    assert "float: pole 4×12: 2 left, 5 needed" in refused.value.what
    assert on_hand(desk.box) == before


@pytest.mark.parametrize(
    ("stock", "asked", "right"),
    [
        (("hook 22 barbless spade pack 10",), {}, "With hook 22 there is enough."),
        (("hook 22 barbless spade pack 10",), {"count": 11}, ""),
        (
            ("hook 22 barbless spade pack 10",),
            {"use": {"hooklength line": "1"}},
            "With hook 22 there is enough.",
        ),
        (
            ("hook 20 barbless spade pack 10",),
            {"choices": {"hook": "22"}},
            "With hook 20 there is enough.",
        ),
        (("hook 22 barbed eyed pack 10",), {}, ""),
        ((), {}, ""),
    ],
)
def test_what_else_could_be_chosen_is_said_where_stock_is_short(
    tmp_path: Path, stock: tuple[str, ...], asked: dict[str, Any], right: str
) -> None:
    """And nothing else is said to be there."""
    desk = make_desk(tmp_path / "box", "nylon 0.08 mm 0.7 kg 50 m", *stock)
    with pytest.raises(StockShortError, match="nothing was tied") as refused:
        tying.tie(desk, "hooklength-fine", **{"choices": {}, **asked})
    assert refused.value.right == right
    if right:
        size = right.split()[2]
        assert refused.value.see == f"tie.choose hook={size}"
        assert tying.tie(desk, "hooklength-fine", {"hook": size}, use=asked.get("use")).count == 1


def test_what_else_could_be_chosen_of_a_rig_and_of_its_hooklength(tmp_path: Path) -> None:
    others = (words for words in CANAL if not words.startswith(("pole", "hook")))
    desk = make_desk(tmp_path / "box", *others, "pole 4×14", "shot No 9 tin pack 20")
    with pytest.raises(StockShortError) as refused:
        tying.tie(desk, "pole-canal-shot", {})
    assert refused.value.right == "With float 4×14 there is enough."
    add(desk.box, "pole 4×12")
    add(desk.box, "hook 22 barbless spade pack 10")
    with pytest.raises(StockShortError) as refused:
        tying.tie(desk, "pole-canal-shot", {}, with_hooklength=True)
    assert refused.value.see == "tie.choose hook=22"
    tying.tie(desk, "pole-canal-shot", {"hook": "22"}, with_hooklength=True)


def test_where_a_check_fails_a_reason_is_asked_for_and_kept(tmp_path: Path) -> None:
    make_box(tmp_path / "box", *WEAK).engine.dispose()
    desk = Desk(tmp_path / "box")
    with pytest.raises(CannotBeDoneError, match="fails a check; nothing was tied") as refused:
        tying.tie(desk, "pole-canal-shot", {})
    assert refused.value.see == "tie.because"
    [code] = tying.tie(desk, "pole-canal-shot", {}, because="for the tank").codes
    assert rigs.show(desk, code).tied_because == "for the tank"


@pytest.mark.parametrize(
    ("said", "field"),
    [
        ({"count": 0}, "count"),
        ({"count": 501}, "count"),
        ({"sound_from": "x"}, "sound_from"),
        ({"on": "someday"}, "on"),
        ({"use": {"float": "99"}}, "use.float"),
    ],
)
def test_a_fault_names_the_field(desk: Desk, said: dict[str, object], field: str) -> None:
    with pytest.raises(AskedWronglyError) as refused:
        tying.tie(desk, "pole-canal-shot", {}, **said)  # type: ignore[arg-type]
    assert refused.value.field == field
    assert rigs.listed(desk) == ()


def test_what_a_venue_asks_goes_into_the_check_and_into_the_tying(tmp_path: Path) -> None:
    """A fixed feeder is doubtful; where the water asks for weights that come free it fails."""
    make_box(
        tmp_path / "box", "nylon 0.20 mm 3.6 kg 100 m", "nylon 0.12 mm 1.2 kg 50 m",
        "hook 16 barbless spade pack 10", "cage feeder 30 g", "swivel size 14 12 kg pack 20",
        "winder 18 cm 20 mm",
    ).engine.dispose()  # fmt: skip
    for name, rule in (("easy", ""), ("strict", "[rules]\nfeeders_run_free = true\n")):
        file = tmp_path / "box" / "venues" / f"{name}.toml"
        file.parent.mkdir(exist_ok=True)
        file.write_text(f'name = "{name}"\nwater = "still water"\n{rule}', encoding="utf-8")
    desk, fixed = desk_at(tmp_path / "box"), "feeder-fixed-paternoster"
    outcomes = [checking.check(desk, fixed, {}, venue=venue).outcome for venue in ("", "easy")]
    assert outcomes == ["doubtful", "doubtful"]
    assert checking.check(desk, fixed, {}, venue="strict").outcome == "fails"
    with pytest.raises(CannotBeDoneError, match="fails a check; nothing was tied"):
        tying.tie(desk, fixed, {}, venue="strict")
    with pytest.raises(AskedWronglyError, match="nowhere"):
        tying.tie(desk, fixed, {}, venue="nowhere")
    assert rigs.listed(desk) == ()
    assert tying.tie(desk, fixed, {}, venue="easy").outcome == "doubtful"
