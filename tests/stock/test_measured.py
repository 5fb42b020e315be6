"""Own measurements in a box: kept once, weighed against print, used at once by the check."""

from collections.abc import Callable
from pathlib import Path

import pytest
from sqlalchemy.exc import DatabaseError
from sqlmodel import select

from tacklebox.errors import AskedWronglyError
from tacklebox.rigs.tying.tie import fit_and_check
from tacklebox.stock.care.box import Box
from tacklebox.stock.finding import find
from tacklebox.stock.lead import lead_in_stock
from tacklebox.stock.ledger import begin, move
from tacklebox.stock.measured import holds_after, known_of, read_measured, standing
from tacklebox.stock.measuring import record_bucket, record_pull, record_weighing, take_back
from tacklebox.stock.shot_supply import shot_in_stock
from tacklebox.stock.tables import Item, Line, Measurement, Why
from tacklebox.trade.judgement import Judgement, Outcome
from tacklebox.trade.knots import knot_named
from tacklebox.trade.pulls import posterior
from tacklebox.trade.sources import Basis
from tests.outside import outside
from tests.rigs.boxes import DAY, canal_rig, make_box


@pytest.fixture
def box(tmp_path: Path) -> Box:
    return make_box(tmp_path)


def pull(box: Box, item: str, kg: float, knot: str = "", *, as_read: bool = False) -> int:
    with box.writing() as session:
        row = record_pull(session, find(session, item), kg, knot, DAY, as_read=as_read)
        assert row.id is not None
        return row.id


def judgement(box: Box, about: str) -> Judgement:
    checked = fit_and_check(box, canal_rig())
    return next(j for j in checked.judgements if j.about == about)


@outside("a spool's strain after pulls", "the normal posterior by hand", "closed form")
def test_plain_pulls_against_the_normal_posterior(box: Box) -> None:
    """Printed 1.6 kg ± 15 % with pulls of 1.4 and 1.5 kg, 5 % each of their mean."""
    pull(box, "0.12", 1.4)
    pull(box, "0.12", 1.5)
    with box.reading() as session:
        item = find(session, "0.12")
        line = session.get_one(Line, item.id)
        known = read_measured(session).strain(item.id or 0, line)
    mean, spread = posterior((1.6, 0.24), [(1.4, 0.0725), (1.5, 0.0725)])
    assert known is not None
    assert (known.mean, known.spread) == pytest.approx((mean, spread))
    assert known.source.basis is Basis.MEASURED


def test_the_check_uses_pulls_at_once_and_says_so(box: Box) -> None:
    before = judgement(box, "breaks first")
    assert "your own" not in before.says
    number = pull(box, "0.12", 0.81)  # the rig line is far weaker than printed
    after = judgement(box, "breaks first")
    assert "by your own pull tests" in after.says
    assert any(f.source.basis is Basis.MEASURED for f in after.facts)
    assert after.outcome is not before.outcome
    with box.writing() as session:
        take_back(session, number, DAY)
    assert judgement(box, "breaks first") == before


def test_units_in_either_system_give_the_same_outcome(tmp_path: Path) -> None:
    from tacklebox.trade.quantities import read_strain_kg

    answer = []
    for name, text in (("kg", "1.36077711 kg"), ("lb", "3 lb")):
        box = make_box(tmp_path / name)
        pull(box, "0.12", read_strain_kg(text))
        answer.append(judgement(box, "breaks first"))
    assert answer[0].outcome is answer[1].outcome
    assert answer[0].says == answer[1].says


def test_an_own_knot_counts_on_its_line_and_on_others(box: Box) -> None:
    double = "double overhand loop"
    for kg in (1.0, 1.02, 0.98, 1.01):  # 0.62 of 1.6 kg, where 0.80 is usual
        pull(box, "0.12", kg, double)
    pull(box, "0.12", 1.6)
    with box.reading() as session:
        measured = read_measured(session)
        own = holds_after(session, find(session, "0.12"), knot_named(double))
        other = holds_after(session, find(session, "0.08"), knot_named(double))
        untried = holds_after(session, find(session, "0.12"), knot_named("palomar"))
    share = measured.knots[(double, "nylon")]
    assert 0.60 < share.mean < 0.66
    assert own.mean == pytest.approx(1.0, abs=0.05)
    assert other.mean == pytest.approx(0.7 * share.mean)
    assert untried.mean == pytest.approx(0.90 * 1.6)  # the plain pull bore out the print
    answer = judgement(box, "breaks first")
    assert any(
        "double overhand loop at the top of the rig line: holds" in f.name for f in answer.facts
    )


def test_weighed_shot_and_a_measured_float_change_the_balance(box: Box) -> None:
    with box.writing() as session:
        record_weighing(session, find(session, "shot No 8"), 1.6, 20, DAY)
        record_bucket(session, find(session, "4"), 0.26, DAY)
    answer = judgement(box, "shot against float")
    # 2 No 8 at 0.08 g and 2 No 10 at 0.04 g are 0.24 g; marked 0.20 ± 0.03 g and measured
    # 0.26 ± 0.02 g, the float carries (0.2/9 + 0.26/4) / (1/9 + 1/4) = 0.242 g, told as 0.24 g.
    assert "0.24 g on a float that carries 0.24 g" in answer.says
    assert "by your own measurement of the float and the No 8" in answer.says
    assert answer.outcome is Outcome.SOUND
    with box.reading() as session:
        supply = {s.mark: s for s in shot_in_stock(session)}
    assert supply["No 8"].mass_g == pytest.approx(0.08, abs=1e-4)
    assert supply["No 8"].count == 20
    assert supply["No 10"].mass_g == pytest.approx(0.04)


@pytest.mark.parametrize(
    ("record", "fault"),
    [
        (lambda s: record_pull(s, find(s, "hook 20"), 1.0, "", DAY), "a pull test is of line"),
        (lambda s: record_weighing(s, find(s, "0.12"), 1.0, 20, DAY), "what is weighed"),
        (lambda s: record_bucket(s, find(s, "hook 20"), 1.0, DAY), "tried in a bucket"),
        (lambda s: record_pull(s, find(s, "0.12"), 1.0, "bowline", DAY), "no knot"),
        (lambda s: record_pull(s, find(s, "0.12"), 0.73, "", DAY), "Was it in kg?"),
        (lambda s: record_pull(s, find(s, "0.12"), 3.5, "", DAY), "Was it in lb?"),
        (lambda s: record_pull(s, find(s, "0.12"), 0.0, "", DAY, as_read=True), "cannot be right"),
        (lambda s: record_pull(s, find(s, "0.12"), float("inf"), "", DAY), "cannot be right"),
        (lambda s: record_weighing(s, find(s, "No 8"), 0.12, 20, DAY), "about 2 of them"),
        (lambda s: record_weighing(s, find(s, "No 8"), 1.2, 0, DAY), "From 1 to 500"),
        (lambda s: record_bucket(s, find(s, "4"), 2.0, DAY), "too far off"),
        (lambda s: take_back(s, 7, DAY), "no reading 7"),
    ],
)
def test_readings_that_cannot_be(box: Box, record: Callable[[object], object], fault: str) -> None:
    with pytest.raises(AskedWronglyError, match=fault), box.writing() as session:
        record(session)
    with box.reading() as session:
        assert session.exec(select(Measurement)).all() == []


def test_a_surprise_is_kept_when_it_really_is_so(box: Box) -> None:
    pull(box, "0.12", 0.73, as_read=True)
    with box.reading() as session:
        item = find(session, "0.12")
        assert [r.breaks_at_kg for r in standing(session, item)] == [0.73]
        assert known_of(session, item)[0].estimate.mean < 1.0


def test_line_without_print_is_known_by_its_pulls_alone(tmp_path: Path) -> None:
    box = make_box(tmp_path, "nylon 0.12 mm 50 m")
    with box.reading() as session, pytest.raises(AskedWronglyError, match="nobody knows"):
        holds_after(session, find(session, "1"), knot_named("grinner"))
    pull(box, "1", 1.5)
    with box.reading() as session:
        (known,) = known_of(session, find(session, "1"))
    assert known.estimate.mean == pytest.approx(1.5)


def test_readings_are_never_changed_or_deleted(box: Box) -> None:
    number = pull(box, "0.12", 1.5)
    for change in ("UPDATE measurement SET breaks_at_kg = 9", "DELETE FROM measurement"):
        with pytest.raises(DatabaseError, match="never"), box.engine.begin() as connection:
            connection.exec_driver_sql(change)
    with box.writing() as session:
        take_back(session, number, DAY)
    with pytest.raises(AskedWronglyError, match="already"), box.writing() as session:
        take_back(session, number, DAY)


@outside(
    "lead in the box that may not be used", "GOV.UK, Freshwater rod fishing rules", "published"
)
def test_lead_in_stock_against_the_regulation(tmp_path: Path) -> None:
    """SI 1986/1992: over 0.06 g up to 28.35 g is banned; No 8 (0.06 g) and smaller is not."""
    box = make_box(
        tmp_path,
        "shot AAA lead pack 20",
        "shot No 8 lead pack 20",
        "shot No 6 lead pack 20",
        "shot AAA tin pack 20",
        "olivette 0.8 g lead pack 5",
        "olivette 30 g lead pack 5",
    )
    with box.reading() as session:
        answer = [(item.name, verdict.outcome) for item, verdict in lead_in_stock(session)]
    assert answer == [
        ("shot AAA lead", Outcome.FAILS),
        ("shot No 6 lead", Outcome.FAILS),
        ("olivette 0.8 g lead", Outcome.FAILS),
    ]
    with box.writing() as session:
        lost = session.get_one(Item, 1)
        move(session, begin(session, "take", DAY), lost, -lost.on_hand, Why.LOST)
        assert len(lead_in_stock(session)) == 2
