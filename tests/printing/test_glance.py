"""A rig at a glance: every thing on it, and not a word."""

import pytest
from reportlab.graphics.shapes import Drawing, Group, Line, String

from tacklebox.printing.drawing.rig import draw_glance, glance_svg
from tacklebox.rigs.tying.snapshot import Snapshot
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
    assert len(drawn) >= len({m.what for m in snapshot.marks} - {"knot"})
    assert glance_svg(snapshot).startswith("<?xml")
