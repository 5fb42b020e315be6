"""The wallet: what is in it, by hook and line; lost, thrown out, labelled."""

import io

import pypdfium2

from tacklebox.desk import hooklengths
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
        assert "in the wallet" in tied
