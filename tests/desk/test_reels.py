"""Reels and top kits as the desk answers: loaded from a spool, cut back, emptied; what they serve."""

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from tacklebox.desk import Desk, adding, care, checking, finding, reels, stock
from tacklebox.desk.answers import NamedItem
from tacklebox.errors import AlreadyDoneError, AskedWronglyError, BenchError, CannotBeDoneError
from tests.desk.boxes import copied, make_desk
from tests.stock.test_audit import force

LINE, THIN, ELASTIC = 1, 2, 3
FEEDER = "feeder-cage-run-ring"  # its main line, 0.20 to 0.24 mm, is on the reel


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("reels") / "box"
    desk = make_desk(
        folder, "nylon 0.22 mm 6 lb 150 m", "nylon 0.16 mm 3 lb 100 m", "elastic 4 6 m"
    )
    reels.add(desk, ["Feeder reel", "bomb reel"])
    reels.add(desk, ["kit 1"], what="top kit")
    desk.close()
    return folder


@pytest.fixture
def desk(made: Path, tmp_path: Path) -> Desk:
    return copied(made, tmp_path)


def on_hand(desk: Desk, item: int) -> str:
    return stock.show(desk, str(item)).item.on_hand.words


def words(desk: Desk) -> list[tuple[str, str, str, str]]:
    return [
        (row.reel, row.item.name if row.item else "", str(row.loaded or ""), str(row.since or ""))
        for row in reels.listed(desk)
    ]


def test_loading_takes_from_the_spool_and_is_undone_and_done_again(desk: Desk) -> None:
    done = reels.load(desk, "feeder", "nylon 0.22", "120 m", on="2026-03-01")
    assert done.item is not None
    assert (done.reel.reel, done.item.on_hand.words) == ("Feeder reel", "30 m")
    full = [
        ("Feeder reel", "nylon 0.22 mm 6 lb", "120 m", "2026-03-01"),
        ("bomb reel", "", "", ""),
        ("kit 1", "", "", ""),
    ]
    assert words(desk) == full
    undone = care.undo(desk)
    assert {cell.name for cell in undone.cells} == {"Feeder reel"}
    assert words(desk)[0] == ("Feeder reel", "", "", "")
    assert on_hand(desk, LINE) == "150 m"
    care.redo(desk)
    assert words(desk) == full
    assert on_hand(desk, LINE) == "30 m"
    assert stock.show(desk, "1").loaded == ("120 m on Feeder reel",)
    assert care.audit(desk).in_order


def test_what_is_refused_of_line_said_in_yards_is_told_in_yards(desk: Desk) -> None:
    spool = str(adding.add(desk, "nylon 8 lb reel line 100 yd").item.number)
    refusals = (
        (("bomb reel", "150 yd"), r"150 yd of nylon 8 lb reel line .*: 100 yd is in stock"),
        (("Feeder reel", "10 yd"), "60 yd of nylon 8 lb reel line is on Feeder reel"),
    )
    reels.load(desk, "Feeder reel", spool, "60 yd")
    stock.give(desk, spool, "60 yd")
    for (reel, much), says in refusals:
        with pytest.raises(CannotBeDoneError, match=says):
            reels.load(desk, reel, spool, much)
    with pytest.raises(CannotBeDoneError, match=r"only 100 yd .*; 120 yd cannot be taken"):
        stock.take(desk, spool, "120 yd")


def test_all_of_the_spool_cut_back_then_thrown_out_or_wound_back(desk: Desk) -> None:
    reels.load(desk, "bomb reel", "2", "all")
    cut = reels.shorten(desk, "bomb reel", "20 m")
    assert str(cut.reel.loaded) == "80 m"
    reels.unload(desk, "bomb reel", back=True)
    assert on_hand(desk, THIN) == "80 m"
    reels.load(desk, "bomb reel", "2", "50 m")
    reels.unload(desk, "bomb reel")
    assert (on_hand(desk, THIN), words(desk)[1][1]) == ("30 m", "")
    assert care.audit(desk).in_order


def test_what_was_on_it_before_takes_nothing(desk: Desk) -> None:
    """An item that the box does not know yet is added by its words, with nothing on hand."""
    reels.load(desk, "feeder reel", "1", "140 m", already=True)
    reels.load(desk, "bomb reel", "nylon 0.20 mm 5 lb", "100 m", already=True, on="2025-03-01")
    assert on_hand(desk, LINE) == "150 m"
    assert on_hand(desk, 4) == "0 m"
    assert words(desk)[1] == ("bomb reel", "nylon 0.20 mm 5 lb", "100 m", "2025-03-01")
    assert care.audit(desk).in_order
    care.undo(desk)
    assert len(stock.listed(desk).items) == 3


def test_new_line_in_place_of_old_is_one_action(desk: Desk) -> None:
    reels.load(desk, "feeder reel", "1", "100 m")
    reels.load(desk, "feeder reel", "1", "50 m", instead=True)
    assert (words(desk)[0][2], on_hand(desk, LINE)) == ("50 m", "0 m")
    assert care.audit(desk).in_order
    care.undo(desk)
    assert (words(desk)[0][2], on_hand(desk, LINE)) == ("100 m", "50 m")


def test_what_is_sent_twice_is_done_once(desk: Desk) -> None:
    reels.load(desk.keyed("form 7"), "kit 1", "3", "2.2 m")
    with pytest.raises(AlreadyDoneError):
        reels.load(desk.keyed("form 7"), "kit 1", "3", "2.2 m")
    assert on_hand(desk, ELASTIC) == "3.8 m"


REFUSED: list[tuple[Callable[[Desk], object], type[BenchError], str]] = [
    (lambda d: reels.load(d, "feeder reel", "1", "151 m"), CannotBeDoneError, "amount"),
    (lambda d: reels.load(d, "feeder reel", "1", "0"), AskedWronglyError, "amount"),
    (lambda d: reels.load(d, "feeder reel", "1", "lots"), AskedWronglyError, "amount"),
    (lambda d: reels.load(d, "feeder reel", "3", "2 m"), AskedWronglyError, "item"),
    (lambda d: reels.load(d, "kit 1", "1", "2 m"), AskedWronglyError, "item"),
    (lambda d: reels.load(d, "no such", "1", "2 m"), AskedWronglyError, "reel"),
    (lambda d: reels.load(d, "reel", "1", "2 m"), AskedWronglyError, "reel"),  # of two
    (
        lambda d: reels.load(d, "bomb reel", "9", "2 m", already=True),
        AskedWronglyError,
        "item",
    ),
    (lambda d: reels.load(d, "bomb reel", "0.19 mm", "2 m"), AskedWronglyError, "item"),
    (lambda d: reels.unload(d, "kit 1"), CannotBeDoneError, "reel"),
    (lambda d: reels.shorten(d, "kit 1", "1 m"), CannotBeDoneError, "reel"),
    (lambda d: reels.add(d, ["new", "BOMB reel"]), AskedWronglyError, "called"),
    (lambda d: reels.add(d, [" "]), AskedWronglyError, "called"),
    (lambda d: reels.add(d, ["top kit 3"]), AskedWronglyError, "called"),
    (lambda d: reels.add(d, ["match", "reel"]), AskedWronglyError, "called"),  # without quotes
    (lambda d: reels.add(d, ["x" * 61]), AskedWronglyError, "called"),
    (lambda d: reels.add(d, ["new"], what="pole"), AskedWronglyError, "what"),
    (lambda d: reels.rename(d, "kit 1", "bomb reel"), AskedWronglyError, "called"),
]


@pytest.mark.parametrize(("ask", "sort", "field"), REFUSED)
def test_what_cannot_be_is_refused_by_its_field_and_nothing_is_saved(
    desk: Desk, ask: Callable[[Desk], object], sort: type[BenchError], field: str
) -> None:
    before, last = words(desk), care.last_done(desk)
    with pytest.raises(sort) as refused:
        ask(desk)
    assert refused.value.field == field
    assert (words(desk), care.last_done(desk)) == (before, last)


def test_a_full_reel_is_not_loaded_nor_cut_to_nothing(desk: Desk) -> None:
    reels.load(desk, "feeder reel", "1", "100 m")
    with pytest.raises(CannotBeDoneError, match="is on Feeder reel since"):
        reels.load(desk, "feeder reel", "1", "20 m")
    with pytest.raises(CannotBeDoneError, match="100 m is on it"):
        reels.shorten(desk, "feeder reel", "100 m")


def test_renamed_and_retired(desk: Desk) -> None:
    reels.rename(desk, "kit 1", "margin kit")
    reels.retire(desk, "bomb reel")
    assert [row.reel for row in reels.listed(desk)] == ["Feeder reel", "margin kit"]
    care.undo(desk)
    assert len(reels.listed(desk)) == 3
    assert care.audit(desk).in_order


def part(desk: Desk, recipe: str, name: str, **use: str) -> checking.PartServed:
    checked = checking.check(desk, recipe, {}, use=use)
    return next(p for p in checked.rig.parts if p.part == name)


def test_what_is_on_the_reel_serves_though_nothing_is_left_on_the_spool(desk: Desk) -> None:
    before = part(desk, FEEDER, "main line")
    assert (before.item, before.reels) == (NamedItem(1, "nylon 0.22 mm 6 lb"), ())
    reels.load(desk, "feeder reel", "1", "all")
    after = part(desk, FEEDER, "main line")
    assert (after.item, after.already) == (before.item, "on the reel")
    assert (after.reels, after.takes) == (("Feeder reel",), None)


def test_a_loaded_reel_is_before_a_nearer_spool_and_may_be_named(desk: Desk) -> None:
    for name, line in (("bomb reel", "nylon 0.20 mm 5 lb"), ("feeder reel", "nylon 0.24 mm 7 lb")):
        reels.load(desk, name, line, "90 m", already=True)
    assert part(desk, FEEDER, "main line").reels == ("bomb reel",)
    named = part(desk, FEEDER, "main line", **{"main line": "Feeder reel"})
    assert named.reels == ("Feeder reel",)


def test_elastic_in_a_top_kit_serves_the_pole(desk: Desk) -> None:
    reels.load(desk, "kit 1", "3", "all")
    elastic = part(desk, "pole-canal-shot", "elastic")
    assert (elastic.reels, elastic.already) == (("kit 1",), "in the pole")


def test_a_part_that_only_a_reel_has_says_so(desk: Desk) -> None:
    """A leader is cut from a spool: what is on the reel would do, and is not cut."""
    adding.add(desk, "nylon 0.25 mm 8 lb 100 m", adding.NewStock(place="match reel"))
    by_place = part(desk, FEEDER, "leader")
    assert (by_place.item, by_place.only_on) == (None, ("match reel",))
    stock.edit(desk, "4", place="drawer 1")
    assert part(desk, FEEDER, "leader").only_on == ()
    reels.load(desk, "bomb reel", "4", "all")
    loaded = part(desk, FEEDER, "leader")
    assert (loaded.item, loaded.only_on) == (None, ("bomb reel",))
    assert "bomb reel" in loaded.missing


def test_an_export_carries_what_is_loaded(desk: Desk, tmp_path: Path) -> None:
    reels.load(desk, "feeder reel", "1", "120 m")
    reels.load(desk, "kit 1", "3", "2 m")
    reels.shorten(desk, "feeder reel", "15 m")
    care.export(desk, tmp_path / "plain")
    other = Desk(tmp_path / "other")
    care.read_in(other, tmp_path / "plain")
    assert words(other) == words(desk)
    assert care.audit(other).in_order
    shutil.rmtree(tmp_path / "plain")


@pytest.mark.parametrize(
    ("change", "where"),
    [
        (
            "UPDATE movement SET amount = -119000 WHERE why = 'loaded'",
            'action 6 "load Feeder reel"',
        ),
        ("UPDATE movement SET item_id = 2 WHERE why = 'loaded'", 'action 6 "load Feeder reel"'),
        ("DELETE FROM movement WHERE why = 'loaded'", 'action 6 "load Feeder reel"'),
        ("UPDATE reel SET item_id = 3 WHERE id = 1", "reel Feeder reel"),
        ("UPDATE reel SET item_id = NULL WHERE id = 1", "reel Feeder reel"),
        ("UPDATE reel SET loaded_mm = -1 WHERE id = 1", "reel Feeder reel"),
        ("UPDATE reel SET item_id = 1, loaded_mm = 9 WHERE id = 2", "reel bomb reel"),
        ("UPDATE reel SET loaded_mm = 130000 WHERE id = 1", "reel id 1"),  # no action says so
    ],
)
def test_the_audit_finds_a_reel_that_is_not_as_it_was_loaded(
    desk: Desk, change: str, where: str
) -> None:
    reels.load(desk, "feeder reel", "1", "120 m")
    force(desk.box, change)
    assert where in {fault.where for fault in care.audit(desk).faults}


def test_what_is_loaded_is_told_as_it_was_said(desk: Desk) -> None:
    for reel, line, amount in (("bomb reel", "2", "50 yds"), ("kit 1", "3", "8 ft")):
        assert str(reels.load(desk, reel, line, amount).reel.loaded) == amount.removesuffix("s")
    assert str(reels.load(desk, "feeder reel", "1", "half the spool").reel.loaded) == "75 m"
    with pytest.raises(CannotBeDoneError, match=r"^120 yd of nylon .* cannot be loaded: 54\.28 m"):
        reels.load(desk, "feeder reel", "2", "120 yards", instead=True)


def test_a_reel_is_found_by_its_name_and_by_what_is_on_it(desk: Desk) -> None:
    reels.load(desk, "bomb reel", "2", "50 yds")
    for words in ("Bomb reel", "0.16 reel"):
        found = finding.find(desk, words).things[-1]
        assert (found.sort, found.key) == ("reel", "bomb reel")
        assert found.words == "bomb reel: 50 yd of nylon 0.16 mm 3 lb"
