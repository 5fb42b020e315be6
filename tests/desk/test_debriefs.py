"""The debrief of a match: what its form asks, what is answered, what is written of it."""

from datetime import date
from pathlib import Path

import pytest

from tacklebox.desk import Desk, as_json, care, debrief_words, debriefs, rigs, stock
from tacklebox.desk.debrief_words import RigAsked, TackleAsked
from tacklebox.desk.debriefs import DebriefAnswers
from tacklebox.errors import AskedWronglyError, BenchError, CannotBeDoneError, ManyFaultsError
from tacklebox.rigs.tying.tie import tie
from tests.desk.boxes import change, copied, desk_at, make_match_box
from tests.rigs.boxes import DAY, add, canal_rig, keep_short_rig, short_rig

HOOK, SHOT, WINDER = "hook 20 barbless spade", "shot No 8 tin", "winder 13 cm 18 mm"
AFTER = date(2026, 7, 1)
MATCH = """name = "{name}"
date = "{day}"
from = "10:00"
to = "15:00"
venue = "pond"
[[want]]
recipe = "pole-canal-shot"
count = 1
[[want]]
recipe = "short-rig"
count = 6
"""
SAID = DebriefAnswers(
    back=["A02R"], lost=["A01T"], worn_out=["A03P"], did_well=["A02R"],
    tackle_lost={"hook 20": "2", "shot No 8": "3"}, weight="12-8", peg="14", notes="slow",
)  # fmt: skip


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A01T is the rig, A02R to A07H are short rigs; the matches are "open" and then "later"."""
    folder = tmp_path_factory.mktemp("made") / "box"
    make_match_box(folder)
    desk = desk_at(folder)
    keep_short_rig(folder)
    add(desk.box, "bead 4 mm pack 10")
    tie(desk.box, canal_rig(), 1, DAY)
    tie(desk.box, short_rig(), 6, DAY)
    desk.close()
    for stem, day in (("open", "2026-04-18"), ("later", "2026-05-02"), ("last", "2026-06-30")):
        text = MATCH.format(name=stem.capitalize(), day=day)
        (folder / "matches" / f"{stem}.toml").write_text(text, encoding="utf-8")
    return folder


@pytest.fixture
def desk(made: Path, tmp_path: Path) -> Desk:
    found = copied(made, tmp_path)
    found.today = lambda: AFTER
    return found


def states(desk: Desk) -> dict[str, str]:
    every = rigs.listed(desk, every=True)
    return {rig.code: rig.state for rig in every if rig.state != "ready"}


def on_hand(desk: Desk) -> dict[str, int]:
    return {item.name: item.on_hand.value for item in stock.listed(desk).items}


# What is asked.


def test_the_form_asks_for_rigs_want_by_want_and_for_their_tackle(desk: Desk) -> None:
    form = debriefs.form(desk, "open")
    assert (form.match, form.name, form.on, form.venue) == (
        "open",
        "Open",
        date(2026, 4, 18),
        "pond",
    )
    assert [[rig.code for rig in group.rigs] for group in form.rigs] == [
        ["A01T"],
        ["A02R", "A03P", "A04N", "A05L", "A06J", "A07H"],
    ]
    assert form.rigs[0].name == "Canal pole, shot, 4×12, depth 1.2 m"
    assert [(one.name, one.stock_before.value) for one in form.tackle] == [
        (HOOK, 4), (SHOT, 18), ("shot No 10 tin", 18),
    ]  # fmt: skip
    assert (form.others, form.stands) == ((), None)


def test_other_ready_rigs_may_have_been_taken(desk: Desk) -> None:
    tie(desk.box, short_rig(length="20 cm"), 1, DAY)
    assert [rig.code for rig in debriefs.form(desk, "open").others] == ["A08F"]


def test_rigs_of_a_recipe_that_is_gone_are_asked_for_by_its_name(desk: Desk) -> None:
    change(
        desk.box.folder / "matches" / "open.toml",
        ("count = 6", "count = 6\n[want.choose]\nx = '1'"),
    )
    assert [len(group.rigs) for group in debriefs.form(desk, "open").rigs] == [1, 6]


def test_a_debriefed_match_is_asked_for_with_what_it_says(desk: Desk) -> None:
    debriefs.write(desk, "open", SAID)
    form = debriefs.form(desk, "open")
    assert form.stands == DebriefAnswers(
        ("A02R",), ("A01T",), ("A03P",), did_well=("A02R",), tackle_lost={HOOK: "2", SHOT: "3"},
        weight="12 lb 8 oz (5.67 kg)", peg="14", notes="slow",
        section="", place="", points="", water="", record="",
    )  # fmt: skip
    assert next(one for one in form.tackle if one.name == HOOK).stock_before.value == 4


def test_a_rig_that_came_back_later_says_why_it_cannot_have_been_lost(desk: Desk) -> None:
    debriefs.write(desk, "later", DebriefAnswers(back=["A02R"]))
    asked = {
        rig.code: rig.only_back for group in debriefs.form(desk, "open").rigs for rig in group.rigs
    }
    assert "says it came back on Saturday 2 May 2026" in asked["A02R"]
    assert asked["A03P"] == ""


@pytest.mark.parametrize("ask", [debriefs.form, lambda d, m: debriefs.write(d, m, SAID)])
def test_a_match_that_is_still_to_come_is_not_debriefed(desk: Desk, ask: object) -> None:
    assert callable(ask)
    desk.today = lambda: date(2026, 4, 17)
    with pytest.raises(AskedWronglyError, match="has not come yet") as refused:
        ask(desk, "open")
    assert refused.value.field == "match"


# What is answered.

ASKED = (RigAsked("A01T"), RigAsked("A02R", "it came back later."), RigAsked("A03P"))


@pytest.mark.parametrize(
    ("said", "became", "codes"),
    [
        ("A01T a03p", "lost", ("A01T", "A03P")),
        ("ao1t", "lost", ("A01T",)),
        ("", "lost", ()),
        ("none", "lost", ()),
        ("all", "did_well", ("A01T", "A02R", "A03P")),
        ("A01T, A01T", "worn_out", ("A01T",)),
    ],
)
def test_rigs_are_said_by_their_codes(said: str, became: str, codes: tuple[str, ...]) -> None:
    assert debrief_words.read_rigs(said, ASKED, became) == codes


@pytest.mark.parametrize(
    ("said", "became", "expected"),
    [
        ("A04N", "lost", "A04N is not among these. There are A01T, A02R, A03P."),
        ("A0IX", "lost", "Near it: A01T."),
        ("A02R", "lost", "it came back later."),
        ("all", "worn_out", "it came back later."),
    ],
)
def test_a_rig_that_cannot_be_meant(said: str, became: str, expected: str) -> None:
    with pytest.raises(AskedWronglyError) as error:
        debrief_words.read_rigs(said, ASKED, became)
    assert expected in str(error.value)


def test_a_rig_may_stay_what_it_was() -> None:
    assert debrief_words.read_rigs("A02R", ASKED, "lost", ["A02R"]) == ("A02R",)


def test_an_amount_of_tackle_is_no_more_than_there_was(desk: Desk) -> None:
    (hooks, *_) = debriefs.form(desk, "open").tackle
    assert [debrief_words.read_tackle(said, hooks) for said in ("2", "", "0", "none")] == [
        "2",
        "",
        "",
        "",
    ]
    for said in ("5", "x", "-1"):
        with pytest.raises(AskedWronglyError):
            debrief_words.read_tackle(said, hooks)
    assert isinstance(hooks, TackleAsked)


def test_other_tackle_is_named_by_words(desk: Desk) -> None:
    assert debrief_words.read_other_tackle(desk, {"bead": "2", "winder": "0"}, []) == {
        "bead 4 mm": "2"
    }
    for said, besides in (({"bead": "99"}, []), ({"beed": "1"}, []), ({"hook 20": "1"}, [HOOK])):
        with pytest.raises(AskedWronglyError) as refused:
            debrief_words.read_other_tackle(desk, said, besides)
        assert refused.value.field == "tackle_lost"


# What is written.


def test_all_of_it_is_written_as_one_action(desk: Desk) -> None:
    before = on_hand(desk)
    written = debriefs.write(desk, "open", SAID)
    assert (written.back, written.lost, written.worn_out) == (("A02R",), ("A01T",), ("A03P",))
    assert [(one.name, one.amount.value) for one in written.tackle_lost] == [(HOOK, 2), (SHOT, 3)]
    assert [one.name for one in written.back_in_stock] == [WINDER]
    assert written.weight_g == pytest.approx(200 * 28.349523125)
    assert (written.weight, written.peg, written.notes) == ("12 lb 8 oz (5.67 kg)", "14", "slow")
    assert states(desk) == {"A01T": "lost", "A03P": "worn out"}
    assert debriefs.show(desk, "open") == written
    assert as_json(written)["on"] == "2026-04-18"
    care.undo(desk)
    assert (on_hand(desk), states(desk), debriefs.show(desk, "open")) == (before, {}, None)
    assert care.audit(desk).in_order


def test_a_second_one_is_refused_unless_it_corrects_the_first(desk: Desk) -> None:
    debriefs.write(desk, "open", SAID)
    with pytest.raises(AskedWronglyError, match="was debriefed already") as refused:
        debriefs.write(desk, "open", SAID)
    assert refused.value.see == "debriefs.correct"
    again = debriefs.write(desk, "open", DebriefAnswers(back=["A01T"]), correct=True)
    assert (again.back, again.lost, again.peg) == (("A01T",), (), "14")
    with pytest.raises(AskedWronglyError, match="has no debrief to correct"):
        debriefs.write(desk, "later", SAID, correct=True)


def test_a_correction_of_single_things_keeps_the_rest(desk: Desk) -> None:
    debriefs.write(desk, "open", SAID)
    changes = DebriefAnswers(tackle_lost={"shot No 8": "4"})
    now = debriefs.write(desk, "open", changes, correct=True, only_changes=True)
    assert (now.back, now.lost, now.worn_out) == (("A02R",), ("A01T",), ("A03P",))
    assert [(one.name, one.amount.value) for one in now.tackle_lost] == [(HOOK, 2), (SHOT, 4)]
    changes = DebriefAnswers(back=["A01T"], not_taken=["A03P"], tackle_lost={"hook 20": "0"},
                             weight="none", peg="", notes="none")  # fmt: skip
    now = debriefs.write(desk, "open", changes, correct=True, only_changes=True)
    assert (now.back, now.lost, now.worn_out) == (("A01T", "A02R"), (), ())
    assert (now.weight_g, now.peg, now.notes) == (None, "", "")
    assert (states(desk), on_hand(desk)[WINDER]) == ({}, 0)
    assert care.audit(desk).in_order


def test_a_weight_that_is_left_as_it_is_shown_stays_to_the_gram(desk: Desk) -> None:
    debriefs.write(desk, "open", DebriefAnswers(weight="2353 g", notes="x"))
    stands = debriefs.form(desk, "open").stands
    assert stands is not None
    assert stands.weight == "2.35 kg (5 lb 3 oz)"
    assert debriefs.write(desk, "open", stands, correct=True).weight_g == 2353


@pytest.mark.parametrize(
    ("said", "grams", "words"),
    [
        ("0 kg", 0.0, "0 kg (a blank)"),
        ("0", 0.0, "0 kg (a blank)"),
        ("12 lb 8", 5669.904625, "12 lb 8 oz (5.67 kg)"),
        ("5-3", 2353.010419375, "5 lb 3 oz (2.35 kg)"),
        ("3 lb 2 1/2 oz", 1431.651, "3 lb 2 1/2 oz (1.43 kg)"),
        ("85 g", 85.0, "85 g (3 oz)"),
        ("5.67 kg", 5670.0, "5.67 kg (12 lb 8 oz)"),
    ],
)
def test_weights_as_matches_are_weighed(desk: Desk, said: str, grams: float, words: str) -> None:
    written = debriefs.write(desk, "open", DebriefAnswers(back=["A02R"], weight=said))
    assert written.weight_g == pytest.approx(grams)
    assert written.weight == words


@pytest.mark.parametrize(
    ("answers", "field", "what"),
    [
        (DebriefAnswers(lost=["ZZZZ"]), "lost", '"ZZZZ" is mistyped'),
        (DebriefAnswers(worn_out=["A02R A9"]), "worn_out", '"A9" is no code'),
        (DebriefAnswers(back=["A02R"], lost=["A02R"]), "lost", "A02R is named twice"),
        (DebriefAnswers(tackle_lost={"beed": "1"}), "tackle_lost.beed", "beed"),
        (DebriefAnswers(tackle_lost={"bead": "x"}), "tackle_lost.bead", '"x" is no number'),
        (DebriefAnswers(weight="5"), "weight", '"5" has no unit for a weight'),
        (DebriefAnswers(not_taken=["A02R"]), "not_taken", "need not be named"),
    ],
)
def test_a_fault_names_its_field_and_writes_nothing(
    desk: Desk, answers: DebriefAnswers, field: str, what: str
) -> None:
    with pytest.raises(AskedWronglyError) as refused:
        debriefs.write(desk, "open", answers)
    assert refused.value.field == field
    assert what in refused.value.what
    assert (debriefs.show(desk, "open"), states(desk)) == (None, {})


def test_what_did_well_came_back_unless_more_is_said(desk: Desk) -> None:
    written = debriefs.write(desk, "open", DebriefAnswers(did_well=["A02R", "A03P"], lost=["A03P"]))
    assert (written.back, written.lost, written.did_well) == (
        ("A02R",),
        ("A03P",),
        ("A02R", "A03P"),
    )
    contrary = DebriefAnswers(not_taken=["A02R"], did_well=["A02R"])
    with pytest.raises(AskedWronglyError, match="did well but was not taken"):
        debriefs.write(desk, "open", contrary, correct=True, only_changes=True)


def test_several_faults_are_told_together(desk: Desk) -> None:
    wrong = DebriefAnswers(
        back=["ZZZZ"], lost=["A01T"], worn_out=["A01T"], tackle_lost={"beed": "1"}
    )
    with pytest.raises(ManyFaultsError) as refused:
        debriefs.write(desk, "open", wrong)
    fields = [fault.field for fault in refused.value.faults if isinstance(fault, BenchError)]
    assert fields == ["back", "worn_out", "tackle_lost.beed"]


def test_more_than_there_was_cannot_be_lost(desk: Desk) -> None:
    with pytest.raises(
        CannotBeDoneError, match="90 of hook 20 barbless spade cannot be lost"
    ) as refused:
        debriefs.write(desk, "open", DebriefAnswers(tackle_lost={"hook 20": "90"}))
    assert refused.value.field == f"tackle_lost.{HOOK}"


def test_what_later_history_contradicts_is_refused(desk: Desk) -> None:
    debriefs.write(desk, "open", SAID)
    debriefs.write(desk, "later", DebriefAnswers(lost=["A02R"]))
    with pytest.raises(AskedWronglyError) as refused:
        debriefs.write(desk, "open", DebriefAnswers(lost=["A02R"]), correct=True, only_changes=True)
    assert (
        refused.value.what == 'A02R is lost already, by "debrief of Later" of Saturday 2 May 2026.'
    )
    assert refused.value.field == "lost"
    well = DebriefAnswers(did_well=["A01T"])
    now = debriefs.write(desk, "open", well, correct=True, only_changes=True)
    assert (now.back, now.did_well) == (("A02R",), ("A01T", "A02R"))
    assert states(desk)["A02R"] == "lost"


def test_a_debrief_outlives_the_file_of_its_match(desk: Desk) -> None:
    written = debriefs.write(desk, "open", SAID)
    (desk.box.folder / "matches" / "open.toml").unlink()
    assert debriefs.show(desk, "open") == written
    with pytest.raises(AskedWronglyError, match='no match "opne"'):
        debriefs.show(desk, "opne")


# What worked.


def test_rigs_that_did_well_are_found_the_latest_first(desk: Desk) -> None:
    debriefs.write(desk, "open", SAID)
    debriefs.write(desk, "last", DebriefAnswers(back=["A04N"], did_well=["A04N"]))
    assert [one.code for one in debriefs.did_well(desk)] == ["A04N", "A02R"]
    (spring,) = debriefs.did_well(desk, season="spring", venue="pond")
    assert (spring.code, spring.match, spring.weight) == ("A02R", "open", "12 lb 8 oz (5.67 kg)")
    assert debriefs.did_well(desk, method="feeder") == ()


@pytest.mark.parametrize(
    ("venue", "season", "method", "field"),
    [("pnd", "", "", "venue"), ("", "monsoon", "", "season"), ("", "", "poll", "method")],
)
def test_what_no_debrief_can_be_found_by(
    desk: Desk, venue: str, season: str, method: str, field: str
) -> None:
    debriefs.write(desk, "open", SAID)
    with pytest.raises(AskedWronglyError) as refused:
        debriefs.did_well(desk, venue=venue, season=season, method=method)
    assert refused.value.field == field


def test_what_was_written_elsewhere_meanwhile_is_not_written_over(desk: Desk) -> None:
    seen = debriefs.form(desk, "open").version
    debriefs.write(desk, "open", DebriefAnswers(peg="7"), version=seen)
    with pytest.raises(AskedWronglyError, match="changed elsewhere"):
        debriefs.write(desk, "open", DebriefAnswers(peg="9"), correct=True, version=seen)
    shown = debriefs.show(desk, "open")
    assert shown is not None
    assert shown.peg == "7"
