"""Looked at before it is put in: words, lists; what an item serves; anything found; what is set."""

from pathlib import Path

from tests.cli.runs import tacklebox

LIST = "item,amount\nhook 18 barbless spade,20\nnylon 0.12 mm 3.5 lb,50 m\n"


def test_words_and_lists_are_looked_at(tmp_path: Path) -> None:
    box, file = tmp_path / "box", tmp_path / "list.csv"
    assert tacklebox("stock", "read", "nylon 0.14 4lb", box=box).stdout == (
        "nylon 0.14 mm 4 lb; pack assumed, 100 m\n"
    )
    asked = tacklebox("stock", "read", "3AA", "waggler", box=box).stdout
    assert "several ways" in asked
    assert "\n- waggler 3AAA straight\n" in asked
    file.write_text(LIST, "utf-8")
    good = tacklebox("stock", "look", str(file), box=box)
    assert (good.returncode, "2 rows, all of them read" in good.stdout) == (0, True)
    file.write_text(LIST + "hokk 99,1\n", "utf-8")
    bad = tacklebox("stock", "look", str(file), box=box)
    assert (bad.returncode, "hokk" in bad.stdout) == (1, True)
    assert "[]" in tacklebox("stock", "list", "--json", box=box).stdout


def test_an_item_tells_what_it_serves_and_is_found(tmp_path: Path) -> None:
    box = tmp_path / "box"
    tacklebox("stock", "add", "nylon 0.12 mm 3.5 lb 50 m", "--place", "drawer 1", box=box)
    assert "pole-canal-shot" in tacklebox("stock", "serves", "1", box=box).stdout
    assert "nylon 0.12" in tacklebox("find", "nylon", box=box).stdout
    assert "Nothing is called so." in tacklebox("find", "teapot", box=box).stdout
    assert "nylon" in tacklebox("stock", "list", "--place", "drawer 1", box=box).stdout


def test_settings_are_shown_set_and_refused(tmp_path: Path) -> None:
    box, stick = tmp_path / "box", tmp_path / "stick"
    stick.mkdir()
    assert "no folder is set" in tacklebox("settings", box=box).stdout
    none = tacklebox("copy", box=box)
    assert (none.returncode, "`tacklebox settings --copies" in none.stderr) == (
        2,
        True,
    )
    tacklebox("settings", "--copies", str(stick), box=box)
    assert f"Copied to {stick}" in tacklebox("copy", box=box).stdout
    wrong = tacklebox("settings", "--sound-from", "120", box=box)
    assert (wrong.returncode, "--sound-from" in wrong.stderr) == (2, True)
