"""How refusals are folded for a terminal of 80 columns."""

import textwrap
from pathlib import Path

from hypothesis import given
from hypothesis import strategies as st

from tacklebox.cli.output import WIDTH, fold_refusal
from tests.cli.runs import tacklebox


def test_later_lines_are_indented_by_two() -> None:
    answer = fold_refusal("open.toml: this is wrong. " + "Say it in a way that is right. " * 5)
    first, *later = answer.splitlines()
    assert first.startswith("open.toml: this is wrong. Say it")
    assert len(later) == 2
    assert all(line.startswith("  ") and line[2] != " " for line in later)
    assert max(map(len, answer.splitlines())) <= WIDTH


def test_a_short_one_stays_as_it_is() -> None:
    answer = 'open.toml: this match cannot be read.\n  "date" is missing.\n\nAsk.'
    assert fold_refusal(answer) == answer


def test_a_fault_of_a_list_is_indented_below_itself() -> None:
    answer = fold_refusal(f"head\n  {'word ' * 30}").splitlines()
    assert [line[:6] for line in answer] == ["head", "  word", "    wo"]


def test_commands_and_paths_are_not_broken() -> None:
    command = "`tacklebox match start NAME --venue VENUE --on DAY`"
    path = "/home/angler/" + "a-long-folder-of-rigs/" * 5 + "labels.pdf"
    for before in range(80):
        answer = fold_refusal(f"{'x' * before} {command} {path} and on").splitlines()
        assert any(command in line for line in answer)
        assert any(path in line for line in answer)
        assert all(len(line) <= WIDTH for line in answer if path not in line)


@given(st.lists(st.text('ab `-"é', max_size=90), max_size=4))
def test_no_word_is_lost_or_changed(lines: list[str]) -> None:
    text = "\n".join(lines)
    answer = fold_refusal(text)
    assert answer.split() == text.split()
    assert textwrap.dedent(answer).count("\n") >= text.count("\n")


def test_every_refusal_is_folded(tmp_path: Path) -> None:
    """Of one fault, of several, and of a wrong command."""
    tacklebox("venue", "start", "pond", box=tmp_path)
    bad = tmp_path / "venues" / "bad.toml"
    bad.write_text('name = "B"\nwater = "sea"\n[rules]\nmethods_banned = ["spoon"]\n', "utf-8")
    for words in (
        ["venue", "show", "bad"],
        ["feed", "--hours", "5", "--loose", "7000"],
        ["match", "debrief", "nosuch"],
        ["nosuch"],
    ):
        done = tacklebox(*words, box=tmp_path)
        assert done.returncode == 2
        lines = done.stderr.splitlines()
        assert max(map(len, lines)) <= WIDTH
        assert not lines[0].startswith(" ")
        assert all(line.startswith("  ") for line in lines[1:])
    assert len(lines) > 1
