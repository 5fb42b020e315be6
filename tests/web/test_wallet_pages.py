"""The wallet: what is in it, by hook and line; lost, thrown out, labelled."""

import io

import pypdfium2

from tacklebox.desk import adding, care, hooklengths
from tacklebox.rigs.tying.tie import tie
from tacklebox.web.entry import FIELD
from tests.rigs.boxes import DAY, fine_hooklength, make_box
from tests.web.conftest import Served, form_token


def test_hooklengths_are_seen_labelled_lost_and_thrown_out(served: Served) -> None:
    assert served.desk.folder is not None
    make_box(served.desk.folder)
    item = tie(served.desk.box, fine_hooklength(), 6, DAY).item
    assert item is not None
    with served.client() as client:
        seen = client.get("/wallet").text
        assert "20 · 0.08" in seen
        assert "A01T: 6 of 6" in seen
        assert 'href="/wallet/A01T"' in seen
        for drawing in ("glance", "drawing"):
            assert "<svg" in client.get(f"/wallet/A01T/{drawing}.svg").text
        token = form_token(seen)
        printed = client.post("/wallet/labels", data={FIELD: token, "code-A01T": "1"})
        text = pypdfium2.PdfDocument(io.BytesIO(printed.content))[0].get_textpage()
        assert "A01T" in text.get_text_range()
        client.post(f"/wallet/{item.id}/lost", data={FIELD: token, "count": "2"})
        client.post(f"/wallet/{item.id}/thrown-out", data={FIELD: token, "count": "1"})
        [row] = hooklengths.listed(served.desk)
        assert (row.item.on_hand.value, row.batches[0].left) == (3, 3)
        for path, words in (
            (f"/wallet/{item.id}/lost", "only 3 of"),
            ("/wallet/labels", "No batch is ticked"),
        ):
            refused = client.post(path, data={FIELD: token, "count": "9"})
            assert refused.status_code == 400
            assert words in refused.text
        assert "Fine hooklength" in client.get("/wallet/A01T").text
        assert client.post(f"/wallet/{item.id}/eaten", data={FIELD: token}).status_code == 404
        tied = client.post("/recipes/hooklength-fine/tie", data={FIELD: token, "count": "2"}).text
        assert "2 tied" in tied
        care.undo(served.desk)
        assert "the tying was undone" in client.get("/wallet/A02R").text
        assert "in the wallet" in tied


def test_hooklengths_that_are_there_already_are_added_by_a_form(served: Served) -> None:
    with served.client() as client:
        token = form_token(client.get("/wallet/add").text)

        def sent(**said: str) -> str:
            return client.post("/wallet/add", data={FIELD: token, **said}).text

        words = "18 barbless to 0.10 mm 6 in"
        assert "no number of hooklengths" in sent(words=words, count="a few", place="wallet 1")
        assert f'value="{words}"' in sent(words=words, count="")
        assert "Added." in sent(words=words, count="12", place="wallet 1")
        [row] = hooklengths.listed(served.desk)
        assert (row.item.on_hand.value, row.batches[0].tied_on) == (12, None)
        assert "there already" in client.get("/wallet").text
        assert "tied before the box knew them" in client.get("/wallet/A01T").text
        assert client.get("/wallet/A01T/drawing.svg").status_code == 409  # nobody said how
        adding.add(served.desk, "3 x hooks to nylon 16 to 3 lb barbless")
        assert "of no batch" in sent(words="2", count="2")
        assert "Added." in sent(words="2", count="2", counted="yes")
        assert "is no hooklength" in sent(words="hook 18 barbless spade", count="2")
