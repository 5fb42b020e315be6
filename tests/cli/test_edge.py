"""What is printed has no sign that steers a terminal or turns words round, wherever it came from."""

import io
import json
from pathlib import Path

import pytest
import typer

from tacklebox.cli.edge import safe_streams
from tacklebox.signs import written_out
from tests.cli.runs import run, tacklebox, tacklebox_here, unfolded
from tests.long.hostile import damage
from tests.rigs.boxes import add, keep_short_rig, make_box

CLEAR, TURNED, HIDDEN = "\x1b[2J\x9b2J", "\u202emoor\u2066", "\u200b\ufeff"
STEERING = CLEAR + TURNED + HIDDEN
SEEN = "\\u009b2J\\u202emoor\\u2066\\u200b\\ufeff"  # where there is no terminal, echo drops what steers one


@pytest.fixture
def box(tmp_path: Path) -> Path:
    """A box with such signs in names, places and files of its own."""
    made = make_box(tmp_path / "box", "nylon 0.08 mm 0.7 kg 50 m")
    add(made, "hook 20 barbless spade pack 10", name=f"mine{STEERING}", place=f"tray{STEERING}")
    keep_short_rig(made.folder)
    recipe = (made.recipes / "short-rig.toml").read_text(encoding="utf-8")
    for name, old, new in (
        ("named", "Short rig", "Short\\u001b[2J\\u202erig"),
        ("bad", "rig", CLEAR),
    ):
        (made.recipes / f"{name}.toml").write_text(recipe.replace(old, new), encoding="utf-8")
    (tmp_path / "list.csv").write_text(
        f"item,name,{STEERING}\nhook 18 pack 10{STEERING},mine{STEERING},x\n", encoding="utf-8"
    )
    return made.folder


@pytest.mark.parametrize(
    "words",
    [
        "stock list",
        "stock show 2",
        "stock history 2",
        "recipe list",
        "recipe show named",
        "recipe show bad",
        "check named",
        "tie named -n 1",
        "low named=20",
        "law",
        f"stock show {STEERING}",
        f"stock add hook|18{STEERING}",
        f"stock list --kind {STEERING}",
        f"stock buy 2 --packs {STEERING}",
        f"stock buy 2 --{STEERING}",
        f"stock {STEERING}",
        f"{STEERING}",
        f"check named --set {STEERING}=1",
        f"recipe start {STEERING}",
        f"rigs show {STEERING}",
        f"match plan {STEERING}",
        f"help {STEERING}",
        f"restore {STEERING}",
        f"copy {STEERING}/copy",
        "stock import ../list.csv",
    ],
)
def test_nothing_raw_is_printed(box: Path, words: str) -> None:
    done = tacklebox(*(word.replace("|", " ") for word in words.split(" ")), box=box, cwd=box)
    for text in (done.stdout, done.stderr):
        assert written_out(text) == text
    if STEERING in words:
        assert done.returncode in (1, 2)
        assert "\\u202e" in done.stderr.replace("\n  ", "")


class Terminal(io.StringIO):
    """Where echo lets pass what steers it."""

    def isatty(self) -> bool:
        return True


def test_a_terminal_is_not_steered(monkeypatch: pytest.MonkeyPatch) -> None:
    screen = Terminal()
    monkeypatch.setattr("sys.stdout", screen)
    with safe_streams():
        typer.echo(f"a{STEERING}b")
        print(f"{CLEAR}\tc")
    assert screen.getvalue() == f"a\\u001b[2J{SEEN}b\n\\u001b[2J\\u009b2J\tc\n"


def test_no_bytes_go_out_as_they_are(box: Path) -> None:
    """As a damaged box may hold a name."""
    damage(box / "tacklebox.sqlite3", "UPDATE item SET name = x'1b5b324a' WHERE id = 2")
    for words in (("stock", "history", "2"), ("stock", "show", "2")):
        done = tacklebox(*words, box=box)
        assert "\x1b" not in done.stdout
        assert "the box is damaged" in done.stderr or "\\x1b[2J" in done.stdout


def test_what_was_there_is_seen_and_json_says_the_same(box: Path) -> None:
    assert "\\u202emoor\\u2066" in run("stock", "show", "2", box=box).stdout
    shown = run("stock", "show", "2", "--json", box=box).stdout
    assert "\\u202emoor\\u2066" in shown
    assert TURNED in json.loads(shown)["item"]["name"]


def test_bytes_that_are_no_text_are_refused(box: Path) -> None:
    done = run("stock", "edit", "2", "--name", "caf\udce9", box=box, expect=2)
    assert 'caf\\udce9" is no text' in done.stderr


@pytest.mark.parametrize(
    ("said", "says"),
    [
        ("9" * 5000, "over 100 digits"),
        ("x" * 70_000, "letters long"),
        ("a\0b", "a zero byte"),
    ],
)
def test_what_nothing_could_read_is_refused_at_once(box: Path, said: str, says: str) -> None:
    done = tacklebox_here(
        "stock", "edit", "2", "--name", said, box=box
    )  # no process takes a zero byte
    assert done.returncode == 2
    assert says in unfolded(done.stderr)


def test_a_word_too_many_is_told_with_how_to_say_it(tmp_path: Path) -> None:
    said = tacklebox("stock", "count", "hook 18", "3", "packets", box=tmp_path / "box")
    assert (said.returncode, said.stdout) == (2, "")
    assert '"packets" is more than is asked for here.' in said.stderr
    assert "in quotes" in said.stderr
    assert max(map(len, said.stderr.splitlines())) <= 80
