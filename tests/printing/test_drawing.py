"""The drawing: order, scale, break marks and figures, in PDF and SVG."""

import re
from dataclasses import replace
from itertools import pairwise
from xml.etree import ElementTree

import pypdfium2
import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL.Image import Image
from reportlab.graphics import renderPDF
from reportlab.graphics.shapes import Circle, Drawing, Ellipse, Group, Shape, String

from tacklebox.printing.drawing.rig import (
    BETWEEN,
    SMALLEST,
    Spot,
    draw_across,
    draw_upright,
    drawing_svg,
    space_out,
    spots_of,
)
from tacklebox.printing.drawing.shapes import shapes_of
from tacklebox.printing.fonts import width_of
from tacklebox.rigs.tying.snapshot import Mark, Snapshot
from tacklebox.trade.units_first import show_distance
from tests.printing.samples import (
    ALL,
    BOMB,
    FEEDER,
    FINE,
    METHOD,
    OLIVETTE,
    POLE,
    RIGS,
    STICK,
    WAGGLER,
)

STRIP = (460.0, 17.5)
SHEET = (200.0, 270.0)


def texts(drawing: Drawing | Group) -> list[String]:
    found: list[String] = []
    for shape in drawing.contents:
        if isinstance(shape, String):
            found.append(shape)
        elif isinstance(shape, Group):
            found.extend(texts(shape))
    return found


@pytest.mark.parametrize("snapshot", RIGS, ids=lambda s: s.recipe)
@pytest.mark.parametrize("room", [120.0, 255.0, 460.0, 700.0])
def test_everything_is_drawn_once_in_order_and_in_the_room(snapshot: Snapshot, room: float) -> None:
    spots = spots_of(snapshot)
    planned = space_out(spots, room, [0.0] * len(spots))
    drawn = [mark for spot in planned.spots for mark, _ in spot.things]
    assert sorted(map(repr, drawn)) == sorted(map(repr, snapshot.marks))
    for a, b in pairwise(planned.spots):
        assert a.from_hook_mm > b.from_hook_mm
        assert a.at < b.at
    assert planned.spots[0].at - planned.spots[0].before >= -1e-6
    assert planned.spots[-1].at + planned.spots[-1].after <= room + 0.01


def test_to_scale_where_there_is_room() -> None:
    spots = spots_of(WAGGLER)
    planned = space_out(spots, 600.0, [0.0] * len(spots))
    assert planned.to_scale
    scales = [(b.at - a.at) / (a.from_hook_mm - b.from_hook_mm) for a, b in pairwise(planned.spots)]
    assert max(scales) == pytest.approx(min(scales), rel=0.01)


def test_shortened_where_there_is_not_and_the_long_stretch_bears_the_break() -> None:
    spots = spots_of(OLIVETTE)
    planned = space_out(spots, 130.0, [0.0] * len(spots))
    assert not planned.to_scale
    longest = max(
        range(len(spots) - 1), key=lambda i: spots[i].from_hook_mm - spots[i + 1].from_hook_mm
    )
    assert longest in planned.broken


@given(
    st.lists(st.floats(0, 5000), min_size=1, max_size=40, unique_by=lambda d: round(d, 1)),
    st.floats(60, 800),
)
def test_any_distances_keep_order_and_room(distances: list[float], room: float) -> None:
    marks = tuple(Mark("shot", "No 8", "bulk", d, 0.06) for d in distances)
    spots = spots_of(replace(WAGGLER, marks=marks))
    planned = space_out(spots, room, [0.0] * len(spots))
    needed = sum(a.after + b.before + BETWEEN for a, b in pairwise(spots))
    places = [s.at for s in planned.spots]
    assert places == sorted(places)
    assert places[-1] <= room + 0.1
    if needed < room - 4:
        for a, b in pairwise(planned.spots):
            assert b.at - a.at >= a.after + b.before + BETWEEN - 0.01
    for index in planned.broken:
        assert index < len(spots) - 1


SIZES = [(110.0, 14.2), (130.0, 17.0), STRIP, (187.0, 26.0), (700.0, 25.0)]


@pytest.mark.parametrize("snapshot", ALL, ids=lambda s: s.code)
@pytest.mark.parametrize("size", SIZES)
def test_figures_and_words_never_run_together(
    snapshot: Snapshot, size: tuple[float, float]
) -> None:
    drawing = draw_across(snapshot, *size)
    larger = drawing.contents[0].transform[0]
    assert all(text.textAnchor == "end" for text in texts(drawing))
    for row in (figures(drawing), over_shot(drawing)):
        edges = sorted((s.x - width_of(s.text) * s.fontSize, s.x) for s in row)
        for (_, right), (left, _) in pairwise(edges):
            assert left >= right + 1
        if edges:
            assert edges[0][0] >= -0.01
            assert larger * edges[-1][1] <= size[0] + 0.01


def figures(drawing: Drawing) -> list[String]:
    """The distances from the hook, and their unit."""
    return [s for s in texts(drawing) if s.y < 5]


def over_shot(drawing: Drawing) -> list[String]:
    """What the shot are."""
    return [s for s in texts(drawing) if s.y >= 5]


@pytest.mark.parametrize("snapshot", RIGS, ids=lambda s: s.recipe)
@pytest.mark.parametrize("size", SIZES)
def test_no_ink_is_clipped_at_the_edge(snapshot: Snapshot, size: tuple[float, float]) -> None:
    """Drawn with room around it, nothing lies in that room."""
    edge = 12.0
    around = Drawing(size[0] + 2 * edge, size[1] + 2 * edge)
    inside = Group(*draw_across(snapshot, *size).contents)
    inside.translate(edge, edge)
    around.add(inside)
    image = drawn_at(around, 4)
    image.paste(255, (round(4 * edge) - 2, round(4 * edge) - 2,
                      round(4 * (edge + size[0])) + 3, round(4 * (edge + size[1])) + 3))  # fmt: skip
    assert image.getextrema() == (255, 255)


def drawn_at(drawing: Drawing, times: float) -> Image:
    """The drawing as a picture, so many pixels to a point."""
    pdf = pypdfium2.PdfDocument(renderPDF.drawToString(drawing))
    image = pdf[0].render(scale=times, grayscale=True).to_pil()
    assert isinstance(image, Image)
    return image


def test_distances_from_the_hook_are_told() -> None:
    answer = [s.text for s in figures(draw_across(POLE, *STRIP))]
    assert answer == ["170", "120", "50", "35", "20", "15", "cm"]
    assert [s.text for s in texts(draw_across(FINE, *STRIP))] == ["15", "cm from the hook"]


def test_over_shot_stands_what_they_are_where_all_have_room() -> None:
    said = [s.text for s in over_shot(draw_across(WAGGLER, *STRIP_HIGH))]
    assert said == ["No 10", "No 10", "4 No 8 + 2 No 10", "2 AAA"]
    assert over_shot(draw_across(STICK, 187.0, 18.0)) == []
    assert over_shot(draw_across(WAGGLER, 460.0, 14.2)) == []
    for snapshot in (WAGGLER, POLE, OLIVETTE, STICK):
        drawing = draw_across(snapshot, *STRIP_HIGH)
        for words in over_shot(drawing):
            at = [s.at for s in plan_of(snapshot, STRIP_HIGH[0]) if words_at(s) == words.text]
            left = words.x - width_of(words.text) * words.fontSize
            beside = 14.0 if "AAA" in words.text else 0.0  # beside the float, not on it
            assert any(left - beside <= place <= words.x + 0.01 for place in at)


STRIP_HIGH = (700.0, 17.6)


def plan_of(snapshot: Snapshot, width: float) -> tuple[Spot, ...]:
    spots = spots_of(snapshot)
    return space_out(
        spots, width, [width_of(show_distance(s.from_hook_mm)[0]) * SMALLEST for s in spots]
    ).spots


def words_at(spot: Spot) -> str:
    kinds = [m.kind for m, _ in spot.things if m.what in ("shot", "olivette")]
    counted = {kind: kinds.count(kind) for kind in kinds}
    return " + ".join(kind if n == 1 else f"{n} {kind}" for kind, n in counted.items())


def test_a_larger_place_has_a_larger_drawing() -> None:
    def scale(width: float, height: float) -> float:
        return float(draw_across(POLE, width, height).contents[0].transform[0])

    assert scale(460, 17.6) == 1.0
    assert scale(700, 26.4) == pytest.approx(1.5)
    assert scale(195, 40) == pytest.approx(1.5)
    assert scale(900, 90) == 2.0


@pytest.mark.parametrize(
    ("mm", "words"), [(0, ""), (115, "11.5"), (203.2, "20"), (1391.7, "139"), (150, "15"), (1, "")]
)
def test_distances_are_told_as_near_as_they_are_laid(mm: float, words: str) -> None:
    assert show_distance(mm)[0] == words


def test_upright_names_what_is_there() -> None:
    said = [s.text for s in texts(draw_upright(WAGGLER, *SHEET))]
    for words in ("180 cm", "waggler 5BB insert", "2 × AAA", "4 × No 8", "2 × No 10", "20 cm",
                  "hook 18 barbless spade"):  # fmt: skip
        assert words in said
    said = [s.text for s in texts(draw_upright(FEEDER, *SHEET))]
    assert "feeder cage 30 g 40 ml" in said
    assert "link swivel size 12 10 kg, runs free" in said
    assert "feeder method 30 g, in line" in [s.text for s in texts(draw_upright(METHOD, *SHEET))]


def test_long_words_are_folded_on_an_upright_drawing() -> None:
    said = [s.text for s in texts(draw_upright(METHOD, 110.0, 270.0))]
    assert "…" not in "".join(said)
    assert "feeder method 30 g, in line" not in said
    assert "feeder method 30 g, in line" in " ".join(said)


def test_a_float_is_locked_between_its_shot() -> None:
    spot = next(s for s in spots_of(WAGGLER) if s.from_hook_mm == 1800)
    row = [mark.what for mark, _ in sorted(spot.things, key=lambda t: t[1])]
    assert row[0] == row[-1] == "shot"
    assert set(row[1:-1]) == {"float", "adaptor"}


def test_what_runs_is_on_the_rods_side_of_what_stops_it() -> None:
    for rig in (FEEDER, BOMB):
        spot = next(s for s in spots_of(rig) if len(s.things) > 2)
        place = {mark.what: place for mark, place in spot.things}
        assert place["link swivel"] < place["swivel"] < place["loop"]
        if "bead" in place:
            assert place["link swivel"] < place["bead"] < place["swivel"]


def test_heavier_shot_is_drawn_larger() -> None:
    radii = []
    for mark, mass in (("No 10", 0.04), ("No 4", 0.2), ("AAA", 0.8)):
        (dot,) = shapes_of(Mark("shot", mark, "bulk", 0, mass), 0)
        assert isinstance(dot, Circle)
        radii.append(dot.r)
    assert radii == sorted(radii)
    assert len(set(radii)) == 3


def _shape_key(shapes: list[Shape]) -> str:
    return repr([(type(s).__name__, sorted(s.getProperties().items(), key=str)) for s in shapes])


def test_kinds_are_told_apart_by_shape_alone() -> None:
    floats = [("waggler straight", "one point"), ("waggler insert", "one point"),
              ("waggler loaded", "one point"), ("stick", "two points"), ("pole", "two points")]  # fmt: skip
    marks = [Mark("float", kind, "", 0, held=held) for kind, held in floats]
    marks += [
        Mark("feeder", k, "", 0) for k in ("cage", "open-end", "block-end", "method", "window")
    ]
    marks += [Mark(what, "", "", 0) for what in ("bomb", "swivel", "link swivel", "snap link", "bead", "stop",
              "sleeve", "connector", "loop", "knot", "elastic", "hook")]  # fmt: skip
    marks.append(Mark("olivette", "1 g", "", 0, 1.0))
    drawn = [_shape_key(list(shapes_of(mark, 0.0))) for mark in marks]
    assert len(set(drawn)) == len(marks)


def test_black_on_white_alone() -> None:
    for snapshot in RIGS:
        for svg in (drawing_svg(snapshot), drawing_svg(snapshot, 460, 18, upright=False)):
            colours = set(re.findall(r"(?:fill|stroke): (rgb\([^)]*\)|none|#\w+)", svg))
            assert colours <= {"rgb(0%,0%,0%)", "rgb(100%,100%,100%)", "none"}, colours


def test_svg_is_a_picture_of_that_size() -> None:
    root = ElementTree.fromstring(drawing_svg(STICK, 300, 400).encode())
    assert root.tag == "{http://www.w3.org/2000/svg}svg"
    assert (float(root.attrib["width"]), float(root.attrib["height"])) == (300, 400)
    assert "".join(root.itertext()).count("No 8") == 13


def test_names_cannot_break_the_picture() -> None:
    odd = Mark("float", "pole", '<script>&"🐟' + "x" * 300, 900.0, held="two points")
    svg = drawing_svg(replace(POLE, marks=(odd, *POLE.marks)))
    root = ElementTree.fromstring(svg.encode())
    assert not [e for e in root.iter() if e.tag.endswith("script")]
    assert "…" in "".join(root.itertext())


def test_a_rig_of_nothing_is_an_empty_drawing() -> None:
    bare = replace(WAGGLER, marks=())
    assert draw_across(bare, *STRIP).contents == []
    assert draw_upright(bare, *SHEET).contents == []


def test_the_olivette_is_solid_and_the_float_is_not() -> None:
    (solid,) = shapes_of(Mark("olivette", "1 g", "", 0, 1.0), 0)
    assert isinstance(solid, Ellipse)
    assert solid.fillColor is not None
    assert solid.fillColor.int_rgb() == 0


def test_a_feeder_at_the_rod_s_end_has_its_distance_beside_it() -> None:
    """To its left the label ends."""
    at = next(m.from_hook_mm for m in FEEDER.marks if m.what == "feeder")
    alone = replace(FEEDER, marks=tuple(m for m in FEEDER.marks if m.from_hook_mm <= at))
    said = [s.text for s in figures(draw_across(alone, 100.0, 14.2))]
    assert said[0] == f"{at / 10:g}"
