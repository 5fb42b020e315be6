"""All that a plan says is tied as one action, with its labels and tie sheets, or nothing is."""

import io
from pathlib import Path
from typing import Any

import pdfplumber
import pytest

from tacklebox.desk import Desk, care, hooklengths, matches, measuring, plans, rigs, tie_plan
from tacklebox.desk.judgements import Outcome
from tacklebox.desk.labels import OnPaper
from tacklebox.desk.papers import listed
from tacklebox.desk.plans import prepare
from tacklebox.desk.tie_plan import ToPrint
from tacklebox.errors import AskedWronglyError, BenchError, CannotBeDoneError
from tacklebox.matches.files.venue import write_starting_venue
from tests.desk.boxes import MATCH_DAY, change, copied, desk_at, make_match_box
from tests.matches.test_going_with import NEAREST, STRONGER, THIN
from tests.matches.test_sound import box_with
from tests.rigs.boxes import add


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """One canal rig of three and ten hooklengths can be tied."""
    folder = tmp_path_factory.mktemp("made") / "box"
    make_match_box(folder)
    return folder


@pytest.fixture
def desk(made: Path, tmp_path: Path) -> Desk:
    return copied(made, tmp_path)


def codes(desk: Desk) -> list[str]:
    """Of what is tied: the rigs', and the batches' that hold any."""
    batches = [batch.code for one in hooklengths.listed(desk) for batch in one.batches]
    return [rig.code for rig in rigs.listed(desk)] + batches


def test_all_of_it_is_one_action(desk: Desk) -> None:
    done = tie_plan.tie(desk, "open")
    assert [(one.recipe, one.count, one.codes, one.outcome) for one in done.tied] == [
        ("pole-canal-shot", 1, ("A01T",), Outcome.SOUND),
        ("hooklength-fine", 10, ("A02R",), Outcome.SOUND),
    ]
    assert [(one.name, one.count) for one in done.unmet] == [("Canal pole, shot (depth 1.2 m)", 2)]
    left = {item.name: item.on_hand.value for item in done.left}
    assert (left["hook 20 barbless spade"], left["shot No 8 tin"]) == (0, 18)
    assert done.cautions == ()  # no feeder
    assert codes(desk) == ["A01T", "A02R"]
    care.undo(desk)
    assert codes(desk) == []
    assert care.audit(desk).in_order


def test_what_fails_with_a_hooklength_of_the_plan_is_said_when_it_is_tied(tmp_path: Path) -> None:
    """As the plan says it: one hooklength suits the thin line, five are too strong for it."""
    box = box_with(tmp_path)
    add(box, THIN, amount="20 m")
    add(box, NEAREST, amount="1")
    add(box, STRONGER, amount="5")
    box.engine.dispose()
    write_starting_venue(tmp_path / "venues", "pond")
    desk, wants = desk_at(tmp_path), {"pole-canal-shot": "2", "hooklength-fine": "4"}
    matches.start(desk, "open", venue="pond", on=MATCH_DAY, wanted=wants)
    (planned,) = [want for want in plans.plan(desk, "open").wants if want.fails_with]
    (tied,) = tie_plan.tie(desk, "open").tied
    assert (tied.recipe, tied.count, tied.fails_with) == (
        "pole-canal-shot",
        2,
        planned.fails_with,
    )
    (one,) = tied.fails_with
    assert one.words.startswith("2 of them would fail with hooklength 20 barbless spade to 0.08 mm")


def test_once_more_there_is_nothing_to_tie(desk: Desk) -> None:
    tie_plan.tie(desk, "open")
    again = tie_plan.tie(desk, "open")
    assert (again.tied, again.ready, again.cautions) == ((), 11, ())
    assert [one.count for one in again.unmet] == [2]


def test_labels_and_tie_sheets_are_printed_with_it(desk: Desk) -> None:
    labels, sheets = io.BytesIO(), io.BytesIO()
    wanted = ToPrint(labels, OnPaper("a4-65", start="65"), sheets)
    done = tie_plan.tie(
        desk.keyed("one form"), "open", wanted
    )  # the labels are an action of theirs
    assert done.labels is not None
    assert [(p.sheets, p.next_free) for p in done.labels.on] == [(2, 2)]  # one is left on the first
    with pdfplumber.open(labels) as read:
        text = "".join(str(page.extract_text()) for page in read.pages)
    assert all(code in text for code in codes(desk))
    assert done.sheets is not None
    with pdfplumber.open(sheets) as read:
        text = " ".join(str(page.extract_text()) for page in read.pages)
        assert len(read.pages) == done.sheets.pages
    assert "Tie 10, for" in text
    assert all(rig.labelled_on for rig in rigs.listed(desk))
    assert next(p for p in listed(desk).papers if p.paper == "a4-65").next_free == 2


def test_rigs_are_tied_where_only_their_labels_fail(
    desk: Desk, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A disk that fills up in between, say."""

    def fails(*_words: object, **_more: object) -> None:
        raise CannotBeDoneError("the disk is full.")

    monkeypatch.setattr("tacklebox.printing.labels.sheets.print_runs", fails)
    with pytest.raises(CannotBeDoneError) as refused:
        tie_plan.tie(desk, "open", ToPrint(tmp_path / "l.pdf"))
    assert refused.value.what == (
        "11 are tied, but their labels were not printed: the disk is full."
    )
    assert refused.value.see == "labels.last"
    assert len(codes(desk)) == 2


@pytest.mark.parametrize(
    ("wanted", "field", "what"),
    [
        (ToPrint(Path("no/l.pdf")), "", "cannot be written"),
        (ToPrint(sheets=Path("no/s.pdf")), "", "cannot be written"),
        (ToPrint(Path("l.pdf"), sheets=Path("l.pdf")), "sheets", "cannot go to one place"),
        (ToPrint(Path("l.pdf"), OnPaper("a4-66")), "paper", 'there is no paper "a4-66"'),
        (ToPrint(Path("l.pdf"), OnPaper("a4-65", start="66")), "start", "66 is not on"),
        (ToPrint(Path("l.pdf"), OnPaper(start="2")), "start", "no paper is named"),
        (ToPrint(Path("l.pdf"), OnPaper(start="first")), "start", "is no place"),
        (ToPrint(Path("l.pdf"), OnPaper("a4-65", skip=(0,))), "skip", "0 is not on"),
        (ToPrint(sheets=Path("s.pdf"), page="a6"), "page", "is no page size"),
        (ToPrint(Path("mine.pdf")), "", "left as it is"),
        (ToPrint(sheets=Path("mine.pdf")), "", "left as it is"),
    ],
)
def test_what_cannot_be_printed_is_not_tied(
    desk: Desk,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    wanted: ToPrint,
    field: str,
    what: str,
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("mine.pdf").write_text("%PDF-mine", encoding="utf-8")
    with pytest.raises(BenchError) as refused:
        tie_plan.tie(desk, "open", wanted)
    assert what in refused.value.what
    assert refused.value.field == field
    assert codes(desk) == []
    assert sorted(p.name for p in tmp_path.glob("*.pdf")) == ["mine.pdf"]


def test_what_the_venue_turns_away_is_not_tied_unless_told(desk: Desk) -> None:
    change(desk.box.folder / "venues" / "pond.toml", ('"2 lb"', '"4 lb"'))
    done = tie_plan.tie(desk, "open")
    assert [one.recipe for one in done.tied] == ["hooklength-fine"]
    assert done.not_allowed
    assert done.unmet[0].because == (
        "rig line: the venue does not allow nylon 0.12 mm 1.6 kg (main line at least 4 lb)"
    )
    more = tie_plan.tie(desk, "open", despite_rules=True)
    assert ([one.recipe for one in more.tied], more.not_allowed) == (["pole-canal-shot"], False)


def test_nothing_is_tied_for_a_day_that_is_closed(desk: Desk, tmp_path: Path) -> None:
    change(desk.box.folder / "venues" / "pond.toml", ('"still water"', '"river"'))
    change(desk.box.folder / "matches" / "open.toml", (MATCH_DAY, "2026-05-01"))
    with pytest.raises(CannotBeDoneError) as refused:
        tie_plan.tie(desk, "open", ToPrint(sheets=tmp_path / "s.pdf"))
    assert refused.value.what.startswith("Pond does not allow this; nothing was tied.\n  close")
    assert "would pass: from 16 June" in refused.value.what
    assert "come first" in refused.value.right
    assert refused.value.see == "tie_plan.despite_rules"
    assert not (tmp_path / "s.pdf").exists()
    assert codes(desk) == []


def test_a_plan_overtaken_by_another_is_not_tied_again(
    desk: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Another terminal ties the same plan while this one is about to."""
    from tacklebox.matches.before import tie_plan as before

    once = before.tie_portions

    def overtaken(*plan: Any, **more: Any) -> Any:
        monkeypatch.undo()
        tie_plan.tie(desk_at(desk.box.folder), "open")
        return once(*plan, **more)

    monkeypatch.setattr(before, "tie_portions", overtaken)
    with pytest.raises(CannotBeDoneError, match="changed while the plan was made; nothing was"):
        tie_plan.tie(desk, "open")
    assert len(codes(desk)) == 2


def test_what_fails_is_not_tied_unless_told_why(desk: Desk, tmp_path: Path) -> None:
    sheets = tmp_path / "sheets.pdf"
    sheets.write_text("%PDF-mine", encoding="utf-8")
    for _ in range(3):
        measuring.record_pull(desk, "nylon 0.12", "0.6 kg", as_read=True)
    onto = ToPrint(sheets=sheets, replace=True)
    held = tie_plan.tie(desk, "open")
    assert [one.recipe for one in held.tied] == ["hooklength-fine"]
    assert (held.unmet[0].count, held.fails) == (3, True)
    assert held.unmet[0].because == "nothing in the box holds in it: breaks first"
    done = tie_plan.tie(desk, "open", onto, because="for the canal only")
    assert sheets.read_bytes().startswith(b"%PDF")
    assert done.tied[0].outcome is Outcome.FAILS
    assert not done.fails
    kept = {rig.made.recipe: rig.tied_because for rig in rigs.listed(desk)}
    assert kept == {"pole-canal-shot": "for the canal only"}
    assert hooklengths.show(desk, held.tied[0].codes[0]).tied_because == ""


def test_how_sure_it_must_be_can_be_said(desk: Desk) -> None:
    plan = prepare(desk, "open", (0.999999, 0.99999)).plan
    assert [want.tie for want in plan.wants] == [0, 10]
    with pytest.raises(AskedWronglyError) as refused:
        tie_plan.tie(desk, "open", sound_from="80", doubtful_from="90")
    assert refused.value.field == "doubtful_from"
    done = tie_plan.tie(desk, "open", sound_from="99.9999", doubtful_from="50")
    assert done.tied[0].outcome is Outcome.DOUBTFUL
    assert done.tied[0].doubts


def test_a_day_to_come_ties_nothing(desk: Desk) -> None:
    with pytest.raises(AskedWronglyError, match="has not come yet") as refused:
        tie_plan.tie(desk, "open", on="2099-01-01")
    assert refused.value.field == "on"
