"""``tacklebox settle``: its answers on the command line, and that nothing else loads the model."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

from tests.cli.runs import run
from tests.desk.boxes import make_desk
from tests.desk.test_settling import CANAL, STOCK

UNPROVEN = "never compared with a rig in water"


@pytest.fixture(scope="module")
def box(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A box that no test changes."""
    folder = tmp_path_factory.mktemp("settles") / "box"
    make_desk(folder, *STOCK)
    return folder


def test_a_fall_is_told_in_80_columns_and_drawn(box: Path, tmp_path: Path) -> None:
    file = tmp_path / "fall.svg"
    words = ("--beside", "strung out", "--why", "--svg", "fall.svg")
    done = run("settle", CANAL, *words, box=box, cwd=tmp_path)
    assert max(map(len, done.stdout.splitlines())) <= 80
    assert UNPROVEN in " ".join(done.stdout.split())
    assert "Settled by 13 s, else strike." in done.stdout
    assert "maggot 4 cm/s (from memory)" in done.stdout
    assert UNPROVEN in file.read_text(encoding="utf-8")
    again = run("settle", CANAL, "--svg", str(file), box=box, expect=2)
    assert "--replace" in again.stderr


def test_the_same_as_json(box: Path) -> None:
    answer = json.loads(run("settle", CANAL, "--bait", "none", "--json", box=box).stdout)
    assert answer["unproven"].endswith(UNPROVEN)
    first = answer["patterns"][0]
    assert first["bait"] == "bare hook"
    assert first["half_s"]["slack"] < first["half_s"]["tight"] < first["down_s"]["tight"]


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ((CANAL, "--bite-at", "60 cm"), "a fish that holds the bait still at 60 cm"),
        (("feeder-window", "--feeder-in", "3 m"), "the feeder is down after 3 s"),
        ((CANAL, "--tow", "--wind", "4 m/s"), "the wind moves the surface at 11 cm/s"),
        (("feeder-window",), "Mind: there is no float"),
    ],
)
def test_each_answer_says_that_it_is_unproven(box: Path, words: tuple[str, ...], says: str) -> None:
    done = run("settle", *words, box=box)
    plain = " ".join(done.stdout.split())
    assert says in plain
    assert UNPROVEN in plain
    assert max(map(len, done.stdout.splitlines())) <= 80
    assert json.loads(run("settle", *words, "--json", box=box).stdout)


@pytest.mark.parametrize(
    ("words", "option"),
    [
        (("--fished", "deep"), "--fished"),
        (("--hook-mass", "heavy"), "--hook-mass"),
        (("--float-mass", "heavy"), "--float-mass"),
        (("--beside", "upside down"), "--beside"),
        (("--bite-at", "deep"), "--bite-at"),
        (("--tow",), "--wind"),
        (("--feeder-in", "3 m"), "RECIPE"),
    ],
)
def test_a_fault_names_the_option(box: Path, words: tuple[str, ...], option: str) -> None:
    answer = run("settle", CANAL, *words, box=box, expect=2)
    assert answer.stderr.startswith(option)


def test_nothing_else_loads_what_computes_a_fall(box: Path) -> None:
    commands = (["stock", "list"], ["check", CANAL], ["rigs", "list"])
    script = (
        "import sys\n"
        "from tacklebox.cli.main import main\n"
        f"assert [main(['--box', {str(box)!r}, *words]) for words in {commands!r}] == [0] * 3\n"
        "falls = {'solver', 'sweep', 'chain', 'fall', 'outcome', 'rig', 'bite', 'feeder'}\n"
        "loaded = {f'tacklebox.trade.settling.{one}' for one in falls} & set(sys.modules)\n"
        "loaded |= {'tacklebox.desk.settling', 'tacklebox.cli.settle'} & set(sys.modules)\n"
        "sys.exit(f'loaded: {sorted(loaded)}' if loaded else 0)"
    )
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, check=False)
    assert done.returncode == 0, done.stderr
