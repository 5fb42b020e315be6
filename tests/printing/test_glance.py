"""A rig at a glance: every thing on it, and not a word."""

from dataclasses import replace

import pytest
from reportlab.graphics.shapes import Drawing, Group, Line, String

from tacklebox.printing.drawing.rig import (
    LIFE_SIZE,
    MOST_LARGER,
    TACKLE_SHARE,
    as_large_as_it_can,
    draw_glance,
    draw_upright,
    glance_svg,
    space_out,
    spots_of,
)
from tacklebox.printing.drawing.shapes import above, extent, shot_radius
from tacklebox.rigs.tying.snapshot import Mark, Snapshot
from tests.printing import samples


def _all(group: Drawing | Group) -> list[object]:
    found: list[object] = []
    for one in group.contents:
        found += _all(one) if isinstance(one, Group) else [one]
    return found


@pytest.mark.parametrize("snapshot", samples.RIGS, ids=lambda s: s.name)
def test_a_glance_has_no_words_and_something_for_each_thing(snapshot: Snapshot) -> None:
    drawing = draw_glance(snapshot, 90, 110)
    shapes = _all(drawing)
    assert not any(isinstance(shape, String) for shape in shapes)
    drawn = [shape for shape in shapes if not isinstance(shape, Line)]
    assert len(drawn) >= len({m.what for m in snapshot.marks} - {"loop", "knot", "connector"})
    assert glance_svg(snapshot).startswith("<?xml")


@pytest.mark.parametrize("snapshot", samples.ALL, ids=lambda s: s.code)
@pytest.mark.parametrize("room", [140.0, 350.0])
def test_tackle_is_as_large_as_leaves_the_distances_to_one_scale(
    snapshot: Snapshot, room: float
) -> None:
    spots = spots_of(snapshot)
    none = [0.0] * len(spots)
    larger, planned = as_large_as_it_can(spots, room, lambda _: none)
    assert 1.0 <= larger <= MOST_LARGER
    assert planned.spots[-1].at + planned.spots[-1].after <= room / larger + 0.01
    larger_still = space_out(spots, room / (larger + 0.2), none, LIFE_SIZE / (larger + 0.2))
    taken = sum(spot.before + spot.after for spot in spots) * (larger + 0.2)
    assert larger + 0.2 > MOST_LARGER or taken > TACKLE_SHARE * room or not larger_still.to_scale


@pytest.mark.parametrize("snapshot", samples.RIGS, ids=lambda s: s.name)
def test_no_word_lies_on_what_is_drawn(snapshot: Snapshot) -> None:
    drawing = draw_upright(snapshot, 230, 350, 9.5)
    (hanging,) = (one for one in drawing.contents if isinstance(one, Group))
    larger, axis = hanging.transform[0], hanging.transform[4]
    words = [one for one in drawing.contents if isinstance(one, String)]
    right = [one.x for one in words if one.textAnchor == "start"]
    assert min(right) > axis + larger * max(above(mark) for mark in snapshot.marks)
    hangs = any(m.side_mm and m.what in ("feeder", "bomb") for m in snapshot.marks)
    left = [one.x for one in words if one.textAnchor == "end"]
    assert max(left) < axis - larger * (6.8 + 4.3 if hangs else 2)


def test_a_large_hook_and_heavy_shot_are_drawn_larger() -> None:
    hooks = [extent(Mark("hook", size, "", 0)) for size in ("20", "14", "8", "1/0")]
    assert hooks == sorted(hooks)
    assert shot_radius(0.04) >= 1.0  # a No 10 can still be seen


def test_a_sliding_float_hangs_below_its_stop_and_bead() -> None:
    """The stop ends its slide up the line, with a bead between that does not pass it."""
    marks = (
        Mark("stop", "stop", "stop", 4000.0, held="one point"),
        Mark("bead", "bead", "bead 4 mm", 4000.0, held="runs free"),
        Mark("float", "waggler", "waggler 3SSG", 4000.0, held="slides"),
    )
    (spot,) = spots_of(replace(samples.RIGS[0], marks=marks))
    assert [mark.what for mark, _ in spot.things] == ["stop", "bead", "float"]
