"""Tied rigs as the desk answers: what is ready, one by its code, stripped and lost."""

import shutil
from pathlib import Path

import pytest

from tacklebox.desk import Desk, as_json, rigs
from tacklebox.errors import AskedWronglyError
from tacklebox.rigs.tying.tie import tie
from tacklebox.stock.care.box import open_box
from tests.rigs.boxes import CANAL, DAY, add, canal_rig, short_rig


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Two canal rigs, and a short one tied after them."""
    box = open_box(tmp_path_factory.mktemp("tied") / "box")
    for words in CANAL:
        add(box, words, packs=2)
    tie(box, canal_rig(depth="1.5 m"), 2, DAY)
    tie(box, short_rig(), 1, DAY)
    box.engine.dispose()
    return box.folder


@pytest.fixture
def desk(made: Path, tmp_path: Path) -> Desk:
    return Desk(Path(shutil.copytree(made, tmp_path / "box")))


def test_what_was_tied_is_told_as_it_was_tied(desk: Desk) -> None:
    one = rigs.show(desk, "ao1-t")
    assert (one.code, one.state, one.tied_on, one.labelled_on) == ("A01T", "ready", DAY, None)
    assert (one.made.name, one.made.set_for) == ("Canal pole, shot", "depth 1.5 m")
    assert (one.made.lengths, one.made.sizes) == ({"depth": "1.5 m"}, {"float": "4×12"})
    assert one.length == "185 cm"
    assert as_json(one)["made"]["size"] == "4×12"


def test_a_stripped_rig_gives_back_what_outlives_it(desk: Desk) -> None:
    [lost] = rigs.strip(desk, ["A02R"])
    assert lost.code == "A02R"
    assert [(i.name, i.on_hand.value) for i in lost.back] == [
        ("pole 4×12", 1),
        ("winder 13 cm 18 mm", 1),
    ]
    assert [one.code for one in rigs.listed(desk)] == ["A01T", "A03P"]


def test_of_a_lost_rig_the_winder_alone_comes_back(desk: Desk) -> None:
    [lost] = rigs.lose(desk, ["A01T"], on="2026-03-09")
    assert [item.name for item in lost.back] == ["winder 13 cm 18 mm"]
    states = {one.code: one.state for one in rigs.listed(desk, every=True)}
    assert (states["A01T"], states["A02R"]) == ("lost", "ready")


@pytest.mark.parametrize(
    ("codes", "what"),
    [
        (["A01T", "A02W"], "mistyped"),
        (["A01T a01t"], "named twice"),
        (["A01T", "A99"], "is no code"),
    ],
)
def test_all_of_them_or_none(desk: Desk, codes: list[str], what: str) -> None:
    with pytest.raises(AskedWronglyError, match=what) as refused:
        rigs.strip(desk, codes)
    assert refused.value.field == "code"
    assert len(rigs.listed(desk)) == 3


def test_a_rig_that_is_gone_cannot_go_again(desk: Desk) -> None:
    rigs.lose(desk, ["A01T"])
    with pytest.raises(AskedWronglyError, match="A01T is lost already"):
        rigs.strip(desk, ["A01T"])


def test_a_code_of_no_rig_offers_near_ones_or_the_list(desk: Desk, tmp_path: Path) -> None:
    with pytest.raises(AskedWronglyError, match="Near it: A01T") as near:
        rigs.show(desk, "A01W")
    assert near.value.see == ""
    with pytest.raises(AskedWronglyError, match="no rig has the code A01T") as refused:
        rigs.show(Desk(tmp_path / "new"), "A01T")
    assert refused.value.see == "rigs.listed"
