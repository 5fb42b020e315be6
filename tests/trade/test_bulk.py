"""What may be called a bulk (common practice, no source)."""

import pytest

from tacklebox.trade.bulk import judge_bulk, judge_order
from tacklebox.trade.judgement import Check, Outcome
from tacklebox.trade.shot import read_pattern


@pytest.mark.parametrize(
    ("bulk", "droppers", "says"),
    [
        ("6 No 8", "2 No 10", ""),
        ("6 No 8 + No 13", "2 No 10", ""),
        ("6 No 8", "2 No 8", ""),
        ("2 No 11", "", ""),
        ("3 No 8 + No 11", "3 No 9", ""),
        ("No 5 + No 11", "2 No 10", "the bulk is one No 5 with a trimming shot; make it of two"),
        ("AAA", "2 No 8", "the bulk is one AAA; make it of two or more of one size"),
        ("2 No 4 + 2 No 6", "2 No 10", "of several sizes, 2 No 4 + 2 No 6; make it of one size"),
        ("6 No 8 + 2 No 12", "2 No 12", "of several sizes"),
        (
            "4 No 10",
            "2 No 8",
            "the bulk's No 10 is lighter than the No 8 below it; make it of No 8",
        ),
        ("4 No 8", "2 No 10 + No 6", "lighter than the No 6"),
    ],
)
def test_a_bulk_is_of_equal_shot_none_lighter_than_a_dropper(
    bulk: str, droppers: str, says: str
) -> None:
    judged = judge_bulk(read_pattern(bulk), read_pattern(droppers) if droppers else ())
    assert judged.key is Check.BULK
    assert judged.outcome is (Outcome.DOUBTFUL if says else Outcome.SOUND)
    assert judged.is_shown is bool(says)
    assert says in judged.line


@pytest.mark.parametrize(
    ("bulk", "above", "says"),
    [
        ("6 No 8", "", ""),
        ("6 No 8", "2 No 6", ""),  # a strung rig over a small bulk
        ("6 No 8", "No 8", ""),
        ("6 No 8", "No 11", ""),  # one that trims, under the float
        (
            "6 No 8",
            "No 10",
            "the No 10 above the bulk is lighter than the No 8 in it; put it below",
        ),
        ("6 No 8", "No 6 + No 9", "the No 9 above the bulk"),
        ("olivette 0.4 g", "No 8", "the No 8 above the bulk is lighter than the 0.4 g in it"),
        ("4 No 10", "2 No 12", "the No 12 above the bulk"),
    ],
)
def test_what_is_above_a_bulk_is_no_lighter(bulk: str, above: str, says: str) -> None:
    judged = judge_bulk(read_pattern(bulk), (), read_pattern(above) if above else ())
    assert judged.outcome is (Outcome.DOUBTFUL if says else Outcome.SOUND)
    assert says in judged.line


@pytest.mark.parametrize(
    ("strung_out", "droppers", "says"),
    [
        ("4 No 8 + 2 No 9 + No 10", "", ""),
        ("No 8", "2 No 10 + No 11", ""),
        ("", "2 No 10", ""),
        ("No 8 + No 10 + No 9", "", "a shot of No 10 is above one of No 9"),
        ("", "No 12 + No 10", "which is heavier; put the No 10 above it"),
        ("2 No 8", "No 13 + No 11", "a dropper of No 13 is above one of No 11"),
    ],
)
def test_each_shot_is_no_heavier_than_the_one_above(
    strung_out: str, droppers: str, says: str
) -> None:
    """Of shot strung out: Black Country Fishing, "Shot"; of droppers common practice (no source)."""
    judged = judge_order(*(read_pattern(one) if one else () for one in (strung_out, droppers)))
    assert judged.key is Check.SHOT_ORDER
    assert judged.outcome is (Outcome.DOUBTFUL if says else Outcome.SOUND)
    assert judged.is_shown is bool(says)
    assert says in judged.line
