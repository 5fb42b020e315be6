"""Tying a plan: from the items it chose, as one action, all of it or nothing."""

from datetime import date
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sqlmodel import select

from tacklebox.errors import BenchError
from tacklebox.matches.before.pack import uses_of
from tacklebox.matches.before.plan import Plan, make_plan
from tacklebox.matches.before.tie_plan import check_portions, not_allowed, portions_of, tie_portions
from tacklebox.matches.files.match import WantedRig
from tacklebox.matches.files.venue import parse_venue
from tacklebox.rigs.recipes.resolved import Resolved
from tacklebox.rigs.tying.tied import batches_with, tied_with
from tacklebox.stock.care.audit import audit
from tacklebox.stock.care.box import Box, open_box
from tacklebox.stock.care.undo import redo_last, undo_last
from tacklebox.stock.entering import NewItem, add_item
from tacklebox.stock.finding import find, load
from tacklebox.stock.ledger import begin, move
from tacklebox.stock.made import TiedUse
from tacklebox.stock.notation import read_notation
from tacklebox.stock.tables import Action, Why
from tests.long.length import so_many
from tests.rigs.boxes import DAY, add, canal_rig, fine_hooklength, make_box


def planned(box: Box, *wants: tuple[Resolved, int], despite_checks: bool = False) -> Plan:
    wanted = [(WantedRig(recipe=r.recipe.stem, count=n), r) for r, n in wants]
    return make_plan(box, wanted, despite_checks=despite_checks)


def amounts(box: Box) -> dict[int, int]:
    with box.reading() as session:
        return {item.id or 0: item.on_hand for item in load(session)}


def two_spools(folder: Path) -> Box:
    """Line for two rigs lies on two spools; each float is another item, too."""
    box = make_box(folder, "hook 20 barbless spade pack 10", "pole 4×12", "pole 4×12 tip 1.2 mm",
                   "shot No 8 tin pack 20", "shot No 10 tin pack 20", "nylon 0.08 mm 0.7 kg 50 m",
                   "elastic 4 6 m", "connector pack 4")  # fmt: skip
    add(box, "winder 13 cm 18 mm", packs=2)
    add(box, "nylon 0.12 mm 1.7 kg 50 m", amount="2 m")
    add(box, "nylon 0.11 mm 1.4 kg 50 m", amount="2 m")
    return box


def test_stock_after_is_exactly_what_the_plan_says(tmp_path: Path) -> None:
    box = two_spools(tmp_path)
    plan = planned(box, (fine_hooklength(), 4), (canal_rig(), 3))
    assert [line.tie for line in plan.wants] == [4, 2]
    before = amounts(box)
    done = tie_portions(box, portions_of(plan), DAY)
    uses = uses_of(plan)
    after = amounts(box)
    assert after.pop(max(after)) == 4  # the hooklengths
    assert after == {n: amount - uses.get(n, 0) for n, amount in before.items()}
    assert audit(box.database).faults == ()
    assert sum(tying.count for tying in done) == 6
    again = planned(box, (fine_hooklength(), 4), (canal_rig(), 3))
    assert [(line.has, line.tie) for line in again.wants] == [(4, 0), (2, 0)]


def test_each_rig_is_tied_from_the_items_that_the_plan_chose(tmp_path: Path) -> None:
    box = two_spools(tmp_path)
    plan = planned(box, (canal_rig(), 2))
    tie_portions(box, portions_of(plan), DAY)
    chosen = {
        (part, stocked.id): count
        for line in plan.wants
        for part, items in line.parts
        for stocked, count in items
    }
    with box.reading() as session:
        made = [(use.part, use.item_id) for use in session.exec(select(TiedUse))]
    assert {key: made.count(key) for key in made} == chosen
    assert {n for part, n in chosen if part == "rig line"} == {10, 11}  # two spools


def test_it_is_one_action_and_undone_as_a_whole(tmp_path: Path) -> None:
    box = two_spools(tmp_path)
    before = amounts(box)
    with box.reading() as session:
        actions = len(list(session.exec(select(Action))))
    tie_portions(box, portions_of(planned(box, (fine_hooklength(), 4), (canal_rig(), 2))), DAY)
    with box.reading() as session:
        assert len(list(session.exec(select(Action)))) == actions + 1
    assert len(tied_with(box, last=True)) == 2
    assert [batch.left for batch in batches_with(box, last=True)] == [4]
    undo_last(box, DAY)
    assert amounts(box) == before
    assert {rig.state for rig in tied_with(box)} == {"untied"}
    redo_last(box, DAY)
    assert {rig.state for rig in tied_with(box)} == {"ready"}
    assert audit(box.database).faults == ()


def test_rigs_come_before_hooklengths(tmp_path: Path) -> None:
    """All hooks go into hooklengths; the rig's check still knows what will hang on it."""
    box = two_spools(tmp_path)
    plan = planned(box, (fine_hooklength(), 10), (canal_rig(), 1))
    portions = portions_of(plan)
    assert [p.want.resolved.recipe.makes for p in portions] == ["rig", "hooklength"]
    checked = check_portions(box, portions)
    assert [j.outcome for j in checked[0].judgements if j.about == "breaks first"] == ["sound"]
    done = tie_portions(box, portions, DAY)
    assert [t.checked.outcome for t in done] == [c.outcome for c in checked]


def test_stock_that_went_meanwhile_leaves_nothing_half_tied(tmp_path: Path) -> None:
    box = two_spools(tmp_path)
    portions = portions_of(planned(box, (canal_rig(), 2), (fine_hooklength(), 10)))
    with box.writing() as session:
        hook = find(session, "hook 20 barbless spade")
        move(session, begin(session, "lost", DAY), hook, -1, Why.LOST)
    before = amounts(box)
    with pytest.raises(BenchError, match="nothing of the plan was tied: stock is short"):
        tie_portions(box, portions, DAY)
    assert amounts(box) == before
    assert tied_with(box) == []


def test_what_will_not_do_is_refused_unless_told_why(tmp_path: Path) -> None:
    """A rig line that breaks at 0.5 kg goes before a hooklength of 1 kg."""
    box = make_box(tmp_path, "pole 4×12", "shot No 8 tin pack 20", "shot No 10 tin pack 20",
                   "winder 13 cm 18 mm", "hook 20 barbless spade pack 10")  # fmt: skip
    with box.writing() as session:
        action = begin(session, "add", DAY)
        for words in ("nylon 0.12 mm 0.5 kg 50 m", "nylon 0.08 mm 1 kg 50 m"):
            add_item(session, action, NewItem(read_notation(words)), as_printed=True)
    wants = (fine_hooklength(), 2), (canal_rig(), 1)
    assert [want.tie for want in planned(box, *wants).wants] == [2, 0]
    portions = portions_of(planned(box, *wants, despite_checks=True))
    before = amounts(box)
    with pytest.raises(
        BenchError, match=r"nothing of the plan was tied: .* fails a check"
    ) as refused:
        tie_portions(box, portions, DAY)
    assert refused.value.see == "tie.because"
    assert (amounts(box), tied_with(box)) == (before, [])
    tie_portions(box, portions, DAY, because="for the shed wall")
    kept = {rig.recipe: rig.forced_because for rig in tied_with(box)}
    assert kept == {"pole-canal-shot": "for the shed wall"}
    assert [batch.forced_because for batch in batches_with(box)] == [""]


def test_what_the_venue_does_not_allow_is_named(tmp_path: Path) -> None:
    """The close season of running water: Environment Agency, national fisheries byelaws."""
    box = two_spools(tmp_path)
    plan = planned(box, (canal_rig(), 2), (fine_hooklength(), 2))
    text = 'name = "P"\nwater = "{}"\n[rules]\nleast_main_line = "{}"\n'
    strict = parse_venue(text.format("river", "1.5 kg"), "p")
    answer = not_allowed(box, strict, date(2026, 5, 1), plan)
    assert [about for about, _ in answer] == ["", "pole-canal-shot"]
    assert answer[1][1].says == "nylon 0.11 mm 1.4 kg"
    lenient = parse_venue(text.format("river", "1 kg"), "p")
    assert not_allowed(box, lenient, date(2026, 6, 16), plan) == []


def test_what_is_ready_already_is_not_judged_again(tmp_path: Path) -> None:
    box = two_spools(tmp_path)
    tie_portions(box, portions_of(planned(box, (canal_rig(), 2))), DAY)
    strict = parse_venue('name = "P"\nwater = "canal"\n[rules]\nleast_main_line = "5 lb"\n', "p")
    plan = planned(box, (canal_rig(), 2), (fine_hooklength(), 1))
    assert not_allowed(box, strict, date(2026, 6, 20), plan) == []


@settings(max_examples=so_many(30, 10), deadline=None)
@given(
    hooks=st.integers(1, 12),
    spools=st.lists(st.integers(2, 5000), min_size=1, max_size=3),
    floats=st.integers(1, 4),
    wants=st.tuples(st.integers(1, 5), st.integers(1, 8), st.integers(1, 8)),
)
def test_whatever_there_is_stock_agrees_with_the_plan(
    hooks: int, spools: list[int], floats: int, wants: tuple[int, int, int]
) -> None:
    stock = {
        "hook 20 barbless spade pack 10": str(hooks),
        "pole 4×12": str(floats),
        "winder 13 cm 18 mm": "4",
        "shot No 8 tin pack 20": "20",
        "shot No 10 tin pack 20": "20",
    }
    for number, mm in enumerate(spools):
        stock[f"nylon 0.12 mm 1.{6 + number} kg 50 m"] = f"{mm} mm"
        stock[f"nylon 0.08 mm 0.{6 + number} kg 50 m"] = f"{mm // 2} mm"
    recipes = canal_rig(), fine_hooklength(), fine_hooklength(length="20 cm")
    asked = list(zip(recipes, wants, strict=True))
    with TemporaryDirectory() as folder:
        box = open_box(Path(folder))
        with box.writing() as session:
            action = begin(session, "add", DAY)
            for words, amount in stock.items():
                add_item(session, action, NewItem(read_notation(words), amount=amount))
        plan, before = planned(box, *asked), amounts(box)
        tie_portions(box, portions_of(plan), DAY)
        uses = uses_of(plan)
        after = amounts(box)
        assert {n: after[n] for n in before} == {n: before[n] - uses.get(n, 0) for n in before}
        again = planned(box, *asked)
        assert [line.has for line in again.wants] == [line.tie for line in plan.wants]
        assert audit(box.database).faults == ()
