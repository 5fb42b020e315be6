"""The record of a day at the water: read as it comes home, whole or hurt, and what it adds up to."""

from collections import Counter
from dataclasses import replace
from datetime import datetime, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tacklebox.errors import AskedWronglyError
from tacklebox.matches.water.clock import clock_breaks, clock_doubt, put_clock
from tacklebox.matches.water.record import (
    CHANGE_KEYS,
    DAY_KEYS,
    Did,
    Record,
    Tap,
    read_kept,
    read_record,
    write_record,
)
from tacklebox.matches.water.signs import SIGNS, signs_for
from tacklebox.matches.water.tally import tally, tally_kept

TEXT = """TACKLEBOX RECORD 1
record | b0x/club/2026-11-29
match | club
day | 2026-11-29
rigs | A01T A02R
1 | 2026-11-29 10:02:11 | cast
2 | 2026-11-29 10:12:07 | fish | species roach | rig A01T | net silvers 1 | weighs 56.7 g
3 | 2026-11-29 10:14:00 | fish | rig A01T
5 | 2026-11-29 10:40:00 | lost | item 12 | is 18 to 0.10 mm
6 | 2026-11-29 10:41:00 | lost | rig A02R
7 | 2026-11-29 11:00:00 | change | rig A01T | says bulk lower
8 | 2026-11-29 11:30:00 | fish | species carp | rig A01T | net carp 1 | weighs 2 lb 4 oz
9 | 2026-11-29 12:00:00 | day | peg 14
10 | 2026-11-29 12:01:00 | note | says far shelf, wind off my back
taken back | 4
end | 10
"""
TEN = datetime(2026, 11, 29, 10)


def test_a_whole_record_is_read_and_added_up() -> None:
    record = read_record(TEXT)
    assert (record.key, record.match, record.rigs) == (
        "b0x/club/2026-11-29",
        "club",
        ("A01T", "A02R"),
    )
    assert record.is_whole
    assert record.faults == ()
    added = tally(record.taps)
    assert [(heap.name, heap.fish, heap.weighed) for heap in added.nets] == [
        ("silvers 1", 1, 1), ("", 1, 0), ("carp 1", 1, 1),
    ]  # fmt: skip
    # 2 lb 4 oz by hand: 36 × 28.349523125 g (NIST SP 811, appendix B)
    assert added.nets[2].weighs_g == pytest.approx(1020.583, abs=0.05)
    assert added.lost == ("A02R",)
    assert added.hooklengths_lost == ((12, 1),)
    assert dict(added.day) == {"peg": "14"}
    assert added.notes == ("far shelf, wind off my back",)
    assert [tap.says for tap in added.changes] == ["bulk lower"]


@pytest.mark.parametrize(
    ("spoiled", "taps"),
    [
        (TEXT.replace("\n", "\r\n"), 9),
        ("\ufeffSent from a phone\n\n" + TEXT, 9),
        (TEXT.replace(" | ", "  |\u00a0"), 9),
        (TEXT + TEXT.partition("rigs | A01T A02R\n")[2], 9),  # pasted twice
    ],
)
def test_what_a_message_does_to_a_record_harms_nothing(spoiled: str, taps: int) -> None:
    record = read_record(spoiled)
    assert (len(record.taps), record.faults) == (taps, ())


@pytest.mark.parametrize("lines", range(3, 15))
def test_a_record_that_is_cut_off_keeps_what_stands_before_that(lines: int) -> None:
    cut = "\n".join(TEXT.splitlines()[:lines])
    record = read_record(cut)
    assert not record.is_whole
    assert len(record.taps) == max(0, lines - 5)


@pytest.mark.parametrize("left_out", [False, True])
def test_a_record_whose_last_tap_is_in_doubt_is_not_cut_off(*, left_out: bool) -> None:
    lines = TEXT.splitlines()
    last = next(n for n, line in enumerate(lines) if line.startswith("10 |"))
    lines[last] = lines[last].partition("|")[0] + "| 25:61 | fish"
    record = read_record("\n".join(lines), {last + 1: ""} if left_out else {})
    assert record.is_whole
    assert len(record.faults) == (0 if left_out else 1)


def test_a_record_cut_in_the_middle_of_a_line_asks_for_that_line_alone() -> None:
    record = read_record(TEXT[: TEXT.index("fish | rig A01T")])
    assert [fault.line for fault in record.faults] == [8]
    assert len(record.taps) == 2


@pytest.mark.parametrize(
    ("line", "what"),
    [
        ("11 | 2026-11-29 13:00:00 | fish | weighs -2 lb", "-2 lb"),
        ("11 | 2026-11-29 13:00:00 | fish | weighs 0 g", "no weight of a fish"),
        ("11 | 2026-11-29 13:00:00 | fish | weighs 400 lb", "no weight of a fish"),
        ("11 | 2026-11-29 13:00:00 | fish | species pike-ish", "no fish"),
        ("11 | 2026-11-29 13:00:00 | fish | net keep 1", "no net"),
        ("11 | 2026-11-29 13:00:00 | swim", "nothing that is tapped"),
        ("11 | 2026-11-29 13:00:00", "cut off"),
        ("11 | 29.11. 13:00 | fish", "no time"),
        ("11 | 2026-13-29 13:00:00 | fish", "no time"),
        ("eleven | 2026-11-29 13:00:00 | fish", "no number"),
        ("9" * 900 + " | 2026-11-29 13:00:00 | fish", "no number"),
        ("9" * 5000 + " | 2026-11-29 13:00:00 | fish", "longer than 1000"),
        ("11 | 2026-11-29 13:00:00 | lost", "what was lost"),
        ("11 | 2026-11-29 13:00:00 | fish | colour red", "says nothing"),
        ("3 | 2026-11-29 10:14:00 | fish | rig A02R", "there twice"),
        ("taken back | x", "no number"),
    ],
)
def test_a_line_that_cannot_be_is_asked_about_and_the_rest_is_kept(line: str, what: str) -> None:
    spoiled = f"{TEXT}{line}\n"
    record = read_record(spoiled)
    (fault,) = record.faults
    assert what in fault.what
    assert fault.line == len(TEXT.splitlines()) + 1
    assert len(record.taps) == 9
    left_out = read_record(spoiled, {fault.line: ""})
    assert (len(left_out.taps), left_out.faults) == (9, ())
    mended = read_record(spoiled, {fault.line: "12 | 2026-11-29 13:00:00 | fish | weighs 2 lb"})
    assert (len(mended.taps), mended.faults) == (10, ())


@pytest.mark.parametrize(
    ("text", "what"),
    [
        ("", "no record"),
        ("peg 14, two skimmers", "no record"),
        (TEXT.replace("RECORD 1", "RECORD 2"), "newer"),
        ("\n".join(["TACKLEBOX RECORD 1", *TEXT.splitlines()[5:]]), "first lines are missing"),
        (TEXT + "x\n" * 5000, "more than"),
    ],
)
def test_what_is_no_record_is_refused(text: str, what: str) -> None:
    with pytest.raises(AskedWronglyError, match=what):
        read_record(text)


WORDS = st.text(
    st.characters(min_codepoint=32, max_codepoint=126, exclude_characters="|"), max_size=30
).map(lambda said: " ".join(said.split()))
TAPS = st.builds(
    Tap,
    number=st.just(0),
    at=st.datetimes(datetime(2026, 1, 1), datetime(2027, 1, 1)).map(lambda at: at.replace(microsecond=0)),
    did=st.sampled_from([did for did in Did if did not in (Did.LOST, Did.WORN_OUT, Did.DAY)]),
    species=st.sampled_from(["", "roach", "F1"]),
    weighs_g=st.none() | st.integers(1, 400_000).map(lambda tenth: tenth / 10),
    rig=st.sampled_from(["", "A01T"]),
    item=st.integers(0, 999),
    net=st.sampled_from(["", "silvers 1", "carp 2"]),
    says=WORDS,
    since_open=st.sampled_from(["", "k3f9 1234 s"]),
)  # fmt: skip


def _alike(tap: Tap) -> Tap:
    return replace(tap, number=0, at=TEN, says="", item=0, since_open="")


@given(st.lists(TAPS, max_size=8))
@settings(max_examples=60, deadline=None)
def test_what_is_written_is_read_again(taps: list[Tap]) -> None:
    numbered = tuple(replace(tap, number=n) for n, tap in enumerate(taps, 1))
    record = Record("b/m/2026-11-29", "m", numbered, ("A01T",))
    assert read_record(write_record(record)) == record
    kept = read_kept(write_record(record))
    fish, others = (
        [t for t in numbered if (t.did is Did.FISH) is is_fish] for is_fish in (True, False)
    )
    assert list(kept.others) == others
    assert Counter(at for _, times in kept.fish for at in times) == Counter(str(t.at) for t in fish)
    assert {_alike(t) for t, _ in kept.fish} == {_alike(t) for t in fish}
    quick, slow = tally_kept(kept), tally(record.taps)
    assert replace(quick, nets=(), species=(), rigs=()) == replace(
        slow, nets=(), species=(), rigs=()
    )
    for one, other in zip(
        (*quick.nets, *quick.species, *quick.rigs),
        (*slow.nets, *slow.species, *slow.rigs),
        strict=True,
    ):
        assert replace(one, weighs_g=0) == replace(other, weighs_g=0)
        assert one.weighs_g == pytest.approx(other.weighs_g)


@st.composite
def damaged(draw: st.DrawFn) -> str:
    """The record above with lines dropped, cut, doubled, moved, or with other signs in them."""
    lines = TEXT.splitlines()
    for _ in range(draw(st.integers(1, 4))):
        at = draw(st.integers(5, len(lines) - 1)) if len(lines) > 6 else 5
        line, where = lines[at], draw(st.integers(0, max(len(lines[at]) - 1, 0)))
        match draw(st.sampled_from(("drop", "cut", "double", "move", "sign"))):
            case "drop":
                del lines[at]
            case "cut":
                lines[at] = line[:where]
            case "double":
                lines.insert(draw(st.integers(5, len(lines))), line)
            case "move":
                lines.insert(draw(st.integers(5, len(lines) - 1)), lines.pop(at))
            case _:
                sign = draw(st.sampled_from(" |x9-:\u202e\u00a0é"))
                lines[at] = line[:where] + sign + line[where + 1 :]
    return "\n".join(lines)


@given(damaged())
@settings(max_examples=80, deadline=None)
def test_whatever_becomes_of_its_lines_no_tap_is_gone_in_silence(text: str) -> None:
    """Each is kept, or its line is asked about, or it is told that nobody knows what it said."""
    record = read_record(text)
    known = {tap.number for tap in record.taps} | set(record.missing) | {4}  # that was taken back
    gone = set(range(1, 11)) - known
    assert len(gone) <= len(record.faults) or not record.is_whole
    assert len({tap.number for tap in record.taps}) == len(record.taps)


@pytest.mark.parametrize("word", DAY_KEYS)
def test_each_word_of_the_day_is_read_again(word: str) -> None:
    tap = Tap(1, TEN, Did.DAY, about=word, says="12")
    record = Record("b/m/2026-11-29", "m", (tap,))
    assert read_record(write_record(record)) == record
    assert read_kept(write_record(record)).others == (tap,)


@pytest.mark.parametrize("word", CHANGE_KEYS)
def test_each_change_of_a_rig_is_read_again(word: str) -> None:
    tap = Tap(
        1, TEN, Did.CHANGE, rig="A01T", item=37, about=word, says="pole 4×14", since_open="a 6 s"
    )
    record = Record("b/m/2026-11-29", "m", (tap,))
    assert read_record(write_record(record)) == record
    assert read_kept(write_record(record)).others == (tap,)


@pytest.mark.parametrize(
    ("wrong", "mends"),
    [
        (timedelta(), None),
        (timedelta(minutes=2), None),
        (timedelta(hours=-1), timedelta(hours=1)),  # a cast at two minutes past nine
        (timedelta(hours=5), timedelta(hours=-1)),
        (timedelta(days=1), timedelta(days=-1)),
        (timedelta(days=-1), timedelta(days=1)),
        (timedelta(hours=12), timedelta(hours=-12)),
    ],
)
def test_a_clock_that_was_wrong_is_asked_about(wrong: timedelta, mends: timedelta | None) -> None:
    record = read_record(TEXT)
    moved = replace(record, taps=tuple(replace(tap, at=tap.at + wrong) for tap in record.taps))
    doubt = clock_doubt(moved, TEN, TEN + timedelta(hours=5))
    if mends is None:
        assert doubt is None
    else:
        assert doubt is not None
        assert doubt.shift is not None
        again = replace(
            moved, taps=tuple(replace(tap, at=tap.at + doubt.shift) for tap in moved.taps)
        )
        assert clock_doubt(again, TEN, TEN + timedelta(hours=5)) is None


def test_a_clock_that_no_whole_hour_mends_is_told_without_a_choice() -> None:
    far = (Tap(1, TEN, Did.CAST), Tap(2, TEN + timedelta(days=3), Did.CAST))
    doubt = clock_doubt(Record("k", "m", far), TEN, TEN + timedelta(hours=5))
    assert doubt is not None
    assert (len(doubt.outside), doubt.shift) == (1, None)


def test_a_clock_that_was_years_wrong_is_put_by_days() -> None:
    """As one is whose battery was out: it begins anew at midnight, years ago."""
    taps = (
        Tap(1, datetime(2001, 1, 1, 10, 5), Did.FISH),
        Tap(2, datetime(2001, 1, 1, 14), Did.FISH),
    )
    doubt = clock_doubt(Record("k", "m", taps), TEN, TEN + timedelta(hours=5))
    assert doubt is not None
    assert doubt.shift == timedelta(days=9463)  # by hand: 25 years with 6 leap days, and 332 days


def _tapped(*said: tuple[str, str]) -> tuple[Tap, ...]:
    """Taps at those times, with the page's own count: "a 60" are 60 s since the opening called a."""
    return tuple(
        Tap(
            n,
            datetime.fromisoformat(f"2026-11-29 {at}"),
            Did.FISH,
            since_open=f"{since} s" if since else "",
        )
        for n, (at, since) in enumerate(said, 1)
    )


@pytest.mark.parametrize(
    ("said", "breaks"),
    [
        ((("10:00:00", "a 0"), ("10:30:00", "a 1800"), ("11:00:00", "a 3600")), []),
        ((("10:00:00", "a 0"), ("10:35:00", "a 1800")), []),  # it slept for five minutes
        ((("10:00:00", "a 0"), ("10:01:20", "a 0")), []),
        ((("10:00:00", "a 0"), ("12:17:00", "a 60")), []),  # it slept for long, by no whole hour
        ((("10:00:00", "a 0"), ("09:30:00", "a 1800")), [(2, "-1:00", 1800)]),
        ((("10:00:00", "a 0"), ("10:01:00", "a 3660")), [(2, "-1:00", 3660)]),  # and nothing runs backwards
        ((("10:00:00", "a 0"), ("09:53:30", "a 600")), [(2, "-0:16", 600)]),
        ((("10:00:00", "a 0"), ("11:10:20", "a 600")), [(2, "1:00", 600)]),
        ((("10:00:00", "a 5"), ("09:50:00", "b 3")), [(2, "-1:00", None)]),  # it was opened anew
        ((("10:00:00", ""), ("08:50:00", "")), [(2, "-2:00", None)]),  # as an older page wrote it
        ((("10:00:00", "a 60"), ("10:01:00", "b 900"), ("10:02:00", "a 180")), []),  # two tabs
        ((("10:00:00", "a 900"), ("10:01:00", "a 3")), []),  # edited by hand: no count
        ((("10:00:00", "a 0"), ("09:10:00", "a 600"), ("10:20:00", "a 1200")),
         [(2, "-1:00", 600), (3, "1:00", 600)]),
    ],
)  # fmt: skip
def test_a_clock_that_was_put_is_found_between_two_taps(
    said: tuple[tuple[str, str], ...], breaks: list[tuple[int, str, int | None]]
) -> None:
    found = clock_breaks(_tapped(*said))
    words = [
        f"{'-' if one.by < timedelta() else ''}{abs(one.by).total_seconds() // 3600:.0f}:"
        f"{abs(one.by).total_seconds() % 3600 / 60:02.0f}"
        for one in found
    ]
    assert [(one.at.number, w, one.ran_s) for one, w in zip(found, words, strict=True)] == breaks


@given(st.lists(st.integers(1, 1500), min_size=2, max_size=8), st.data())
@settings(max_examples=40, deadline=None)
def test_a_record_whose_clock_was_put_once_is_as_it_was_when_put_right(
    steps: list[int], data: st.DataObject
) -> None:
    times = [sum(steps[:n]) for n in range(len(steps))]
    meant = tuple(
        Tap(n, TEN + timedelta(seconds=s), Did.FISH, since_open=f"a {s} s")
        for n, s in enumerate(times, 1)
    )
    at = data.draw(st.integers(2, len(meant)))
    by = timedelta(minutes=data.draw(st.integers(-300, -2)))
    wrong = put_clock(Record("k", "m", meant), by, range(at, 99))
    (found,) = clock_breaks(wrong.taps)
    assert found.at.number == at
    assert put_clock(wrong, -found.by, range(at, 99)).taps == meant
    before = put_clock(wrong, found.by, range(at))
    assert clock_breaks(before.taps) == ()


@pytest.mark.parametrize(
    ("methods", "water", "there", "not_there"),
    [
        (["feeder"], "river", "river-feeder", "missed"),
        (["pole"], "canal", "tows", "feeder-none"),
        (["float"], "still water", "waggler", "tows"),
        (["pole", "feeder"], "still water", "feeder-cold", "river-waggler"),
    ],
)
def test_signs_are_those_of_the_method_and_the_water(
    methods: list[str], water: str, there: str, not_there: str
) -> None:
    keys = [sign.key for sign in signs_for(methods, water)]
    assert there in keys
    assert not_there not in keys
    assert len({sign.key for sign in SIGNS}) == len(SIGNS)
