"""``match bank`` and ``match card``, a debrief from the record that comes home, ``match season``."""

import csv
import json
from datetime import date
from pathlib import Path

import pytest

from tacklebox.desk import Desk, debriefs
from tests.cli.runs import run
from tests.cli.terminal import typed
from tests.desk.water_box import DAY, make_water_box

BEEN = date(2026, 3, 29)
TAPPED = """1 | 2026-03-29 10:12:07 | fish | species roach | rig A01T | net silvers 1 | weighs 56.7 g
2 | 2026-03-29 10:14:00 | fish | weighs {weight}
3 | 2026-03-29 10:40:00 | lost | item {item}
4 | 2026-03-29 11:00:00 | change | rig A01T | says bulk lower
5 | 2026-03-29 12:00:00 | day | peg 14
end | 5
"""


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return make_water_box(tmp_path_factory.mktemp("made") / "box", BEEN)


def record(box: Path, to: Path, weight: str = "2 oz", **change: str) -> Path:
    """The record of the match as a file."""
    desk = Desk(box)
    item = debriefs.form(desk, "club").hooklengths[0].item
    head = f"TACKLEBOX RECORD 1\nrecord | {desk.box.mark().box}/club/2026-03-29\nmatch | club\n"
    desk.close()
    text = head + "rigs | A01T A02R\n" + TAPPED.format(item=item, weight=weight)
    for old, new in change.items():
        text = text.replace(old, new)
    to.write_text(text, encoding="utf-8")
    return to


def test_a_record_fills_the_debrief_and_is_never_taken_twice(box: Path, tmp_path: Path) -> None:
    file = str(record(box, tmp_path / "record.txt"))
    done = run(
        "match", "debrief", "club", "--from", file, "--weight", "4 lb", "--place", "2nd", box=box
    )
    assert "Nets: silvers 1 1 fish, 2 oz (56.7 g)" in done.stdout
    assert "2 back, 0 lost" in done.stdout
    shown = json.loads(run("match", "debrief", "club", "--show", "--json", box=box).stdout)
    assert (shown["peg"], shown["place"], shown["back"]) == ("14", 2, ["A01T", "A02R"])
    assert [one["amount"]["value"] for one in shown["tackle_lost"]] == [1]
    again = run("match", "debrief", "club", "--from", file, box=box, expect=2)
    assert "has this record already" in again.stderr
    assert "All in order" in run("audit", box=box).stdout


def test_a_line_that_cannot_be_is_refused_where_nobody_can_answer(
    box: Path, tmp_path: Path
) -> None:
    file = str(record(box, tmp_path / "record.txt", weight="-2 lb"))
    refused = run("match", "debrief", "club", "--from", file, box=box, expect=2)
    assert "line 6" in refused.stderr
    assert run("match", "debrief", "club", "--show", box=box, expect=2)


def test_a_line_that_cannot_be_is_asked_at_a_terminal(box: Path, tmp_path: Path) -> None:
    back = {"11:00:00 | change": "10:30:00 | change"}
    file = str(record(box, tmp_path / "record.txt", weight="-2 lb", **back))
    refused = run("match", "debrief", "club", "--from", file, box=box, expect=2).stderr
    assert "the clock went back here: 10:30 comes after 10:40" in " ".join(refused.split())
    right = "2 | 2026-03-29 10:14:00 | fish | weighs 2 lb"
    code, said = typed("match", "debrief", "club", "--from", file, box=box, answers=[right, "2"])
    assert code == 0, said
    assert "Line 6" in said
    shown = json.loads(run("match", "debrief", "club", "--show", "--json", box=box).stdout)
    assert "weighs 907.2 g" in shown["record"]
    assert "4 | 2026-03-29 11:30:00 | change" in shown["record"]


def test_a_clock_that_was_wrong_is_said_by_an_option(box: Path, tmp_path: Path) -> None:
    file = str(record(box, tmp_path / "record.txt", **{"2026-03-29 1": "2026-03-30 1"}))
    refused = run("match", "debrief", "club", "--from", file, box=box, expect=2)
    assert "-1 d" in refused.stderr
    assert "--clock" in refused.stderr
    run("match", "debrief", "club", "--from", file, "--clock", "-1 d", box=box)


@pytest.mark.parametrize(
    ("content", "said"),
    [(b"\xff\xfe\x00", "no text"), (b"", "no record"), (b"TACKLEBOX RECORD 9\n", "newer"),
     (b"TACKLEBOX RECORD 1\nrecord | x/club/2026-03-29\nmatch | club\n", "another box")],
)  # fmt: skip
def test_a_file_that_is_no_record_is_told(
    box: Path, tmp_path: Path, content: bytes, said: str
) -> None:
    file = tmp_path / "record.txt"
    file.write_bytes(content)
    assert said in run("match", "debrief", "club", "--from", str(file), box=box, expect=2).stderr
    nothing = run("match", "debrief", "club", "--from", str(tmp_path), box=box, expect=2)
    assert "folder" in nothing.stderr


def test_what_goes_to_the_water_is_of_a_match_to_come(box: Path, tmp_path: Path) -> None:
    for what, file in (("bank", "bank.html"), ("card", "card.pdf")):
        refused = run("match", what, "club", "--to", str(tmp_path / file), box=box, expect=2)
        assert "is past" in refused.stderr
        assert not (tmp_path / file).exists()


def test_the_season_is_a_table_and_a_file(box: Path, tmp_path: Path) -> None:
    assert "No match is debriefed yet" in run("match", "season", box=box).stdout
    file = str(record(box, tmp_path / "record.txt"))
    run("match", "debrief", "club", "--from", file, "--weight", "4 lb", box=box)
    said = run("match", "season", "--csv", str(tmp_path / "s.csv"), box=box).stdout
    assert "1 match; tackle lost" in " ".join(said.split())
    assert "too few to say" in " ".join(said.split())
    assert max(map(len, said.partition("Wrote")[0].splitlines())) <= 80
    (row,) = csv.DictReader((tmp_path / "s.csv").read_text(encoding="utf-8").splitlines())
    assert row["weight g"] == "1814"
    by_rig = json.loads(run("match", "season", "--by", "rig", "--json", box=box).stdout)
    assert by_rig["rows"][0]["fish"] == 1
    assert "moon" in run("match", "season", "--by", "moon", box=box, expect=2).stderr


def test_what_goes_to_the_water_is_written(tmp_path: Path) -> None:
    box = make_water_box(tmp_path / "soon", DAY.replace(year=2099))
    bank = run("match", "bank", "club", "--to", str(tmp_path / "bank.html"), box=box).stdout
    assert "2 ready rigs, 4 hooklengths" in " ".join(bank.split())
    card = json.loads(
        run("match", "card", "club", "--to", str(tmp_path / "c.pdf"), "--json", box=box).stdout
    )
    assert card["left_out"] == []
