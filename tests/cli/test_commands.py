"""The commands: what they print, their exit codes, JSON, bad input."""

import json
import shutil
from pathlib import Path

import pytest

from tacklebox.cli import demo
from tests.cli.runs import run
from tests.long.length import WHOLE


@pytest.fixture
def box(tmp_path: Path) -> Path:
    return tmp_path / "box"


STOCK = """item,place,pack,price,keep,packs
nylon 0.08 mm 0.7 kg,drawer 1,50 m,3.20,10 m,1
nylon 0.12 mm 1.6 kg,drawer 1,50 m,3.20,,1
hook 20 barbless spade,drawer 2,10,1.80,10,1
pole 4×12,pole tray,1,2.60,,4
shot No 8 tin,shot box,150,1.50,,1
shot No 10 tin,shot box,200,1.50,,1
winder 13 cm 18 mm,tray,10,4.50,,1
"""


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A box with some stock."""
    folder = tmp_path_factory.mktemp("made")
    (folder / "stock.csv").write_text(STOCK, encoding="utf-8")
    run("stock", "import", str(folder / "stock.csv"), "--on", "2026-03-01", box=folder / "box")
    return folder / "box"


@pytest.fixture
def stocked(made: Path, box: Path) -> Path:
    """A copy of it for one test."""
    return Path(shutil.copytree(made, box))


def test_a_new_box_is_told_in_one_line(box: Path) -> None:
    first = run("stock", "list", box=box)
    assert first.stderr.splitlines() == [f"Made a new box in {box}"]
    assert run("stock", "list", box=box).stderr == ""


def test_box_option_wins_over_the_environment(box: Path, tmp_path: Path) -> None:
    run("--box", str(tmp_path / "other"), "stock", "list", box=box)
    assert (tmp_path / "other" / "tacklebox.sqlite3").is_file()
    assert not box.exists()


def test_an_item_is_added_by_words_or_by_its_figures(stocked: Path) -> None:
    words = "hook 18 barbless spade pack 10"
    run("stock", "add", words, "--packs", "2", "--place", "drawer 2", box=stocked)
    run("stock", "add", "--kind", "line", "--with", "material nylon", "--with", "diameter 0.14",
        "--with", "strain 4 lb", "--pack", "100 m", "--price", "2.90", box=stocked)  # fmt: skip
    listed = json.loads(run("stock", "list", "--json", box=stocked).stdout)["items"]
    assert len(listed) == 9
    hook, line = listed[-2:]
    assert (hook["name"], hook["on_hand"]["value"]) == ("hook 18 barbless spade", 20)
    assert line["name"] == "nylon 0.14 mm 4 lb"
    assert line["on_hand"] == {"value": 100_000, "unit": "mm", "words": "100 m"}


def test_the_list_is_of_what_was_asked_for(stocked: Path) -> None:
    asked = ("--kind", "line", "--where", "diameter 0.10 to 0.13 mm")
    found = run("stock", "list", *asked, box=stocked).stdout
    assert "0.12 mm" in found
    assert "0.08 mm" not in found
    in_tray = run("stock", "list", "pole tray", box=stocked).stdout
    assert "pole 4×12" in in_tray
    assert "nylon" not in in_tray


def test_a_sort_of_a_kind_is_asked_for_by_its_name(stocked: Path) -> None:
    run("stock", "add", "olivette 0.5 g pack 5", box=stocked)
    answer = json.loads(run("stock", "list", "--kind", "shot", "--json", box=stocked).stdout)[
        "items"
    ]
    assert answer
    assert {item["name"].split()[0] for item in answer} == {"shot"}


def test_each_change_of_a_count_stands_in_its_history_with_why(stocked: Path) -> None:
    run("stock", "take", "hook 20", "3", "--why", "lost", "--reason", "in the reeds", box=stocked)
    run("stock", "count", "hook 20", "6", box=stocked)
    run("stock", "buy", "hook 20", "--packs", "2", "--price", "1.95", box=stocked)
    run("stock", "give", "hook 20", "1", box=stocked)
    run("stock", "correct", "hook 20", "--reason", "typing", "--", "-2", box=stocked)
    answer = json.loads(run("stock", "history", "hook 20", "--json", box=stocked).stdout)
    assert [(m["why"], m["change"]["value"]) for m in answer["movements"]] == [
        ("bought", 10),
        ("lost", -3),
        ("counted", -1),
        ("bought", 20),
        ("given back", 1),
        ("corrected", -2),
    ]
    row = json.loads(run("stock", "show", "hook 20", "--json", box=stocked).stdout)["item"]
    assert (row["on_hand"]["value"], row["packet_price_cents"]) == (25, 195)


def test_an_items_place_and_minimum_are_edited(stocked: Path) -> None:
    run("stock", "edit", "hook 20", "--place", "drawer 9", "--minimum", "30", box=stocked)
    row = json.loads(run("stock", "show", "hook 20", "--json", box=stocked).stdout)["item"]
    assert row["place"] == "drawer 9"
    assert "short" in run("stock", "list", "hook 20", box=stocked).stdout


def test_a_recipe_is_started_listed_and_shown(stocked: Path) -> None:
    run("recipe", "start", "mine", box=stocked)
    assert "mine" in run("recipe", "list", box=stocked).stdout
    assert "rig line" in run("recipe", "show", "mine", box=stocked).stdout


def test_a_check_says_how_sure_and_on_what(stocked: Path) -> None:
    checked = json.loads(run("check", "pole-canal-shot", "-n", "4", "--json", box=stocked).stdout)
    assert checked["outcome"] == "sound"
    assert {j["about"] for j in checked["judgements"]} >= {"breaks first", "hook and line"}
    strength = next(j for j in checked["judgements"] if j["about"] == "breaks first")
    assert any(fact["source"]["basis"] == "published" for fact in strength["facts"])
    assert "(from memory)" in run("check", "pole-canal-shot", "--why", box=stocked).stdout


def test_what_is_tied_gets_codes_and_keeps_its_choices(stocked: Path) -> None:
    words = ("tie", "pole-canal-shot", "-n", "4", "--set", "depth=1.5m", "--json")
    tied = json.loads(run(*words, box=stocked).stdout)
    assert tied["codes"] == ["A01T", "A02R", "A03P", "A04N"]
    listed = json.loads(run("rigs", "list", "--json", box=stocked).stdout)
    assert [r["made"]["set_for"] for r in listed] == ["depth 1.5 m"] * 4


def test_labels_are_printed_once_and_again_when_named(stocked: Path, tmp_path: Path) -> None:
    run("tie", "pole-canal-shot", "-n", "4", box=stocked)
    out, other = str(tmp_path / "l.pdf"), str(tmp_path / "m.pdf")
    on = ("--paper", "a4-65")
    assert "4 labels on 1 sheet" in run("labels", *on, "--to", out, box=stocked).stdout
    assert "has its label" in run("labels", *on, "--to", other, box=stocked).stdout
    run("labels", "A02R", *on, "--to", out, box=stocked, expect=2)
    run("labels", "A02R", *on, "--to", out, "--replace", "--start", "65", box=stocked)


def test_a_rig_that_is_stripped_gives_back_what_it_was_of(stocked: Path, tmp_path: Path) -> None:
    run("tie", "pole-canal-shot", "-n", "2", box=stocked)
    assert "back in stock" in run("rigs", "strip", "ao2r", box=stocked).stdout
    assert "stripped" in run("rigs", "show", "A02R", box=stocked).stdout
    run("rigs", "lost", "A01T", box=stocked)
    run("labels", "A02R", "--to", str(tmp_path / "m.pdf"), box=stocked, expect=2)
    assert not (tmp_path / "m.pdf").exists()


def test_labels_of_the_last_tying_go_on_where_the_sheet_was_left(
    stocked: Path, tmp_path: Path
) -> None:
    run("tie", "pole-canal-shot", "-n", "2", box=stocked)
    run("tie", "hooklength-fine", "-n", "3", box=stocked)
    on = ("labels", "--paper", "a4-65", "--to")
    first = run(*on, str(tmp_path / "a.pdf"), "--last", box=stocked).stdout
    assert "1 label on 1 sheet" in first
    assert "Next free place: 2" in first
    words = [*on, str(tmp_path / "b.pdf"), "--start", "next", "--skip", "3"]
    then = run(*words, box=stocked).stdout
    assert "2 labels on 1 sheet" in then
    assert "Next free place: 5" in then
    strips = run("labels", "A01T", "--paper", "strips-180", "--start", "next",
                 "--to", str(tmp_path / "c.pdf"), box=stocked).stdout  # fmt: skip
    assert "Next free place: 2" in strips


def test_a_paper_has_a_page_to_test_the_printer_by(stocked: Path, tmp_path: Path) -> None:
    listed = json.loads(run("paper", "list", "--json", box=stocked).stdout)["papers"]
    assert {p["paper"]: p["places"] for p in listed}["a4-65"] == 65
    run("paper", "test", "a4-65", "--to", str(tmp_path / "t.pdf"), box=stocked)
    assert (tmp_path / "t.pdf").read_bytes().startswith(b"%PDF")


def test_what_was_measured_on_it_is_kept_unless_no_printer_is_so_far_out(stocked: Path) -> None:
    run("paper", "measured", "a4-65", "--left", "21 mm", "--across", "99.5 mm", box=stocked)
    assert 'left = "21 mm"' in (stocked / "labels" / "a4-65.toml").read_text(encoding="utf-8")
    answer = run("paper", "measured", "a4-65", "--left", "90 mm", box=stocked, expect=2).stderr
    assert "no printer is so far out" in answer
    assert '""' not in answer


def test_the_tie_sheet_has_rigs_and_hooklengths_on_a_page(stocked: Path, tmp_path: Path) -> None:
    sheet = tmp_path / "sheet.pdf"
    wants = ["pole-canal-shot=2", "hooklength-fine=4"]
    assert "1 page" in run("tie-sheet", *wants, "--to", str(sheet), box=stocked).stdout
    assert "no count" in run("tie-sheet", "hooklength-fine=x", box=stocked, expect=2).stderr
    again = run("tie-sheet", *wants, "--to", str(sheet), box=stocked, expect=2)
    assert "already" in again.stderr


def test_nothing_is_short_where_nobody_asks_for_rigs(stocked: Path) -> None:
    assert "Nothing is short of its minimum" in run("low", box=stocked).stdout


def test_low_says_what_can_be_tied_and_what_to_buy_for_the_rest(stocked: Path) -> None:
    """12 hooks to tie and a minimum of 10, 10 there: 12 short, so 2 packets of 10 at 1.80."""
    wants = ("hooklength-fine=12", "pole-canal-shot=2")
    answer = json.loads(run("low", *wants, "--json", box=stocked).stdout)
    assert [(w["recipe"], w["can_tie"]) for w in answer["wanted"]] == [
        ("hooklength-fine", 10),
        ("pole-canal-shot", 2),
    ]
    assert answer["runs_out_first"] == "hook 20 barbless spade"
    assert [(b["name"], b["packs"], b["cost_cents"]) for b in answer["shopping"]["to_buy"]] == [
        ("hook 20 barbless spade", 2, 360)
    ]


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        (["stock", "add", "nylon 0.14 mm 4 lbb 100 m"], 'Is "lbb" for "lb" a slip?'),
        (["stock", "add", "nylon 0.010 mm 1.9 kg 100 m"], "MPa"),
        (["stock", "add", "hook 99 pack 10"], "no hook size"),
        (["stock", "add", "shot No 4", "--amount", "40"], "number in a pack"),
        (["stock", "add", "hook 18 pack 10", "--price", "cheap"], "no price"),
        (["stock", "add", "hook 18 pack 10", "--on", "2999-01-01"], "has not come yet"),
        (["stock", "add", "hook 18 pack 10", "--on", "5 Marsh"], "no date"),
        (["stock", "add", "hook 18 pack 10", "--amount", "-3"], "number of pieces"),
        (["stock", "add"], "say what it is"),
        (["stock", "count", "99", "3"], "there is no item 99"),
        (["stock", "take", "hook 20", "2", "--why", "eaten"], "no reason here"),
        (["stock", "take", "hook 20", "a few"], "no number of pieces"),
        (["stock", "list", "--kind", "boat"], "no kind of item"),
        (["stock", "list", "--kind", "line", "--where", "girth 3"], "cannot be asked of a line"),
        (["stock", "import", "nothing.csv"], "cannot be read"),
        (["check", "no-such"], "there is no recipe"),
        (["check", "../../secret"], "no recipe name"),
        (["check", "pole-canal-shot", "--set", "depth=9 m"], "From 90 cm to 2 m"),
        (["check", "pole-canal-shot", "--set", "depth"], "--set"),
        (["check", "pole-canal-shot", "--set", "hooklength=none"], "does not go with"),
        (
            ["check", "pole-canal-shot", "--use", "float=boat"],
            "--use float: nothing in stock is called",
        ),
        (["tie", "pole-canal-shot", "-n", "0"], "From 1 to 500"),
        (["rigs", "show", "A01W"], "mistyped"),
        (["rigs", "show", "!!"], "is no code"),
        (["rigs", "strip", "A01T"], "no rig has the code"),
        (["labels", "--paper", "a4-66"], "there is no paper"),
        (["labels", "--start", "first"], "is no place"),
        (["low", "pole-canal-shot=few"], "is no count"),
        (["low", "pole-canal-shot"], "RECIPE=COUNT"),
        (["nonsense"], "there is no command"),
        (["stock", "list", "--nonsense"], "No such option"),
    ],
)
def test_bad_input_is_told_and_saves_nothing(
    stocked: Path, words: list[str], expected: str
) -> None:
    before = run("stock", "list", "--json", box=stocked).stdout
    done = run(*words, box=stocked, expect=2)
    assert expected in done.stderr
    assert run("stock", "list", "--json", box=stocked).stdout == before


def test_what_cannot_be_done_ends_with_1(stocked: Path, tmp_path: Path) -> None:
    assert (
        "stock is short" in run("tie", "pole-canal-shot", "-n", "5", box=stocked, expect=1).stderr
    )
    run("tie", "pole-canal-shot", box=stocked)
    nowhere = tmp_path / "no" / "labels.pdf"
    assert "cannot be written" in run("labels", "--to", str(nowhere), box=stocked, expect=1).stderr
    again = json.loads(run("rigs", "list", "--json", box=stocked).stdout)
    assert again[0]["labelled_on"] is None


def test_a_csv_with_lead_that_may_not_weight_a_line_says_so(box: Path, tmp_path: Path) -> None:
    path = tmp_path / "lead.csv"
    path.write_text("item\nshot BB lead\nshot No 8 lead\nnylon 0.14 mm\n", encoding="utf-8")
    said = " ".join(run("stock", "import", str(path), box=box).stdout.split())
    assert "Lead that may not weight a line: 1 shot BB lead. See `tacklebox law`." in said


def test_a_csv_with_bad_rows_lists_each_and_saves_none(box: Path, tmp_path: Path) -> None:
    path = tmp_path / "bad.csv"
    path.write_text("item,pack\nhook 18,10\nhook 99,10\nwibble,1\n")
    done = run("stock", "import", str(path), box=box, expect=2)
    assert "line 3" in done.stderr
    assert "line 4" in done.stderr
    assert json.loads(run("stock", "list", "--json", box=box).stdout)["items"] == []


def test_output_fits_80_columns_without_colour(stocked: Path) -> None:
    for words in (
        ["--help"],
        ["stock", "list"],
        ["recipe", "list"],
        ["recipe", "show", "feeder-running-paternoster"],
        ["check", "pole-canal-shot", "--why"],
        ["low", "hooklength-fine=12"],
    ):
        out = run(*words, box=stocked).stdout
        assert "\x1b" not in out
        assert max(len(line) for line in out.splitlines()) <= 80, words


@pytest.mark.skipif(not WHOLE, reason="a long run: TACKLEBOX_LONG=1")
def test_demo_twice_gives_the_same_and_harms_nothing(tmp_path: Path) -> None:
    first = run("demo", cwd=tmp_path).stdout
    labels = (tmp_path / "tacklebox-demo" / "labels.pdf").read_bytes()
    second = run("demo", cwd=tmp_path).stdout
    assert first.replace("tacklebox-demo", "X") == second.replace("tacklebox-demo-2", "X")
    assert (tmp_path / "tacklebox-demo" / "labels.pdf").read_bytes() == labels
    assert (tmp_path / "tacklebox-demo-2" / "labels.pdf").read_bytes() == labels
    assert "Runs out first: hook 20 barbless spade" in first
    assert "All in order: 47 items" in first
    for name in ("sticky", "more-labels", "tie-sheets", "pack"):
        assert (tmp_path / "tacklebox-demo" / f"{name}.pdf").read_bytes().startswith(b"%PDF")
    run("demo", "--into", "tacklebox-demo", cwd=tmp_path, expect=2)
    own = run("--box", "mine", "demo", cwd=tmp_path, expect=2)
    assert "--into" in own.stderr
    assert not (tmp_path / "mine").exists()


def test_the_demo_ends_with_the_bench_by_a_name_that_finds_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("sys.argv", [".venv/bin/tacklebox", "demo"])
    monkeypatch.setenv("PATH", str(tmp_path))
    assert demo._as_started() == ".venv/bin/tacklebox"
    (tmp_path / "tacklebox").touch(mode=0o700)
    assert demo._as_started() == "tacklebox"
