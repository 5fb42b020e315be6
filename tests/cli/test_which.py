"""Words that fit several things he has: asked at a terminal, refused with them elsewhere."""

import io
import sys
from pathlib import Path
from unittest.mock import patch

import pytest

from tacklebox.cli.main import main
from tacklebox.cli.match_walk import _read
from tacklebox.cli.which import say_which
from tacklebox.desk import Desk, adding, reels, stock
from tacklebox.errors import ManyFaultsError, SeveralFitError, ToConfirmError


class Keys(io.StringIO):
    """What is typed at a terminal."""

    def isatty(self) -> bool:
        return True


@pytest.fixture
def desk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Desk:
    monkeypatch.setenv("TACKLEBOX_BOX", str(tmp_path / "box"))
    made = Desk(tmp_path / "box")
    for words in ("hook 18 barbless spade", "hook 18 eyed", "0.14 line", "0.16 line"):
        adding.add(made, words)
    return made


def typed(keys: str, *words: str) -> int:
    """The command at a terminal where the keys are pressed one after the other."""
    with patch.object(sys, "stdin", Keys("".join(f"{key}\n" for key in keys))):
        return main(words)


def on_hand(desk: Desk, number: int) -> str:
    return str(stock.show(desk, str(number)).item.on_hand)


def test_which_item_is_asked_and_the_command_goes_on(
    desk: Desk, capsys: pytest.CaptureFixture[str]
) -> None:
    assert typed("2", "stock", "buy", "18 hooks", "--packs", "3") == 0
    assert (on_hand(desk, 1), on_hand(desk, 2)) == ("10", "40")
    shown = capsys.readouterr().out
    assert '"18 hooks" fits 2 items.' in shown
    assert "  2  hook 18 eyed" in shown


def test_none_of_them_is_the_refusal(desk: Desk, capsys: pytest.CaptureFixture[str]) -> None:
    assert typed("0", "stock", "take", "18 hooks", "2") == 2
    assert "1 hook 18 barbless spade; 2 hook 18 eyed" in " ".join(capsys.readouterr().err.split())
    assert on_hand(desk, 1) == "10"


def test_where_nobody_can_answer_it_is_refused_with_them(
    desk: Desk, capsys: pytest.CaptureFixture[str]
) -> None:
    with patch.object(sys, "stdin", io.StringIO("2\n")):
        assert main(("stock", "buy", "18 hooks")) == 2
    assert typed("2", "stock", "show", "18 hooks", "--json") == 2
    assert capsys.readouterr().err.count("2 hook 18 eyed") == 2
    assert on_hand(desk, 2) == "10"


def test_what_stands_beside_an_amount_is_asked_too(desk: Desk) -> None:
    reels.add(desk, ["float reel"])
    assert typed("1", "reels", "load", "float reel", "line", "50 m") == 0
    assert on_hand(desk, 3) == "50 m"
    assert (
        typed("2", "reels", "load", "float reel", "8 line", "50 m", "--already", "--instead") == 0
    )
    (row,) = reels.listed(desk)
    assert row.item is not None
    assert row.item.name == "nylon 8 lb"


def test_of_several_faults_each_is_asked_where_all_can_be() -> None:
    lost = ["match", "debrief", "canal", "--lost", "18 to 0.10=3", "--lost", "20 to 0.08=1"]
    asked = [
        SeveralFitError("fits 2", said, [("7", "6 in"), ("8", "4 in")], field="lost")
        for said in ("18 to 0.10", "20 to 0.08")
    ]
    with patch.object(sys, "stdin", Keys("2\n")):
        said = say_which(lost, ManyFaultsError("the debrief:", asked))
    assert said == [*lost[:4], "8=3", *lost[5:]]
    with patch.object(sys, "stdin", Keys("2\n")):
        assert say_which(lost, ManyFaultsError("the debrief:", [asked[0], "no peg"])) is None
        assert say_which([*lost, "18 to 0.10"], asked[0]) is None  # which of the two is not clear


def test_a_question_of_the_debrief_goes_on_with_what_was_chosen() -> None:
    def read(said: str) -> str:
        if "bead" in said:
            raise SeveralFitError("fits 2", "bead", [("7", "bead 6 mm"), ("8", "bead 8 mm")])
        return said

    with patch.object(sys, "stdin", Keys("2\n")):
        assert _read("bead=2", read) == "8=2"
    with patch.object(sys, "stdin", Keys("0\n")), pytest.raises(SeveralFitError):
        _read("bead=2", read)


def test_what_is_likely_a_slip_is_confirmed() -> None:
    error = ToConfirmError("tied before its hooks came.", "entered_late")
    for key, said in (("y", ["tie", "fine", "--entered-late"]), ("n", None)):
        with patch.object(sys, "stdin", Keys(f"{key}\n")):
            assert say_which(["tie", "fine"], error) == said
    assert say_which(["tie", "fine"], error.in_field("on")) is None  # nobody is there to ask
