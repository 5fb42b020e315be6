"""Fitting, checking and tying on a real SQLite file."""

import json
from dataclasses import replace
from pathlib import Path

import pytest
from sqlmodel import select

from tacklebox.errors import AskedWronglyError, CannotBeDoneError
from tacklebox.rigs.checking.check import check
from tacklebox.rigs.fitting import fit
from tacklebox.rigs.recipes.file import Choice, parse_recipe
from tacklebox.rigs.recipes.resolving import resolve
from tacklebox.rigs.tying.describe import describe
from tacklebox.rigs.tying.snapshot import Snapshot
from tacklebox.rigs.tying.tie import fit_and_check, tie
from tacklebox.rigs.tying.tied import find_snapshot, mark_lost, strip_rigs, tied_with
from tacklebox.stock.finding import find
from tacklebox.stock.inventory import Inventory
from tacklebox.stock.ledger import begin, move
from tacklebox.stock.made import Tied
from tacklebox.stock.measuring import record_stretch
from tacklebox.stock.tables import Kind, Movement, Why
from tacklebox.trade.judgement import Check, Outcome
from tests.rigs.boxes import (
    CANAL,
    DAY,
    SHELF,
    add,
    canal_rig,
    fine_hooklength,
    make_box,
    on_hand,
    short_rig,
)


def chosen(fitted: object, part: str) -> str | None:
    from tacklebox.rigs.fitting import Fit

    assert isinstance(fitted, Fit)
    item = fitted.serving(part).item
    return item.item.name if item else None


def test_ranked_by_nearness_then_open_packets_then_age(tmp_path: Path) -> None:
    box = make_box(
        tmp_path,
        "nylon 0.12 mm 1.6 kg 50 m",
        "nylon 0.11 mm 1.4 kg 50 m",
        "nylon 0.11 mm 1.3 kg 50 m",
        "nylon 0.11 mm 1.35 kg 50 m",
    )
    with box.writing() as session:
        opened = find(session, "3")
        move(session, begin(session, "x", DAY), opened, -1000, Why.LOST)
    with box.reading() as session:
        fitted = fit(canal_rig(), Inventory.read(session))
    assert chosen(fitted, "rig line") == "nylon 0.11 mm 1.3 kg"
    assert [s.item.name for s in fitted.serving("rig line").others] == [
        "nylon 0.11 mm 1.4 kg",
        "nylon 0.11 mm 1.35 kg",
        "nylon 0.12 mm 1.6 kg",
    ]


def test_line_on_a_reel_is_not_cut(tmp_path: Path) -> None:
    box = make_box(tmp_path, "nylon 0.12 mm 1.6 kg 50 m")
    add(box, "nylon 0.11 mm 1.4 kg 150 m", place="match reel")
    with box.reading() as session:
        assert (
            chosen(fit(canal_rig(), Inventory.read(session)), "rig line") == "nylon 0.12 mm 1.6 kg"
        )


def test_what_is_missing_is_a_named_gap(tmp_path: Path) -> None:
    box = make_box(tmp_path, "nylon 0.12 mm 1.6 kg 50 m", "shot No 8 tin pack 20")
    with box.reading() as session:
        fitted = fit(canal_rig(), Inventory.read(session), count=11)
    gaps = {s.need.part: s.gap for s in fitted.gaps}
    assert gaps["shot No 8"] == "shot No 8 tin: 20 left, 22 needed"
    assert gaps["float"] == "nothing in the box is: pole 4×12"
    assert "elastic" not in gaps  # it is in the pole, not taken from stock


def test_a_part_from_a_named_item(tmp_path: Path) -> None:
    box = make_box(tmp_path)
    checked = fit_and_check(box, canal_rig(), use={"float": 5})
    assert chosen(checked.fit, "float") == "pole 4×12 tip 1.2 mm"
    with pytest.raises(AskedWronglyError, match="is not what float asks for"):
        fit_and_check(box, canal_rig(), use={"float": 1})
    with pytest.raises(AskedWronglyError, match='no part "flote"'):
        fit_and_check(box, canal_rig(), use={"flote": 5})


def test_a_sound_rig_and_its_judgements(tmp_path: Path) -> None:
    checked = fit_and_check(make_box(tmp_path), canal_rig())
    assert checked.outcome is Outcome.SOUND
    answer = {j.about for j in checked.judgements}
    assert {"breaks first", "hook and line", "winder", "join between lines"} <= answer
    assert any("float" in about for about in answer)
    assert any("step" in about for about in answer)


def outcome_of(tmp_path: Path, about: str, *words: str) -> Outcome:
    checked = fit_and_check(make_box(tmp_path, *words), canal_rig())
    return next(j.outcome for j in checked.judgements if about in j.about)


def test_a_hooklength_stronger_than_the_rig_line_will_not_do(tmp_path: Path) -> None:
    words = (
        "nylon 0.09 mm 0.95 kg 50 m",
        "nylon 0.10 mm 0.9 kg 50 m",
        "hook 20 barbless spade pack 10",
    )
    assert outcome_of(tmp_path, "breaks first", *words) is Outcome.FAILS


def test_no_known_strain_is_looked_at_again(tmp_path: Path) -> None:
    words = ("nylon 0.08 mm 50 m", "nylon 0.12 mm 1.6 kg 50 m")
    assert outcome_of(tmp_path, "breaks first", *words) is Outcome.DOUBTFUL


def test_a_common_pair_of_hook_and_line(tmp_path: Path) -> None:
    """Common practice (no source): 0.10 mm line on a size 20 hook is usual; 0.08 mm too."""
    words = ("nylon 0.08 mm 0.7 kg 50 m", "hook 20 barbless spade pack 10")
    assert outcome_of(tmp_path, "hook and line", *words) is Outcome.SOUND


@pytest.mark.parametrize(
    ("depth", "turns", "outcome"),
    [
        ("2 m", 9, Outcome.SOUND),
        ("4.5 m", 19, Outcome.SOUND),
        ("6 m", 24, Outcome.DOUBTFUL),
        ("9.5 m", 38, Outcome.DOUBTFUL),
        ("11.9 m", 47, Outcome.FAILS),
    ],
)
def test_too_long_for_its_winder(tmp_path: Path, depth: str, turns: int, outcome: Outcome) -> None:
    """Depth and 35 cm more, round and round a winder of 13 cm; over 20 and 40 turns (memory)."""
    recipe = SHELF.load("pole-canal-shot")
    deep = Choice.model_validate({"usual": depth, "from": "1 m", "to": "12 m"})
    long_one = recipe.model_copy(update={"choose": {**recipe.choose, "depth": deep}})
    checked = fit_and_check(make_box(tmp_path), resolve(long_one, {}, fine_hooklength()))
    winder = next(j for j in checked.judgements if j.key is Check.WINDER)
    assert winder.outcome is outcome
    assert winder.is_shown is (outcome is not Outcome.SOUND)  # sound, it is dull
    assert f"{turns} turns" in winder.says


def test_checks_do_not_read_the_database(tmp_path: Path) -> None:
    box = make_box(tmp_path)
    with box.reading() as session:
        fitted = fit(canal_rig(), Inventory.read(session))
    (tmp_path / "tacklebox.sqlite3").unlink()
    assert check(fitted).outcome is Outcome.SOUND


def test_tying_takes_from_stock_and_gives_codes(tmp_path: Path) -> None:
    box = make_box(tmp_path)
    add(box, "pole 4×12 tip 1 mm", packs=4)
    before = on_hand(box)
    add(box, "winder 18 cm 20 mm", packs=5)
    done = tie(box, canal_rig(), 3, DAY, use={"float": 11, "winder": 12})
    after = on_hand(box)
    assert [rig.code for rig in done.rigs] == ["A01T", "A02R", "A03P"]
    # The rig line is 1.2 m + 50 cm − 15 cm, and each loop eats 8 cm and twice its 2 cm.
    assert before["nylon 0.12 mm 1.6 kg"] - after["nylon 0.12 mm 1.6 kg"] == 3 * (1550 + 2 * 120)
    assert before["shot No 8 tin"] - after["shot No 8 tin"] == 6
    assert before["shot No 10 tin"] - after["shot No 10 tin"] == 6
    assert before["pole 4×12 tip 1 mm"] - after["pole 4×12 tip 1 mm"] == 3
    assert after["winder 18 cm 20 mm"] == 2
    assert before["elastic 4"] == after["elastic 4"]
    assert before["hook 20 barbless spade"] == after["hook 20 barbless spade"]
    assert {i.name: i.on_hand for i in done.left}["shot No 8 tin"] == after["shot No 8 tin"]


@pytest.mark.parametrize(
    ("words", "part", "gap"),
    [
        (
            "hook 20",
            "hook",
            "hook 20, whose end and barb nobody noted; asked: hook 20 barbless spade",
        ),
        (
            "3 lb nylon 100 m",
            "rig line",
            "nylon 3 lb, whose diameter nobody noted; asked: nylon 0.10 to 0.12 mm",
        ),
        ("6 lb nylon 100 m", "rig line", "nothing in the box is: nylon"),  # far thicker than asked
    ],
)
def test_what_lacks_the_figure_that_is_asked_is_told(
    tmp_path: Path, words: str, part: str, gap: str
) -> None:
    box = make_box(tmp_path, words)
    fitted = fit_and_check(box, canal_rig()).fit
    both = [*fitted.gaps, *(fitted.hooklength.gaps if fitted.hooklength else ())]
    assert {serving.need.part: serving.gap for serving in both}[part].startswith(gap)


def test_a_shortage_ties_nothing(tmp_path: Path) -> None:
    box = make_box(tmp_path)
    before = on_hand(box)
    with pytest.raises(CannotBeDoneError, match="float: pole 4×12: 1 left, 2 needed"):
        tie(box, canal_rig(), 2, DAY)
    assert on_hand(box) == before
    assert tied_with(box) == []


def test_what_will_not_do_is_refused_unless_a_reason_is_given(tmp_path: Path) -> None:
    box = make_box(tmp_path)
    with box.writing() as session:
        strong = find(session, "nylon 0.12 mm 1.6 kg")
        move(session, begin(session, "x", DAY), strong, -strong.on_hand, Why.LOST)
    with box.writing() as session:
        from tacklebox.stock.entering import NewItem, add_item
        from tacklebox.stock.notation import read_notation

        weak = NewItem(read_notation("nylon 0.12 mm 0.6 kg 50 m"))
        add_item(session, begin(session, "add", DAY), weak, as_printed=True)
    before = on_hand(box)
    with pytest.raises(CannotBeDoneError, match="breaks first"):
        tie(box, canal_rig(), 1, DAY)
    assert on_hand(box) == before
    done = tie(box, canal_rig(), 1, DAY, because="old line, for the pond only")
    assert done.rigs[0].forced_because == "old line, for the pond only"
    _, snapshot = find_snapshot(box, done.rigs[0].code)
    assert snapshot.outcome == "fails"


def test_an_elastic_beyond_the_guide_is_refused_until_its_pull_is_measured(tmp_path: Path) -> None:
    box = make_box(tmp_path, *CANAL[:8], "elastic 25 6 m", *CANAL[9:])
    text = Path("recipes/pole-canal-shot.toml").read_text()
    strong = parse_recipe(text.replace('grade = "3 to 4"', 'grade = "25"'), "strong")
    rig = resolve(strong, {}, fine_hooklength())
    before = on_hand(box)
    with pytest.raises(CannotBeDoneError, match="guide runs from 1 to 20"):
        tie(box, rig, 1, DAY)
    assert on_hand(box) == before
    assert tied_with(box) == []
    with box.writing() as session:
        record_stretch(session, find(session, "elastic 25"), 100, DAY)
    assert tie(box, rig, 1, DAY).rigs


def test_nothing_is_half_tied_when_it_breaks_off(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    box = make_box(tmp_path)
    before = on_hand(box)
    calls = 0

    def breaks_off(*args: object, **kwargs: object) -> None:
        nonlocal calls
        calls += 1
        if calls == 3:
            raise KeyboardInterrupt
        move(*args, **kwargs)  # type: ignore[arg-type]

    monkeypatch.setattr("tacklebox.rigs.tying.tie.move", breaks_off)
    with pytest.raises(KeyboardInterrupt):
        tie(box, canal_rig(), 1, DAY)
    assert on_hand(box) == before
    with box.reading() as session:
        assert session.exec(select(Tied)).all() == []
        assert {m.why for m in session.exec(select(Movement))} == {"bought"}


def test_taken_apart_gives_back_float_and_winder(tmp_path: Path) -> None:
    box = make_box(tmp_path)
    start = on_hand(box)
    (rig,) = tie(box, canal_rig(), 1, DAY).rigs
    strip_rigs(box, [rig.code.lower()], DAY)
    after = on_hand(box)
    assert after["pole 4×12"] == start["pole 4×12"]
    assert after["winder 13 cm 18 mm"] == start["winder 13 cm 18 mm"]
    assert after["nylon 0.12 mm 1.6 kg"] < start["nylon 0.12 mm 1.6 kg"]
    assert after["shot No 8 tin"] == start["shot No 8 tin"] - 2
    with pytest.raises(AskedWronglyError, match="stripped already"):
        mark_lost(box, [rig.code], DAY)


def test_lost_gives_back_the_winder_alone_and_all_or_none(tmp_path: Path) -> None:
    box = make_box(tmp_path)
    rigs = [*tie(box, canal_rig(), 1, DAY).rigs, *tie(box, short_rig(), 2, DAY).rigs]
    before = on_hand(box)
    with pytest.raises(AskedWronglyError, match="no rig has the code"):
        mark_lost(box, [rigs[0].code, "K8ML"], DAY)
    assert {t.state for t in tied_with(box)} == {"ready"}
    assert on_hand(box) == before
    mark_lost(box, [rigs[0].code, rigs[1].code], DAY)
    assert [t.state for t in tied_with(box)] == ["lost", "lost", "ready"]
    winder = "winder 13 cm 18 mm"
    assert on_hand(box) == before | {winder: before[winder] + 1}


def test_a_mistyped_code_offers_near_ones(tmp_path: Path) -> None:
    box = make_box(tmp_path)
    tie(box, fine_hooklength(), 2, DAY)
    with pytest.raises(AskedWronglyError, match="Near it: A0"):
        find_snapshot(box, "A01R")


def test_the_label_keeps_what_was_tied(tmp_path: Path) -> None:
    box = make_box(tmp_path)
    (rig,) = tie(box, canal_rig(depth="1.5 m"), 1, DAY).rigs
    snapshot = Snapshot.from_json(rig.snapshot)
    assert snapshot.size == "4×12"
    assert snapshot.rig_line == "nylon 0.12 mm 1.6 kg"
    assert snapshot.hooklength == "15 cm nylon 0.08 mm 0.7 kg"
    assert snapshot.hook == "20 barbless spade"
    assert snapshot.shot == "2 No 8 at 50 cm, 2 No 10 20–35 cm"
    assert snapshot.set_for == "depth 1.5 m"
    distances = [m.from_hook_mm for m in snapshot.marks]
    assert distances == sorted(distances, reverse=True)
    assert [m.what for m in snapshot.marks if m.what == "float"] == ["float"]
    assert snapshot.marks[-1].what == "hook"


@pytest.mark.parametrize("count", [0, -1, 501])
def test_a_count_that_makes_no_sense(tmp_path: Path, count: int) -> None:
    with pytest.raises(AskedWronglyError, match="From 1 to 500"):
        tie(make_box(tmp_path), canal_rig(), count, DAY)


def test_only_the_kinds_asked_for_are_read(tmp_path: Path) -> None:
    with make_box(tmp_path).reading() as session:
        assert set(Inventory.read(session, [Kind.LINE]).by_kind) == {Kind.LINE}


@pytest.mark.parametrize(
    ("kept", "read"), [("sound", "sound"), ("look again", "doubtful"), ("will not do", "fails")]
)
def test_outcomes_of_older_boxes_are_read_in_todays_words(
    tmp_path: Path, kept: str, read: str
) -> None:
    snapshot = describe(fit_and_check(make_box(tmp_path), canal_rig()), "A01T", DAY)
    text = replace(snapshot, outcome=kept).to_json()
    assert Snapshot.from_json(text) == replace(snapshot, outcome=read)


def test_lengths_of_older_rigs_are_read_from_their_words(tmp_path: Path) -> None:
    snapshot = describe(fit_and_check(make_box(tmp_path), canal_rig()), "A01T", DAY)
    assert (snapshot.lengths, snapshot.sizes) == ({"depth": "1.2 m"}, {"float": "4×12"})
    kept = json.loads(snapshot.to_json())
    del kept["lengths"], kept["sizes"]
    assert Snapshot.from_json(json.dumps(kept)) == replace(snapshot, sizes={})
    several = json.dumps(kept | {"set_for": "depth 1.5 m, tail-length 2 ft 6 in"})
    assert Snapshot.from_json(several).lengths == {"depth": "1.5 m", "tail-length": "2 ft 6 in"}
