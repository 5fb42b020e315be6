"""``tacklebox venue``: what is shown, what it ends with, faults by their options."""

import json
from pathlib import Path

import pytest

from tests.cli.runs import run, unfolded


@pytest.fixture
def pond(tmp_path: Path) -> Path:
    """A box with the starting file of a venue."""
    run("venue", "start", "pond", box=tmp_path)
    return tmp_path


def test_the_first_venue_is_written_by_a_command(tmp_path: Path) -> None:
    assert "`tacklebox venue start NAME`" in run("venue", "list", box=tmp_path).stdout
    answer = run("venue", "show", "pond", box=tmp_path, expect=2).stderr
    assert "`tacklebox venue start NAME` writes a first one." in answer
    assert "`tacklebox venue show pond`" in run("venue", "start", "pond", box=tmp_path).stdout
    assert "pond" in run("venue", "list", box=tmp_path).stdout


def test_a_venue_is_shown_as_a_table(pond: Path) -> None:
    rows = [
        " ".join(row.split()) for row in run("venue", "show", "pond", box=pond).stdout.split("\n")
    ]
    for row in (
        "largest hook 10",
        "barbless yes",
        "overhead lines none noted; look up all the same",
    ):
        assert row in rows
    assert any(row.startswith("check yourself No fishing within") for row in rows)


def test_each_ruling_is_a_sentence(pond: Path) -> None:
    words = ["venue", "judge", "pond", "pole-canal-shot", "--on", "2026-07-01"]
    answer = run(*words, box=pond).stdout
    assert max(map(len, answer.splitlines())) <= 80
    assert answer.startswith("Pond, still water, Wednesday 1 July\n")
    assert "ALLOWED: barbless hooks: hook: the recipe asks for barb barbless." in unfolded(answer)
    assert "CHECK THIS YOURSELF: No fishing within a rod's length of the lilies." in unfolded(
        answer
    )
    assert "come\n  first" in answer


def test_what_is_not_allowed_ends_with_one(pond: Path) -> None:
    words = ["venue", "judge", "pond", "--on", "2026-07-01", "--groundbait", "3 kg"]
    answer = unfolded(run(*words, box=pond, expect=1).stdout)
    assert (
        "NOT ALLOWED: groundbait at most 2 kg: groundbait: 3 kg, weighed dry. "
        "Would pass: leave 1 kg at home."
    ) in answer
    assert json.loads(run(*words, "--json", box=pond, expect=1).stdout)["allowed"] is False


def test_what_would_pass_is_named_with_its_option(pond: Path) -> None:
    for line in ("nylon 0.12 mm 0.8 kg 50 m", "nylon 0.12 mm 1.6 kg 50 m --name strong"):
        name, _, more = line.partition(" --name ")
        run("stock", "add", name, *(["--name", more] if more else []), box=pond)
    answer = unfolded(run("venue", "judge", "pond", "pole-canal-shot", box=pond, expect=1).stdout)
    assert 'in the box: strong (--use "rig line=2" where it is tied).' in answer


def test_a_keepnet_that_fails_ends_with_one(pond: Path) -> None:
    words = ["--length", "2.5 m", "--rings", "30 cm", "--round", "45 cm", "--hole", "20 mm",
             "--knotless", "--no-metal"]  # fmt: skip
    answer = run("venue", "keepnet", *words, box=pond).stdout
    assert answer.count("ALLOWED:") == 6
    answer = run("venue", "keepnet", "pond", *words, box=pond, expect=1).stdout
    assert max(map(len, answer.splitlines())) <= 80
    assert (
        "NOT ALLOWED: keepnet at least 3 m long (rule of Pond): 250 cm long. "
        "Would pass: at least 3 m long."
    ) in unfolded(answer)


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        (["judge", "pond", "--on", "soon"], '--on: "soon" is no date.'),
        (["judge", "pond", "--on", "2026-W10-4"], '--on: "2026-W10-4" is no date.'),
        (["judge", "pond", "--groundbait", "much"], "--groundbait: "),
        (["judge", "pond", "pole-canal"], "there is no recipe"),
        (["judge", "pond", "--set", "dept=1 m"], "--set dept: no recipe is named"),
        (["keepnet", "--hole", "big"], "--hole: "),
        (["keepnet", "--length", "99 m"], "--length: 99 m cannot be right."),
    ],
)
def test_faults_are_told_in_words(pond: Path, words: list[str], expected: str) -> None:
    assert expected in run("venue", *words, box=pond, expect=2).stderr
