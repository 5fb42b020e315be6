"""Asking the trade on the command line: measuring, shot, casting, law, and why a check says so."""

import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from tests.cli.runs import run

STOCK = """item,place,pack,packs
nylon 0.08 mm 0.7 kg,drawer 1,50 m,1
nylon 0.12 mm 1.6 kg,drawer 1,50 m,1
nylon 0.22 mm 4.3 kg,feeder reel,200 m,1
hook 20 barbless spade,drawer 2,10,1
pole 4×12 tip 1.5 mm × 60 mm,pole tray,1,4
shot AAA lead,shot box,20,1
shot BB tin,shot box,60,1
shot No 8 tin,shot box,150,1
shot No 10 tin,shot box,200,1
winder 13 cm 18 mm,tray,10,1
"""
DAY = ("--on", "2026-03-05")


@pytest.fixture(scope="module")
def shelf_box(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A box that no test changes."""
    return stock_up(tmp_path_factory.mktemp("trade"))


@pytest.fixture
def box(tmp_path: Path) -> Path:
    return stock_up(tmp_path)


def stock_up(folder: Path) -> Path:
    (folder / "stock.csv").write_text(STOCK, encoding="utf-8")
    run("stock", "import", str(folder / "stock.csv"), "--on", "2026-03-01", box=folder / "box")
    return folder / "box"


def answer_of(*words: str, box: Path) -> Any:
    return json.loads(run(*words, "--json", box=box).stdout)


def test_why_shows_every_joint_in_order_and_what_is_lost(shelf_box: Path) -> None:
    why = run("check", "pole-canal-shot", "--why", box=shelf_box).stdout
    assert "Pull at the hook, weakest first:" in why
    assert "a fish tows: float" in why
    plain = run("check", "pole-canal-shot", box=shelf_box).stdout
    assert "give or take" in plain
    assert "Pull at the hook" not in plain


def test_a_reading_is_recorded_and_withdrawn(box: Path) -> None:
    said = run("measure", "pull", "0.12", "1.9", "lb", *DAY, box=box).stdout
    assert "own measurement" in said
    withdrawn = run("measure", "withdraw", "1", *DAY, box=box).stdout
    assert "counts no longer" in " ".join(withdrawn.split())


def test_shot_never_outside_the_law_and_within_stock(shelf_box: Path) -> None:
    """SI 1986/1992: the box's lead AAA is never offered."""
    best = answer_of("shot", "balance", "4BB", "--tip", "3 mm × 60 mm", box=shelf_box)
    assert best["patterns"]
    used = [
        w for p in best["patterns"] for part in ("at_float", "bulk", "droppers") for w in p[part]
    ]
    assert {w["material"] for w in used} == {"tin"}
    instead = answer_of("shot", "replace", "2 AAA", "--material", "lead", box=shelf_box)
    # 1.6 g of lead pulls as much as 1.69 g of tin (densities of the handbook's tables).
    for one in instead["stand_ins"]:
        mass = sum(w["mass_g"] * w["count"] for w in one["shot"])
        assert mass * 1000 - one["error_mg"] == pytest.approx(1000 * 1.6 * 0.9118 / 0.8629, abs=10)


def test_published_replacement_of_two_aaa(shelf_box: Path) -> None:
    """Soar Tackle, "Guide to float shotting & weights": SSG 1.6 g, AAA 0.8 g."""
    first = answer_of(
        "shot", "replace", "2", "AAA", "--tip", "3 mm × 60 mm", "--any-size", box=shelf_box
    )["stand_ins"][0]
    assert [(w["mark"], w["count"]) for w in first["shot"]] == [("SSG", 1)]
    assert (first["error_mg"], first["error_tip_mm"]) == (0, 0)


def test_a_pattern_like_a_recipe_keeps_its_shape(shelf_box: Path) -> None:
    balanced = answer_of(
        "shot",
        "balance",
        "4×12",
        "--like",
        "pole-canal-shot",
        "--any-size",
        "--show",
        "0",
        box=shelf_box,
    )
    for pattern in balanced["patterns"]:
        assert pattern["at_float"] == []
        assert sum(w["count"] for w in pattern["droppers"]) == 2
        assert pattern["stages"][-1]["says"] in ("a speck shows", "dotted down")


def test_a_cast_that_the_line_does_not_stand_says_what_would(box: Path) -> None:
    cast = ("cast", "--mass", "30 g", "--load", "20 g", "--distance", "40 m")
    said = run(*cast, "--line", "1 kg", "--line-per-turn", "80 cm", box=box).stdout
    assert "DOUBTFUL  " in said
    assert "shock leader" in said
    assert "or 50 turns of the handle at 80 cm a turn" in said


def test_lead_in_the_box_is_named_with_the_regulation(box: Path) -> None:
    listed = answer_of("law", box=box)
    assert [lead["item"]["name"] for lead in listed["lead"]] == ["shot AAA lead"]
    assert "Freshwater rod fishing rules" in listed["lead"][0]["judgement"]["says"]
    assert {c["about"] for c in listed["cautions"]} >= {"power lines", "close season"}
    assert "law of the land" in listed["comes_first"]
    said = run("check", "pole-canal-shot", box=box).stdout
    assert "Lead that may not weight a line is in the box: 6 shot AAA lead" in said
    checked = answer_of("check", "pole-canal-shot", box=box)
    assert [lead["name"] for lead in checked["lead"]] == ["shot AAA lead"]
    run("stock", "take", "AAA lead", "20", "--why", "thrown out", *DAY, box=box)
    assert "No lead of a forbidden size" in run("law", box=box).stdout
    added = run("stock", "add", "shot BB lead pack 20", *DAY, box=box).stdout
    assert "FAILS" in added
    assert "Freshwater rod fishing rules" in " ".join(added.split())


@pytest.mark.parametrize(
    ("words", "fault"),
    [
        (["measure", "pull", "hook 20", "1 kg"], "a pull test is of line"),
        (["measure", "pull", "0.12", "1.7"], "no unit"),
        (["measure", "pull", "0.12", "-1 kg"], "No such option"),
        (["measure", "pull", "0.12", "0 kg"], "cannot be a strain"),
        (["measure", "pull", "0.12", "1e3 kg"], "strain"),
        (["measure", "pull", "0.12", "9 kg"], "--as-read"),
        (["measure", "pull", "0.12", "1 kg", "--knot", "granny"], "no knot known"),
        (["measure", "weigh", "No 8", "1.3 g", "--count", "0"], "From 1 to 500"),
        (["measure", "weigh", "No 8", "1.3 kg"], "too far off"),
        (["measure", "float", "No 8", "1 g"], "tried in a bucket"),
        (["measure", "withdraw", "5"], "no reading 5"),
        (["measure", "list", "boat"], "nothing in stock"),
        (["shot", "balance", "5ZZ"], "no float capacity"),
        (["shot", "balance", "0 g"], "no float capacity"),
        (["shot", "balance", "5BB", "--tip", "3 mm"], "--tip"),
        (["shot", "balance", "5BB", "--tip", "99 mm × 60 mm"], "--tip"),
        (["shot", "balance", "5BB", "--show", "200 mm"], "a tip that shows of"),
        (["shot", "balance", "5BB", "--material", "gold"], "no weight material"),
        (["shot", "balance", "5BB", "--water", "95"], "water of 95 °C cannot be right"),
        (["shot", "balance", "5BB", "--water", "warm"], "--water"),
        (["shot", "balance", "5BB", "--water=-3"], "is ice"),
        (["shot", "balance", "5BB", "--like", "bomb-running"], "--like"),
        (["shot", "replace", "2 ZZZ"], "no shot size"),
        (["shot", "replace", "0 AAA"], "no sensible number"),
        (["cast", "--line", "2 kg", "--mass", "30 g", "--distance", "4 km"], "--distance"),
        (["cast", "--line", "2 kg", "--mass", "30 g", "--distance", "900 m"], "cannot be right"),
        (["cast", "--line", "2 kgg", "--mass", "30 g", "--distance", "40 m"], "--line"),
        (["cast", "--line", "hook 20", "--mass", "30 g", "--distance", "40 m"], "--line"),
        (["cast", "--line", "2 kg", "--mass", "no", "--distance", "40 m"], "--mass"),
        (["cast", "--line", "2 kg", "--mass", "30 g"], "--distance"),
        (["check", "pole-canal-shot", "--sound-from", "101"], "--sound-from"),
        (["check", "pole-canal-shot", "--doubtful-from", "0"], "--doubtful-from"),
        (
            ["check", "pole-canal-shot", "--sound-from", "70", "--doubtful-from", "80"],
            "lower of the two",
        ),
        (["tie", "pole-canal-shot", "--sound-from", "x"], "--sound-from"),
    ],
)
def test_bad_input_is_answer_of(shelf_box: Path, words: list[str], fault: str) -> None:
    assert fault in run(*words, box=shelf_box, expect=2).stderr


def test_what_no_shot_can_do_ends_with_1(shelf_box: Path) -> None:
    done = run("shot", "balance", "100 g", box=shelf_box, expect=1)
    assert "The nearest" in done.stderr


def test_output_fits_80_columns(shelf_box: Path) -> None:
    for words in (
        ["check", "pole-canal-shot", "--why"],
        ["shot", "balance", "4BB", "--like", "waggler-insert-bulk"],
        ["shot", "replace", "2 AAA", "--tip", "3 mm × 60 mm"],
        ["cast", "--line", "2 kg", "--mass", "30 g", "--distance", "40 m", "--why"],
        ["law"],
        ["measure", "list", "0.12"],
        ["measure", "pull", "--help"],
        ["shot", "balance", "--help"],
        ["cast", "--help"],
    ):
        out = run(*words, box=shelf_box).stdout
        assert max(len(line) for line in out.splitlines()) <= 80, words


LIGHT = (
    ["shot", "--help"],
    ["stock", "list"],
    ["law"],
    ["measure", "list", "1"],
    ["cast", "--line", "2 kg", "--mass", "30 g", "--distance", "40 m"],
    ["check", "pole-canal-shot", "--why"],
)


def test_nothing_heavy_is_imported_without_need(shelf_box: Path) -> None:
    """Not by all of them in one process, so by none alone."""
    script = (
        "import sys\n"
        "from tacklebox.cli.main import main\n"
        f"assert [main(words) for words in {LIGHT!r}] == [0] * {len(LIGHT)}\n"
        "heavy = {'scipy', 'highspy', 'numpy', 'reportlab', 'PIL', 'qrcode'}\n"
        "heavy.add('tacklebox.stock.naming.reading')  # no words of an item were said\n"
        "heavy &= set(sys.modules)\n"
        "sys.exit(f'imported: {heavy}' if heavy else 0)\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", script],
        env={**os.environ, "TACKLEBOX_BOX": str(shelf_box)},
        capture_output=True,
        encoding="utf-8",
        check=False,
    )
    assert done.returncode == 0, done.stderr
