"""Files changed table by table: each note goes with what it is about, the rest stays letter by letter."""

import tomllib
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tacklebox.datafiles import shipped_folder
from tacklebox.editing import TableRow, line_of, with_rows, with_values

NOTED = """\
# the file's
name = "x"   # on the label
# how deep
fished = "dead depth"

# DEPTH
[choose.depth]  # behind DEPTH
# usual of DEPTH
usual = "1 m"
from = "50 cm"

# FLOAT
[choose.float]
usual = "4×12"
any_of = [
  "4×12",  # fine
  "4×14",
]

# LINE
[[part]]
name = "line"
# knot of LINE
top = "grinner"    # behind knot

# HOOK
[[part]]
name = "hook"
  # size of HOOK
size = "18"

# BEAD
[[along]]
name = "bead"

# STOP
[[along]]
name = "stop"

# LINK
[[branch]]
name = "link"
# FEEDER
[[branch.part]]
name = "feeder"
# SNAP
[[branch.part]]
name = "snap"

# ARM
[[branch]]
name = "arm"

# BULK
[[shot]]
place = "bulk"
# of BULK
of = { "4×12" = "2 No 8" }

# DROPPERS
[[shot]]
place = "droppers"
# of DROPPERS
[shot.of]
"4×12" = "2 No 10"  # fine
"4×14" = "3 No 10"

# WINDER
[winder]
# length of WINDER
length = "13 cm"
# at the end
"""
NAMES = {
    "part": ("LINE", "HOOK"),
    "along": ("BEAD", "STOP"),
    "branch": ("LINK", "ARM"),
    "shot": ("BULK", "DROPPERS"),
    "choose": ("DEPTH", "FLOAT"),
}
CHOICES = ("depth", "float")


def rows(kind: str, *places: int | None) -> dict[str, list[TableRow]]:
    """Rows that are there already, by their places; None is a new one."""
    named = kind == "choose"
    below = {0: {"part": [TableRow({}, 0), TableRow({}, 1)]}} if kind == "branch" else {}
    return {
        kind: [
            TableRow({"name": "new"}, None, "new" if named else "")
            if place is None
            else TableRow({}, place, CHOICES[place] if named else "", below.get(place, {}))
            for place in places
        ]
    }


def notes(text: str) -> list[str]:
    return [line.strip() for line in text.splitlines() if "#" in line]


@pytest.mark.parametrize("kind", NAMES)
def test_a_note_moves_and_goes_with_the_table_below_it(kind: str) -> None:
    first, second = NAMES[kind]
    assert with_rows(NOTED, rows(kind, 0, 1)) == NOTED
    moved = with_rows(NOTED, rows(kind, 1, 0))
    assert sorted(notes(moved)) == sorted(notes(NOTED))
    assert moved.index(f"# {second}\n") < moved.index(f"# {first}\n")
    for name in (first, second):
        assert table_under(moved, name) == table_under(NOTED, name)
    gone = with_rows(NOTED, rows(kind, 1))
    assert table_under(gone, second) == table_under(NOTED, second)
    left = set(notes(NOTED)) - set(notes(gone))
    assert left
    assert {line for line in left if first in line} == {n for n in notes(NOTED) if first in n}
    within = {"LINK": {"# FEEDER", "# SNAP"}, "LINE": {'top = "grinner"    # behind knot'}}
    assert {line for line in left if first not in line} == within.get(first, set())


def table_under(text: str, note: str) -> str:
    """What stands from a note to the next empty line."""
    return text[text.index(f"# {note}\n") :].split("\n\n")[0].split("\n# at the end")[0]


@pytest.mark.parametrize("kind", NAMES)
def test_a_new_table_between_two_takes_no_note_of_theirs(kind: str) -> None:
    changed = with_rows(NOTED, rows(kind, 0, None, 1))
    assert notes(changed) == notes(NOTED)
    for name in NAMES[kind]:
        assert table_under(changed, name) == table_under(NOTED, name)
    assert with_rows(changed, {kind: [*rows(kind, 0)[kind], *again(kind)]}) == NOTED


def again(kind: str) -> list[TableRow]:
    """The second of two, when one was put before it."""
    return [TableRow({}, 2, CHOICES[1] if kind == "choose" else "")]


def test_parts_of_a_branch_move_within_it_with_their_notes() -> None:
    below = {"part": [TableRow({}, 1), TableRow({"name": "new"}), TableRow({"mass": "30 g"}, 0)]}
    changed = with_rows(NOTED, {"branch": [TableRow({}, 0, below=below), TableRow({}, 1)]})
    assert [p["name"] for p in tomllib.loads(changed)["branch"][0]["part"]] == [
        "snap", "new", "feeder",
    ]  # fmt: skip
    assert changed.index("# SNAP") < changed.index("# FEEDER") < changed.index("# ARM")
    assert '# FEEDER\n[[branch.part]]\nname = "feeder"\nmass = "30 g"\n' in changed
    without = with_rows(NOTED, {"branch": [TableRow({}, 0, below={"part": [TableRow({}, 1)]})]})
    assert "FEEDER" not in without
    assert "# SNAP" in without


def test_a_note_goes_with_its_key_and_what_stands_behind_a_value_stays() -> None:
    changed = with_rows(
        NOTED, {"part": [TableRow({"top": "palomar"}, 0), TableRow({"size": None}, 1)]}
    )
    assert 'top = "palomar"    # behind knot' in changed
    assert "# knot of LINE" in changed
    assert "size of HOOK" not in changed
    changed = with_values(NOTED, {"fished": None, "name": "y", "winder": None, "method": "pole"})
    assert 'name = "y"   # on the label' in changed
    assert "how deep" not in changed
    assert "WINDER" not in changed
    assert tomllib.loads(changed)["method"] == "pole"
    assert changed.endswith("# at the end\n")


def test_a_named_table_is_renamed_with_its_notes() -> None:
    changed = with_rows(NOTED, {"choose": [TableRow({}, 0, "deep"), TableRow({}, 1, "the float")]})
    assert "# DEPTH\n[choose.deep]  # behind DEPTH\n# usual of DEPTH\n" in changed
    assert '[choose."the float"]' in changed
    assert list(tomllib.loads(changed)["choose"]) == ["deep", "the float"]


def test_a_key_that_is_a_table_below_is_changed_there() -> None:
    of = {"4×12": "2 No 10", "4×16": "4 No 10"}
    changed = with_rows(NOTED, {"shot": [TableRow({}, 0), TableRow({"of": of}, 1)]})
    assert '# of DROPPERS\n[shot.of]\n"4×12" = "2 No 10"  # fine\n"4×16" = "4 No 10"\n' in changed
    changed = with_rows(NOTED, {"shot": [TableRow({"of": "3 AAA"}, 0), TableRow({"of": "AAA"}, 1)]})
    assert [group["of"] for group in tomllib.loads(changed)["shot"]] == ["3 AAA", "AAA"]


INLINE = """\
name = "x"
# all
part = [
  { name = "line", length = "1 m" },  # thin
  { name = "hook" },
]
choose.depth.usual = "1 m"
choose.depth.from = "50 cm"
branch = [{ name = "link", part = [{ name = "feeder" }] }]
shot = []
"""


def test_tables_written_in_lines_get_headings_and_lose_no_note() -> None:
    part = [TableRow({}, 1), TableRow({"top": "grinner"}, 0)]
    choose, branch = [TableRow({}, 0, "depth")], [TableRow({}, 0)]
    changed = with_rows(INLINE, {"choose": choose, "part": part, "branch": branch, "shot": []})
    now, was = tomllib.loads(changed), tomllib.loads(INLINE)
    assert now["part"] == [was["part"][1], was["part"][0] | {"top": "grinner"}]
    assert (now["choose"], now["branch"]) == (was["choose"], was["branch"])
    assert [n.replace(" ", "") for n in notes(changed)] == ["#all", "#thin"]


def test_lines_end_as_they_did() -> None:
    windows = NOTED.replace("\n", "\r\n")
    changed = with_rows(windows, {"part": [TableRow({"top": "palomar"}, 0), TableRow({}, 1)]})
    assert changed == windows.replace('"grinner"', '"palomar"')


@pytest.mark.parametrize(
    ("key", "starts"),
    [
        ("name", "name ="), ("choose.depth.usual", "usual ="), ("choose.float", "[choose.float]"),
        ("part 2.size", "  size ="[2:]), ("part 2.is", "[[part]]"), ("branch 1.part 2.name", "name ="),
        ("branch 2.part 1.name", "[[branch]]"), ("shot 2.of", "[shot.of]"), ("winder.length", "length"),
        ("nothing", "# the file's"), ("part 9.name", "# the file's"),
    ],
)  # fmt: skip
def test_a_key_is_found_by_its_name(key: str, starts: str) -> None:
    assert NOTED.splitlines()[line_of(NOTED, key) - 1].strip().startswith(starts)


def test_the_line_is_that_of_the_right_table() -> None:
    second = line_of(NOTED, "part 2.name")
    assert NOTED.splitlines()[second - 1] == 'name = "hook"'
    assert NOTED.splitlines()[line_of(NOTED, "branch 1.part 2.name") - 1] == 'name = "snap"'
    assert line_of("no toml", "name") == 1


SHIPPED = sorted(shipped_folder("recipes").glob("*.toml"))


@pytest.mark.parametrize("file", SHIPPED, ids=lambda f: f.stem)
def test_a_shipped_recipe_with_nothing_changed_is_the_same_to_the_letter(file: Path) -> None:
    text = file.read_text(encoding="utf-8")
    raw: dict[str, Any] = tomllib.loads(text)
    same: dict[str, list[TableRow]] = {kind: [TableRow(each, n) for n, each in enumerate(raw[kind])]
            for kind in ("part", "along", "shot") if kind in raw}  # fmt: skip
    same["choose"] = [TableRow(v, n, k) for n, (k, v) in enumerate(raw.get("choose", {}).items())]
    same["branch"] = [
        TableRow({k: v for k, v in each.items() if k != "part"}, n,
                 below={"part": [TableRow(p, i) for i, p in enumerate(each["part"])]})
        for n, each in enumerate(raw.get("branch", []))
    ]  # fmt: skip
    assert with_rows(text, same) == text


@given(
    st.fixed_dictionaries(
        {
            kind: st.lists(st.sampled_from([0, 1, None]), max_size=3)
            for kind in ("part", "along", "shot")
        }
    )
)
@settings(max_examples=60, deadline=None)
def test_whatever_is_moved_the_file_says_just_that(picks: dict[str, list[int | None]]) -> None:
    """Tables in any order, some gone, some new: read again, it is what was asked, and notes are of those."""
    asked = {
        kind: list(dict.fromkeys(p for p in places if p is not None))
        for kind, places in picks.items()
    }
    wanted = {
        kind: [
            *(TableRow({}, place) for place in asked[kind]),
            *(TableRow({"name": "new"}) for p in places if p is None),
        ]
        for kind, places in picks.items()
    }
    changed = with_rows(NOTED, wanted)
    was, now = tomllib.loads(NOTED), tomllib.loads(changed)
    for kind, places in picks.items():
        kept = [was[kind][place] for place in asked[kind]]
        assert now.get(kind, []) == [*kept, *({"name": "new"} for p in places if p is None)]
        for place, name in enumerate(NAMES[kind]):
            assert (f"# {name}\n" in changed) == (place in asked[kind])
    assert {k: v for k, v in now.items() if k not in picks} == {
        k: v for k, v in was.items() if k not in picks
    }
