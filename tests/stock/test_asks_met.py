"""What serves an ask: a feeder's or bomb's mass within a tenth, a float's or hook's never."""

import pytest

from tacklebox.stock.asks import read_ask
from tacklebox.stock.naming.rows import as_row
from tacklebox.stock.notation import read_notation
from tacklebox.stock.tables import Kind


@pytest.mark.parametrize(
    ("kind", "asks", "said", "serves"),
    [
        (Kind.FEEDER, {"mass": "10 g"}, "bomb 3/8 oz", True),  # 10.63 g
        (Kind.FEEDER, {"mass": "30 g"}, "cage feeder 1 oz", True),  # 28.35 g
        (Kind.FEEDER, {"mass": "30 g"}, "cage feeder 33 g", True),
        (Kind.FEEDER, {"mass": "30 g"}, "cage feeder 33.1 g", False),
        (Kind.FEEDER, {"mass": "30 g"}, "cage feeder 26.9 g", False),
        (Kind.FEEDER, {"mass": "1 oz"}, "bomb 30 g", True),
        (Kind.FEEDER, {"mass": "20 to 30 g"}, "bomb 25 g", True),
        (Kind.FEEDER, {"mass": "20 to 30 g"}, "bomb 40 g", False),
        (Kind.FEEDER, {"mass": "10 to 20 g"}, "bomb 3/4 oz", True),  # 21.26 g
        (Kind.FLOAT, {"capacity": "12 No 4"}, "stick 12 No 4", True),
        (Kind.FLOAT, {"capacity": "12 No 4"}, "stick 11 No 4", False),  # 2.2 g, not 2.4
        (Kind.FLOAT, {"capacity": "5BB"}, "waggler 2 g loaded", True),
        (Kind.FLOAT, {"capacity": "4×14"}, "pole 4×14 0.42 g", True),  # its mark, as he weighed it
        (Kind.FLOAT, {"capacity": "4×14"}, "pole 4×14 0.6 g", True),  # tables of marks disagree
        (Kind.FLOAT, {"capacity": "4×14"}, "pole 0.4 g", True),
        (Kind.FLOAT, {"capacity": "4×14"}, "pole 0.42 g", False),  # floats are met to the letter
        (Kind.FLOAT, {"capacity": "0.4 g"}, "pole 4×14 0.42 g", False),
        (Kind.FLOAT, {"capacity": "4×14"}, "pole 4×16", False),
        (Kind.HOOK, {"size": "18"}, "hook 18", True),
        (Kind.HOOK, {"size": "18"}, "hook 17", False),
        (Kind.WEIGHT, {"mass": "0.3 g"}, "olivette 0.3 g", True),
        (Kind.WEIGHT, {"mass": "0.3 g"}, "olivette 0.32 g", False),
    ],
)
def test_what_serves(kind: Kind, asks: dict[str, str], said: str, serves: bool) -> None:
    assert read_ask(kind, asks).matches(as_row(read_notation(said))) is serves
