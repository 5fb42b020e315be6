"""The plan takes what holds: by hand on a small box, and against what a check says by itself."""

from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tacklebox.errors import CannotBeDoneError
from tacklebox.matches.before.plan import Plan, make_plan
from tacklebox.matches.before.tie_plan import portions_of, tie_portions
from tacklebox.rigs.tying.tie import fit_and_check
from tacklebox.rigs.tying.tied import tied_with
from tacklebox.stock.care.box import Box
from tacklebox.stock.measuring import record_pull
from tacklebox.trade.judgement import Outcome
from tests.long.length import so_many
from tests.matches.test_plan import pond, wanted
from tests.rigs.boxes import DAY, add, canal_rig, fine_hooklength, make_box

WEAK, STRONG = "nylon 0.10 mm 0.6 kg 50 m", "nylon 0.12 mm 1.6 kg 50 m"
OTHERS = (
    "nylon 0.08 mm 0.7 kg 50 m",
    "hook 20 barbless spade pack 10",
    "shot No 8 tin pack 150",
    "shot No 10 tin pack 150",
    "elastic 4 6 m",
    "connector pack 4",
)


def box_with(folder: Path, *lines: str, rigs: int = 5) -> Box:
    """Tackle for so many canal rigs, to be tied from any of those lines."""
    box = make_box(folder, *OTHERS, *lines)
    add(box, "pole 4×12", packs=rigs)
    add(box, "winder 13 cm 18 mm", packs=rigs)
    return box


def from_line(plan: Plan) -> set[str]:
    parts = dict(plan.wants[0].parts)
    return {stocked.item.name for stocked, _ in parts.get("rig line", ())}


def test_weaker_line_does_not_save_money(tmp_path: Path) -> None:
    """Keeping 49 m of the strong line costs a packet; the weak one would go before the hooklength."""
    box = box_with(tmp_path, WEAK)
    add(box, STRONG, minimum="49 m", pack_price_cents=300)
    weak = fit_and_check(box, canal_rig(), 1, {"rig line": 7})
    assert weak.outcome is Outcome.FAILS

    plan = make_plan(box, [wanted(canal_rig(), 3)])
    assert (from_line(plan), plan.total_cents) == ({"nylon 0.12 mm 1.6 kg"}, 300)
    assert [c.outcome for c in plan.wants[0].checked] == [Outcome.SOUND]
    tie_portions(box, portions_of(plan), DAY, as_of=plan.as_of)
    assert len(tied_with(box)) == 3


def test_a_spool_that_was_pulled_is_judged_by_its_pulls(tmp_path: Path) -> None:
    """Printed no stronger than the weak one, it held 1.4 kg three times."""
    box = box_with(tmp_path, WEAK)
    pulled = add(box, "nylon 0.11 mm 0.6 kg 50 m", minimum="49 m", pack_price_cents=300)
    with box.writing() as session:
        for _ in range(3):
            record_pull(session, pulled, 1.4, "", DAY, as_read=True)
    plan = make_plan(box, [wanted(canal_rig(), 1)])
    assert from_line(plan) == {"nylon 0.11 mm 0.6 kg"}
    assert [c.outcome for c in plan.wants[0].checked] == [Outcome.SOUND]


def test_what_nothing_makes_good_is_not_tied_nor_bought_for(tmp_path: Path) -> None:
    """Unless it is asked for all the same."""
    box = box_with(tmp_path, WEAK)
    (want,) = make_plan(box, [wanted(canal_rig(), 2)]).wants
    assert (want.tie, want.unmet) == (0, 2)
    assert want.because == "nothing in the box holds in it: breaks first"
    assert [j.about for c in want.checked for j in c.refusals] == ["breaks first"]
    despite = make_plan(box, [wanted(canal_rig(), 2)], despite_checks=True)
    assert despite.wants[0].tie == 2
    with pytest.raises(CannotBeDoneError, match="fails a check"):
        tie_portions(box, portions_of(despite), DAY)
    tie_portions(box, portions_of(despite), DAY, because="for bleak")
    assert len(tied_with(box)) == 2


def test_it_says_that_the_rest_does_not_hold(tmp_path: Path) -> None:
    """A rig takes 1.79 m: of the strong line there is enough for one."""
    box = box_with(tmp_path, WEAK)
    add(box, STRONG, amount="2 m")
    (line,) = make_plan(box, [wanted(canal_rig(), 3)]).wants
    assert (line.tie, line.unmet) == (1, 2)
    assert line.because == (
        "rig line: 0.21 m of nylon 0.12 mm 1.6 kg left, 1.79 m needed for one, "
        "and what else would do does not hold in it"
    )


def test_what_the_venue_turns_away_is_no_way_out(tmp_path: Path) -> None:
    box = box_with(tmp_path, WEAK, STRONG)
    rules = pond('least_main_line = "2 kg"').rules
    (line,) = make_plan(box, [wanted(canal_rig(), 1)], rules).wants
    assert (line.tie, line.none_allowed) == (0, True)


def test_how_sure_it_must_be_counts(tmp_path: Path) -> None:
    """The hooklength goes first with a chance of 89.6 % below the first line, 99.7 the second."""
    box = box_with(tmp_path, "nylon 0.10 mm 1 kg 50 m")
    add(box, STRONG, minimum="49 m", pack_price_cents=300)
    wants = [wanted(canal_rig(), 1)]
    assert from_line(make_plan(box, wants)) == {"nylon 0.10 mm 1 kg"}
    sure = make_plan(box, wants, limits=(0.99, 0.95))
    assert from_line(sure) == {"nylon 0.12 mm 1.6 kg"}


def test_a_plan_made_before_something_else_was_done_is_not_tied(tmp_path: Path) -> None:
    box = box_with(tmp_path, STRONG)
    plan = make_plan(box, [wanted(canal_rig(), 2)])
    add(box, WEAK)
    with pytest.raises(CannotBeDoneError, match="changed while the plan was made"):
        tie_portions(box, portions_of(plan), DAY, as_of=plan.as_of)
    assert tied_with(box) == []


STRAINS = st.sampled_from(["0.6", "0.7", "0.8", "0.9", "1.0", "1.2"])
SPOOL = st.tuples(st.sampled_from(["0.10", "0.11", "0.12"]), STRAINS, st.sampled_from(["2", "50"]))


@settings(max_examples=so_many(25, 9), deadline=None)
@given(st.lists(SPOOL, min_size=1, max_size=4, unique_by=lambda s: s[:2]))
def test_what_is_planned_holds_wherever_a_check_finds_something_that_does(
    spools: list[tuple[str, str, str]],
) -> None:
    with TemporaryDirectory() as name:
        box = box_with(Path(name), rigs=3)
        for diameter, strain, amount in spools:
            add(box, f"nylon {diameter} mm {strain} kg 50 m", amount=f"{amount} m")
        plan = make_plan(box, [wanted(canal_rig(), 2), wanted(fine_hooklength(), 2)])
        would = []
        for number in range(len(OTHERS) + 3, len(OTHERS) + 3 + len(spools)):
            try:
                alone = fit_and_check(box, canal_rig(), 1, {"rig line": number})
            except ValueError:
                continue
            would.append(alone.outcome is not Outcome.FAILS)
        for checked in plan.wants[0].checked:
            assert (checked.outcome is Outcome.FAILS) is not any(would)
        assert plan.wants[1].tie == 2
