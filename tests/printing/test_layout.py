"""Labels of any size: nothing clipped, nothing on top of another, nothing too small."""

from dataclasses import replace
from itertools import combinations, pairwise

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from tacklebox.printing.fonts import ABOVE, BELOW, CAP_HEIGHT, SMALLEST_MM, X_HEIGHT
from tacklebox.printing.labels.drawers import drawer_label
from tacklebox.printing.labels.layout import INSET_MM, Layout, lay_out
from tacklebox.printing.labels.papers import SMALLEST_LABEL_MM, LabelSize
from tacklebox.printing.labels.sheets import Label, rig_label
from tacklebox.printing.labels.typesetting import Rectangle, TextLine, measure
from tests.long.length import so_many
from tests.printing.samples import ALL, DRAWERS, POLE, WAGGLER

LABELS = (*map(rig_label, ALL), *(drawer_label(*item) for item in DRAWERS))


def ink(line: TextLine) -> Rectangle:
    """Where a line's letters may have ink: accents of capitals, and tails where it has any."""
    words = "".join(text for text, _ in line.runs)
    below = BELOW if set(words) & set("gjpqy,;()QЦцщруфμγρ") else 0.0
    above = ABOVE if set(words) & set("ÅÄÖÜЙЁ") else CAP_HEIGHT
    low = line.baseline - below * line.size
    return Rectangle(line.x, low, measure(line.runs) * line.size, (above + below) * line.size)


def lie_apart(a: Rectangle, b: Rectangle) -> bool:
    """Whether two boxes have nothing in common."""
    touch = 0.02
    return (
        a.right <= b.x + touch
        or b.right <= a.x + touch
        or a.top <= b.y + touch
        or b.top <= a.y + touch
    )


@st.composite
def sizes(draw: st.DrawFn) -> LabelSize:
    """Any label that a paper may have."""
    width = draw(st.integers(round(SMALLEST_LABEL_MM[0]), 280))
    height = draw(st.integers(round(SMALLEST_LABEL_MM[1]), 150))
    corner = draw(st.sampled_from([0.0, 0.0, 1.6, 3.0]))
    fold = height / 2 if draw(st.booleans()) and height >= 2 * SMALLEST_LABEL_MM[1] else 0.0
    return LabelSize(width=float(width), height=float(height), corner=corner, fold=float(fold))


@settings(max_examples=so_many(150, 75), deadline=None)
@given(sizes(), st.sampled_from(LABELS), st.booleans())
@example(LabelSize(width=20.0, height=8.0), LABELS[0], True)
@example(LabelSize(width=280.0, height=150.0), LABELS[0], True)
def test_any_label_holds_all_apart_and_inside(size: LabelSize, label: Label, qr: bool) -> None:
    modules = [text.modules for text in label.sayings.candidates()] if qr else []
    laid = lay_out(label.words, size, modules, drawn=label.rig is not None)
    inset = max(INSET_MM, 0.3 * size.corner + 1.0)
    for line in laid.lines:
        where = ink(line)
        assert line.size >= SMALLEST_MM - 1e-9
        assert where.x >= inset - 1e-6
        assert where.right <= size.width - inset + 0.02
        assert where.y >= inset - 0.02
        assert where.top <= size.height - inset + 0.02
        if size.fold:  # not across the fold
            fold = size.height - size.fold
            assert where.y >= fold or where.top <= fold
    taken = [ink(line) for line in laid.lines]
    taken += [laid.qr.kept_clear] if laid.qr else []
    taken += [laid.drawing] if laid.drawing else []
    for a, b in combinations(taken, 2):
        assert lie_apart(a, b), (a, b, laid)


@settings(max_examples=so_many(100, 50), deadline=None)
@given(sizes(), st.sampled_from(LABELS))
def test_what_is_not_on_a_label_is_told(size: LabelSize, label: Label) -> None:
    laid = lay_out(label.words, size, [33], drawn=label.rig is not None)
    said = "".join(text for line in laid.lines for text, _ in line.runs).replace(" ", "")
    for field in label.words.fields:
        forms = (field.full, field.short, field.least)
        is_said = any(form.replace(" ", "") in said for form in forms)
        assert is_said or field.about in laid.left_off, (field, said)
    assert (laid.qr is None) == ("QR" in laid.left_off)
    assert (laid.drawing is None) == ("drawing" in laid.left_off or label.rig is None)
    assert (
        label.words.code in said.replace("no.", "no. ") or label.words.code.replace(" ", "") in said
    )


@pytest.mark.parametrize("height", [12.0, 18.0, 21.2, 38.1, 62.0])
def test_a_wider_label_never_says_less(height: float) -> None:
    words = rig_label(WAGGLER).words
    may_go = {f.about for f in words.fields if f.only_with_room}
    missed = [
        len(set(lay_out(words, LabelSize(width=w, height=height), [33]).left_off) - may_go)
        for w in (38.1, 63.5, 90.0, 130.0, 180.0, 260.0)
    ]
    assert all(wider <= narrower for narrower, wider in pairwise(missed)), missed


def test_type_grows_with_the_label() -> None:
    """A label of twice the height has capitals of twice the height, and no more than that."""
    words = rig_label(WAGGLER).words

    def largest(laid: Layout) -> float:
        return max(line.size for line in laid.lines) * CAP_HEIGHT

    heads = [largest(lay_out(words, LabelSize(width=120.0, height=h))) for h in (33.0, 63.0, 120.0)]
    assert heads == pytest.approx([3.0, 6.0, 6.0])


def test_what_may_be_left_off_never_makes_the_rest_less_easy_to_read() -> None:
    """Regulation (EU) No 1169/2011, annex IV: x-height of 1.2 mm on all but the smallest packs."""
    words = rig_label(WAGGLER).words
    without = replace(words, fields=tuple(f for f in words.fields if not f.only_with_room))

    def smallest(laid: Layout) -> float:
        return min(line.size for line in laid.lines if any(bold for _, bold in line.runs))

    for width in range(40, 281, 5):
        size = LabelSize(width=float(width), height=30.0)
        whole, bare = lay_out(words, size), lay_out(without, size)
        assert smallest(whole) * X_HEIGHT >= 1.2 or smallest(whole) == smallest(bare)


@pytest.mark.parametrize(
    ("plumbed", "over", "depth", "told"),
    [
        ("1.3 m", "2 in", "135 cm", "Depth 135 cm (1.3 m, 2 in over)"),
        ("6 ft 7 in", "3 1/2 in", "6 ft 10 1/2 in", "Depth 6 ft 7 in + 3 1/2 in over"),
        ("3 ft 7 in", "2 in", "4 ft", "Depth 4 ft (3 ft 7 in, 2 in over)"),
    ],
)
def test_the_plumbed_depth_is_as_easy_to_read_on_a_strip(
    plumbed: str, over: str, depth: str, told: str
) -> None:
    """Regulation (EU) No 1169/2011, annex IV; a winder of 13 cm leaves little room."""
    rig = replace(POLE, lengths={"depth": depth}, plumbed=plumbed, over=f"{over} over depth",
                  rig_line="nylon 0.10 mm 1.13 kg", hooklength="15 cm nylon 0.08 mm 0.91 kg",
                  elastic="elastic 4", shot="2 No 9 + 2 No 10 spread 25 cm–169.5 cm")  # fmt: skip
    laid = lay_out(rig_label(rig).words, LabelSize(width=130.0, height=15.0), (33,))
    assert min(line.size for line in laid.lines) * X_HEIGHT >= 1.2
    assert set(laid.left_off) <= {"date", "name", "purpose", "float or feeder in full"}
    assert told.split() in [" ".join(w for w, _ in line.runs).split() for line in laid.lines]
