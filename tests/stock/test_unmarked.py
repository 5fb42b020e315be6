"""Tackle of which nobody knows the figure that it goes by: what a float takes, what a feeder weighs, which
size hooks and shot are. It is kept, counted, and never guessed at."""

import sqlite3
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

import pytest

from tacklebox.errors import AskedWronglyError
from tacklebox.rigs.checking.cast import Cast
from tacklebox.rigs.recipes.file import parse_recipe
from tacklebox.rigs.recipes.resolved import Resolved
from tacklebox.rigs.recipes.resolving import resolve
from tacklebox.rigs.tying.snapshot import read_kept
from tacklebox.rigs.tying.tie import fit_and_check, tie
from tacklebox.stock.asks import Ask, read_ask
from tacklebox.stock.care.aswritten import give_checks
from tacklebox.stock.care.audit import audit
from tacklebox.stock.care.box import Box
from tacklebox.stock.finding import find
from tacklebox.stock.lead import lead_in_stock
from tacklebox.stock.ledger import begin
from tacklebox.stock.measured import known_of
from tacklebox.stock.measuring import record_bucket, record_weighing
from tacklebox.stock.naming.rows import as_row
from tacklebox.stock.naming.sameness import Same, same
from tacklebox.stock.notation import read_notation
from tacklebox.stock.putting_right import reword
from tacklebox.stock.shot_supply import shot_in_stock
from tacklebox.stock.tables import UNMARKED, Feeder, Figures, Float, Kind
from tacklebox.trade.judgement import Judgement, Outcome
from tacklebox.trade.supply import Supply
from tests.rigs.boxes import CANAL, DAY, SHORT_RIG, canal_rig, fine_hooklength, make_box

ON_THE_LINE = """
[[along]]
name = "THING"
is = "THING"
on = "line"
SAYS
"""
FLOAT_RIG = (
    SHORT_RIG
    + ON_THE_LINE.replace("THING", "float").replace("SAYS", 'at = "5 cm"\nheld = "two points"')
    + '[[shot]]\nof = "2 No 10"\nplace = "bulk"\nat = "3 cm"\n'
)
CASTING = '[[along]]\nname = "bomb"\nis = "feeder"\non = "line"\nheld = "runs free"\n'


@dataclass
class Figured:
    figures: Figures


def shot_in_stock_of(box: Box) -> tuple[Supply, ...]:
    with box.reading() as session:
        return shot_in_stock(session)


def rig(text: str) -> Resolved:
    return resolve(parse_recipe(text, "unmarked-rig"), {})


def of(box: Box, text: str, about: str, cast: Cast | None = None) -> Judgement:
    answer = fit_and_check(box, rig(text), cast=cast)
    return next(j for j in answer.judgements if j.about == about)


@pytest.mark.parametrize(
    ("said", "kind", "key", "any_will_do"),
    [
        ("pole unmarked", Kind.FLOAT, "capacity", "0.01 to 99 g"),
        ("bomb unmarked", Kind.FEEDER, "mass", "0.1 to 500 g"),
    ],
)
def test_it_serves_no_recipe_that_asks_for_the_figure(
    said: str, kind: Kind, key: str, any_will_do: str
) -> None:
    figures = as_row(read_notation(said))
    shape = said.split(" ", maxsplit=1)[0]
    assert read_ask(kind, {"shape": shape}).matches(figures)
    asked = read_ask(kind, {"shape": shape, key: any_will_do})
    assert not asked.matches(figures)
    assert asked.unnoted(figures) == (key,)


def test_its_figure_is_nothing_and_no_number() -> None:
    float_, feeder = (as_row(read_notation(f"{of} unmarked")) for of in ("stick", "feeder cage"))
    assert isinstance(float_, Float)
    assert (float_.mark, float_.capacity_g) == (UNMARKED, None)
    assert isinstance(feeder, Feeder)
    assert (feeder.mass_g, feeder.mass_said) == (None, UNMARKED)


@pytest.mark.parametrize(
    ("said", "asked"),
    [
        ("hook unmarked barbless", read_ask(Kind.HOOK, {"barb": "barbless"})),
        ("shot unmarked", read_ask(Kind.WEIGHT, {"form": "shot"})),
        ("olivette unmarked", read_ask(Kind.WEIGHT, {"material": "tin"})),
    ],
)
def test_hooks_and_shot_of_no_one_size_serve_no_recipe_at_all(said: str, asked: Ask) -> None:
    figures = as_row(read_notation(said))
    assert not asked.matches(figures)
    assert asked.among([Figured(figures)]) == []
    sized = as_row(read_notation(said.replace(UNMARKED, "0.5 g" if "ol" in said else "8")))
    assert asked.matches(sized)


def test_a_rig_is_not_tied_from_hooks_or_shot_of_no_one_size(tmp_path: Path) -> None:
    kept = [words for words in CANAL if not words.startswith(("shot No 8", "hook"))]
    box = make_box(tmp_path, *kept, "shot unmarked", "hook unmarked barbless spade")
    rig_fit, hooklength_fit = (
        fit_and_check(box, of).fit for of in (canal_rig(), fine_hooklength())
    )
    assert rig_fit.serving("shot No 8").item is None
    assert hooklength_fit.serving("hook").item is None


def test_hooks_of_no_one_size_are_not_weighed(tmp_path: Path) -> None:
    box = make_box(tmp_path, "hook unmarked", "shot unmarked")
    with box.writing() as session:
        for number in "12":
            item = find(session, number)
            with pytest.raises(AskedWronglyError, match="of no one size"):
                record_weighing(session, item, 0.2, 20, DAY)
            assert known_of(session, item) == []
    assert shot_in_stock_of(box) == ()


def test_lead_shot_of_no_one_size_is_doubtful_by_law(tmp_path: Path) -> None:
    box = make_box(tmp_path, "3 packets of shot unmarked lead")
    with box.reading() as session:
        ((_, verdict),) = lead_in_stock(session)
    assert verdict.outcome is Outcome.DOUBTFUL
    assert "of no one size" in verdict.says


def test_it_is_no_marked_one() -> None:
    unmarked, marked = read_notation("stick unmarked"), read_notation("stick 4 No 4")
    assert same(unmarked, read_notation("unmarked stick float")) is Same.YES
    assert same(unmarked, marked) is Same.NO


def test_a_canal_rig_is_not_tied_from_a_float_of_unknown_size(tmp_path: Path) -> None:
    box = make_box(tmp_path, *(w for w in CANAL if not w.startswith("pole")), "pole unmarked")
    serving = fit_and_check(box, canal_rig()).fit.serving("float")
    assert serving.item is None


def test_the_check_says_that_nobody_knows_until_it_was_tried_in_a_bucket(tmp_path: Path) -> None:
    box = make_box(tmp_path, *(w for w in CANAL if not w.startswith("pole")), "pole unmarked")
    unknown = of(box, FLOAT_RIG, "shot against float")
    assert unknown.outcome is Outcome.DOUBTFUL
    assert "nobody knows what the float takes" in unknown.says
    with box.writing() as session:
        item = find(session, "pole unmarked")
        assert known_of(session, item) == []
        record_bucket(session, item, 0.08, DAY)
        (known,) = known_of(session, item)
        assert (known.what, known.unit) == ("carries", "g")
        assert known.estimate.mean == pytest.approx(0.08)
        record_weighing(session, item, 0.15, 1, DAY)
    tried = of(box, FLOAT_RIG, "shot against float")
    facts = {fact.name: fact.value for fact in tried.facts}
    assert facts["float's capacity"] == pytest.approx(0.08)
    (made,) = tie(box, rig(FLOAT_RIG), 1, DAY, because="not known").rigs
    assert read_kept(made).carries == "pole unmarked"
    assert audit(box.database).faults == ()


def test_a_cast_with_a_bomb_of_unknown_weight_is_doubtful(tmp_path: Path) -> None:
    box = make_box(tmp_path, *CANAL, "bomb unmarked")
    answer = of(box, SHORT_RIG + CASTING, "casting", Cast(30.0))
    assert answer.outcome is Outcome.DOUBTFUL
    assert "what the feeder weighs is not known" in answer.says


def test_its_figure_is_put_in_when_it_is_known(tmp_path: Path) -> None:
    said = (
        *("3 x feeder cage unmarked large", "waggler unmarked insert red"),
        *("hook unmarked barbless", "shot unmarked"),
    )
    box = make_box(tmp_path, *said)
    with box.writing() as session:
        begin(session, "correct", DAY)
        reword(
            session, find(session, "1"), read_notation("feeder cage 30 g large"), as_printed=False
        )
        reword(
            session, find(session, "2"), read_notation("waggler 4BB insert red"), as_printed=False
        )
        reword(session, find(session, "3"), read_notation("hook 18 barbless"), as_printed=False)
        reword(session, find(session, "4"), read_notation("shot No 8"), as_printed=False)
        assert [find(session, n).name for n in "1234"] == [
            "feeder cage 30 g large", "waggler 4BB insert red", "hook 18 barbless", "shot No 8 tin",
        ]  # fmt: skip
    assert audit(box.database).faults == ()


@pytest.mark.parametrize(
    ("damage", "told"),
    [
        ("UPDATE float SET capacity_g = 2.0", "capacity_g is 2, its mark means nothing"),
        ("UPDATE float SET mark = '4BB'", "capacity_g is nothing, its mark means 1.6"),
        ("UPDATE feeder SET mass_said = '30 g'", 'mass_g is nothing, "30 g" was said'),
        ("UPDATE feeder SET mass_g = 30.0", "its figures cannot be read"),
        ("UPDATE hook SET size_order = -18.0", "size_order is -18, it is of size unmarked"),
        ("UPDATE hook SET size = '18'", "size_order is nothing, it is of size 18"),
        ("UPDATE weight SET mass_g = 0.06", "mass_g is 0.06, its mark means nothing"),
    ],
)
def test_the_audit_tells_a_figure_that_its_words_do_not_say(
    tmp_path: Path, damage: str, told: str
) -> None:
    box = make_box(
        tmp_path, "waggler unmarked insert", "bomb unmarked", "hook unmarked", "shot unmarked"
    )
    box.close()
    with closing(sqlite3.connect(box.database)) as connection, connection:
        give_checks(connection)
        connection.execute(damage)
    assert any(told in fault.what for fault in audit(box.database).faults)


def test_a_shot_calculation_takes_no_unmarked_float() -> None:
    with pytest.raises(AskedWronglyError, match="unmarked"):
        read_ask(Kind.FLOAT, {"capacity": UNMARKED})
