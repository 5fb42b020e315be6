"""Matches and their plans, by hand arithmetic on a small box."""

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from tacklebox.errors import AskedWronglyError, BenchError
from tacklebox.matches.before.judged_plan import judge_plan
from tacklebox.matches.before.plan import Plan, make_plan, refuse_overlap
from tacklebox.matches.before.ready_rigs import is_as_wanted
from tacklebox.matches.before.rulings import About, Rule, Verdict
from tacklebox.matches.before.venue_rules import not_barred
from tacklebox.matches.files.match import (
    Match,
    Matches,
    WantedRig,
    parse_match,
    refuse_past,
    write_starting_match,
)
from tacklebox.matches.files.venue import Venue, parse_venue
from tacklebox.rigs.recipes.resolved import Resolved
from tacklebox.rigs.tying.describe import describe
from tacklebox.rigs.tying.tie import fit_and_check, tie
from tacklebox.rigs.tying.tied import mark_lost
from tacklebox.stock.asks import read_ask
from tacklebox.stock.care.box import Box
from tacklebox.stock.finding import find
from tacklebox.stock.inventory import Inventory
from tacklebox.stock.ledger import begin
from tacklebox.stock.tables import Kind
from tests.rigs.boxes import DAY, add, canal_rig, fine_hooklength, make_box, short_rig

HEAD = 'name = "Open"\ndate = "2026-06-20"\nfrom = "10:00"\nto = "15:30"\nvenue = "pond"\n'
WANT = '[[want]]\nrecipe = "hooklength-fine"\ncount = 6\n'


def wanted(resolved: Resolved, count: int, spares: int = 0) -> tuple[WantedRig, Resolved]:
    return WantedRig(recipe=resolved.recipe.stem, count=count, spares=spares), resolved


def planned(box: Box, *wants: tuple[WantedRig, Resolved], at: Venue | None = None) -> Plan:
    return make_plan(box, wants, at.rules if at else None)


def pond(rules: str) -> Venue:
    return parse_venue(f'name = "P"\nwater = "canal"\n[rules]\n{rules}', "pond")


def test_a_match_reads_as_it_was_written() -> None:
    match = parse_match(HEAD + WANT + "spares = 4\n", "open")
    assert (match.day, match.hours) == (date(2026, 6, 20), 5.5)
    assert match.want[0].total == 10


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (HEAD + WANT + WANT, "wanted already, the same, as want 1"),
        (HEAD.replace("2026-06-20", "20 June") + WANT, "has no year"),
        (HEAD.replace("15:30", "09:00") + WANT, "not after it begins"),
        (HEAD.replace("10:00", "ten") + WANT, "is no hour"),
        (HEAD, '"want" is missing'),
        (HEAD + WANT.replace("6", "0"), "want 1.count"),
        (HEAD + WANT + 'sizes = "18"\n', "is no key of a match"),
    ],
)
def test_a_faulty_match_is_refused_in_words(text: str, expected: str) -> None:
    with pytest.raises(AskedWronglyError, match=r"open\.toml") as error:
        parse_match(text, "open")
    assert expected in str(error.value)


def test_a_match_that_is_over_is_not_planned() -> None:
    match = parse_match(HEAD + WANT, "open")
    refuse_past(match, date(2026, 6, 20))
    with pytest.raises(AskedWronglyError, match="which is past"):
        refuse_past(match, date(2026, 6, 21))


def test_the_starting_file_is_a_match(tmp_path: Path) -> None:
    write_starting_match(tmp_path, "open", "pond", DAY)
    answer: Match = Matches(tmp_path).load("open")
    assert (answer.day, answer.venue, len(answer.want)) == (DAY, "pond", 2)
    with pytest.raises(AskedWronglyError, match="already"):
        write_starting_match(tmp_path, "open", "pond", DAY)


def test_the_usual_written_out_is_the_same_want() -> None:
    same = [wanted(fine_hooklength(), 2), wanted(fine_hooklength(length="15 cm"), 2)]
    with pytest.raises(AskedWronglyError, match="twice"):
        refuse_overlap(same)
    refuse_overlap([wanted(fine_hooklength(), 2), wanted(fine_hooklength(length="20 cm"), 2)])


def test_ready_rigs_come_first_and_only_such_as_are_wanted(tmp_path: Path) -> None:
    box = make_box(tmp_path)
    tie(box, short_rig(length="15 cm"), 3, DAY)
    tie(box, short_rig(length="30 cm"), 1, DAY)
    (line,) = planned(box, wanted(short_rig(), 3, spares=2)).wants
    assert (line.ready, line.tie, line.unmet) == (("A01T", "A02R", "A03P"), 2, 0)
    mark_lost(box, ["A01T"], DAY)
    (line,) = planned(box, wanted(short_rig(), 2)).wants
    assert (line.ready, line.tie) == (("A02R", "A03P"), 0)


def test_a_rig_of_another_depth_is_not_ready(tmp_path: Path) -> None:
    box = make_box(tmp_path)
    tie(box, canal_rig(depth="1.2 m"), 1, DAY)
    assert planned(box, wanted(canal_rig(depth="1.5 m"), 1)).wants[0].ready == ()
    assert planned(box, wanted(canal_rig(depth="120 cm"), 1)).wants[0].ready == ("A01T",)


def test_a_rig_that_says_nothing_of_its_choices_is_known_by_its_figures(tmp_path: Path) -> None:
    box = make_box(tmp_path)
    made = describe(fit_and_check(box, canal_rig(depth="1.2 m")), "A01T", DAY)
    older = replace(made, sizes={})
    for rig, same in ((made, True), (older, True), (replace(older, size="4×16"), False)):
        assert is_as_wanted(rig, canal_rig(depth="1.2 m")) is same
    assert not is_as_wanted(replace(made, sizes={"float": "4×14"}), canal_rig(depth="1.2 m"))


def test_the_more_important_takes_and_the_rest_is_told_why(tmp_path: Path) -> None:
    """Ten hooks: six for the first, four of five for the second, one to buy, a packet of ten."""
    box = make_box(tmp_path, "nylon 0.08 mm 0.7 kg 50 m")
    add(box, "hook 20 barbless spade pack 10", pack_price_cents=180)
    plan = planned(box, wanted(fine_hooklength(), 6), wanted(fine_hooklength(length="20 cm"), 5))
    assert [(line.tie, line.unmet) for line in plan.wants] == [(6, 0), (4, 1)]
    assert plan.wants[1].because == "hook: 0 of hook 20 barbless spade left, 1 needed for one"
    assert [(p.item.name, p.packs) for p in plan.purchases] == [("hook 20 barbless spade", 1)]
    assert plan.total_cents == 180


def test_what_the_box_never_knew_is_told(tmp_path: Path) -> None:
    box = make_box(tmp_path, "nylon 0.08 mm 0.7 kg 50 m")
    plan = planned(box, wanted(fine_hooklength(), 2))
    assert plan.wants[0].because.startswith("hook: no item in the box is hook 20")
    assert plan.purchases == ()


def test_line_on_a_reel_is_never_cut(tmp_path: Path) -> None:
    box = make_box(tmp_path, "hook 20 barbless spade pack 10")
    add(box, "nylon 0.08 mm 0.7 kg 50 m", place="reel 2")
    assert planned(box, wanted(fine_hooklength(), 1)).wants[0].tie == 0


def test_each_item_that_serves_is_judged(tmp_path: Path) -> None:
    """Two spools are needed for the two rigs; only one of them is strong enough for the venue."""
    box = make_box(tmp_path, "hook 20 barbless spade pack 10", "pole 4×12", "pole 4×12 tip 1.2 mm",
                   "shot No 8 tin pack 20", "shot No 10 tin pack 20")  # fmt: skip
    add(box, "winder 13 cm 18 mm", packs=2)
    add(box, "nylon 0.12 mm 1.7 kg 50 m", amount="2 m")
    add(box, "nylon 0.10 mm 1.1 kg 50 m", amount="2 m")
    plan = planned(box, wanted(canal_rig(), 2))
    assert plan.wants[0].tie == 2
    (rulings,) = judge_plan(box, pond('least_main_line = "1.5 kg"'), plan)
    assert sorted(r.verdict for r in rulings) == [Verdict.ALLOWED, Verdict.NOT_ALLOWED]


def test_what_the_venue_turns_away_is_left_at_home(tmp_path: Path) -> None:
    """The line nearer to the recipe's middle is too weak there; the other serves one rig."""
    box = make_box(tmp_path, "hook 20 barbless spade pack 10", "pole 4×12", "pole 4×12 tip 1.2 mm",
                   "shot No 8 tin pack 20", "shot No 10 tin pack 20")  # fmt: skip
    add(box, "winder 13 cm 18 mm", packs=2)
    add(box, "nylon 0.11 mm 1.1 kg 50 m")
    add(box, "nylon 0.12 mm 1.7 kg 50 m", amount="2 m")
    strong = pond('least_main_line = "1.5 kg"')
    assert planned(box, wanted(canal_rig(), 2)).wants[0].unmet == 0
    plan = planned(box, wanted(canal_rig(), 2), at=strong)
    assert (plan.wants[0].tie, plan.wants[0].unmet) == (1, 1)
    assert plan.wants[0].because.endswith("and the venue does not allow what else would do")
    assert [p.item.name for p in plan.purchases] == ["nylon 0.12 mm 1.7 kg"]
    (rulings,) = judge_plan(box, strong, plan)
    assert {r.verdict for r in rulings} == {Verdict.ALLOWED}


def test_a_ready_rig_that_is_turned_away_stays_at_home(tmp_path: Path) -> None:
    box = make_box(tmp_path)
    tie(box, canal_rig(), 1, DAY)  # from 0.12 mm of 1.6 kg
    with box.writing() as session:
        begin(session, "edit", DAY)
        find(session, "nylon 0.12").place = "match reel"
    for more in ("nylon 0.12 mm 1.8 kg 50 m", "winder 13 cm 18 mm"):
        add(box, more, name=f"another {more}")
    strong = pond('least_main_line = "1.7 kg"')
    assert planned(box, wanted(canal_rig(), 1)).wants[0].ready == ("A01T",)
    (line,) = planned(box, wanted(canal_rig(), 1), at=strong).wants
    assert (line.ready, line.tie, line.barred) == (
        (), 1, (("A01T", Rule(About.MAIN_LINE, "main line at least 1.7 kg")),),
    )  # fmt: skip
    (rulings,) = judge_plan(box, strong, planned(box, wanted(canal_rig(), 1), at=strong))
    assert {r.verdict for r in rulings} == {Verdict.ALLOWED}


def test_where_nothing_is_let_in_nothing_is_tied_nor_bought(tmp_path: Path) -> None:
    box = make_box(tmp_path)
    strong = pond('least_main_line = "2 kg"')
    plan = planned(box, wanted(canal_rig(), 3), at=strong)
    (line,) = plan.wants
    assert (line.tie, line.unmet, line.none_allowed) == (0, 3, True)
    assert line.because == (
        "rig line: the venue does not allow nylon 0.12 mm 1.6 kg (main line at least 2 kg)"
    )
    assert plan.purchases == ()
    (rulings,) = judge_plan(box, strong, plan)
    assert {r.verdict for r in rulings} == {Verdict.NOT_ALLOWED}


@pytest.mark.parametrize(
    ("rules", "resolved", "because"),
    [
        ('methods_banned = ["pole"]', canal_rig(), "no pole: pole-canal-shot: it is for the pole"),
        (
            'least_hooklength = "30 cm"',
            fine_hooklength(),
            "hooklength at least 30 cm: hooklength-fine: it is 15 cm long",
        ),
        (
            'greatest_hooklength = "10 cm"',
            canal_rig(),
            "hooklength at most 10 cm: hooklength-fine: it is 15 cm long",
        ),
    ],
)
def test_what_a_recipe_does_itself_is_turned_away(
    tmp_path: Path, rules: str, resolved: Resolved, because: str
) -> None:
    """What is ready stays at home, nothing more is tied, nothing bought for it."""
    box = make_box(tmp_path)
    add(box, "winder 13 cm 18 mm", name="another winder")
    tie(box, resolved, 1, DAY)
    plan = planned(box, wanted(resolved, 5), at=pond(rules))
    (line,) = plan.wants
    assert (line.ready, line.tie, line.unmet, line.none_allowed) == ((), 0, 5, True)
    is_rig = resolved.recipe.makes == "rig"
    kept = "A01T" if is_rig else "hooklength 20 barbless spade to 0.08 mm 0.7 kg 15 cm"
    assert [name for name, _ in line.barred] == [kept]
    assert line.because == f"the venue does not allow it: {because}"
    assert plan.purchases == ()
    allowed = planned(box, wanted(resolved, 5), at=pond("barbless = true"))
    assert (allowed.wants[0].has, allowed.wants[0].none_allowed) == (1, False)


@pytest.mark.parametrize(
    ("rules", "good", "bad"),
    [
        ('largest_hook = "22"', "hook 22 barbless spade pack 10", "hook 20 barbless spade pack 10"),
        ('materials_banned = ["lead"]', "shot No 8 tin pack 20", "shot No 8 lead pack 20"),
    ],
)
def test_each_figure_of_a_rule_counts(tmp_path: Path, rules: str, good: str, bad: str) -> None:
    box = make_box(tmp_path, bad, good)
    with box.reading() as session:
        asks = [read_ask(Kind.HOOK, {}), read_ask(Kind.WEIGHT, {})]
        inventory = Inventory.read(session)
    found = next(answer for ask in asks if (answer := inventory.ranked(ask, in_place=False)))
    kind = Kind(found[0].item.kind)
    let_in = not_barred(pond(rules).rules, kind, found, main_line=False)
    assert [loose.id for loose in let_in] == [2]
    assert not_barred(pond("barbless = true").rules, kind, found, main_line=True) == list(found)
    every = 'largest_hook = "24"\nmaterials_banned = ["lead", "tin"]'
    assert not_barred(pond(every).rules, kind, found, main_line=True) == []


def test_a_ready_rig_is_judged_by_what_it_was_tied_from(tmp_path: Path) -> None:
    box = make_box(tmp_path)
    tie(box, canal_rig(), 1, DAY)  # from 0.12 mm of 1.6 kg
    add(box, "nylon 0.11 mm 1.4 kg 50 m")
    plan = planned(box, wanted(canal_rig(), 1))
    assert plan.wants[0].ready == ("A01T",)
    (rulings,) = judge_plan(box, pond('least_main_line = "1.5 kg"'), plan)
    assert [r.says for r in rulings] == ["nylon 0.12 mm 1.6 kg"]


def test_nothing_is_written(tmp_path: Path) -> None:
    box = make_box(tmp_path)
    before = box.database.read_bytes()
    planned(box, wanted(canal_rig(), 1), wanted(fine_hooklength(), 20))
    assert box.database.read_bytes() == before


def test_no_such_match(tmp_path: Path) -> None:
    with pytest.raises(BenchError, match="no match"):
        Matches(tmp_path).load("open")


def test_what_is_to_be_kept_is_on_the_list_with_its_reason(tmp_path: Path) -> None:
    """Of 12 hooks 10 go: 2 are left of the 5 to be kept. Shot, asked by none, is short of 30 by 10."""
    box = make_box(tmp_path, "nylon 0.08 mm 0.7 kg 50 m")
    add(box, "hook 20 barbless spade pack 10", amount="12", minimum="5", pack_price_cents=180)
    add(box, "shot No 8 tin pack 20", minimum="30", pack_price_cents=150)
    plan = planned(box, wanted(fine_hooklength(), 10))
    answer = [(p.item.name, p.short, p.for_minimum, p.packs, p.what_for()) for p in plan.purchases]
    assert answer == [
        ("hook 20 barbless spade", 3, 3, 1, "for a minimum of 5"),
        ("shot No 8 tin", 10, 10, 1, "for a minimum of 30"),
    ]
    assert plan.total_cents == 330
    plan = planned(box, wanted(fine_hooklength(), 14))
    hooks = plan.purchases[0]
    assert (plan.wants[0].unmet, hooks.short, hooks.packs) == (2, 7, 1)
    assert hooks.what_for(["2 × Fine"]) == "for 2 × Fine, and a minimum of 5"


def test_each_item_on_the_day(tmp_path: Path) -> None:
    """Before history hooks are lost by NB(2, 1/2): P(X > k) = (k + 3) / 2^(k + 2)."""
    box = make_box(tmp_path, "nylon 0.08 mm 0.7 kg 50 m")
    add(box, "hook 20 barbless spade pack 10", minimum="5")
    on_the_day = planned(box, wanted(fine_hooklength(), 8)).forecasts
    (hooks,) = [f for f in on_the_day if f.item.kind == "hook"]
    assert (hooks.item.on_hand, hooks.planned, hooks.left, hooks.item.minimum) == (
        10,
        8,
        2,
        5,
    )
    assert hooks.runs_out == pytest.approx(5 / 16)
    assert hooks.rate.history == 0
    assert {f.item.kind for f in on_the_day} == {"hook", "line"}
