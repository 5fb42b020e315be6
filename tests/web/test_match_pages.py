"""Venues, matches and debriefs as forms: written, moved, what is wrong beside its field."""

from tacklebox.desk import debriefs, match_forms, rigs, tying, venues
from tacklebox.desk.match_forms import WantRow
from tacklebox.web.entry import FIELD
from tests.rigs.boxes import CANAL
from tests.web.conftest import Served, form_token


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
        assert 'name="want 1.recipe" type="text" value="whip-to-hand"' in moved.text
        assert 'value="Club"' in moved.text
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
        assert 'value="whip-to-hand"' in again.text
    assert [w.recipe for w in match_forms.form(served.desk, "club").wants] == [
        "stick-float", "whip-to-hand",
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
        refused = client.post("/matches/club/debrief", data=sent | {"weight": "heavy"})
        assert refused.status_code == 400
        assert 'value="heavy"' in refused.text
        assert debriefs.show(desk, "club") is None
        done = client.post(
            "/matches/club/debrief", data=sent | {"weight": "12-8", "well-A01T": "1", "peg": "14"}
        )
        assert "The debrief is written" in done.text
        client.post("/matches/club/debrief", data=sent | {"rig-A02R": "back", "peg": "15"})
    shown = debriefs.show(desk, "club")
    assert shown is not None
    assert (shown.back, shown.lost, shown.peg) == (("A01T", "A02R"), (), "15")
    assert {rig.code for rig in rigs.listed(desk)} == {"A01T", "A02R"}
