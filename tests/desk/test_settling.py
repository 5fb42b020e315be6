"""How a rig falls, as the desk answers it: against the model itself, set by hand; faults by field."""

import io
import json
from pathlib import Path

import pytest

from tacklebox.desk import Desk, as_json, settling
from tacklebox.desk.settling import FallQuestion, Fishing
from tacklebox.errors import AskedWronglyError
from tacklebox.trade.balance import Tip
from tacklebox.trade.settling.outcome import UNPROVEN, settle
from tacklebox.trade.settling.rig import FallingRig, LinePiece, Weights, usual_float
from tacklebox.trade.settling.sizes import bait_named, hook_of_size
from tacklebox.trade.shot import read_pattern
from tests.desk.boxes import make_desk

STOCK = (
    "nylon 0.08 mm 0.7 kg 50 m",
    "nylon 0.12 mm 1.6 kg 50 m",
    "nylon 0.20 mm 3 kg 100 m",
    "hook 20 barbless spade pack 10",
    "pole 4×12 tip 1.5 mm × 60 mm",
    "shot No 8 tin pack 20",
    "shot No 10 tin pack 20",
)
CANAL = "pole-canal-shot"


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Desk:
    """A desk whose box no test changes."""
    return make_desk(tmp_path_factory.mktemp("falls") / "box", *STOCK)


def canal(**fishing: str) -> FallQuestion:
    return FallQuestion(CANAL, fishing=Fishing(**fishing))


def test_the_answer_is_the_models_for_the_rig_put_together_by_hand(desk: Desk) -> None:
    by_hand = settle(
        FallingRig(
            (LinePiece(1050, 0.12), LinePiece(150, 0.08)),
            hook_of_size("20"),
            bait_named("maggot"),
            (
                Weights(500, read_pattern("2 No 8")),
                Weights(350, read_pattern("No 10")),
                Weights(200, read_pattern("No 10")),
            ),
            usual_float("pole", 0.20, Tip(1.5, 60.0)),
            over_mm=0.0,
        )
    )
    answer = settling.settle(desk, canal())
    fell = answer.patterns[0]
    assert (fell.half_s, fell.nine_tenths_s, fell.down_s) == (
        by_hand.half_s,
        by_hand.most_s,
        by_hand.down_s,
    )
    assert fell.settled_by_s == by_hand.settled_by_s
    assert fell.tip_mm == by_hand.tip_mm
    assert fell.bait_at[3].deep_cm.tight == pytest.approx(by_hand.tight.depth_mm(3.0) / 10)
    assert (answer.unproven, fell.fished) == (UNPROVEN, "at dead depth")
    assert {fact.name: str(fact.source) for fact in fell.facts}["maggot"] == "from memory"
    assert json.dumps(as_json(answer))


def test_a_float_that_a_tight_line_keeps_in_its_place_settles_later(desk: Desk) -> None:
    """It takes about a twelfth more time (the settling note's own rig); and it says which was taken."""
    free, held = (
        settling.settle(desk, FallQuestion(CANAL, held=one)).patterns[0] for one in (False, True)
    )
    assert free.nine_tenths_s.tight
    assert held.nine_tenths_s.tight
    assert 1 < held.nine_tenths_s.tight / free.nine_tenths_s.tight < 1.15
    assert [f.value for one in (free, held) for f in one.facts if f.name == "the float"] == [
        "lies free",
        "is held in its place by a tight line",
    ]


@pytest.mark.parametrize(
    ("beside", "reads"),
    [
        ("bulk down 10 cm", "shot"),
        ("strung out", "shot"),
        ("bulk at 30 cm", "shot"),
        ("bait pinkie", "bait"),
        ("hooklength 20 cm", "length"),
        ("recipe pole-deep-olivette", "recipe"),
    ],
)
def test_beside_it_stands_what_is_otherwise(desk: Desk, beside: str, reads: str) -> None:
    one, other = settling.patterns_of(desk, canal(), [beside])
    assert other.what == beside
    otherwise = {
        "shot": one.rig.shot != other.rig.shot and one.rig.line == other.rig.line,
        "bait": other.rig.bait == bait_named("pinkie"),
        "length": [p.length_mm for p in other.rig.line] == [1000, 200],
        "recipe": other.recipe == "pole-deep-olivette",
    }
    assert otherwise[reads]


@pytest.mark.parametrize(
    ("said", "over_mm"),
    [
        ({}, 0.0),
        ({"fished": "off bottom"}, None),
        ({"fished": "off bottom by 10 cm"}, -100.0),
        ({"fished": "two inch over"}, 50.8),
        ({"plumbed": "1.15 m"}, 50.0),
        ({"plumbed": "1.3 m"}, -100.0),
    ],
)
def test_how_deep_it_is_fished(desk: Desk, said: dict[str, str], over_mm: float | None) -> None:
    rig = settling.patterns_of(desk, canal(**said), [])[0].rig
    assert rig.over_mm == (None if over_mm is None else pytest.approx(over_mm))


def test_his_own_measurements_go_before(desk: Desk) -> None:
    rig = settling.patterns_of(
        desk, canal(sinks="1 m in 24 s", hook_mass="0.18 g for 20", wind="10 mph", water="5 °C"), []
    )[0].rig
    assert rig.bait is not None
    assert rig.bait.sinks_m_s == pytest.approx(1 / 24)
    assert str(rig.bait.source) == str(rig.hook.source) == "own measurement"
    assert rig.hook.mass_mg == pytest.approx(9.0)
    assert rig.wind_m_s == pytest.approx(4.4704)
    assert rig.temperature_c == 5.0


@pytest.mark.parametrize(
    ("said", "field"),
    [
        ({"bait": "bread"}, "bait"),
        ({"sinks": "slowly"}, "sinks"),
        ({"sinks": "1 m in 0 s"}, "sinks"),
        ({"hook_mass": "heavy"}, "hook_mass"),
        ({"float_mass": "900 g"}, "float_mass"),
        ({"fished": "deep"}, "fished"),
        ({"fished": "dead depth", "plumbed": "1 m"}, "plumbed"),
        ({"plumbed": "deep"}, "plumbed"),
        ({"water": "hot"}, "water"),
        ({"wind": "gale"}, "wind"),
        ({"wind": "90 m/s"}, "wind"),
        ({"seen": "1 m"}, "seen"),
        ({"away": "1 km"}, "away"),
        ({"seconds": "long"}, "seconds"),
    ],
)
def test_a_fault_names_the_field(desk: Desk, said: dict[str, str], field: str) -> None:
    with pytest.raises(AskedWronglyError) as refused:
        settling.settle(desk, canal(**said))
    assert refused.value.field == field


@pytest.mark.parametrize("beside", ["upside down", "bulk down", "bait bread", "bulk at deep"])
def test_so_does_one_of_what_stands_beside_it(desk: Desk, beside: str) -> None:
    with pytest.raises(AskedWronglyError) as refused:
        settling.settle(desk, canal(), [beside])
    assert refused.value.field or refused.value.where


@pytest.mark.parametrize(
    ("asked", "beside", "key"),
    [
        (canal(sinks="floats"), "", "bait floats"),
        (canal(seconds="0"), "", "time"),
        (canal(seconds="a day"), "", "time"),
        (canal(plumbed="2 m"), "", "off bottom"),
        (FallQuestion("feeder-window"), "", "no float"),
        (FallQuestion("feeder-window"), "", "no shot"),
        (canal(fished="over 2 m"), "", "over the line"),
        (canal(plumbed="5 cm"), "", "over the line"),
        (canal(), "bulk down 70 cm", "shot below hook"),
        (canal(), "bulk at -10 cm", "shot below hook"),
        (FallQuestion(CANAL, {"float": "4×10"}), "bulk at 3 m", "shot above float"),
    ],
)
def test_what_cannot_be_is_computed_as_near_as_can_be_and_said(
    desk: Desk, asked: FallQuestion, beside: str, key: str
) -> None:
    fell = settling.settle(desk, asked, [beside]).patterns[-1]
    assert key in {note.key for note in fell.notes}
    assert fell.half_s.tight is not None


def test_a_float_that_its_load_sinks_is_said(tmp_path: Path) -> None:
    own = make_desk(tmp_path / "box", *STOCK)
    file = own.box.recipes / "heavy.toml"
    shipped = Path("recipes/pole-canal-shot.toml").read_text(encoding="utf-8")
    file.write_text(shipped.replace('"4×12" = "2 No 8"', '"4×12" = "9 No 8"'), encoding="utf-8")
    fell = settling.settle(own, FallQuestion("heavy")).patterns[0]
    assert "float sinks" in {note.key for note in fell.notes}


def test_a_bite_is_told_for_where_it_is_taken_and_by_layer(desk: Desk) -> None:
    held = settling.bite(desk, canal(), "60 cm")
    assert held.depth_mm == 600
    assert held.unproven == UNPROVEN
    assert held.taken_s.tight == pytest.approx(
        settling.settle(desk, canal()).patterns[0].half_s.tight, abs=0.3
    )
    assert held.layers[0].from_mm == 0
    assert held.layers[-1].to_mm == pytest.approx(1200)
    far = settling.bite(desk, canal(away="40 m"), "60 cm")
    assert [layer.unseen for layer in far.layers] > [layer.unseen for layer in held.layers]
    deeper = settling.bite(desk, canal(), "2 m")
    assert "deeper than the bait" in {note.key for note in deeper.notes}
    with pytest.raises(AskedWronglyError) as refused:
        settling.bite(desk, FallQuestion("feeder-window"), "60 cm")
    assert "float" in str(refused.value)


def test_a_feeders_hooklength_swings_down_behind_it(desk: Desk) -> None:
    swung = settling.swing(desk, FallQuestion("feeder-window"), "3 m", sinks="3 m in 4 s")
    assert swung.feeder_s == pytest.approx(4.0)
    assert (swung.length_mm, swung.depth_mm) == (1000, 3000)
    shorter = settling.swing(desk, FallQuestion("feeder-window", {"length": "50 cm"}), "3 m")
    assert shorter.bait_after_s.tight is not None
    assert swung.bait_after_s.tight is not None
    assert shorter.bait_after_s.tight < swung.bait_after_s.tight
    for asked, depth, field in (
        (canal(), "3 m", "recipe"),
        (FallQuestion("feeder-window"), "3", "depth"),
    ):
        with pytest.raises(AskedWronglyError) as refused:
            settling.swing(desk, asked, depth)
        assert refused.value.field == field


def test_the_winds_tow_drags_the_bait_and_asks_for_a_wind(desk: Desk) -> None:
    towed = settling.tow(desk, canal(wind="4 m/s"))
    assert towed.surface_m_s == pytest.approx(0.11)
    with pytest.raises(AskedWronglyError) as refused:
        settling.tow(desk, canal())
    assert refused.value.field == "wind"


def test_the_drawing_says_that_it_is_unproven_and_names_what_is_beside(desk: Desk) -> None:
    file = io.BytesIO()
    answer, svg = settling.drawn(desk, canal(), ["strung out"], to=file, bite_at="60 cm")
    assert file.getvalue().decode() == svg
    assert "never compared with a rig in water" in svg
    assert "strung out" in svg
    assert "bite" in svg
    assert f"settled by {answer.patterns[0].settled_by_s} s" in svg
