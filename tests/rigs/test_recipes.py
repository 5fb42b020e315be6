"""Recipe files: the shipped ones, and every fault told with its key."""

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tacklebox.errors import AskedWronglyError, BenchError, ManyFaultsError
from tacklebox.rigs.recipes.file import Shelf, parse_recipe
from tacklebox.rigs.recipes.resolved import Resolved
from tacklebox.rigs.recipes.resolving import resolve
from tacklebox.rigs.recipes.starting import HOOKLENGTH, RIG, write_starting_file
from tacklebox.trade.knots import eaten_mm, knot_named
from tests.long.length import so_many

SHELF = Shelf()
RIGS = [name for name in SHELF.names() if SHELF.load(name).makes == "rig"]
HOOKLENGTHS = [name for name in SHELF.names() if SHELF.load(name).makes == "hooklength"]


def usual(name: str, **wishes: str) -> Resolved:
    recipe = SHELF.load(name)
    below = resolve(SHELF.load(recipe.hooklengths[0])) if recipe.hooklengths else None
    return resolve(recipe, wishes, below)


@pytest.mark.parametrize("name", RIGS + HOOKLENGTHS)
def test_each_can_be_used_with_every_choice_and_hooklength(name: str) -> None:
    recipe = SHELF.load(name)
    belows: list[Resolved | None] = [resolve(SHELF.load(h)) for h in recipe.hooklengths]
    belows = belows or [None]
    for below in belows:
        assert below is None or below.recipe.makes == "hooklength"
        for key, choice in recipe.choose.items():
            for value in (*choice.any_of, choice.low, choice.high):
                if value is not None:
                    assert resolve(recipe, {key: value}, below).needs


def test_a_5bb_waggler_is_balanced_by_the_usual_shot() -> None:
    """Common practice (no source): 2 AAA at the float, 5 No 8 and 2 No 10 down the line are 1.98 g."""
    resolved = usual("waggler-insert-bulk")
    assert {n.part: n.amount for n in resolved.shot_needs} == {
        "shot AAA": 2,
        "shot No 8": 5,
        "shot No 10": 2,
    }
    assert resolved.shot_mass_g == pytest.approx(1.98)


def test_a_paternoster_is_of_usual_lengths() -> None:
    """Common practice (no source): a link of 5 to 20 cm and a hooklength of 30 cm to 1.2 m; fixed,
    a link of 15 to 30 cm that is shorter than the hooklength."""
    fixed = usual("feeder-fixed-paternoster")
    assert fixed.hooklength is not None
    assert 150 <= fixed.branches[0].chain[0].length_mm <= min(300, fixed.hooklength.length_mm)
    resolved = usual("feeder-running-paternoster")
    assert 50 <= resolved.branches[0].chain[0].length_mm <= 200
    assert resolved.hooklength is not None
    assert 300 <= resolved.hooklength.length_mm <= 1200


def test_lengths_follow_the_depth_and_knots_are_cut_for() -> None:
    resolved = usual("pole-canal-shot", depth="1.5 m")
    (line,) = [s for s in resolved.chain if s.name == "rig line"]
    assert line.length_mm == pytest.approx(1500 + 500 - 150)
    assert line.low_mm == pytest.approx(150)
    loop = eaten_mm(knot_named("figure-of-eight loop"))
    assert line.cut_mm == pytest.approx(line.length_mm + 2 * loop)
    assert line.need.amount == round(line.cut_mm)
    (float_,) = resolved.along
    assert float_.at_mm == 1500
    bulk, droppers = resolved.shot
    assert bulk.positions_mm == (500.0, 500.0)
    assert droppers.positions_mm == (350.0, 200.0)


FAULTS = [
    ('name = "My pole rig"', "", '"name" is missing'),
    ('makes = "rig"', 'makes = "boat"', "'rig' or 'hooklength'"),
    ('method = "pole"', "method = 3", '"method"'),
    ('usual = "1.5 m"', "usual = 1.5", "text in quotes with its unit"),
    ("[choose.float]", "[chose.float]", '"chose" is no key of a recipe. Did you mean "choose"?'),
    ('is = "line"', 'is = "rope"', '"rope" is no kind of item'),
    ('material = "nylon"', 'material = "nilon"', '"nilon" is no line material'),
    ('diameter = "0.11 to 0.13 mm"', 'diametre = "0.11 mm"', 'Did you mean "diameter"?'),
    ('diameter = "0.11 to 0.13 mm"', 'diameter = "0.13 to 0.11 mm"', "runs backwards"),
    ('diameter = "0.11 to 0.13 mm"', "diameter = 0.11", "Write it in quotes"),
    ('top = "figure-of-eight loop"', 'top = "granny"', "no knot known here"),
    ('bottom = "figure-of-eight loop"', "", "tied with at the bottom"),
    ('length = "depth + 50 cm - hooklength"', 'length = "deep + 50 cm"', '"deep"'),
    ('length = "depth + 50 cm - hooklength"', 'length = "50"', "no unit"),
    ('length = "depth + 50 cm - hooklength"', "", "length is missing"),
    ('is = "hooklength"', 'is = "swivel"', "there is no hook"),
    ('on = "rig line"', 'on = "rig lime"', 'Did you mean "rig line"?'),
    ('at = "depth"', 'at = "9 m"', "is not on rig line"),
    ('at = "50 cm"', 'at = "4 m"', "past the float"),
    ('place = "bulk"', 'place = "bunch"', "'at the float', 'bulk', 'spread' or 'droppers'"),
    ('"4×14" = "5 No 8" }', '"4×14" = "5 No 88" }', "no shot size"),
    ('{ "4×12" = "2 No 8", "4×14" = "5 No 8" }', '{ "4×12" = "2 No 8" }', "no pattern is given"),
    ('apart = "15 cm"', "", "apart is missing"),
    ('length = "at least 13 cm"', 'girth = "13 cm"', '"girth" cannot be asked of a winder'),
    ('name = "float"', 'name = "rig line"', 'two parts are called "rig line"'),
]


@pytest.mark.parametrize(("written", "instead", "expected"), FAULTS)
def test_each_fault_is_told_with_its_key(written: str, instead: str, expected: str) -> None:
    assert written in RIG
    text = RIG.replace(written, instead, 1)
    below = resolve(SHELF.load("hooklength-fine"))
    with pytest.raises(AskedWronglyError) as error:
        resolve(parse_recipe(text, "my-rig"), {}, below)
    assert expected in str(error.value)
    assert "my-rig.toml" in str(error.value)


SAID = [
    ('diameter = "0.11 to 0.13 mm"', 'diameter = "0.11-0.13"', 'diameter = "0.11 to 0.13 mm"'),
    ('diameter = "0.11 to 0.13 mm"', 'strain = "4 lb or more"', 'strain = "at least 4 lb"'),
    ('diameter = "0.11 to 0.13 mm"', 'strain = "over 4 pound"', 'strain = "at least 4 lb"'),
    ('diameter = "0.11 to 0.13 mm"', 'strain = "up to 5lb"', 'strain = "at most 5 lb"'),
    (
        '"depth + 50 cm - hooklength"',
        '"Depth+50cm less hooklength"',
        '"depth + 50 cm - hooklength"',
    ),
    ('"depth + 50 cm - hooklength"', '"five feet minus hooklength"', '"5 ft - hooklength"'),
    ('at = "depth"', 'at = "at the depth"', 'at = "depth"'),
    ('at = "50 cm"', 'at = "half the depth"', 'at = "1/2 depth"'),
    ('"4×12" = "2 No 8"', '"4×12" = "2x8"', '"4×12" = "2 No 8"'),
    ('"4×12" = "2 No 8"', '"4×12" = "2 8s and a No 10"', '"4×12" = "2 No 8 + No 10"'),
    ('"4×12" = "2 No 8"', '"4×12" = "No 8 x 2"', '"4×12" = "2 No 8"'),
    ('"4×12" = "2 No 8"', '"4×12" = "0.4 g olivette"', '"4×12" = "olivette 0.4 g"'),
    ('"3 silicone tubes"', '"3 bits of silicone"', '"3 silicone tubes"'),
    ('"3 silicone tubes"', '"2 rubbers"', '"2 float rubbers"'),
]


@pytest.mark.parametrize(("written", "said", "plain"), SAID)
def test_it_may_be_written_as_it_is_said(written: str, said: str, plain: str) -> None:
    below = resolve(SHELF.load("hooklength-fine"))
    assert written in RIG
    one, other = (
        resolve(parse_recipe(RIG.replace(written, words, 1), "x"), {"float": "4×12"}, below)
        for words in (said, plain)
    )
    assert (one.chain[0].length_mm, one.along[0].at_mm) == pytest.approx(
        (other.chain[0].length_mm, other.along[0].at_mm)
    )
    assert one.shot == other.shot
    assert [n.amount for n in one.needs] == [n.amount for n in other.needs]
    assert [[w for _, _, w in n.ask.wanted] for n in one.needs] == [
        [w for _, _, w in n.ask.wanted] for n in other.needs
    ]


def test_an_older_spelling_of_a_key_means_the_same() -> None:
    _, text = SHELF.files.read("feeder-running-paternoster")
    older = text.replace("in_place =", "there =").replace("[[branch", "[[side")
    assert older.count("there") == 1
    assert older.count("[[side") == 3
    assert parse_recipe(older, "x") == parse_recipe(text, "x")


def test_all_faults_are_told_at_once() -> None:
    text = RIG.replace('"0.11 to 0.13 mm"', '"thin"').replace('at = "20 cm"', 'at = "20"')
    with pytest.raises(ManyFaultsError) as error:
        resolve(parse_recipe(text, "x"), {}, resolve(SHELF.load("hooklength-fine")))
    assert len(error.value.faults) == 2


def test_two_hooks_and_a_loop_of_parts() -> None:
    below = resolve(SHELF.load("hooklength-fine"))
    two = RIG.replace(
        "[winder]",
        '[[side]]\nname = "s"\nfrom = "rig line"\n[[side.part]]\nname = "h"\nis = "hook"\n[winder]',
    )
    with pytest.raises(AskedWronglyError, match="more than one hook"):
        resolve(parse_recipe(two, "x"), {}, below)
    loop = two.replace('from = "rig line"', 'from = "h"').replace(
        'is = "hook"\n', 'is = "swivel"\n'
    )
    with pytest.raises(AskedWronglyError, match="hangs from itself"):
        resolve(parse_recipe(loop, "x"), {}, below)


@pytest.mark.parametrize(
    ("wishes", "expected"),
    [
        ({"depth": "9 m"}, "From 80 cm to 3 m"),
        ({"depth": "deep"}, "no length"),
        ({"float": "4×18"}, "4×12, 4×14"),
        ({"weight": "3 g"}, "is not chosen"),
    ],
)
def test_choices_outside_what_is_offered(wishes: dict[str, str], expected: str) -> None:
    below = resolve(SHELF.load("hooklength-fine"))
    with pytest.raises(AskedWronglyError, match=expected):
        resolve(parse_recipe(RIG, "x"), wishes, below)


@pytest.mark.parametrize(
    ("said", "chosen"), [("3/8 oz", "10 g"), ("1 oz", "30 g"), ("21g", "20 g")]
)
def test_ounces_choose_what_is_offered_in_grams(said: str, chosen: str) -> None:
    recipe, below = SHELF.load("bomb-running"), resolve(SHELF.load("hooklength-feeder"))
    assert resolve(recipe, {"bomb": said}, below).chosen["bomb"] == chosen
    with pytest.raises(AskedWronglyError, match="Choose one of: 10 g, 20 g, 30 g"):
        resolve(recipe, {"bomb": "1/2 oz"}, below)


def test_own_recipes_win_and_starting_files_work(tmp_path: Path) -> None:
    shelf = Shelf(tmp_path)
    write_starting_file(tmp_path, "pole-canal-shot")
    assert shelf.load("pole-canal-shot").name == "My pole rig"
    write_starting_file(tmp_path, "mine", hooklength=True)
    assert resolve(shelf.load("mine")).length_mm == 200
    with pytest.raises(AskedWronglyError, match="already"):
        write_starting_file(tmp_path, "mine")
    assert (tmp_path / "mine.toml").read_text(encoding="utf-8") == HOOKLENGTH


@pytest.mark.parametrize("name", ["../secret", "a/b", "A", "", "x" * 80, ".hidden", "ä"])
def test_names_cannot_leave_the_folder(tmp_path: Path, name: str) -> None:
    (tmp_path / "secret.toml").write_text(RIG)
    shelf = Shelf(tmp_path / "recipes")
    with pytest.raises(AskedWronglyError):
        shelf.load(name)
    with pytest.raises(AskedWronglyError):
        write_starting_file(tmp_path / "recipes", name)


def test_too_large_or_not_text(tmp_path: Path) -> None:
    (tmp_path / "big.toml").write_text("#" * 70_000)
    (tmp_path / "bytes.toml").write_bytes(b"\xff\xfe\x00")
    for name, answer in (("big", "over 64 kB"), ("bytes", "not UTF-8")):
        with pytest.raises(AskedWronglyError, match=answer):
            Shelf(tmp_path).load(name)


LINES = RIG.splitlines()


@given(st.lists(st.tuples(st.integers(0, len(LINES) - 1), st.text(max_size=20)), max_size=4))
@settings(max_examples=so_many(150, 75), deadline=None)
def test_any_edit_is_read_or_refused_in_words(edits: list[tuple[int, str]]) -> None:
    lines = list(LINES)
    for index, text in edits:
        lines[index] = lines[index][: len(text)] + text
    below = resolve(SHELF.load("hooklength-fine"))
    try:
        resolve(parse_recipe("\n".join(lines), "x"), {}, below)
    except BenchError as error:
        assert str(error).startswith("x.toml")  # noqa: PT017
