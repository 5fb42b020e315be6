"""What is typed at a prompt is read as what is said in an option: nothing in it ends the program."""

from collections.abc import Iterator

import pytest
import typer

from tacklebox.cli.typed import number_typed, typed
from tests.cli.runs import run


def test_what_nothing_could_read_is_asked_anew(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    bad = UnicodeDecodeError("utf-8", b"\xff", 0, 1, "invalid start byte")
    answers: Iterator[str | Exception] = iter([bad, "\udcff", "9" * 5000, "a\0b", " 2 "])

    def prompt(*_: object, **__: object) -> str:
        answer = next(answers)
        if not isinstance(answer, str):
            raise answer
        return answer

    monkeypatch.setattr(typer, "prompt", prompt)
    assert typed("Which") == "2"
    said = capsys.readouterr().out
    assert [said.count(words) for words in ("no UTF-8", "100 digits", "zero byte")] == [2, 1, 1]


@pytest.mark.parametrize(
    ("said", "number"),
    [
        ("1", 1),
        ("03", 3),
        ("0", 0),
        ("00", 0),
        ("4", 0),
        ("9" * 5000, 0),
        ("٣", 0),
        ("²", 0),
        ("-1", 0),
    ],
)
def test_a_choice_is_named_by_its_number(said: str, number: int) -> None:
    assert number_typed(said, 3) == number


@pytest.mark.parametrize("said", ["1_0", "1e1", "0", "11"])
def test_a_number_of_what_is_shown_is_digits_alone(said: str) -> None:
    assert "--show-best" in run("shot", "balance", "5BB", "--show-best", said, expect=2).stderr
