"""A snapshot is read as it was written, or refused whole; what stands in for one says so."""

import json
from typing import Any

import pytest

from tacklebox.rigs.tying.snapshot import Snapshot, UnreadableError, stand_in

GOOD = stand_in("A01T", "pole-canal-shot").to_json()


def changed(**keys: object) -> str:
    return json.dumps(json.loads(GOOD) | keys)


@pytest.mark.parametrize(
    "text",
    [
        "", "{", "null", "[]", "7", '"text"', "[" * 50_000, '{"a":' * 50_000, "{}", '{"code": "A01T"}',
        changed(length_mm="long"), changed(length_mm=None), changed(hook=18), changed(marks=7),
        changed(marks=[{}]), changed(marks=["x"]), changed(fall=[1]), changed(lengths=["depth"]),
        changed(lengths={"depth": 1}), changed(unknown=1), changed(outcome=[]), changed(set_for=1),
        GOOD.replace('"length_mm": 0.0', '"length_mm": NaN'), changed(count="two"),
    ],
)  # fmt: skip
def test_what_no_snapshot_says_is_refused(text: str) -> None:
    with pytest.raises(UnreadableError):
        Snapshot.from_json(text)


def test_what_stands_in_is_read_back() -> None:
    made = Snapshot.from_json(GOOD)
    assert (made.unreadable, made.code, made.recipe) == (True, "A01T", "pole-canal-shot")
    assert "unreadable" not in json.loads(Snapshot(**_without(made)).to_json())


def _without(made: Snapshot) -> dict[str, Any]:
    kept = {name: getattr(made, name) for name in made.__dataclass_fields__}
    return kept | {"unreadable": False}
