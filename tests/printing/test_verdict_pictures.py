"""What a verdict rests on, drawn: read back from the drawing itself."""

import math
import re
from pathlib import Path

import pytest
from reportlab.graphics.shapes import Circle, Drawing, Group, Line, PolyLine, Rect, Shape, String

from tacklebox.cli.demo import STOCK
from tacklebox.desk import Desk, adding
from tacklebox.desk.asking import resolved_recipe
from tacklebox.desk.checking import check
from tacklebox.desk.verdict_pictures import JUDGED, draw_verdict, pictures_of
from tacklebox.errors import AskedWronglyError, CannotBeDoneError
from tacklebox.printing.drawing.judged import draw_judged
from tacklebox.printing.drawing.verdicts import (
    CURVE,
    EDGE,
    SIZE,
    WIDTH,
    TipStage,
    draw_strengths,
    draw_tips,
)
from tacklebox.printing.fonts import width_of
from tacklebox.printing.pdf import MM
from tacklebox.rigs.checking.breaks import places_mm
from tacklebox.rigs.tying.tie import fit_and_check
from tacklebox.trade.bulk import judge_bulk
from tacklebox.trade.elastic import judge_elastic
from tacklebox.trade.hooks import judge_hook_and_line, judge_hook_knot
from tacklebox.trade.joins import LEAST_STEP_MM, judge_step
from tacklebox.trade.judgement import Judgement
from tacklebox.trade.knots import knot_named
from tacklebox.trade.locking import judge_locked
from tacklebox.trade.passing import Meets, Passes
from tacklebox.trade.pictured import OnTheWay, WayPast
from tacklebox.trade.shot import read_pattern
from tacklebox.trade.strength import Joint
from tacklebox.trade.winding import judge_winding

LOOP = Joint("its loop", 1.0, 0.1, True)
KNOT = Joint("main line's knot", 1.3, 0.12, False)
FAR = Joint("swivel", 9.0, 0.5, False)


def every(shape: Shape | Drawing) -> list[Shape]:
    inside = shape.contents if isinstance(shape, Drawing | Group) else []
    return [shape, *(one for child in inside for one in every(child))]


def curves(drawing: Drawing) -> list[PolyLine]:
    return [s for s in every(drawing) if isinstance(s, PolyLine)]


def hatching(drawing: Drawing) -> list[Line]:
    return [s for s in every(drawing) if isinstance(s, Line) and s.strokeWidth == 0.6]


def words(drawing: Drawing) -> str:
    return " ".join(s.text for s in every(drawing) if isinstance(s, String))


def test_each_joint_is_a_curve_over_one_axis_the_weakest_first() -> None:
    drawing = draw_strengths([KNOT, LOOP, FAR])
    drawn = curves(drawing)
    assert len(drawn) == 2  # what holds so much more is named alone
    peaks = [max(zip(c.points[1::2], c.points[::2], strict=True)) for c in drawn]
    (_, loop_x), (_, knot_x) = peaks
    assert loop_x < knot_x
    assert peaks[0][0] > peaks[1][0]  # drawn higher on the page
    assert drawn[0].strokeDashArray is None  # of the hooklength: drawn through
    assert drawn[1].strokeDashArray
    assert "1. its loop" in words(drawing)
    assert "3. swivel: 19.8 lb, far to the right" in words(drawing)
    assert "pull, lb" in words(drawing)
    assert "pull, kg" in words(drawing)
    tall = max(drawn[0].points[1::2]) - min(drawn[0].points[1::2])
    assert tall == pytest.approx(CURVE, rel=0.02)


def test_what_curves_have_in_common_is_hatched_and_nothing_else() -> None:
    near, apart = (
        draw_strengths([LOOP, KNOT]),
        draw_strengths([LOOP, Joint("knot", 2.4, 0.1, False)]),
    )
    assert len(hatching(near)) > 8
    assert hatching(apart) == []
    outer = [p for c in curves(near) for p in c.points[::2]]
    assert all(min(outer) <= line.x1 <= max(outer) for line in hatching(near))


def test_all_words_are_on_the_paper() -> None:
    drawing = draw_strengths(
        [LOOP, KNOT, Joint("a very long name of a knot " * 4, 1.2, 0.1, False)]
    )
    for text in (s for s in every(drawing) if isinstance(s, String)):
        wide = width_of(text.text) * SIZE
        left = {"start": text.x, "middle": text.x - wide / 2, "end": text.x - wide}[text.textAnchor]
        assert left >= EDGE - 1
        assert left + wide <= WIDTH - EDGE + 1
        assert 0 <= text.y <= drawing.height


@pytest.mark.parametrize(
    ("shows", "length"), [(40.0, 40.0), (12.2, 40.0), (0.0, 25.0), (-3.0, 25.0)]
)
def test_a_tip_is_life_size(shows: float, length: float) -> None:
    drawing = draw_tips([TipStage("bulk", shows)], 3.0, length)
    rings = [s for s in every(drawing) if isinstance(s, Rect)]
    assert [ring.width for ring in rings] == pytest.approx([3.0 * MM] * len(rings))
    dry = sum(ring.height for ring in rings if ring.y >= -1e-6)
    assert dry / MM == pytest.approx(max(shows, 0.0), abs=0.01)
    assert max(ring.y + ring.height for ring in rings) / MM == pytest.approx(shows, abs=0.01)


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    desk = Desk(tmp_path / "box")
    adding.import_csv(desk, STOCK)
    return desk


def test_the_pictures_of_a_rig_say_what_its_check_says(desk: Desk) -> None:
    answer = check(desk, "waggler-made-up", {})
    strengths = draw_verdict(desk, "waggler-made-up", {}, "strengths").svg
    for number, one in enumerate(answer.pulls[0].breaks, 1):
        start = " ".join(one.joint.split()[:3])
        assert f"{number}. {start}" in strengths
    breaks = draw_verdict(desk, "waggler-made-up", {}, "breaks").svg
    assert "the fish is left with" in breaks
    assert "tows the" in breaks
    tip = draw_verdict(desk, "waggler-made-up", {}, "tip").svg
    assert re.search(r'<svg[^>]*width="[0-9.]+mm"', tip)
    (float_,) = answer.floats
    assert tip.count("<rect") > len(float_.stages)


def test_a_break_is_drawn_where_the_joint_is(desk: Desk) -> None:
    checked = fit_and_check(desk.box, resolved_recipe(desk.recipes, "pole-canal-shot", {}))
    at_mm = places_mm(checked.fit)
    float_mm = next(thing.at_mm for thing in checked.fit.resolved.along if thing.on == "rig line")
    assert at_mm["spade knot at the bottom of the hooklength line"] == 0
    assert (
        at_mm["rig line"] > float_mm > at_mm["double overhand loop at the bottom of the rig line"]
    )
    assert at_mm["double overhand loop at the top of the rig line"] > at_mm["rig line"]
    rod = fit_and_check(desk.box, resolved_recipe(desk.recipes, "waggler-insert-bulk", {}))
    assert places_mm(rod.fit)["main line"] == math.inf
    lead = fit_and_check(desk.box, resolved_recipe(desk.recipes, "feeder-helicopter", {}))
    assert places_mm(lead.fit)["hooklength swivel"] > 0


def test_a_feeder_that_comes_off_is_left_out_and_said(desk: Desk) -> None:
    svg = draw_verdict(desk, "feeder-running-paternoster", {}, "breaks").svg
    assert "the feeder comes off" in " ".join(re.sub(r"<[^>]+>", " ", svg).split())
    assert "tows" not in svg


def text_on(drawing: Drawing) -> None:
    for text in (s for s in every(drawing) if isinstance(s, String)):
        wide = width_of(text.text) * SIZE
        left = {"start": text.x, "middle": text.x - wide / 2, "end": text.x - wide}[text.textAnchor]
        assert left >= -1, text.text
        assert left + wide <= WIDTH + 1, text.text


def circles(drawing: Drawing) -> list[Circle]:
    return [s for s in every(drawing) if isinstance(s, Circle)]


@pytest.mark.parametrize(("upper", "lower"), [(0.14, 0.12), (0.12, 0.14), (0.3, 0.02)])
def test_lines_are_cut_across_to_one_scale(upper: float, lower: float) -> None:
    pictured = judge_step(upper, lower).pictured
    assert pictured
    drawing = draw_judged(pictured)
    rig_line, hooklength, most = (one.r for one in circles(drawing))
    assert rig_line / hooklength == pytest.approx(upper / lower)
    assert most / rig_line == pytest.approx((upper - LEAST_STEP_MM) / upper)
    text_on(drawing)


def test_what_a_bore_passes_is_drawn_inside_it_and_what_not_around_it() -> None:
    met = (OnTheWay("its knot", Meets.KNOT, 2.6, Passes.YES),
           OnTheWay("a long name of a leader's knot, of thick line", Meets.KNOT, 4.2, Passes.NO))  # fmt: skip
    drawing = draw_judged(WayPast("run ring", 3.0, met))
    ring, knot, thick, ring_again = (one.r for one in circles(drawing))
    assert knot / ring == pytest.approx(2.6 / 3.0)
    assert thick / ring_again == pytest.approx(4.2 / 3.0)
    said = words(drawing)
    assert "✓ its knot" in said
    assert "✗ a long name" in said
    text_on(drawing)
    unknown = draw_judged(WayPast("link", None, (OnTheWay("shot", Meets.SHOT, None, Passes.NO),)))
    assert "Nobody measured" in words(unknown)
    text_on(unknown)


def test_a_bulk_says_which_shot_trims_it() -> None:
    judged = judge_bulk(read_pattern("6 No 8 + No 12"), read_pattern("2 No 10"), read_pattern("BB"))
    assert judged.pictured
    drawing = draw_judged(judged.pictured)
    for said in ("BB: above it", "6 No 8: bulk", "No 12: trims it", "2 No 10: below it"):
        assert said in words(drawing)
    shot = circles(drawing)
    assert len(shot) == 10
    assert shot[0].r > shot[1].r > shot[8].r > shot[7].r  # as large against one another as they are
    assert [one.cy for one in shot] == sorted((one.cy for one in shot), reverse=True)
    text_on(drawing)


@pytest.mark.parametrize("judged", [
    judge_hook_and_line("18", 0.12), judge_hook_and_line("8", 0.40, "carp"), judge_winding(3600, 130),
    judge_winding(12_000, 130), judge_elastic(5, rig_line_mm=0.14, hooklength_mm=0.30),
    judge_hook_knot(knot_named("knotless knot"), "spade", "18"),
    judge_hook_knot(knot_named("knotless knot"), "eyed", "12"),
    judge_locked("a float of a long name", above=True, below=False),
])  # fmt: skip
def test_each_kind_has_its_words_on_the_paper(judged: Judgement) -> None:
    assert judged.pictured
    drawing = draw_judged(judged.pictured)
    text_on(drawing)
    for shape in every(drawing):
        if isinstance(shape, Rect):
            assert shape.width >= 0
    assert len(every(drawing)) > 6


def test_each_verdict_has_its_picture_or_is_told_in_words(desk: Desk) -> None:
    for recipe, many in (("pole-canal-shot", 6), ("feeder-running-paternoster", 3)):
        judged = check(desk, recipe, {}).judgements
        by = [one for one in pictures_of(judged) if one]
        assert len(by) >= many
        assert len(by) == len(set(by))
        for what, which in by:
            assert what in JUDGED
            assert "<svg" in draw_verdict(desk, recipe, {}, what, which=which).svg
    with pytest.raises(CannotBeDoneError, match="has the picture"):
        draw_verdict(desk, "pole-canal-shot", {}, "comes-free")
    with pytest.raises(CannotBeDoneError, match="has the picture"):
        draw_verdict(desk, "pole-canal-shot", {}, "step", which=9)


def test_what_cannot_be_drawn_is_told(desk: Desk, tmp_path: Path) -> None:
    with pytest.raises(AskedWronglyError, match="no picture"):
        draw_verdict(desk, "waggler-made-up", {}, "strength")
    with pytest.raises(CannotBeDoneError, match="tip"):
        draw_verdict(desk, "feeder-running-paternoster", {}, "tip")
    with pytest.raises(CannotBeDoneError, match="strength"):
        draw_verdict(Desk(tmp_path / "empty"), "waggler-made-up", {}, "breaks")
