"""How chances are told beside what they rest on."""

import pytest

from tacklebox.trade.sources import write_risk


@pytest.mark.parametrize(
    ("chance", "words"),
    [
        (5 / 9, "55.6 %"),
        (0.555, "55.5 %"),
        (0.5550001, "55.6 %"),
        (0.0, "under 0.1 %"),
        (0.00099, "under 0.1 %"),
        (0.001, "0.1 %"),
        (0.0010001, "0.2 %"),
        (0.9985, "99.9 %"),
        (0.999, "99.9 %"),
        (0.9991, "over 99.9 %"),
        (1.0, "over 99.9 %"),
    ],
)
def test_risks_are_never_rounded_down(chance: float, words: str) -> None:
    assert write_risk(chance) == words
