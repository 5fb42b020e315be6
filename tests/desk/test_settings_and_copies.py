"""What is set for the box, copies to the folder that is set, one field that finds anything."""

import os
from datetime import date
from pathlib import Path

import pytest

from tacklebox.boxfolder import SET_ASIDE
from tacklebox.desk import (
    Desk,
    adding,
    care,
    changes,
    checking,
    copies,
    finding,
    recipes,
    rigs,
    settings,
    stock,
)  # fmt: skip
from tacklebox.errors import AskedWronglyError, CannotBeDoneError
from tests.desk.boxes import desk_at, make_match_box


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    make_match_box(tmp_path / "box")
    return desk_at(tmp_path / "box")


def test_settings_are_kept_refused_and_undone(desk: Desk, tmp_path: Path) -> None:
    assert settings.settings(desk) == settings.Settings()
    folder = tmp_path / "stick"
    folder.mkdir()
    said = {"copies": str(folder), "paper": "a4-65", "sound_from": "99.9"}
    assert settings.set_them(desk, said).copies == str(folder)
    for name, words in (
        ("copies", "/no/such/place"), ("copies", "stick"), ("copies", str(desk.box.folder)),
        ("paper", "a4-66"),
        ("sound_from", "120"), ("doubtful_from", "99.95"), ("colour", "green"),
    ):  # fmt: skip
        with pytest.raises(AskedWronglyError) as refused:
            settings.set_them(desk, {name: words})
        assert refused.value.field == ("name" if name == "colour" else name)
    assert settings.settings(desk).sound_from == "99.9"
    care.undo(desk)
    assert settings.settings(desk) == settings.Settings()


def test_the_units_that_are_set_are_told_first_and_what_he_said_stays(desk: Desk) -> None:
    for words, units in (("lb and oz", "imperial"), ("feet", "imperial"), ("kg, g, m", "metric"),
                         ("Metric", "metric"), ("", "")):  # fmt: skip
        assert settings.set_them(desk, {"units": words}).units == units
    for wrong in ("stones", "lb and kg", "12"):
        with pytest.raises(AskedWronglyError) as refused:
            settings.set_them(desk, {"units": wrong})
        assert refused.value.field == "units"
    said = [row.name for row in stock.listed(desk).items]

    def told() -> tuple[str, str, str, str]:
        with desk.in_his_units():
            (pull, *_) = checking.check(desk, "pole-canal-shot", {}).pulls
            line = next(r for r in stock.listed(desk).items if r.on_hand.unit == "mm")
            drawn = recipes.draw(desk, "pole-canal-shot", {}).svg
            assert [row.name for row in stock.listed(desk).items] == said
        weakest = pull.breaks[0]
        return weakest.holds[-2:], weakest.give_or_take[-2:], line.on_hand.words[-2:].strip(), drawn

    assert told()[:3] == ("kg", "kg", "m")
    settings.set_them(desk, {"units": "imperial"})
    *units_, drawn = told()
    assert units_ == ["lb", "lb", "yd"]
    assert " in<" in drawn
    assert " cm<" not in drawn
    (pull, *_) = checking.check(desk, "pole-canal-shot", {}).pulls
    assert pull.breaks[0].holds.endswith("kg")  # who does not ask for his units gets the usual ones


def test_the_chance_that_is_set_is_what_a_rig_is_judged_by(desk: Desk) -> None:
    recipe = "hooklength-fine"
    usual = {j.about: j.outcome for j in checking.check(desk, recipe, {}).judgements}
    rig = checking.check(desk, "pole-canal-shot", {})
    settings.set_them(desk, {"sound_from": "99.999999", "doubtful_from": "50"})
    strict = checking.check(desk, "pole-canal-shot", {})
    assert rig.outcome == "sound"
    assert strict.outcome == "doubtful"
    assert {j.about: j.outcome for j in checking.check(desk, recipe, {}).judgements} == usual
    assert checking.check(desk, "pole-canal-shot", {}, sound_from="90").outcome == "sound"


def test_a_copy_goes_to_the_folder_that_is_set(desk: Desk, tmp_path: Path) -> None:
    with pytest.raises(AskedWronglyError, match="no folder is set"):
        copies.copy_there(desk)
    folder = tmp_path / "stick"
    folder.mkdir()
    settings.set_them(desk, {"copies": str(folder)})
    assert copies.elsewhere(desk) == copies.CopiesElsewhere(
        str(folder), None, is_there=True, same_drive=True
    )
    first, second = copies.copy_there(desk).copy, copies.copy_there(desk).copy
    assert (first.name, second.name) == tuple(f"tacklebox-{desk.today()}-{n}" for n in (1, 2))
    own = sorted(path.name for path in (desk.box.folder / "matches").glob("*.toml"))
    assert sorted(path.name for path in (first / "matches").glob("*.toml")) == own != []
    assert copies.elsewhere(desk).last == desk.today()
    assert {one.path.parent for one in copies.to_put_back(desk)} == {first, second}
    before = adding.add(desk, "hook 24 barbless spade pack 10").item.number
    care.restore(desk, second / copies.DATABASE, lambda newer: bool(newer))
    with pytest.raises(AskedWronglyError):
        rigs.show(desk, str(before))
    folder.rename(tmp_path / "unplugged")
    assert copies.elsewhere(desk) == copies.CopiesElsewhere(
        str(folder), desk.today(), is_there=False, same_drive=False
    )
    with pytest.raises(CannotBeDoneError, match="plugged in"):
        copies.copy_there(desk)
    assert settings.set_them(desk, {"paper": "a4-65"}).copies == str(folder)
    folder.write_text("no folder")
    assert not copies.elsewhere(desk).is_there


def test_what_is_none_of_his_files_is_not_copied_and_told(desk: Desk, tmp_path: Path) -> None:
    stick, own = tmp_path / "stick", desk.box.folder / "recipes"
    for name in ("tacklebox-2026-99-99-1", ".0123456789ab.half"):
        (stick / name).mkdir(parents=True)
        os.utime(stick / name, (0, 0))
    settings.set_them(desk, {"copies": str(stick)})
    assert copies.elsewhere(desk).last is None
    (own / "mine.toml").write_text('name = "Mine"\n')
    (own / "folder.toml").mkdir()
    os.mkfifo(own / "pipe.toml")
    for name, to in (("loop", "loop.toml"), ("device", "/dev/zero"), ("outside", __file__)):
        (own / f"{name}.toml").symlink_to(to)
    (desk.box.folder / SET_ASIDE).mkdir(exist_ok=True)
    os.mkfifo(desk.box.folder / SET_ASIDE / copies.NOTED)  # what is noted there is not waited for
    assert changes.state(desk) == changes.state(desk)  # nor is a pipe among the files
    made = copies.copy_there(desk)
    odd = [f"recipes/{name}.toml" for name in ("device", "folder", "loop", "outside", "pipe")]
    assert [one.where for one in made.not_saved] == odd
    assert "mine.toml" in {path.name for path in (made.copy / "recipes").iterdir()}
    left = {path.name for path in stick.iterdir()}
    assert left == {"tacklebox-2026-99-99-1", made.copy.name}


@pytest.mark.parametrize("said", ["~nobody-of-that-name", "~nobody-of-that-name/copies"])
def test_the_home_of_nobody_is_no_folder(desk: Desk, said: str) -> None:
    for field, ask in (
        ("copies", lambda: settings.set_them(desk, {"copies": said})),
        ("box", lambda: stock.listed(Desk(Path(said)))),
        ("box", lambda: care.copy(Desk(Path(said)), Path("copy"))),
    ):
        with pytest.raises(AskedWronglyError, match="the home of nobody here") as caught:
            ask()
        assert caught.value.field == field


def test_the_mark_of_the_box_is_another_after_each_change(desk: Desk) -> None:
    marks = [changes.state(desk), changes.state(desk)]
    assert marks[0] == marks[1]
    file = next((desk.box.folder / "matches").glob("*.toml"))
    adding.add(desk, "hook 24 barbless spade pack 10")
    marks.append(changes.state(desk))
    file.write_text(file.read_text("utf-8") + "# a note\n", "utf-8")
    marks.append(changes.state(desk))
    file.unlink()
    marks.append(changes.state(desk))
    desk.today = lambda: date(2030, 1, 1)
    marks.append(changes.state(desk))
    assert len(set(marks)) == len(marks) - 1


@pytest.mark.parametrize(
    ("words", "sort", "key"),
    [
        ("ao1t", "rig", "A01T"), ("a 01t", "rig", "A01T"), ("A01K", "rig", "A01T"),
        ("canal shot", "recipe", "pole-canal-shot"), ("pond", "venue", "pond"),
        ("nylon 0.12", "item", ""),
        ("where did I put the 20s?", "item", ""), ("nylon point one two", "item", ""),
        ("canal poles", "recipe", "pole-canal-shot"), ("pelet waggler", "recipe", "waggler-pellet"),
    ],
)  # fmt: skip
def test_one_field_finds_anything(desk: Desk, words: str, sort: str, key: str) -> None:
    rigs.add(desk, {"pole-canal-shot": "1"}, {})
    found = [one for one in finding.find(desk, words).things if one.sort == sort]
    assert found
    assert key in ("", *(one.key for one in found))


def test_a_code_that_is_none_is_told_beside_the_nearest(desk: Desk) -> None:
    rigs.add(desk, {"pole-canal-shot": "1"}, {})
    said = {
        typed: [one.nearest_to for one in finding.find(desk, typed).things if one.sort == "rig"]
        for typed in ("A01T", "ao1-t", "A01K", " a01")
    }
    assert said == {"A01T": [""], "ao1-t": [""], "A01K": ["A01K"], " a01": ["a01"]}


def test_nothing_finds_nothing(desk: Desk) -> None:
    assert finding.find(desk, " ") == finding.Findings((), 0)
    assert finding.find(desk, "no such thing at all").things == ()
