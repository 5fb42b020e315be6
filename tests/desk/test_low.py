"""What runs low, as the desk answers it."""

import csv
import io
from pathlib import Path

import pdfplumber
import pytest

from tacklebox.desk import Desk, as_json, rigs
from tacklebox.desk.low import runs_low
from tacklebox.desk.shopping import ListFiles
from tacklebox.desk.stock import short
from tests.desk.boxes import CANAL, make_desk
from tests.rigs.boxes import add


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    """12 hooks with a minimum of 5, 20 shot with one of 30, 50 m of line."""
    made = make_desk(tmp_path, "nylon 0.08 mm 0.7 kg 50 m")
    add(made.box, "hook 20 barbless spade pack 10", amount="12", minimum="5",
        pack_price_cents=180, place="drawer 1")  # fmt: skip
    add(made.box, "shot No 8 tin pack 20", minimum="30", pack_price_cents=150)
    return made


def test_what_is_short_of_its_minimum_now(desk: Desk) -> None:
    found = runs_low(desk, {}, {})
    assert [(i.name, str(i.on_hand), str(i.minimum)) for i in found.short] == [
        ("shot No 8 tin", "20", "30")
    ]
    assert (found.wanted, found.runs_out_first) == ((), "")


def test_how_far_stock_reaches_and_what_stops_it(desk: Desk) -> None:
    (rig,) = runs_low(desk, {"hooklength-fine": "14"}, {}).wanted
    assert (rig.recipe, rig.wanted, rig.can_tie) == ("hooklength-fine", 14, 12)
    (missing,) = rig.stopped_by
    assert (missing.part, missing.because) == (
        "hook",
        "0 of hook 20 barbless spade left, 1 needed for one",
    )


def test_what_to_buy_and_what_for(desk: Desk) -> None:
    """14 of 12 hooks and a minimum of 5: 7 short, one packet. Shot: 10 short of the minimum."""
    shopping = runs_low(desk, {"hooklength-fine": "14"}, {}).shopping
    assert [
        (one.name, one.short.value, one.for_minimum.value, one.packets, one.cost, one.what_for)
        for one in shopping.to_buy
    ] == [
        (
            "hook 20 barbless spade",
            7,
            5,
            "1 × 10",
            "1.80",
            "for 2 × Fine hooklength, and a minimum of 5",
        ),
        ("shot No 8 tin", 10, 10, "1 × 20", "1.50", "for a minimum of 30"),
    ]
    assert (shopping.total_cents, shopping.total, shopping.prices_missing) == (330, "3.30", 0)


def test_a_missing_price_is_told_with_the_total(desk: Desk) -> None:
    """Line for 300 hooklengths is more than 50 m, and its price is missing."""
    shopping = runs_low(desk, {"hooklength-fine": "300"}, {}).shopping
    line = next(one for one in shopping.to_buy if one.name.startswith("nylon"))
    assert (line.packet_price, line.cost, line.cost_cents) == ("missing", "missing", None)
    assert shopping.prices_missing == 1
    assert shopping.total == f"{shopping.total_cents / 100:.2f}, 1 price missing"


def test_what_may_run_out_on_the_day(desk: Desk) -> None:
    """Ten of twelve hooks are planned: more than two are lost by NB(2, 1/2), 5/16."""
    on_the_day = runs_low(desk, {"hooklength-fine": "10"}, {}).on_the_day
    hooks = next(one for one in on_the_day.likely if one.name.startswith("hook"))
    assert (hooks.on_hand.value, hooks.planned.value, hooks.left.value) == (12, 10, 2)
    assert hooks.chance_to_run_out == pytest.approx(5 / 16)
    assert hooks.chance == "31.3 %"
    assert (hooks.matches, hooks.rests_on, on_the_day.without_history) == (0, "from memory", True)
    short = runs_low(desk, {"hooklength-fine": "13"}, {}).on_the_day.likely[0]
    assert (short.left.value, short.chance) == (-1, "short already")


def test_the_answer_is_known_to_json(desk: Desk) -> None:
    answer = as_json(runs_low(desk, {"hooklength-fine": "14"}, {}))
    assert answer["short"][0]["minimum"] == {"value": 30, "unit": "pieces", "words": "30"}
    assert answer["shopping"]["to_buy"][0]["packs"] == 1
    assert answer["shopping"]["printed"] is None
    assert set(answer["on_the_day"]) == {"likely", "unlikely", "not_planned"}


def test_a_choice_that_nothing_knows_writes_no_list(desk: Desk, tmp_path: Path) -> None:
    from tacklebox.errors import AskedWronglyError

    files = ListFiles(csv=tmp_path / "buy.csv")
    with pytest.raises(AskedWronglyError, match='"dpeth" is not chosen'):
        runs_low(desk, {"hooklength-fine": "1"}, {"dpeth": "2 m"}, files)
    assert not (tmp_path / "buy.csv").exists()


def test_lead_that_may_not_weight_a_line_is_not_bought_again_without_a_word(
    desk: Desk, tmp_path: Path
) -> None:
    """BB is in the forbidden band, No 8 is not; on screen, on paper, on the bench, and
    in a CSV that goes over one of before lists told of it."""
    add(desk.box, "shot BB lead pack 20", amount="0", minimum="20")
    add(desk.box, "shot No 8 lead pack 20", amount="0", minimum="20")
    as_csv = tmp_path / "shop.csv"
    as_csv.write_text("no.,item,packets,price of a packet,price,what for\n", encoding="utf-8")
    files = ListFiles(pdf=tmp_path / "shop.pdf", csv=as_csv, replace=True)
    found = runs_low(desk, {}, {}, files)
    said = {one.name: one.caution for one in found.shopping.to_buy}
    assert [name for name, caution in said.items() if caution] == ["shot BB lead"]
    for words in ("use tin or tungsten", "the byelaws in force and the law of the land come first"):
        assert words in said["shot BB lead"]
    assert "may not be supplied in Great Britain (SI 1986/1992" in found.shopping.supply
    with pdfplumber.open(tmp_path / "shop.pdf") as pages:
        paper = " ".join((pages.pages[0].extract_text() or "").split())
    assert said["shot BB lead"] in paper
    assert found.shopping.supply in paper
    minds = {r["item"]: r["mind"] for r in csv.DictReader(io.StringIO(as_csv.read_text("utf-8")))}
    assert minds.pop("shot BB lead") == f"{said['shot BB lead']} {found.shopping.supply}"
    assert minds["shot No 8 lead"] == ""
    assert [(one.name, str(one.outcome)) for one in short(desk).forbidden_lead] == [
        ("shot BB lead", "fails")
    ]
    allowed = runs_low(desk, {"hooklength-fine": "14"}, {}).shopping
    assert [one.caution for one in allowed.to_buy if one.name == "hook 20 barbless spade"] == [""]


def test_ready_rigs_with_other_choices_are_told_and_not_counted(tmp_path: Path) -> None:
    """Two of three tied at another depth; once there are enough as wanted, nothing is said of them."""
    desk = make_desk(tmp_path, *CANAL)
    rigs.add(desk, {"pole-canal-shot": "2"}, {"depth": "4 ft"})
    (told,) = runs_low(desk, {"pole-canal-shot": "1"}, {}).wanted
    assert (told.ready, told.ready_otherwise) == (0, ("A01T", "A02R"))
    (told,) = runs_low(desk, {"pole-canal-shot": "1"}, {"depth": "4 ft"}).wanted
    assert (told.ready, told.ready_otherwise) == (1, ())
    rigs.add(desk, {"pole-canal-shot": "1"}, {})
    (told,) = runs_low(desk, {"pole-canal-shot": "1"}, {}).wanted
    assert (told.ready, told.ready_otherwise) == (1, ())
