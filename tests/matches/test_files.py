"""Files of one's own in a box: venues and matches."""

import os
import resource
from pathlib import Path

import pytest

from tacklebox.errors import AskedWronglyError, CannotBeDoneError
from tacklebox.matches.files.match import Matches, parse_match
from tacklebox.matches.files.venue import Venues, parse_venue


def test_the_first_name_asked_for_is_told_how_to_start() -> None:
    with pytest.raises(AskedWronglyError, match=r"nor any other yet\.") as refused:
        Matches(Path("nowhere")).load("open")
    assert refused.value.see == "matches.start"
    with pytest.raises(AskedWronglyError, match=r"nor any other yet\.") as refused:
        Venues(Path("nowhere")).load("pond")
    assert refused.value.see == "venues.start"


def test_a_later_one_is_told_what_there_is(tmp_path: Path) -> None:
    files = Venues(tmp_path / "venues").files
    files.write_new("the-pond", "")
    with pytest.raises(AskedWronglyError, match='Did you mean "the-pond"'):
        files.read("the-pont")
    with pytest.raises(AskedWronglyError, match=r"Known: the-pond\."):
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
    ("want", "expected"),
    [
        ("count = 0", '"want 1.count": 0 should be at least 1.'),
        ("count = 101", '"want 1.count": 101 should be at most 100.'),
        ('count = "2"', '"want 1.count": "2" should be a whole number, without quotes.'),
        ('count = 1\nchoose = "deep"', "should be a table, headed [want.choose]"),
    ],
)
def test_a_fault_of_a_want_says_what_would_be_right(want: str, expected: str) -> None:
    with pytest.raises(AskedWronglyError) as error:
        parse_match(f'{HEAD}[[want]]\nrecipe = "hooklength-fine"\n{want}\n', "open")
    assert expected in str(error.value)
    assert "is empty" not in str(error.value)
    assert len(str(error.value).splitlines()) == 2


WANT = '[[want]]\nrecipe = "hooklength-fine"\ncount = 1\n'


def lasting(begins: str, ends: str) -> str:
    return HEAD.replace("10:00", begins).replace("15:00", ends) + WANT


@pytest.mark.parametrize(
    ("begins", "ends", "read", "hours"),
    [
        ("10:00", "14.30", ("10:00", "14:30"), 4.5),  # a dot for the colon is no fraction
        ("9:00", "9.05", ("09:00", "09:05"), 5 / 60),
        (" 09:30 ", "10:00", ("09:30", "10:00"), 0.5),
        ("00:00", "23:59", ("00:00", "23:59"), 24 - 1 / 60),
    ],
)
def test_times_are_hours_and_minutes(
    begins: str, ends: str, read: tuple[str, str], hours: float
) -> None:
    match = parse_match(lasting(begins, ends), "open")
    assert (match.begins, match.ends) == read
    assert match.hours == pytest.approx(hours)


def test_a_time_may_stand_without_quotes() -> None:
    """TOML has times of its own, with seconds."""
    bare = HEAD.replace('"10:00"', "10:00:00").replace('"15:00"', "14:30:00") + WANT
    assert (parse_match(bare, "open").begins, parse_match(bare, "open").hours) == ("10:00", 4.5)
    with pytest.raises(AskedWronglyError, match='"to": "14:30:01" is no hour'):
        parse_match(bare.replace("14:30:00", "14:30:01"), "open")


@pytest.mark.parametrize(
    "hour",
    ["1000", "10", "T10:00", "10:00:59.123456", "10:00Z", "10:00+01:00", "25:00", "10:60", "10:5",
     "10,00", "١٠:٠٠", "half past ten", "-1:00"],
)  # fmt: skip
def test_all_else_is_no_time(hour: str) -> None:
    right = 'is no hour; write it like "10:00".'
    with pytest.raises(AskedWronglyError) as error:
        parse_match(lasting(hour, "15:00"), "open")
    assert f'"from": "{hour}" {right}' in str(error.value)
    with pytest.raises(AskedWronglyError) as error:
        parse_match(lasting("09:00", hour), "open")
    assert f'"to": "{hour}" {right}' in str(error.value)


@pytest.mark.parametrize(
    ("begins", "ends", "expected"),
    [
        ("18:00", "24:00", '"24:00" is on the next day; end it at "23:59"'),
        ("18:00", "02:00", "it ends at 02:00, not after it begins at 18:00"),
        ("9:00", "9.00", "it ends at 09:00, not after it begins at 09:00"),
    ],
)
def test_a_match_across_midnight_is_told_how_to_write_it(
    begins: str, ends: str, expected: str
) -> None:
    with pytest.raises(AskedWronglyError) as error:
        parse_match(lasting(begins, ends), "open")
    for words in (expected, 'end it at "23:59"', "a second match, on the next day"):
        assert words in str(error.value)


@pytest.mark.parametrize(
    "day", ["20270110", "2027-W02-1", "2027-02-30", "10.1.27", "27-01-10", "tomorrow"]
)
def test_all_else_is_no_date(day: str) -> None:
    with pytest.raises(AskedWronglyError) as error:
        parse_match(HEAD.replace("2026-06-20", day) + WANT, "open")
    assert f'"date": "{day}" is no date. Write it like "2026-06-20".' in str(error.value)


def test_a_date_may_be_written_as_it_is_spoken() -> None:
    for day in ("Saturday 20 June 2026", "20/6/2026"):
        match = parse_match(HEAD.replace("2026-06-20", day) + WANT, "open")
        assert match.date == "2026-06-20"


@pytest.mark.parametrize(
    ("old", "new", "expected"),
    [
        ("count = 1", "count = 2.5", '"want 1.count": 2.5 should be a whole number, without quotes.'),
        ("count = 1", f"count = {'9' * 5000}", "a number is too long"),
        ("count = 1", f"count = {'9' * 100}", f'"want 1.count": {"9" * 60}… should be at most 100.'),
        ('recipe = "hooklength-fine"', "recipe = 3",
         '"want 1.recipe": 3 should be text in quotes, like "pole-canal-shot".'),
        ('name = "O"', "name = 3", '"name": 3 should be text in quotes, like "3".'),
        ('name = "O"', "name = [3]", '"name": a list should be text in quotes.'),
        ('"10:00"', "10", '"from": 10 should be text in quotes, like "10:00".'),
    ],
)  # fmt: skip
def test_what_would_be_right_fits_the_key(old: str, new: str, expected: str) -> None:
    with pytest.raises(AskedWronglyError) as error:
        parse_match((HEAD + WANT).replace(old, new), "open")
    assert expected in str(error.value)


@pytest.mark.parametrize(
    ("rules", "expected"),
    [
        ("[rules]\nlargest_hook = 10",
         '"rules.largest_hook": 10 should be text in quotes, like "10".'),
        ("[rules]\nleast_hooklength = 10",
         '"rules.least_hooklength": 10 should be text in quotes with its unit, like "40 cm".'),
        ("[rules]\ngroundbait_limit = 2",
         '"rules.groundbait_limit": 2 should be text in quotes, like "2 kg".'),
        ("read = [1]", '"read 1": 1 should be text in quotes, like "1".'),
        ("read = [true]", '"read 1": true should be text in quotes, like "true".'),
        ("[[rules]]\nbarbless = true", '"rules": a list should be a table, headed [rules].'),
        ("overhead_lines = {a = 1}", '"overhead_lines": a table should be true or false'),
    ],
)  # fmt: skip
def test_what_would_be_right_fits_the_key_of_a_venue(rules: str, expected: str) -> None:
    with pytest.raises(AskedWronglyError) as error:
        parse_venue(f'name = "P"\nwater = "canal"\n{rules}\n', "pond")
    assert expected in str(error.value)


def test_what_is_no_file_is_told(tmp_path: Path) -> None:
    files = Venues(tmp_path).files
    (tmp_path / "bad.toml").mkdir()
    (tmp_path / "gone.toml").symlink_to(tmp_path / "nowhere.toml")
    (tmp_path / "round.toml").symlink_to(tmp_path / "round.toml")
    os.mkfifo(tmp_path / "pipe.toml")
    files.write_new("mill", 'name = "M"\nwater = "canal"\n')
    for name, answer in (
        ("bad", r"^bad\.toml: this is a folder, not a file\. Give it another name"),
        ("gone", r"^gone\.toml: this is a link to a file that is not there\. Put the file there"),
        ("round", r"^round\.toml: this is a link to a file that is not there"),
        ("pipe", r"^pipe\.toml: this is a device or pipe, not a file"),
    ):
        with pytest.raises(AskedWronglyError, match=answer):
            files.read(name)
        with pytest.raises(AskedWronglyError, match="of that name already"):
            files.write_new(name, "")
    assert (tmp_path / "gone.toml").is_symlink()
    read, faulty = files.load_each(Venues(tmp_path).load)
    assert ([venue.stem for venue in read], len(faulty)) == (["mill"], 4)


def test_a_match_that_wants_nothing() -> None:
    with pytest.raises(AskedWronglyError, match='"want" is empty'):
        parse_match(f"{HEAD}want = []\n", "open")


def test_true_and_false_stand_without_quotes() -> None:
    with pytest.raises(AskedWronglyError, match='"yes" should be true or false, without quotes'):
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
