"""What stands in for shot that is gone: the published equals, and by every way there is."""

from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tacklebox.errors import AskedWronglyError, CannotBeDoneError
from tacklebox.trade.balance import Tip
from tacklebox.trade.replacing import replacements
from tacklebox.trade.shot import read_pattern
from tacklebox.trade.supply import Supply, every_size
from tests.long.length import so_many
from tests.outside import outside

INSERT = Tip(3.0, 60.0)


@outside(
    "what stands in for two AAA",
    'Soar Tackle knowledge base, "Guide to float shotting & weights"',
    "published",
)
def test_two_aaa_are_replaced() -> None:
    """The published guide: SSG = 2 AAA, AAA = 2 BB, BB = 2 No 4 (Soar Tackle, as in shot.py)."""
    answer = replacements(read_pattern("2 AAA"), every_size(), tip=INSERT)
    assert str(answer[0]) == "1 SSG"
    assert answer[0].error_mg == 0
    box = [Supply("BB", 0.4, count=3), Supply("No 1", 0.3, count=9)]
    near = replacements(read_pattern("2 AAA"), box, tip=INSERT, how_many=2)
    assert str(near[0]) == "1 BB + 4 No 1"
    box = [Supply("BB", 0.4, count=3)]
    light = replacements(read_pattern("2 AAA"), box, tip=INSERT)[0]
    assert str(light) == "3 BB"
    assert light.error_mg == pytest.approx(-400)
    assert light.error_tip_mm == pytest.approx(48.9, abs=0.1)  # 0.4 g × 0.863 on a 3 mm tip


@outside("the nearest replacements in order", "every choice there is", "other way")
@settings(max_examples=so_many(20, 10), deadline=None)
@given(
    st.lists(st.integers(200, 9000), min_size=2, max_size=3, unique=True),
    st.sampled_from(["2 AAA", "1 BB", "1 No 4", "3 No 8"]),
    st.integers(1, 6),
)
def test_the_nearest_next_and_none_skipped(tenths_mg: list[int], lost: str, how_many: int) -> None:
    """Against every choice of so many of each weighed size, by error and a mg for each shot."""
    names = ("SSG", "AB", "No 1")
    box = [
        Supply(name, mass / 10_000, count=12) for name, mass in zip(names, tenths_mg, strict=False)
    ]
    target = 1000 * sum(load.total_g for load in read_pattern(lost))
    costs = sorted(
        abs(sum(n * m / 10 for n, m in zip(counts, tenths_mg, strict=True)) - target) + sum(counts)
        for counts in product(range(13), repeat=len(box))
        if any(counts)
    )
    found = replacements(read_pattern(lost), box, how_many=how_many)
    got = [abs(one.error_mg) + sum(n for _, n in one.picked) for one in found]
    assert got == pytest.approx(costs[:how_many], abs=0.003)
    assert all(one.proven for one in found)


def test_one_size_alone_is_offered_in_order_on_both_sides() -> None:
    """7 No 8 for a BB, then 6, then 8, then 5: none is left out because it is too heavy."""
    found = replacements(read_pattern("BB"), [Supply("No 8", 0.06)], how_many=4)
    assert [str(one) for one in found] == ["7 No 8", "6 No 8", "8 No 8", "5 No 8"]


def test_of_equally_near_ones_that_of_fewer_sizes_comes_first() -> None:
    """The published guide: No 4 = 2 No 6 (Soar Tackle, as in shot.py); No 5 + No 9 weigh as much."""
    answer = replacements(read_pattern("No 4"), every_size())
    assert [str(one) for one in answer[:2]] == ["2 No 6", "1 No 5 + 1 No 9"]


def test_lead_in_place_of_tin_pulls_more() -> None:
    box = [Supply("No 8", 0.06, "lead")]
    answer = replacements(read_pattern("1 No 8"), box, tip=INSERT, how_many=1)[0]
    assert answer.error_mg == pytest.approx(3.4, abs=0.05)  # 0.06 × 0.912 / 0.863 = 0.0634


def test_olivettes_do_not_stand_in_for_shot() -> None:
    box = [Supply("1.6 g", 1.6, kind="olivette"), Supply("BB", 0.4)]
    assert str(replacements(read_pattern("2 AAA"), box, how_many=1)[0]) == "4 BB"


def test_styls_stand_in_for_styls_alone() -> None:
    box = [Supply("styl 9", 0.02, kind="styl"), Supply("No 12", 0.02), Supply("No 11", 0.03)]
    lost = replacements(read_pattern("2 styl 10"), box, how_many=4)
    assert any(one.picked[0][0].kind == "styl" for one in lost)
    shot = replacements(read_pattern("2 No 10"), box, how_many=4)
    assert all(supply.kind == "shot" for one in shot for supply, _ in one.picked)


def test_nothing_gone_and_nothing_there_are_refused() -> None:
    with pytest.raises(AskedWronglyError, match="nothing is gone"):
        replacements((), every_size())
    with pytest.raises(CannotBeDoneError, match="no shot to choose"):
        replacements(read_pattern("BB"), [Supply("BB", 0.4)])
