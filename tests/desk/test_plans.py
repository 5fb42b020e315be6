"""The plan of a match, as the desk answers it."""

from pathlib import Path

import pytest
from sqlalchemy import Connection, Engine, event

from tacklebox.desk import Desk, as_json, measuring, plans
from tacklebox.desk.judgements import Outcome
from tacklebox.desk.plans import PartFrom, WantInPlan
from tacklebox.desk.rulings import About, Verdict
from tacklebox.desk.shopping import ListFiles
from tacklebox.errors import AskedWronglyError
from tests.desk.boxes import MATCH_DAY, change, copied, make_match_box

RIG, HOOKLENGTH = "pole-canal-shot (depth 1.2 m)", "hooklength-fine"


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("made") / "box"
    make_match_box(folder)
    return folder


@pytest.fixture
def desk(made: Path, tmp_path: Path) -> Desk:
    return copied(made, tmp_path)


def wants(desk: Desk) -> dict[str, WantInPlan]:
    return {want.name: want for want in plans.plan(desk, "open").wants}


def test_what_is_tied_from_what_and_what_stays_unmet(desk: Desk) -> None:
    rig, hooklength = (wants(desk)[name] for name in (RIG, HOOKLENGTH))
    assert (rig.wanted, rig.ready, rig.tie, rig.unmet) == (3, (), 1, 2)
    assert PartFrom("float", 3, "pole 4×12", 1) in rig.parts
    assert rig.because.startswith("float: 0 of pole 4×12 left, 1 needed for one")
    assert (hooklength.tie, hooklength.unmet, hooklength.because) == (10, 0, "")
    assert rig.chosen["depth"] == "1.2 m"


def test_the_match_and_its_day(desk: Desk) -> None:
    made = plans.plan(desk, "open")
    assert (made.match, made.on.isoformat(), made.hours) == ("open", MATCH_DAY, 5)
    assert (made.venue, made.venue_name, made.overhead_lines) == ("pond", "Pond", "")
    assert made.proven


def test_what_to_buy_and_what_may_run_out(desk: Desk) -> None:
    made = plans.plan(desk, "open")
    assert [(one.name, one.packs, one.what_for) for one in made.shopping.to_buy] == [
        ("pole 4×12", 2, "for 2 × Canal pole, shot (depth 1.2 m)"),
        ("winder 13 cm 18 mm", 2, "for 2 × Canal pole, shot (depth 1.2 m)"),
    ]
    assert (made.shopping.heading, made.shopping.total) == (
        "To buy for Open, Saturday 20 June",
        "2 prices missing",
    )
    hooks = next(one for one in made.on_the_day.likely if one.name.startswith("hook"))
    assert (hooks.planned.value, hooks.left.value) == (10, 0)
    assert hooks.chance_to_run_out == pytest.approx(1 - (1 / 2) ** 2)  # by hand: gamma(2, 1)


def test_what_the_venue_turns_away_is_neither_tied_nor_bought(desk: Desk) -> None:
    change(desk.box.folder / "venues" / "pond.toml", ('"2 lb"', '"4 lb"'))
    made = plans.plan(desk, "open")
    rig = made.wants[0]
    assert (rig.tie, rig.unmet) == (0, 3)
    assert rig.venue_says.verdict is Verdict.NOT_ALLOWED
    assert made.shopping.to_buy == ()


def test_what_fails_is_told_in_full(desk: Desk) -> None:
    """Where there is nothing that would do."""
    for _ in range(3):
        measuring.record_pull(desk, "nylon 0.12", "0.6 kg", as_read=True)
    rig = wants(desk)[RIG]
    assert rig.fails
    assert {judgement.outcome for judgement in rig.fails} == {Outcome.FAILS}


def test_groundbait_of_the_feed_is_judged(desk: Desk) -> None:
    path = desk.box.folder / "matches" / "open.toml"
    path.write_text(path.read_text(encoding="utf-8") + '[feed]\nfeeder = "200 ml"\n', "utf-8")
    (over,) = [r for r in plans.plan(desk, "open").day.rulings if r.rule.about is About.GROUNDBAIT]
    assert (over.verdict, over.says) == (Verdict.NOT_ALLOWED, "3.375 kg, weighed dry")


def test_the_list_is_written_once_planned(desk: Desk, tmp_path: Path) -> None:
    table = tmp_path / "buy.csv"
    plans.plan(desk, "open", ListFiles(csv=table))
    assert "pole 4×12,2,missing,missing" in table.read_text(encoding="utf-8")
    with pytest.raises(AskedWronglyError, match="left as it is") as refused:
        plans.plan(desk, "open", ListFiles(csv=table))
    assert refused.value.see == "output.replace"
    plans.plan(desk, "open", ListFiles(csv=table, replace=True))


@pytest.mark.parametrize(
    ("old", "new", "where", "what"),
    [
        (MATCH_DAY, "2020-01-01", "open.toml, date", "which is past"),
        ("hooklength-fine", "hooklength-fnie", "open.toml, want 2", "there is no recipe"),
        ('"pond"', '"weir"', "open.toml, venue", 'there is no venue "weir"'),
        ('"1.2 m"', '"9 m"', "open.toml, want 1, choose.depth", "depth cannot be 9 m"),
        ("depth =", "dpeth =", "open.toml, want 1, choose.dpeth", '"dpeth" is not chosen in'),
        ("count = 6", "count = 600", "", "want 2.count"),
    ],
)
def test_a_fault_of_the_file_says_where(
    desk: Desk, old: str, new: str, where: str, what: str
) -> None:
    change(desk.box.folder / "matches" / "open.toml", (old, new))
    with pytest.raises(AskedWronglyError) as refused:
        plans.plan(desk, "open")
    assert (refused.value.where, refused.value.field) == (where, "")
    assert what in str(refused.value)


def test_a_match_or_venue_that_is_not_there_says_how_to_begin(tmp_path: Path) -> None:
    from tests.desk.boxes import desk_at

    with pytest.raises(AskedWronglyError, match="nor any other yet") as refused:
        plans.plan(desk_at(tmp_path), "open")
    assert refused.value.see == "matches.start"


def test_the_answer_is_known_to_json(desk: Desk) -> None:
    answer = as_json(plans.plan(desk, "open"))
    assert (answer["on"], answer["wants"][0]["tie"]) == (MATCH_DAY, 1)
    assert answer["wants"][0]["venue_says"]["verdict"] == "allowed"


def test_one_engine_serves_every_question(desk: Desk) -> None:
    engines = set()

    def note(connection: Connection) -> None:
        engines.add(connection.engine)

    event.listen(Engine, "engine_connect", note)
    try:
        plans.plan(desk, "open")
        plans.plan(desk, "open")
    finally:
        event.remove(Engine, "engine_connect", note)
    assert len(engines) == 1
