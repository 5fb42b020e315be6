"""Files of one's own in a box: venues and matches."""

import resource
from pathlib import Path

import pytest

from tacklebox.errors import AskedWronglyError, CannotBeDoneError
from tacklebox.matches.match import Matches, parse_match
from tacklebox.matches.venue import Venues, parse_venue


def test_the_first_name_asked_for_is_told_how_to_start() -> None:
    with pytest.raises(AskedWronglyError, match=r"nor any other yet\. `tacklebox match start"):
        Matches(Path("nowhere")).load("open")
    with pytest.raises(AskedWronglyError, match=r"nor any other yet\. `tacklebox venue start"):
        Venues(Path("nowhere")).load("pond")


def test_a_later_one_is_told_what_there_is(tmp_path: Path) -> None:
    files = Venues(tmp_path / "venues").files
    files.write_new("mill-lake", "")
    with pytest.raises(AskedWronglyError, match='Did you mean "mill-lake"'):
        files.read("mil-lake")
    with pytest.raises(AskedWronglyError, match=r"Known: mill-lake\."):
        files.read("weir")


def test_half_a_file_is_never_left(tmp_path: Path) -> None:
    """A disk that fills up, by a limit of ten bytes to a file."""
    files = Matches(tmp_path).files
    before = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (10, before[1]))
    try:
        with pytest.raises(CannotBeDoneError, match="cannot be written"):
            files.write_new("open", "x" * 100)
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, before)
    assert list(tmp_path.iterdir()) == []


def test_a_file_where_the_folder_should_be(tmp_path: Path) -> None:
    (tmp_path / "venues").write_text("mine", encoding="utf-8")
    with pytest.raises(CannotBeDoneError, match="cannot be written"):
        Venues(tmp_path / "venues").files.write_new("pond", "")
    assert (tmp_path / "venues").read_text(encoding="utf-8") == "mine"


HEAD = 'name = "O"\ndate = "2026-06-20"\nfrom = "10:00"\nto = "15:00"\nvenue = "pond"\n'


@pytest.mark.parametrize(
    ("want", "told"),
    [
        ("count = 0", '"want 1.count": 0 should be at least 1.'),
        ("count = 101", '"want 1.count": 101 should be at most 100.'),
        ('count = "2"', "\"want 1.count\": '2' should be a number, without quotes."),
        ('count = 1\nchoose = "deep"', "should be a table, headed [want.choose]"),
    ],
)
def test_a_fault_of_a_want_says_what_would_be_right(want: str, told: str) -> None:
    with pytest.raises(AskedWronglyError) as error:
        parse_match(f'{HEAD}[[want]]\nrecipe = "hooklength-fine"\n{want}\n', "open")
    assert told in str(error.value)
    assert "is empty" not in str(error.value)
    assert len(str(error.value).splitlines()) == 2


def test_a_match_that_wants_nothing() -> None:
    with pytest.raises(AskedWronglyError, match='"want" is empty'):
        parse_match(f"{HEAD}want = []\n", "open")


def test_true_and_false_stand_without_quotes() -> None:
    with pytest.raises(AskedWronglyError, match="'yes' should be true or false, without quotes"):
        parse_venue('name = "P"\nwater = "canal"\n[rules]\nbarbless = "yes"\n', "pond")


def test_a_day_may_stand_without_quotes() -> None:
    """TOML has dates of its own."""
    whole = f'{HEAD}[[want]]\nrecipe = "hooklength-fine"\ncount = 1\n'
    bare = whole.replace('"2026-06-20"', "2026-06-20")
    assert parse_match(bare, "open") == parse_match(whole, "open")
    with pytest.raises(AskedWronglyError, match="is no date"):
        parse_match(bare.replace("2026-06-20", "2026-06-20T10:00:00"), "open")


def test_what_an_editor_does_to_a_file_is_read(tmp_path: Path) -> None:
    """A mark of UTF-8 before the first line, and lines that end as on another system."""
    text = 'name = "Mühle"\r\nwater = "canal"\r\n'
    (tmp_path / "mill.toml").write_bytes(b"\xef\xbb\xbf" + text.encode())
    assert Venues(tmp_path).load("mill").name == "Mühle"


def test_a_figure_without_quotes_is_told_how_to_write_it() -> None:
    with pytest.raises(AskedWronglyError, match=r'line 9.*stand in quotes: depth = "1\.2 m"'):
        parse_match(f'{HEAD}[[want]]\nrecipe = "pole-canal-shot"\ncount = 1\ndepth = 1.2 m', "open")


def test_an_older_venue_file_keeps_its_keepnet() -> None:
    head = 'name = "P"\nwater = "canal"\n[rules]\nbarbless = true\nkeepnet_length = "3 m"\n'
    assert parse_venue(head, "pond").keepnet.asked.length_mm == 3000
    both = parse_venue(f'{head}[keepnet]\nlength = "2.5 m"\nnets = 2\n', "pond").keepnet
    assert (both.length, both.nets) == ("2.5 m", 2)
