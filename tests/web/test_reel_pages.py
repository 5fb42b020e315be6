"""Reels and top kits on their page: added, loaded, cut back, what is wrong beside its field."""

from tacklebox.desk import adding, reels
from tacklebox.web.entry import FIELD
from tests.web.conftest import Served, form_token


def test_a_reel_is_added_loaded_and_cut_back(served: Served) -> None:
    adding.add(served.desk, "nylon 0.22 mm 6 lb 150 m")
    with served.client() as client:
        sent = {FIELD: form_token(client.get("/reels").text)}
        client.post("/reels/add", data=sent | {"called": "feeder reel, bomb/reel", "what": "reel"})
        one = sent | {"reel": "bomb/reel", "row": "2", "item": "nylon 0.22 mm 6 lb"}
        unread = client.post("/reels/load", data=one | {"amount": "all", "there": "1"})
        assert 'name="there" value="1" checked' in unread.text
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
        assert client.get("/find?words=bomb/reel").url.path == "/reels"
    assert [str(row.loaded) for row in reels.listed(served.desk)] == ["None", "130 m"]


def test_which_line_is_meant_is_asked_in_the_form(served: Served) -> None:
    adding.add(served.desk, "nylon 0.22 mm 6 lb 150 m")
    adding.add(served.desk, "nylon 0.20 mm 5 lb 150 m")
    reels.add(served.desk, ["float reel"])
    with served.client() as client:
        said = {FIELD: form_token(client.get("/reels").text), "reel": "float reel", "row": "1"}
        said |= {"item": "nylon", "amount": "100 m"}
        asked = client.post("/reels/load", data=said)
        assert 'type="radio" name="meant" value="2"' in asked.text
        assert 'value="100 m"' in asked.text  # what was typed is not lost
        meant = said | {"meant_in": "item", "meant_for": "nylon"}
        assert "Which is “nylon”?" in client.post("/reels/load", data=meant).text
        assert "Loaded." in client.post("/reels/load", data=meant | {"meant": "2"}).text
    (row,) = reels.listed(served.desk)
    assert row.item is not None
    assert row.item.number == 2
