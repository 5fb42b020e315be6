"""At the water: the page that goes along, the card, and the record that comes home."""

import io
import json
import re
from dataclasses import replace
from pathlib import Path

import pdfplumber
import pytest

from tacklebox.desk import (
    Desk,
    as_json,
    bank,
    care,
    debriefs,
    match_forms,
)
from tacklebox.desk.debriefs import DebriefAnswers
from tacklebox.errors import AskedWronglyError, BenchError, ManyFaultsError
from tacklebox.matches.water.sheet import RemedyAlong, SignAlong
from tacklebox.printing.water.card import print_card
from tests.desk.boxes import copied
from tests.desk.water_box import DAY, make_water_box

TAPPED = """1 | 2026-11-29 10:12:07 | fish | species roach | rig A01T | net silvers 1 | weighs 56.7 g
2 | 2026-11-29 10:14:00 | fish | rig A01T
3 | 2026-11-29 10:40:00 | lost | item {item} | is 20 to 0.08 mm
4 | 2026-11-29 10:41:00 | lost | rig A02R
5 | 2026-11-29 12:00:00 | day | peg 14
6 | 2026-11-29 12:00:00 | day | section B
7 | 2026-11-29 15:30:00 | day | weighed 4 lb 2 oz
8 | 2026-11-29 15:40:00 | day | place 3rd
9 | 2026-11-29 15:41:00 | note | says far shelf
end | 9
"""


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return make_water_box(tmp_path_factory.mktemp("made") / "box")


@pytest.fixture
def desk(made: Path, tmp_path: Path) -> Desk:
    found = copied(made, tmp_path)
    found.today = lambda: DAY
    return found


def record_of(desk: Desk, tapped: str = TAPPED, match: str = "club", box: str = "") -> str:
    mark = box or desk.box.mark().box
    head = f"TACKLEBOX RECORD 1\nrecord | {mark}/{match}/2026-11-29\nmatch | {match}\nrigs | A01T A02R\n"
    return head + tapped.format(item=hooklength(desk))


def hooklength(desk: Desk) -> int:
    return debriefs.form(desk, "club").hooklengths[0].item


def test_the_page_has_all_that_goes_along_and_asks_nothing_of_a_network(desk: Desk) -> None:
    made = io.BytesIO()
    answer = bank.page(desk, "club", made)
    page = made.getvalue().decode()
    assert answer.size == len(made.getvalue()) < 400_000
    assert (answer.rigs, answer.hooklengths, answer.still_to_tie) == (2, 4, 0)
    facts = json.loads(re.search(r'id="facts">(.*?)</script>', page).group(1))  # type: ignore[union-attr]
    assert [rig["code"] for rig in facts["rigs"]] == ["A01T", "A02R"]
    assert [one["count"] for one in facts["hooklengths"]] == [4]
    assert facts["net"]["most_g"] == pytest.approx(
        dict.fromkeys(("silvers", "carp"), 20 * 453.59237)
    )
    assert facts["rhythm"]["feed_every_min"] is not None
    assert facts["record"] == f"{desk.box.mark().box}/club/2026-11-29"
    assert all(rig["settled_by_s"] for rig in facts["rigs"])
    assert "default-src &#39;none&#39;" in page
    assert not re.search(r"(?:src|href|action)=|https?:|@import|url\(", page)
    assert "overhead power lines" in page


def test_what_a_name_would_do_on_a_page_is_only_words_there(desk: Desk) -> None:
    form = match_forms.form(desk, "club")
    name = '</script><script>alert("x")</script>'
    match_forms.write(desk, {**form.values, "name": name}, form.wants, "club")
    made = io.BytesIO()
    bank.page(desk, "club", made)
    page = made.getvalue().decode()
    assert page.count("<script") == 2
    assert "alert(&#34;x&#34;)" in page


def test_a_page_is_written_over_by_one_alone(desk: Desk, tmp_path: Path) -> None:
    file = tmp_path / "bank.html"
    bank.page(desk, "club", file)
    with pytest.raises(AskedWronglyError, match="there already"):
        bank.page(desk, "club", file)
    bank.page(desk, "club", file, overwrite=True)
    file.write_text("<!doctype html>mine", encoding="utf-8")
    with pytest.raises(AskedWronglyError):
        bank.page(desk, "club", file, overwrite=True)
    assert file.read_text(encoding="utf-8") == "<!doctype html>mine"


def test_the_card_has_the_same_for_a_pen_on_one_side(desk: Desk) -> None:
    made = io.BytesIO()
    answer = bank.card(desk, "club", made)
    assert (answer.left_out, answer.unknown) == ((), "")
    with pdfplumber.open(io.BytesIO(made.getvalue())) as pdf:
        (page,) = pdf.pages
        words, boxes = page.extract_text(), page.rects
        lowest = max(box["bottom"] for box in boxes)
    for said in (
        "A01T",
        "A02R",
        "What to change when",
        "Float tows",
        "overhead power lines",
        "20 lb",
    ):
        assert said in words
    assert len(boxes) >= 2 * 2 + 4 + 160
    assert lowest < 148 / 25.4 * 72  # ISO 216: A5 across


def test_of_a_guide_that_is_too_long_for_its_panel_the_rest_stands_where_there_is_room(
    desk: Desk,
) -> None:
    sheet, _ = bank._sheet(desk, "club")
    some = [
        SignAlong(f"Sign {n}", (RemedyAlong("Do this, and that." * 3, (), True),))
        for n in range(24)
    ]
    made = io.BytesIO()
    assert print_card(replace(sheet, signs=tuple(some)), made).left_out == ()
    with pdfplumber.open(io.BytesIO(made.getvalue())) as pdf:
        words = pdf.pages[0].extract_text()
    assert words.count("What to change when, more") == 1
    assert all(f"Sign {n}:" in words for n in range(24))
    many = print_card(replace(sheet, signs=tuple(some * 5)), io.BytesIO())
    assert '"Sign 23"' in many.left_out  # and that is told


def test_the_record_fills_the_form_and_is_written_with_it(desk: Desk) -> None:
    found = bank.read_record(desk, "club", record_of(desk))
    assert (found.faults, found.clock, found.remarks) == ((), "", ())
    assert [(one.name, one.fish, one.weighed) for one in found.nets] == [
        ("silvers 1", 1, 1), ("", 1, 0),
    ]  # fmt: skip
    answers = bank.filled(found, DebriefAnswers(peg="15"))
    shown = debriefs.write(desk, "club", answers)
    assert (shown.back, shown.lost) == (("A01T",), ("A02R",))
    assert [str(one.amount) for one in shown.tackle_lost] == ["1"]
    assert (shown.peg, shown.section, shown.place) == ("15", "B", 3)
    assert shown.weight == "4 lb 2 oz (1.87 kg)"
    assert shown.notes == "far shelf"
    assert "fish | species roach" in shown.record
    assert care.audit(desk).in_order
    with pytest.raises(AskedWronglyError, match="has this record already"):
        bank.read_record(desk, "club", record_of(desk))
    care.undo(desk)
    assert debriefs.show(desk, "club") is None
    assert bank.read_record(desk, "club", record_of(desk)).text == found.text


def test_what_is_not_sure_is_asked_line_by_line(desk: Desk) -> None:
    doubtful = TAPPED.replace("weighs 56.7 g", "weighs -2 lb").replace("rig A02R", "rig A77X")
    found = bank.read_record(desk, "club", record_of(desk, doubtful))
    assert [fault.line for fault in found.faults] == [5, 8]
    with pytest.raises(ManyFaultsError):
        bank.refuse_doubts(found)
    put_right = {5: "1 | 2026-11-29 10:12:07 | fish | weighs 2 lb", 8: ""}
    mended = bank.read_record(desk, "club", record_of(desk, doubtful), put_right=put_right)
    assert mended.faults == ()
    assert (mended.answers.lost, mended.answers.back) == ((), ("A01T", "A02R"))


def test_a_fish_on_a_rig_that_is_none_is_kept_without_it(desk: Desk) -> None:
    found = bank.read_record(desk, "club", record_of(desk, TAPPED.replace("rig A01T", "rig A77X")))
    assert found.faults == ()
    assert sum(one.fish for one in found.nets) == 2
    assert len(found.remarks) == 2


@pytest.mark.parametrize(
    ("change", "what"),
    [
        ({"box": "another"}, "another box"),
        ({"match": "spring"}, "not of club"),
    ],
)
def test_a_record_of_something_else_is_told(desk: Desk, change: dict[str, str], what: str) -> None:
    with pytest.raises(AskedWronglyError, match=what):
        bank.read_record(desk, "club", record_of(desk, **change))


def test_a_clock_that_was_wrong_is_asked_and_put(desk: Desk) -> None:
    late = re.sub(r"-29 (\d\d):", lambda found: f"-30 {found[1]}:", TAPPED)
    found = bank.read_record(desk, "club", record_of(desk, late))
    assert found.clock_choices == ("-1 d", "as it is")
    with pytest.raises(BenchError, match="-1 d"):
        bank.refuse_doubts(found)
    put = bank.read_record(desk, "club", record_of(desk, late), clock="-1 d")
    assert put.text == bank.read_record(desk, "club", record_of(desk)).text
    kept = bank.read_record(desk, "club", record_of(desk, late), clock="as it is")
    assert "2026-11-30 10:12:07" in kept.text
    with pytest.raises(AskedWronglyError, match="none of what the clock"):
        bank.read_record(desk, "club", record_of(desk, late), clock="+3 h")


def test_a_clock_that_was_an_hour_wrong_within_the_match_is_put_where_he_says_so(
    desk: Desk,
) -> None:
    """Nothing in the record shows it; the page for the water shows its clock all day."""
    put = bank.read_record(desk, "club", record_of(desk), clock="-1 h")
    assert "2026-11-29 09:12:07 | fish" in put.text
    assert put.clock == ""
    page = io.BytesIO()
    bank.page(desk, "club", page)
    assert 'id="clock"' in page.getvalue().decode()


HOUR_BACK = """1 | 2026-11-29 10:12:07 | fish | rig A01T | open a 100 s
2 | 2026-11-29 11:14:07 | fish | rig A01T | open a 3820 s
3 | 2026-11-29 10:44:07 | fish | rig A01T | open a 5620 s
4 | 2026-11-29 10:54:07 | note | open a 6220 s | says put by the network
end | 4
"""


@pytest.mark.parametrize(
    ("chosen", "times"),
    [
        ("before -1 h", ["09:12", "10:14", "10:44", "10:54"]),
        ("from +1 h", ["10:12", "11:14", "11:44", "11:54"]),
        ("as it is", ["10:12", "11:14", "10:44", "10:54"]),
    ],
)
def test_a_clock_that_was_put_back_on_the_way_is_asked_about_at_its_line(
    desk: Desk, chosen: str, times: list[str]
) -> None:
    found = bank.read_record(desk, "club", record_of(desk, HOUR_BACK))
    (asked,) = found.clock_breaks
    assert (asked.line, asked.choices) == (7, ("before -1 h", "from +1 h", "as it is"))
    assert asked.words == "from 11:14 to 10:44 the page counted 30 min: the clock was put back."
    with pytest.raises(AskedWronglyError, match="put back"):
        bank.refuse_doubts(found)
    put = bank.read_record(desk, "club", record_of(desk, HOUR_BACK), clock_at={7: chosen})
    assert put.clock_breaks == ()
    assert [line.split(" | ")[1][11:16] for line in put.text.splitlines()[4:-1]] == times
    # the first fish is before the match then, so the rest of it is asked about
    assert bool(put.clock) is (chosen == "before -1 h")
    with pytest.raises(AskedWronglyError, match="none of what the clock"):
        bank.read_record(desk, "club", record_of(desk, HOUR_BACK), clock_at={7: "before -9 h"})


def test_a_tap_that_no_clock_explains_is_asked_about_at_its_line(desk: Desk) -> None:
    late = TAPPED.replace("10:14:00 | fish", "19:14:00 | fish").replace("2 | 2026", "10 | 2026", 1)
    late = re.sub(r"(?m)^(10 \|.*)\n((?:.*\n)*)end \| 9", r"\2\1\nend | 10", late)
    found = bank.read_record(desk, "club", record_of(desk, late))
    (fault,) = found.faults
    assert fault.what == "19:14 is outside the match's hours, 10:00 to 15:00."
    for said, fish in (("as it is", 2), ("", 1), ("10 | 2026-11-29 14:50:00 | fish", 2)):
        put = bank.read_record(desk, "club", record_of(desk, late), put_right={fault.line: said})
        assert (put.faults, put.clock) == ((), "")
        assert sum(one.fish for one in put.nets) == fish
    whole = bank.read_record(desk, "club", record_of(desk, late), clock="as it is")
    assert whole.faults == ()


def test_a_code_that_was_written_otherwise_is_the_rig_that_it_is(desk: Desk) -> None:
    other = TAPPED.replace("rig A02R", "rig ao2r")
    assert bank.read_record(desk, "club", record_of(desk, other)).answers.lost == ("A02R",)
    went = record_of(desk).replace("rigs | A01T A02R", "rigs | A01T aO2r Z99Q")
    found = bank.read_record(desk, "club", went)
    assert (found.answers.back, len(found.remarks)) == (("A01T",), 1)
    assert "Z99Q" in found.remarks[0]
    debriefs.write(desk, "club", found.answers)


def test_a_line_that_is_too_long_is_asked_about_and_never_cut(desk: Desk) -> None:
    long = record_of(desk, TAPPED.replace("far shelf", "far shelf " + "x" * 1000))
    (fault,) = bank.read_record(desk, "club", long).faults
    assert "longer than 1000" in fault.what
    fits = record_of(desk, TAPPED.replace("far shelf", "x" * 900))
    assert bank.read_record(desk, "club", fits).answers.notes == "x" * 900


@pytest.mark.parametrize("said", [("", 2), ("> ", 2)])
def test_a_record_that_was_pasted_twice_or_answered_counts_once(
    desk: Desk, said: tuple[str, int]
) -> None:
    mark, times = said
    lines = record_of(desk).splitlines() * times
    found = bank.read_record(desk, "club", "\n".join(f"{mark}{line}" for line in lines))
    assert (found.faults, found.remarks) == ((), ())
    assert found.text == bank.read_record(desk, "club", record_of(desk)).text


def test_two_records_in_one_are_asked_about(desk: Desk) -> None:
    both = record_of(desk) + record_of(desk, match="spring")
    found = bank.read_record(desk, "club", both)
    assert "another match begins" in found.faults[0].what
    differing = record_of(desk) + record_of(desk, TAPPED.replace("56.7", "99"))
    (fault,) = bank.read_record(desk, "club", differing).faults
    assert "there twice" in fault.what


def test_a_record_that_would_take_the_place_of_another_is_told(desk: Desk) -> None:
    """From two phones, say; the same record with more taps needs no word."""
    debriefs.write(desk, "club", bank.read_record(desk, "club", record_of(desk)).answers)
    other = TAPPED.replace("10:14:00", "10:20:00").replace("far shelf", "near shelf")
    (told,) = bank.read_record(desk, "club", record_of(desk, other)).remarks
    assert told.startswith("The debrief has another record: 2 of its taps are not in this one")
    longer = TAPPED.replace("end | 9", "10 | 2026-11-29 15:50:00 | note | says packed up\nend | 10")
    assert bank.read_record(desk, "club", record_of(desk, longer)).remarks == ()


def test_a_line_that_was_taken_out_by_hand_is_told(desk: Desk) -> None:
    without = "\n".join(line for line in TAPPED.splitlines() if not line.startswith("4 |"))
    found = bank.read_record(desk, "club", record_of(desk, without))
    assert found.remarks == ("Lines are missing in it: what tap 4 said nobody knows.",)
    left_out = bank.read_record(desk, "club", record_of(desk), put_right={8: ""})
    assert left_out.remarks == ()  # he knows


def test_a_record_that_was_cut_off_is_told(desk: Desk) -> None:
    found = bank.read_record(desk, "club", record_of(desk).partition("5 |")[0])
    assert "cut off" in found.remarks[0]
    assert found.answers.lost == ("A02R",)


def test_a_correction_keeps_the_record_unless_it_brings_another(desk: Desk) -> None:
    debriefs.write(desk, "club", bank.read_record(desk, "club", record_of(desk)).answers)
    corrected = debriefs.write(
        desk, "club", DebriefAnswers(peg="16"), correct=True, only_changes=True
    )
    assert (corrected.peg, corrected.section) == ("16", "B")
    assert "fish | species roach" in corrected.record
    assert as_json(corrected)


@pytest.mark.parametrize(
    ("field", "said"),
    [("place", "nowhere"), ("place", "0"), ("points", "many"), ("water", "-3"), ("water", "80"),
     ("record", "TACKLEBOX RECORD 1\nrecord | x\nmatch | club\n1 | now | fish")],
)  # fmt: skip
def test_what_the_day_cannot_be_is_told_at_its_field(desk: Desk, field: str, said: str) -> None:
    with pytest.raises(AskedWronglyError) as refused:
        debriefs.write(desk, "club", DebriefAnswers(**{field: said}))  # type: ignore[arg-type]
    assert refused.value.field == field
    assert debriefs.show(desk, "club") is None
