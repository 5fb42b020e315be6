"""A recipe as a form: begun from any, its rows changed and moved, faults by field, notes kept, written."""

import tomllib
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

import pytest

from tacklebox.datafiles import shipped_folder
from tacklebox.desk import Desk, recipe_forms, recipe_texts, recipes, tying
from tacklebox.desk.own_files import FieldFaultsError
from tacklebox.desk.recipe_forms import RecipeForm
from tacklebox.desk.recipe_rows import FormRow, fields_of, moved, names_in, put_back, row_at
from tacklebox.errors import AskedWronglyError, BenchError
from tests.rigs.boxes import make_box

CANAL, PATERNOSTER = "pole-canal-shot", "feeder-running-paternoster"


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    make_box(tmp_path / "box").engine.dispose()
    return Desk(tmp_path / "box")


def shipped(recipe: str) -> str:
    return (shipped_folder("recipes") / f"{recipe}.toml").read_text(encoding="utf-8")


def own(desk: Desk, recipe: str) -> str:
    return (desk.box.recipes / f"{recipe}.toml").read_text(encoding="utf-8")


def changed(said: RecipeForm, field: str, words: str) -> RecipeForm:
    """The form with something else typed into a field: "part 3.diameter", "branch 1.part 2.mass"."""
    head, _, key = field.partition(".")
    if " " not in head:
        return replace(said, values={**said.values, field: words})
    below, _, key = key.partition(".") if key.startswith("part ") else ("", "", key)
    kind, number = head.split()
    rows = list(said.rows[kind])
    row = rows[int(number) - 1]
    if below:
        parts = list(row.parts)
        part = parts[int(below.split()[1]) - 1]
        parts[int(below.split()[1]) - 1] = typed(part, {key: words})
        row = replace(row, parts=tuple(parts))
    else:
        row = typed(row, {key: words})
    rows[int(number) - 1] = row
    return replace(said, rows={**said.rows, kind: tuple(rows)})


def typed(row: FormRow, words: Mapping[str, str]) -> FormRow:
    return replace(row, values={**row.values, **words})


def test_any_recipe_can_be_begun_from_and_is_good_with_nothing_changed(desk: Desk) -> None:
    for name in desk.recipes.names()[::5]:
        said = recipe_forms.form(desk, name)
        assert (said.recipe, said.like) == ("", name)
        stem = recipe_forms.write(desk, said)
        lines = zip(shipped(name).splitlines(), own(desk, stem).splitlines(), strict=True)
        assert [now for was, now in lines if was != now] == [f'name = "{said["name"]}"']
    for makes in (recipe_forms.RIG, recipe_forms.HOOKLENGTH):
        said = changed(recipe_forms.form(desk, makes=makes), "name", f"From nothing, a {makes}")
        assert recipe_forms.look(desk, said).faults == {}


def test_a_shipped_one_gets_a_name_unasked_and_ones_own_is_written_over(desk: Desk) -> None:
    first = recipe_forms.write(desk, recipe_forms.form(desk, CANAL))
    second = recipe_forms.write(desk, changed(recipe_forms.form(desk, CANAL), "for", "gudgeon"))
    assert (first, second) == ("canal-pole-shot-my-own", "canal-pole-shot-my-own-2")
    assert recipes.show(desk, CANAL).own is False
    said = recipe_forms.form(desk, first)
    assert said.recipe == first
    assert recipe_forms.write(desk, changed(said, "for", "bleak")) == first
    assert recipes.show(desk, first).purpose == "bleak"
    again = recipe_forms.form(desk, like=first)
    assert (again.recipe, again["name"]) == ("", "Canal pole, shot, my own, my own")


def test_the_same_form_sent_twice_is_one_file(desk: Desk) -> None:
    said = recipe_forms.form(desk, CANAL)
    assert recipe_forms.write(desk, said) == recipe_forms.write(desk, said)
    assert len(list(desk.box.recipes.glob("*.toml"))) == 1


def test_figures_stay_in_his_own_words_and_notes_where_they_belong(desk: Desk) -> None:
    said = changed(recipe_forms.form(desk, PATERNOSTER), "part 1.diameter", "0.22 mm")
    said = changed(said, "part 1.strain", "at least 6 lb")
    said = changed(said, "branch 1.part 1.length", "6 in")
    text = own(desk, recipe_forms.write(desk, said))
    assert 'diameter = "0.22 mm"\nstrain = "at least 6 lb"\n' in text
    assert 'length = "6 in"' in text
    assert [n for n in shipped(PATERNOSTER).splitlines() if "#" in n and n not in text] == []


def test_rows_move_are_added_and_taken_away(desk: Desk) -> None:
    said = recipe_forms.form(desk, CANAL)
    rows, at = moved(said.rows, "add part")
    assert at == "part 4"  # above the hooklength, for nothing goes below that
    assert rows["part"][-1]["is"] == "hooklength"
    rows, at = moved(rows, "up shot 2")
    assert at == "shot 1"
    assert moved(moved(rows, "to-2 shot 1")[0], "to-1 shot 2")[0] == rows
    rows, _ = moved(rows, "out part 2")
    said = changed(replace(said, rows=rows), "part 3.is", "swivel")
    recipe = desk.recipes.load(recipe_forms.write(desk, said))
    assert [part.is_ for part in recipe.part] == ["elastic", "line", "swivel", "hooklength"]
    assert [group.place for group in recipe.shot] == ["droppers", "bulk"]
    for nothing in (
        "up part 1",
        "down part 4",
        "out part 9",
        "add boat",
        "up",
        "out branch 1.part 1",
        "to part 1",
        "to-x part 1",
        "up-2 part 1",
    ):
        assert moved(said.rows, nothing)[0] == said.rows


@pytest.mark.parametrize("place", ["choose 1", "part 2", "along 1", "branch 1", "branch 1.part 2"])
def test_what_was_taken_away_is_put_back(desk: Desk, place: str) -> None:
    rows = recipe_forms.form(desk, PATERNOSTER).rows
    gone = row_at(rows, place)
    assert gone is not None
    without, _ = moved(rows, f"out {place}")
    assert without != rows
    assert put_back(without, place, gone) == rows
    for nowhere in ("part 99", "boat 1", "part", "branch 9.part 1"):
        assert put_back(rows, nowhere, gone) == rows


def test_a_row_that_comes_twice_is_two_tables_with_the_notes_of_one(desk: Desk) -> None:
    said = recipe_forms.form(desk, PATERNOSTER)
    twice = put_back(said.rows, "along 2", said.rows["along"][0])
    twice = put_back(twice, "branch 1", said.rows["branch"][0])
    said = changed(replace(said, rows=twice), "along 2.name", "second link")
    said = changed(changed(said, "branch 2.name", "second"), "branch 2.part 1.name", "second line")
    said = changed(said, "branch 2.part 2.name", "second feeder")
    text = own(desk, recipe_forms.write(desk, said))
    recipe = desk.recipes.load("running-paternoster-feeder-my-own")
    assert [thing.name for thing in recipe.along][:2] == ["running link", "second link"]
    assert [branch.part[1].name for branch in recipe.branch] == ["feeder", "second feeder"]
    notes = [line for line in shipped(PATERNOSTER).splitlines() if "#" in line]
    assert [line for line in text.splitlines() if "#" in line] == notes


def test_a_branch_is_made_and_its_parts_moved(desk: Desk) -> None:
    said = recipe_forms.form(desk, PATERNOSTER)
    rows, at = moved(said.rows, "add branch 1.part")
    assert at == "branch 1.part 3"
    rows, _ = moved(rows, "up branch 1.part 3")
    said = changed(replace(said, rows=rows), "branch 1.part 2.is", "snap link")
    text = own(desk, recipe_forms.write(desk, said))
    branch = tomllib.loads(text)["branch"][0]
    assert [part["is"] for part in branch["part"]] == ["line", "snap link", "feeder"]
    assert branch["part"][1]["name"] == "snap link"


def test_a_part_without_a_name_is_called_what_it_is(desk: Desk) -> None:
    said = recipe_forms.form(desk, CANAL)
    rows, _ = moved(said.rows, "add along")
    said = replace(said, rows=rows)
    for number in (1, 2):
        said = changed(said, f"along {number}.name", "")
    recipe = desk.recipes.load(recipe_forms.write(desk, said))
    assert [thing.name for thing in recipe.along] == ["float", "bead"]


def test_what_a_row_asks_follows_from_what_it_is(desk: Desk) -> None:
    said = recipe_forms.form(desk, CANAL)
    names = names_in(said.rows)
    asked = {f.key: f for f in fields_of("part", FormRow({"is": "line"}), names)}
    assert {"diameter", "strain", "material", "length", "top", "bottom"} <= set(asked)
    assert "double overhand loop" in asked["bottom"].known
    assert asked["material"].known == ("nylon", "fluorocarbon", "braid")
    assert asked["length"].known == ("depth",)
    assert "top" not in {f.key for f in fields_of("part", FormRow({"is": "swivel"}), names)}
    asked = {f.key: f for f in fields_of("along", FormRow({"is": "float"}), names)}
    assert "pole" in asked["shape"].known
    assert asked["capacity"].chosen == ("float",)
    assert asked["on"].known == ("rig line",)
    asked = {f.key: f for f in fields_of("shot", FormRow({"place": "spread"}), names)}
    assert {"of.4×10", "of.4×14", "from", "to"} <= set(asked)
    assert "at" not in asked


@pytest.mark.parametrize(
    ("recipe", "field", "words", "at"),
    [
        (CANAL, "name", "", "name"),
        (CANAL, "method", "boat", "method"),
        (CANAL, "fished", "somewhere", "fished"),
        (CANAL, "hooklengths", "no-such", "hooklengths"),
        (PATERNOSTER, "hooklengths", "", "hooklengths"),
        (CANAL, "winder.length", "long", "winder.length"),
        (CANAL, "choose 1.usual", "deep", "choose 1.usual"),
        (CANAL, "choose 1.usual", "9 m", "choose 1.usual"),
        (CANAL, "choose 1.name", "The depth", "choose 1.name"),
        (CANAL, "choose 2.name", "depth", "choose 2.name"),
        (CANAL, "choose 2.usual", "4×99", "choose 2.usual"),
        (CANAL, "part 3.diameter", "thin", "part 3.diameter"),
        (CANAL, "part 3.material", "nilon", "part 3.material"),
        (CANAL, "part 3.length", "deep + 50 cm", "part 3.length"),
        (CANAL, "part 3.length", "", "part 3.length"),
        (CANAL, "part 3.bottom", "", "part 3.bottom"),
        (CANAL, "part 3.top", "granny", "part 3.top"),
        (CANAL, "part 3.loop", "wide", "part 3.loop"),
        (CANAL, "part 4.is", "swivel", "part"),
        (CANAL, "along 1.name", "rig line", "along 1.name"),
        (CANAL, "along 1.on", "no line", "along 1.on"),
        (CANAL, "along 1.at", "9 m", "along 1.at"),
        (CANAL, "along 1.held", "by hand", "along 1.held"),
        (CANAL, "along 1.held_by", "string", "along 1.held_by"),
        (CANAL, "along 1.capacity", "4×99", "along 1.capacity"),
        (CANAL, "along 1.count", "two", "along 1.count"),
        (CANAL, "shot 1.of", "AAA", "shot 1.of"),
        (CANAL, "shot 1.of.4×12", "2 No 88", "shot 1.of"),
        (CANAL, "shot 1.at", "5 m", "shot 1.at"),
        (CANAL, "shot 2.apart", "", "shot 2.apart"),
        (PATERNOSTER, "branch 1.from", "nowhere", "branch 1.from"),
        (PATERNOSTER, "branch 1.part 2.mass", "heavy", "branch 1.part 2.mass"),
        (PATERNOSTER, "branch 1.part 1.bottom", "", "branch 1.part 1.bottom"),
        (PATERNOSTER, "along 1.bore", "wide", "along 1.bore"),
    ],
)
def test_each_fault_stands_at_its_field_and_nothing_is_written(
    desk: Desk, recipe: str, field: str, words: str, at: str
) -> None:
    said = changed(recipe_forms.form(desk, recipe), field, words)
    seen = recipe_forms.look(desk, said)
    assert set(seen.faults) == {at}
    assert seen.checked is None
    with pytest.raises(FieldFaultsError) as refused:
        recipe_forms.write(desk, said)
    assert set(refused.value.by_field) == {at}
    assert not list(desk.box.recipes.glob("*.toml"))


def test_several_faults_are_told_at_once(desk: Desk) -> None:
    said = changed(recipe_forms.form(desk, CANAL), "part 3.diameter", "thin")
    said = changed(changed(said, "choose 1.from", "shallow"), "along 1.count", "two")
    assert set(recipe_forms.look(desk, said).faults) == {
        "part 3.diameter", "choose 1.from", "along 1.count",
    }  # fmt: skip


def test_what_it_looks_like_and_what_the_checks_say_stands_beside_it(desk: Desk) -> None:
    said = recipe_forms.form(desk, CANAL)
    seen = recipe_forms.look(desk, said)
    assert seen.checked is not None
    assert seen.svg.startswith("<?xml")
    assert any("breaks first" in judgement.about for judgement in seen.checked.judgements)
    strong = changed(said, "part 3.diameter", "0.30 mm")
    checked = recipe_forms.look(desk, strong).checked
    assert checked is not None
    assert checked.missing == 1
    shallow = recipe_forms.look(desk, changed(said, "choose 1.from", "20 cm"))
    assert shallow.faults == {}
    assert any(remark.startswith("With depth 20 cm") for remark in shallow.remarks)


def test_what_a_swivel_has_not_goes_when_a_line_becomes_one(desk: Desk) -> None:
    said = changed(recipe_forms.form(desk, "feeder-cage-run-ring"), "part 2.is", "swivel")
    said = changed(changed(said, "along 1.on", "main line"), "along 2.on", "main line")
    recipe = desk.recipes.load(recipe_forms.write(desk, said))
    assert (recipe.part[1].length, recipe.part[1].top, recipe.part[1].asks) == (None, None, {})


def test_a_file_that_was_changed_meanwhile_is_not_written_over(desk: Desk) -> None:
    name = recipe_forms.write(desk, recipe_forms.form(desk, CANAL))
    said = recipe_forms.form(desk, name)
    recipe_forms.write(desk, changed(said, "for", "gudgeon"))
    for ask in (recipe_forms.write, recipe_forms.look):
        with pytest.raises(AskedWronglyError, match="changed elsewhere"):
            ask(desk, changed(said, "for", "bleak"))
    assert recipes.show(desk, name).purpose == "gudgeon"


def test_an_older_file_keeps_what_it_calls_things(desk: Desk) -> None:
    older = shipped(PATERNOSTER).replace("in_place =", "there =").replace("[[branch", "[[side")
    recipes.start(desk, "older")
    (desk.box.recipes / "older.toml").write_text(older, encoding="utf-8")
    said = recipe_forms.form(desk, "older")
    assert said.rows["part"][0]["in_place"] == "1"
    recipe_forms.write(desk, changed(said, "branch 1.part 2.mass", "40 g"))
    assert own(desk, "older") == older.replace('mass = "feeder"', 'mass = "40 g"')


ODD = """\
name = "Mine"
makes = "hooklength"
method = "float"
for = "roach  and  rudd"
notes = \"\"\"
Two
lines.
\"\"\"
[choose.hook]
usual = "18"
any_of = [
  "18",  # for maggot
  "16",
]
[[part]]
name = "line"
is = "line"
in_place = false  # not yet
diameter = "0.10  mm"
length = '15 cm'
top = "surgeons loop"
bottom = "spade knot"
[[part]]
name = "hook"
is = "Hook"
size = "hook"
"""


def test_what_nobody_touched_stays_to_the_letter(desk: Desk) -> None:
    recipes.start(desk, "mine", hooklength=True)
    (desk.box.recipes / "mine.toml").write_text(ODD, encoding="utf-8")
    said = recipe_forms.form(desk, "mine")
    assert recipe_forms.look(desk, said).faults == {}
    recipe_forms.write(desk, said)
    assert own(desk, "mine") == ODD
    recipe_forms.write(desk, changed(said, "part 1.length", "6 in"))
    assert own(desk, "mine") == ODD.replace("'15 cm'", '"6 in"')


def test_a_recipe_with_a_slip_is_put_right_in_its_form(desk: Desk) -> None:
    recipes.start(desk, "mine")
    file = desk.box.recipes / "mine.toml"
    file.write_text(file.read_text().replace('"0.11 to 0.13 mm"', '"thin"'), encoding="utf-8")
    said = recipe_forms.form(desk, "mine")
    assert set(recipe_forms.look(desk, said).faults) == {"part 1.diameter"}
    recipe_forms.write(desk, changed(said, "part 1.diameter", "0.12 mm"))
    assert recipes.listed(desk).faulty == ()
    file.write_text("part = 3\n", encoding="utf-8")
    with pytest.raises(BenchError, match="list"):
        recipe_forms.form(desk, "mine")
    assert recipes.listed(desk).faulty == ("mine",)


def test_made_in_the_form_it_is_tied(desk: Desk) -> None:
    said = changed(recipe_forms.form(desk, CANAL), "choose 1.usual", "1.5 m")
    done = tying.tie(desk, recipe_forms.write(desk, said), {})
    assert done.name == "Canal pole, shot, my own"


@pytest.mark.parametrize(
    ("written", "instead", "line"),
    [
        ('name = "Canal', 'nam = "Canal', "nam ="),
        ('diameter = "0.10', 'diameter = "thin', "diameter ="),
        ('length = "depth', 'length = "deep', "length ="),
        ('at = "20 cm"', 'at = "20 cm', "at ="),
        ("[winder]", "[winder", "[winder"),
        ('"hooklength-fine"', '"no-such"', "hooklengths"),
    ],
)
def test_a_slip_in_the_text_is_told_at_its_line(
    desk: Desk, written: str, instead: str, line: str
) -> None:
    asked = recipe_texts.text_of(desk, CANAL)
    text = asked.text.replace(written, instead, 1)
    with pytest.raises(recipe_texts.TextFaultsError) as refused:
        recipe_texts.write_text(desk, text)
    lines = [text.splitlines()[fault.line - 1] for fault in refused.value.faults]
    assert any(each.startswith(line) for each in lines)
    assert recipe_texts.faults_of(desk, text) == refused.value.faults
    assert not list(desk.box.recipes.glob("*.toml"))


def test_a_text_that_could_not_be_read_again_is_not_written(desk: Desk) -> None:
    text = recipe_texts.text_of(desk, CANAL).text
    with pytest.raises(AskedWronglyError, match="64 kB"):
        recipe_texts.write_text(desk, text + "# more\n" * 10_000)
    assert not list(desk.box.recipes.glob("*.toml"))


def test_the_text_is_written_and_not_over_what_changed(desk: Desk) -> None:
    asked = recipe_texts.text_of(desk, CANAL)
    name = recipe_texts.write_text(desk, asked.text.replace("\n", "\r\n"))
    assert own(desk, name) == asked.text
    mine = recipe_texts.text_of(desk, name)
    text = mine.text.replace("1.2 m", "1.3 m")
    assert recipe_texts.write_text(desk, text, name, version=mine.version) == name
    with pytest.raises(AskedWronglyError, match="changed elsewhere"):
        recipe_texts.write_text(desk, text, name, version=mine.version)
