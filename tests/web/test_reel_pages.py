"""Reels and top kits on their page: added, loaded, cut back, what is wrong beside its field."""

from tacklebox.desk import adding, reels
from tacklebox.web.entry import FIELD
from tests.web.conftest import Served, form_token


def test_a_reel_is_added_loaded_and_cut_back(served: Served) -> None:
    adding.add(served.desk, "nylon 0.22 mm 6 lb 150 m")
    with served.client() as client:
        sent = {FIELD: form_token(client.get("/reels").text)}
        client.post("/reels/add", data=sent | {"name": "feeder reel, bomb/reel", "what": "reel"})
        one = sent | {"reel": "bomb/reel", "row": "2", "item": "nylon 0.22 mm 6 lb"}
        refused = client.post("/reels/load", data=one | {"amount": "200 m"})
        assert refused.status_code == 400
        assert "150 m is in stock" in refused.text
        assert 'value="200 m"' in refused.text  # what was typed is not lost
        client.post("/reels/load", data=one | {"amount": "150 m"})
        shown = client.post("/reels/cut", data=one | {"amount": "20 m"})
        assert "Cut back." in shown.text
        again = client.post("/reels/load", data=one | {"amount": "10 m", "there": "1"})
        assert "Throw that out" not in again.text
        assert "is on bomb/reel since" in again.text
        assert client.post("/reels/no-such", data=one).status_code == 404
    assert [str(row.loaded) for row in reels.listed(served.desk)] == ["None", "130 m"]
