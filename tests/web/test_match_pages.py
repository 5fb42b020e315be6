"""Venues, matches and debriefs as forms: written, moved, what is wrong beside its field."""

import html
import re
from datetime import date
from pathlib import Path

from tacklebox.desk import Desk, bag, debriefs, match_forms, rigs, tying, venues
from tacklebox.desk.match_forms import WantRow
from tacklebox.web.entry import FIELD
from tests.desk.water_box import make_water_box
from tests.rigs.boxes import CANAL
from tests.web.conftest import Served, form_token, serving

SHOWS = re.compile(r'data-shows="([^"]+)"')


def test_a_venue_and_a_match_are_made_changed_and_planned(served: Served) -> None:
    with served.client() as client:
        sent = {FIELD: form_token(client.get("/venues/_new").text)}
        refused = client.post(
            "/venues/_new", data=sent | {"name": "Pond", "rules.largest_hook": "teapot"}
        )
        assert refused.status_code == 400
        assert 'value="teapot"' in refused.text
        assert refused.text.count("✗") >= 1
        client.post("/venues/_new", data=sent | {"name": "Pond", "water": "still water"})
        assert [one.venue for one in venues.listed(served.desk).venues] == ["pond"]
        row = {"want 1.recipe": "stick-float", "want 1.count": "2", "want 2.recipe": "whip-to-hand"}
        moved = client.post("/matches/_new", data=sent | row | {"move": "up 2", "name": "Club"})
        first, second = moved.text.split('name="want 2.recipe"')
        assert '<option value="whip-to-hand" selected>' in first
        assert '<option value="stick-float" selected>' in second
        assert 'value="Club"' in moved.text
        drawn = client.post("/matches/_new", data=sent | row | {"move": "to-1 2"}).text
        assert drawn.index('"whip-to-hand" selected') < drawn.index('"stick-float" selected')
        button = re.search(r"<button[^>]*>([^<]*)", drawn.partition('action="/matches/_new"')[2])
        assert button is not None
        assert button[1] == "Save the match"  # Enter in a field presses it
        day = {
            "name": "Club",
            "date": "2099-12-06",
            "from": "10:00",
            "to": "15:00",
            "venue": "pond",
        }
        refused = client.post("/matches/_new", data=sent | day | row | {"want 2.count": "x"})
        assert "is no number" in refused.text
        planned = client.post("/matches/_new", data=sent | day | row | {"want 2.count": "3"})
        assert planned.url.path == "/matches/club"
        again = client.get("/matches/club/edit")
        assert '<option value="whip-to-hand" selected>' in again.text
    assert [w.recipe for w in match_forms.form(served.desk, "club").wants] == [
        "stick-float", "whip-to-hand",
    ]  # fmt: skip


def test_what_is_tied_has_the_day_that_the_form_says(served: Served) -> None:
    from tests.rigs.boxes import add

    desk = served.desk
    for words in CANAL:
        add(desk.box, words, packs=3)
    day = {"name": "Club", "date": "2099-12-06", "from": "10:00", "to": "15:00", "venue": ""}
    with served.client() as client:
        form = {FIELD: form_token(client.get("/recipes/pole-canal-shot").text)}
        tie = "/recipes/pole-canal-shot/tie"
        assert client.post(tie, data=form | {"tied": "soon"}).status_code == 400
        assert rigs.listed(desk) == ()
        client.post(tie, data=form | {"tied": "2026-03-06"})
        client.post(
            "/venues/_new",
            data=form | {"name": "Pond", "water": "still water", "country": "England"},
        )
        want = {"venue": "pond", "want 1.recipe": "pole-canal-shot", "want 1.count": "3"}
        client.post("/matches/_new", data=form | day | want)
        refused = client.post("/matches/club/tie", data=form | {"on": "2099-01-01"})
        assert 'value="2099-01-01"' in refused.text
        assert "has not come yet" in refused.text
        client.post("/matches/club/tie", data=form | {"on": "2026-03-07"})
    assert [str(one.tied_on) for one in rigs.listed(desk)] == [
        "2026-03-06", "2026-03-07", "2026-03-07",
    ]  # fmt: skip


def test_a_debrief_is_written_and_corrected(served: Served) -> None:
    from tests.rigs.boxes import add

    desk = served.desk
    for words in CANAL:
        add(desk.box, words, packs=2)
    tying.tie(desk, "pole-canal-shot", {}, count=2)
    day = {
        "name": "Club",
        "date": str(desk.today()),
        "from": "00:00",
        "to": "00:01",
        "venue": "pond",
    }
    match_forms.write(desk, day, [WantRow("pole-canal-shot", "2")])
    with served.client() as client:
        asked = client.get("/matches/club/debrief")
        sent = {FIELD: form_token(asked.text), "rig-A01T": "back", "rig-A02R": "lost"}
        wrong = {"weight": "heavy", "place": "last", "water": "hot"}
        refused = client.post("/matches/club/debrief", data=sent | wrong)
        assert refused.status_code == 400
        for name, said in wrong.items():  # each of them beside its field
            beside = re.search(f'name="{name}" value="{said}"(?:(?!</p>).)*?✗', refused.text, re.S)
            assert beside, name
        assert debriefs.show(desk, "club") is None
        done = client.post(
            "/matches/club/debrief", data=sent | {"weight": "12-8", "well-A01T": "1", "peg": "14"}
        )
        assert "The debrief is written" in done.text
        well = client.get("/season", params={"method": "pole"}).text
        assert '<a href="/rigs/A01T">A01T</a> Canal pole, shot' in well
        assert "No rig did well on the feeder" in client.get("/season?method=feeder").text
        client.post("/matches/club/debrief", data=sent | {"rig-A02R": "back", "peg": "15"})
    shown = debriefs.show(desk, "club")
    assert shown is not None
    assert (shown.back, shown.lost, shown.peg) == (("A01T", "A02R"), (), "15")
    assert {rig.code for rig in rigs.listed(desk)} == {"A01T", "A02R"}


def test_a_full_tray_is_ticked_before_it_is_asked_of(tmp_path: Path) -> None:
    """Each rig has fields once it came along, in the form that was filled in; nothing typed is lost."""
    folder = make_water_box(tmp_path / "box", date(2026, 3, 29))
    with serving(folder) as served, served.client() as client:
        rigs.add(served.desk, {"pole-canal-shot": "40", "stick-float": "1"}, {}, on="2026-03-01")
        wanted, other = (debriefs.form(served.desk, "club").rigs[0].rigs[-1].code,
                         debriefs.form(served.desk, "club").others[-1].code)  # fmt: skip
        asked = client.get("/matches/club/debrief").text
        for code in (wanted, other):
            assert f'name="along-{code}"' in asked
            assert f'name="rig-{code}"' not in asked
        assert len(asked) < 60_000
        sent = {
            FIELD: form_token(asked),
            "peg": "14",
            f"along-{wanted}": "1",
            f"along-{other}": "1",
        }
        again = client.post("/matches/club/debrief", data=sent)
        assert again.status_code == 400
        assert debriefs.show(served.desk, "club") is None
        assert 'name="peg" value="14"' in again.text
        for code in (wanted, other):
            assert f"What became of {code}?" in again.text
            assert f'name="rig-{code}" value="lost"' in again.text
        sent |= {f"rig-{wanted}": "lost", f"rig-{other}": "", "weight": "heavy"}
        refused = client.post("/matches/club/debrief", data=sent)
        assert f'name="rig-{wanted}" value="lost" checked' in refused.text
        assert f'name="rig-{other}" value="" checked' in refused.text
        client.post("/matches/club/debrief", data=sent | {"weight": "5 lb", f"rig-{other}": "back"})
        gone = client.post("/matches/club/debrief", data=sent | {"along-A00A": "1"}).text
        assert "A00A is not ready any more" in gone
    shown = debriefs.show(served.desk, "club")
    assert shown is not None
    assert (shown.lost, shown.back) == ((wanted,), (other,))


def test_the_record_of_the_phone_fills_the_form(tmp_path: Path) -> None:
    """A line that cannot be is asked beside it; what was typed already stays."""
    folder = make_water_box(tmp_path / "box", date(2026, 3, 29))
    with serving(folder) as served, served.client() as client:
        item = debriefs.form(served.desk, "club").hooklengths[0].item
        text = (
            f"TACKLEBOX RECORD 1\nrecord | {served.desk.box.mark().box}/club/2026-03-29\n"
            "match | club\nrigs | A01T A02R\n"
            f"1 | 2026-03-29 10:12:07 | fish | weighs -2 lb\n"
            f"2 | 2026-03-29 10:40:00 | lost | item {item}\n3 | 2026-03-29 12:00:00 | day | peg 14\n"
            "4 | 2026-03-29 11:30:00 | lost | rig A02R\nend | 4\n"
        )
        sent = {FIELD: form_token(client.get("/matches/club/debrief").text)}
        asked = client.post("/matches/club/record", data=sent | {"water_record": text}).text
        assert 'name="line-5"' in asked
        assert "is no weight" in asked or "-2 lb" in asked
        of = re.search(r'name="of" value="([^"]*)"', asked)[1]  # type: ignore[index]
        mended = {"line-5": "1 | 2026-03-29 10:12:07 | fish | weighs 2 lb", "of": of}
        still = client.post(
            "/matches/club/record", data=sent | {"water_record": text} | mended
        ).text
        assert "Line 8: the clock went back here: 11:30 comes after 12:00." in still
        assert 'type="hidden" name="line-5"' in still  # it is not asked again
        other = client.post(
            "/matches/club/record", data=sent | {"water_record": f"x\n{text}"} | mended
        )
        assert 'name="line-6" value="1 | 2026-03-29 10:12:07 | fish | weighs -2 lb"' in other.text
        right = {"water_record": text, "clock-8": "from +1 h", **mended}
        filled = client.post("/matches/club/record", data=sent | right).text
        as_file = {"record_file": ("club-record.txt", text.encode(), "text/plain")}
        from_file = client.post(
            "/matches/club/record", data=sent | {"water_record": ""}, files=as_file
        )
        assert "-2 lb" in from_file.text
        assert 'name="line-5"' in from_file.text
        no_text = client.post(
            "/matches/club/record", data=sent, files={"record_file": ("x", b"\xff\xfe")}
        )
        assert "this is no text" in no_text.text
        assert 'name="peg" value="14"' in filled
        assert re.search(r'name="rig-A02R" value="lost" checked', filled)
        assert "1 fish, 2 lb (907 g)" in filled
        kept = html.unescape(re.search(r'name="record" value="([^"]*)"', filled)[1])  # type: ignore[index]
        done = client.post(
            "/matches/club/debrief",
            data=sent | {"record": kept, "peg": "14", "rig-A01T": "back", "rig-A02R": "lost",
                         f"tackle-{item}": "1"},
        )  # fmt: skip
        assert "The debrief is written" in done.text
        again = client.post("/matches/club/record", data=sent | right)
        assert "has this record already" in again.text
        shown = debriefs.show(served.desk, "club")
        assert shown is not None
        assert "fish | weighs 907.2 g" in shown.record
        assert "4 | 2026-03-29 12:30:00 | lost" in shown.record
        assert client.get("/season").text.count("<circle") >= 1
        foreign = client.post("/matches/club/record", data=sent | {"water_record": "peg 14"})
        assert foreign.status_code == 400
        assert "no record" in foreign.text


def test_what_was_in_the_bag_is_asked_on_the_form(tmp_path: Path) -> None:
    """Nothing of it is passed over: a rig of which nothing is said is refused, of all else it is told."""
    folder = make_water_box(tmp_path / "box", date(2026, 3, 29))
    before = Desk(folder, today=lambda: date(2026, 3, 28))
    bag.put(before, "club", into=["A01T", "A02R", "No 10 shot", "No 8 shot"])
    before.close()
    with serving(folder) as served, served.client() as client:
        asked = client.get("/matches/club/debrief").text
        assert 'name="rig-A02R" value="" checked> not said' in asked
        assert "What else was in the bag" in asked
        sent = {FIELD: form_token(asked), "rig-A01T": "back", "bag-spare No 10 shot": "no"}
        refused = client.post("/matches/club/debrief", data=sent)
        assert refused.status_code == 400
        assert "A02R: in the bag, and nothing is said of it" in refused.text
        assert 'name="bag-spare No 10 shot" value="no" checked' in refused.text
        done = client.post("/matches/club/debrief", data=sent | {"rig-A02R": "not_taken"})
        assert "Nobody said that it came home: No 8 shot: 56." in done.text
        assert 'name="bag-spare No 10 shot" value="no" checked' in done.text
        assert 'name="rig-A02R" value="not_taken" checked' in done.text
        sent |= {"rig-A02R": "not_taken", "bag-spare No 8 shot": "yes"}
        assert "Nobody said" not in client.post("/matches/club/debrief", data=sent).text


def test_ticks_of_the_pack_list_are_in_the_bag_whoever_ticks(tmp_path: Path) -> None:
    make_water_box(tmp_path / "box", date.today())
    with serving(tmp_path / "box") as served, served.client() as client:
        text = client.get("/matches/club/pack").text
        keys = [html.unescape(key) for key in re.findall(r'name="in-([^"]+)"', text)]
        assert len(keys) > 5
        sent = {FIELD: form_token(text)}
        done = client.post(
            "/matches/club/pack", data=sent | dict.fromkeys(("in-" + keys[0], "in-" + keys[1]), "1")
        )
        assert "2 ticked" in done.text
        assert bag.ticked(served.desk, "club") == {keys[0], keys[1]}
        shown = [client.get("/state").text, client.get("/matches/club/pack").text]
        bag.put(served.desk, "club", into=[keys[2]])  # a phone, meanwhile
        now = [client.get("/state").text, client.get("/matches/club/pack").text]
        assert now[0] != shown[0]
        assert SHOWS.findall(now[1]) != SHOWS.findall(shown[1])  # so a page that is open tells it
        stale = {"was-" + keys[0]: "1", "was-" + keys[1]: "1", "in-" + keys[1]: "1"}
        client.post("/matches/club/pack", data=sent | stale)
        assert bag.ticked(served.desk, "club") == {keys[1], keys[2]}
        gone = client.post("/matches/club/pack", data=sent | {"in-no such line": "1"})
        assert gone.status_code == 400
        again = client.get("/matches/club/pack").text
        assert again.count("checked") == 2
