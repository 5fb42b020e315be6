"""What may be called a bulk (common practice, no source)."""

import pytest

from tacklebox.trade.bulk import judge_bulk
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
