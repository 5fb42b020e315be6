"""Notices of long work come through the desk's callback."""

from pathlib import Path

import pytest

from tacklebox.desk import Desk
from tacklebox.desk.notices import each_second


def test_they_come_each_second_past_the_first(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    clock = iter([0.0, 0.4, 0.9, 1.1, 1.1, 1.5, 2.2, 2.2])
    monkeypatch.setattr("tacklebox.desk.notices.time.monotonic", lambda: next(clock))
    said: list[str] = []
    notice = each_second(Desk(tmp_path / "box", notice=said.append), 9, "labels")
    for done in range(1, 6):
        notice(done)
    assert said == ["3 of 9 labels …", "5 of 9 labels …"]
