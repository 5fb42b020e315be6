"""``reels``, ``rigs add`` and the depth of a rig on the command line, as the angler sees them."""

import json
from pathlib import Path

from tests.cli.runs import run


def test_reels_and_a_tray_on_the_command_line(tmp_path: Path) -> None:
    box = tmp_path / "box"
    run("stock", "add", "nylon 0.22 mm 6 lb 150 m", box=box)
    assert run("reels", "list", box=box).stdout.startswith("There is no reel")
    run("reels", "add", "feeder reel", "bomb reel", box=box)
    more = ("--backing", "old 0.25", "--on", "2020-03-01")
    loaded = run("reels", "load", "feeder-reel", "nylon 0.22", "120 m", *more, box=box)
    assert loaded.stdout.splitlines() == [
        "feeder reel: 120 m of nylon 0.22 mm 6 lb, since 2020-03-01.",
        "nylon 0.22 mm 6 lb: 30 m on hand.",
    ]
    run("reels", "cut", "feeder reel", "20 m", box=box)
    listed = run("reels", "list", box=box).stdout
    assert "1 nylon 0.22 mm 6 lb, over old 0.25  100 m     2020-03-01" in listed
    assert "nothing" in listed
    refused = run("reels", "load", "bomb reel", "1", "40 m", box=box, expect=1)
    assert refused.stderr.startswith("AMOUNT: 40 m of nylon 0.22 mm 6 lb cannot be loaded")
    checked = run("check", "feeder-cage-run-ring", box=box).stdout
    assert "1 nylon 0.22 mm 6 lb, on feeder reel" in checked
    assert "none noted" in run("check", "pole-canal-shot", box=box).stdout  # its elastic

    run("reels", "age", "--reel", "a month", box=box)
    old = json.loads(run("low", "--json", box=box).stdout)["past_age"]
    assert [(one["reel"], one["limit"]["age"]) for one in old] == [("feeder reel", "a month")]
    assert "Past its age:" in run("low", box=box).stdout

    added = run("rigs", "add", "pole-canal-shot=2", "--plumbed", "5 ft", "--over", "2 in", box=box)
    assert added.stdout.startswith("Added 2 × Canal pole, shot: A01T, A02R")
    tray = run("rigs", "list", box=box).stdout
    assert "5 ft, 2 in over depth" in " ".join(tray.split())
    assert max(map(len, tray.splitlines())) <= 80
    assert "nothing was taken" in run("rigs", "strip", "A01T", box=box).stdout
    undone = run("undo", box=box).stdout
    assert "Now ready: A01T." in undone
