"""A name that no file has: the fault names the field, and the name that was meant."""

import io
from collections.abc import Callable
from pathlib import Path

import pytest

from tacklebox.desk import (
    Desk,
    checking,
    debriefs,
    feeding,
    labels,
    low,
    matches,
    packing,
    papers,
    plans,
    recipes,
    settling,
    tie_plan,
    tie_sheets,
    tying,
    venues,
)
from tacklebox.desk.labels import OnPaper
from tacklebox.errors import AskedWronglyError
from tests.desk.boxes import desk_at, make_match_box


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Desk:
    folder: Path = tmp_path_factory.mktemp("named") / "box"
    make_match_box(folder)
    return desk_at(folder)


RECIPE, MATCH, VENUE, PAPER = "pole-canal-shto", "opne", "pnod", "a4-66"
CASES: list[tuple[str, str, Callable[[Desk], object]]] = [
    ("recipe", "pole-canal-shot", lambda d: recipes.show(d, RECIPE)),
    ("recipe", "pole-canal-shot", lambda d: recipes.draw(d, RECIPE, {})),
    ("like", "pole-canal-shot", lambda d: recipes.start(d, "mine", like=RECIPE)),
    ("recipe", "pole-canal-shot", lambda d: checking.check(d, RECIPE, {})),
    ("recipe", "pole-canal-shot", lambda d: tying.tie(d, RECIPE, {})),
    ("recipe", "pole-canal-shot", lambda d: low.runs_low(d, {RECIPE: "1"}, {})),
    (
        "recipe",
        "pole-canal-shot",
        lambda d: tie_sheets.print_sheets(d, {RECIPE: "1"}, {}, io.BytesIO()),
    ),
    ("recipe", "pole-canal-shot", lambda d: settling.settle(d, settling.FallQuestion(RECIPE))),
    ("recipe", "pole-canal-shot", lambda d: venues.judge(d, "pond", [RECIPE], {})),
    ("named_venue", "pond", lambda d: venues.judge(d, VENUE, ["pole-canal-shot"], {})),
    ("named_venue", "pond", lambda d: venues.show(d, VENUE)),
    ("venue", "pond", lambda d: venues.judge_keepnet(d, venues.KeepnetAsked(length="3 m"), VENUE)),
    (
        "venue",
        "pond",
        lambda d: feeding.feed_needed(d, feeding.FeedAsked(hours="5", loose="1"), venue=VENUE),
    ),
    ("match", "open", lambda d: plans.plan(d, MATCH)),
    ("match", "open", lambda d: plans.to_buy(d, MATCH)),
    ("match", "open", lambda d: packing.pack(d, MATCH)),
    ("match", "open", lambda d: tie_plan.tie(d, MATCH)),
    ("match", "open", lambda d: debriefs.form(d, MATCH)),
    ("match", "open", lambda d: debriefs.show(d, MATCH)),
    ("match", "open", lambda d: debriefs.write(d, MATCH, debriefs.DebriefAnswers(back=["A01T"]))),
    ("match", "open", lambda d: feeding.feed_needed(d, feeding.FeedAsked(), match=MATCH)),
    ("paper", "a4-65", lambda d: papers.print_test_page(d, PAPER, io.BytesIO())),
    ("paper", "a4-65", lambda d: papers.keep_measured(d, PAPER, left="21 mm")),
    ("paper", "a4-65", lambda d: labels.start_place(d, OnPaper(PAPER))),
]


@pytest.mark.parametrize(("field", "meant", "ask"), CASES)
def test_a_name_that_no_file_has(
    desk: Desk, field: str, meant: str, ask: Callable[[Desk], object]
) -> None:
    with pytest.raises(AskedWronglyError, match="there is no ") as refused:
        ask(desk)
    assert (refused.value.field, refused.value.right) == (field, f'Did you mean "{meant}"?')


@pytest.mark.parametrize(
    ("field", "start"),
    [
        ("recipe", lambda d: recipes.start(d, "My Rig")),
        ("match", lambda d: matches.start(d, "My Match", venue="pond", on="2026-05-01")),
        ("venue", lambda d: matches.start(d, "mine", venue="The Pond", on="2026-05-01")),
        ("named_venue", lambda d: venues.start(d, "The Pond")),
        ("match", lambda d: debriefs.show(d, "My Match")),
    ],
)
def test_a_name_that_can_be_none(desk: Desk, field: str, start: Callable[[Desk], object]) -> None:
    with pytest.raises(AskedWronglyError, match="small letters, digits and hyphens") as refused:
        start(desk)
    assert refused.value.field == field
