"""``tacklebox phones``: those that were paired are listed by number, and shut out."""

from pathlib import Path

import pytest

from tacklebox.desk import Desk
from tacklebox.web.phones import paired_with
from tests.cli.runs import run


def test_paired_phones_are_listed_and_shut_out(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("platformdirs.user_state_path", lambda name: tmp_path / "state" / name)
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))  # for a process of its own
    box = tmp_path / "box"
    assert "No phone is paired" in run("phones", "list", box=box).stdout
    desk = Desk(box)
    paired = paired_with(desk.box.mark().box)
    desk.close()
    for session, name in (("a", "his"), ("b", "hers"), ("c", "hers")):
        paired.add(session, name)
    shown = run("phones", "list", "--json", box=box).stdout
    assert [line.strip() for line in shown.splitlines() if "name" in line] == [
        '"name": "his",', '"name": "hers",', '"name": "hers",',
    ]  # fmt: skip
    assert "hash" not in shown
    for wrong, what in (("teapot", "is no phone"), ("4", "is no phone"), ("hers", "are several")):
        assert what in run("phones", "shut-out", wrong, box=box, expect=2).stderr
    run("phones", "shut-out", "3", box=box)
    run("phones", "shut-out", "his", box=box)
    assert [paired.knows(session) for session in "abc"] == [False, True, False]
