"""Feed for a match: by hand, by what was published, and each figure by what it rests on."""

from pathlib import Path

import pytest

from tacklebox.desk import Desk
from tacklebox.desk.feeding import FeedAsked, FeedFigure, FeedNeeded, feed_needed
from tacklebox.errors import AskedWronglyError
from tests.desk.boxes import TODAY

MATCH = """name = "Open"
date = "2026-06-20"
from = "10:00"
to = "15:00"
venue = "pond"
[[want]]
recipe = "hooklength-fine"
count = 1
"""


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    """A pond with a limit of 2 kg, and the match "open" of five hours on it, which feeds."""
    for name, text in (
        ("venues/pond", 'name = "The pond"\nwater = "canal"\n[rules]\ngroundbait_limit = "2 kg"\n'),
        ("matches/open", f'{MATCH}[feed]\nfeeder = "30 ml"\nloose = 8\ncast_every = 6\n'),
        ("matches/dry", MATCH),
    ):
        file = tmp_path / f"{name}.toml"
        file.parent.mkdir(exist_ok=True)
        file.write_text(text, encoding="utf-8")
    return Desk(tmp_path, today=lambda: TODAY)


def by_key(found: FeedNeeded) -> dict[str, FeedFigure]:
    return {figure.key: figure for figure in found.figures}


def test_feeder_and_loose_feed_by_hand(desk: Desk) -> None:
    """60 casts of 40 ml, half of it at 0.8 g/ml: 960 g wet, 600 g dry to 360 ml; 10 × 150 of 2,500."""
    asked = FeedAsked("5", "40 ml", density="0.8", water="60", loose="10", per_pint="2500")
    found = by_key(feed_needed(desk, asked))
    assert found["casts"].value == 60
    assert found["dry"].value == pytest.approx(600)
    assert found["water"].value == pytest.approx(360)
    assert found["wet"].value == pytest.approx(960)
    assert found["dry"].words == "0.60 kg"
    assert (found["by_hand"].count, found["by_hand"].words) == (1500, "0.60 pints, 1500")
    assert found["in_feeder"].value == pytest.approx(1200 / 568.26125)
    assert found["loose_feed"].value == pytest.approx(1200 / 568.26125 + 0.6)


def test_casters_against_what_was_published(desk: Desk) -> None:
    """angling-guru.info, "Using casters for bait": five pints of maggots give about three."""
    asked = FeedAsked("5", loose="54", per_pint="2700")
    found = feed_needed(desk, asked, casters=True)
    assert (by_key(found)["loose_feed"].count, by_key(found)["loose_feed"].value) == (8100, 3)
    assert by_key(found)["maggots_to_turn"].value == pytest.approx(5)
    assert found.cited == ('angling-guru.info, "Using casters for bait"',)


def test_what_nobody_said_is_as_usual_and_says_so(desk: Desk) -> None:
    """Common practice: half and half, a cast every five minutes, loose feed every two."""
    found = by_key(feed_needed(desk, FeedAsked("5", "40 ml", loose="10")))
    assert {key: figure.rests_on for key, figure in found.items()} == {
        "casts": "common practice",
        "share": "common practice",
        "times_by_hand": "common practice",
        **dict.fromkeys(("dry", "water", "wet", "in_feeder", "by_hand"), "from memory"),
        "loose_feed": "from memory",
    }
    assert (found["share"].words, found["times_by_hand"].words) == ("50 %", "150, 10 each")


def test_a_computed_figure_is_only_as_good_as_the_weakest_in_it(desk: Desk) -> None:
    """Groundbait weighed and mixed by himself, cast as is usual."""
    asked = FeedAsked("5", "40 ml", share="40", density="0.8", water="50", loose="10")
    found = by_key(feed_needed(desk, asked))
    assert (found["dry"].rests_on, found["share"].rests_on) == ("common practice", "as given")
    assert (found["in_feeder"].rests_on, found["by_hand"].rests_on) == ("from memory",) * 2


def test_all_that_is_said_is_as_given(desk: Desk) -> None:
    asked = FeedAsked("5", "40 ml", "6", "40", "0.8", "50", "10", "3", "2600")
    assert {one.rests_on for one in feed_needed(desk, asked).figures} == {"as given"}


def test_the_match_says_what_is_fed(desk: Desk) -> None:
    """Nobody said how often it is fed by hand: that is as usual, though the match has its feed."""
    found = feed_needed(desk, FeedAsked(), match="open")
    assert (found.hours, found.venue) == (5, "The pond")
    figures = by_key(found)
    assert (figures["casts"].value, figures["casts"].rests_on) == (50, "as given")
    assert (figures["by_hand"].count, figures["times_by_hand"].rests_on) == (
        8 * 150,
        "common practice",
    )


def test_what_is_asked_goes_before_the_match(desk: Desk) -> None:
    figures = by_key(feed_needed(desk, FeedAsked(hours="4", cast_every="5"), match="open"))
    assert (figures["casts"].value, figures["by_hand"].count) == (48, 8 * 120)


def test_the_limit_of_the_venue(desk: Desk) -> None:
    assert feed_needed(desk, FeedAsked("5", "40 ml")).limit is None
    found = feed_needed(desk, FeedAsked("5", "40 ml"), venue="pond")
    assert found.allowed
    assert found.limit is not None
    assert found.limit.rule.words == "groundbait at most 2 kg"
    over = feed_needed(desk, FeedAsked(feeder="250 ml"), match="open")
    assert not over.allowed


@pytest.mark.parametrize(
    ("asked", "field", "what"),
    [
        (FeedAsked(loose="10"), "hours", "nobody knows how long."),
        (FeedAsked("5"), "feeder", "nothing is fed."),
        (FeedAsked("0", loose="10"), "hours", "0 cannot be right."),
        (FeedAsked("long", loose="10"), "hours", '"long" is no number.'),
        (FeedAsked("5", "big"), "feeder", '"big" is no volume.'),
        (FeedAsked("5", "1 l"), "feeder", "1 l cannot be right."),
        (FeedAsked("5", share="101", loose="1"), "share", "101 cannot be right."),
        (FeedAsked("5", water="-5", loose="1"), "water", "-5 cannot be right."),
        (FeedAsked("5", loose="10.5"), "loose", "10.5 is no count."),
        (FeedAsked("5", loose="3000000000"), "loose", "3000000000 cannot be right."),
        (FeedAsked("5", loose="7000"), "loose", "7000 each time, 150 times, are over 1000000."),
        (FeedAsked("5", loose="10", per_pint="nan"), "per_pint", '"nan" is no number.'),
        (FeedAsked("5", "9" * 5000), "feeder", f'"{"9" * 40}…" is too long for a volume.'),
    ],
)
def test_a_fault_names_its_field(desk: Desk, asked: FeedAsked, field: str, what: str) -> None:
    with pytest.raises(AskedWronglyError) as refused:
        feed_needed(desk, asked)
    assert (refused.value.field, refused.value.what) == (field, what)


def test_a_figure_of_the_match_that_cannot_be_names_its_file(desk: Desk, tmp_path: Path) -> None:
    (tmp_path / "matches" / "dry.toml").write_text(f"{MATCH}[feed]\nloose = 7000\n")
    with pytest.raises(AskedWronglyError) as refused:
        feed_needed(desk, FeedAsked(), match="dry")
    assert (refused.value.field, refused.value.where) == ("", "dry.toml, feed.loose")


def test_a_match_without_feed_feeds_what_is_asked(desk: Desk) -> None:
    assert by_key(feed_needed(desk, FeedAsked(loose="10"), match="dry"))["loose_feed"].count == 1500
    with pytest.raises(AskedWronglyError, match="nothing is fed"):
        feed_needed(desk, FeedAsked(), match="dry")
