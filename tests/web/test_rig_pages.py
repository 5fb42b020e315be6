"""The winder tray: seen, stripped, lost, labelled."""

import io
from pathlib import Path

import pypdfium2

from tacklebox.boxfolder import LABELS_OWED
from tacklebox.desk import rigs
from tacklebox.rigs.tying.tie import tie
from tacklebox.stock.finding import find
from tacklebox.stock.ledger import begin, move
from tacklebox.stock.tables import Why
from tacklebox.web.entry import FIELD
from tests.rigs.boxes import DAY, canal_rig, make_box
from tests.web.conftest import Served, form_token


def tied(served: Served, count: int) -> list[str]:
    """So many canal rigs in the box, by their codes."""
    assert served.desk.folder is not None
    box = make_box(served.desk.folder)
    with box.writing() as session:
        action = begin(session, "buy", DAY)
        for words in ("pole 4×12", "winder 13 cm"):
            move(session, action, find(session, words), 9, Why.BOUGHT)
    tie(served.desk.box, canal_rig(), count, DAY)
    return [rig.code for rig in rigs.listed(served.desk)]


def test_a_mistyped_code_leads_to_the_nearest_and_says_so(served: Served) -> None:
    tied(served, 1)
    with served.client() as client:
        for typed, says in (("A01K", "There is no A01K; this is A01T, the nearest."), ("ao1t", "")):
            found = client.get("/find", params={"words": typed})
            assert found.url.path == "/rigs/A01T"
            assert says in found.text
            assert says or "the nearest" not in found.text


def test_ticked_rigs_are_stripped_or_lost_and_the_rest_stays(served: Served) -> None:
    first, second, third = tied(served, 3)
    with served.client() as client:
        token = form_token(client.get("/rigs").text)
        client.post("/rigs/strip", data={FIELD: token, f"code-{first}": "1"})
        client.post("/rigs/lost", data={FIELD: token, f"code-{second}": "1"})
        states = {rig.code: rig.state for rig in rigs.listed(served.desk, every=True)}
        assert states.pop(first) not in ("ready", "lost")
        assert states == {second: "lost", third: "ready"}
        assert 'formaction="/rigs/lost"' in client.get(f"/rigs/{third}").text  # found by its code
        assert 'formaction="/rigs/lost"' not in client.get(f"/rigs/{second}").text
        none = client.post("/rigs/lost", data={FIELD: token, "start": "17"})
        assert none.status_code == 400
        assert 'value="17"' in none.text
        assert "No rig is ticked" in none.text
        again = client.post("/rigs/lost", data={FIELD: token, f"code-{first}": "1"})
        assert again.status_code == 400
        assert first in again.text


def test_labels_come_as_a_pdf_of_those_that_have_none(served: Served) -> None:
    codes = tied(served, 2)
    with served.client() as client:
        token = form_token(client.get("/rigs").text)
        printed = client.post("/rigs/labels", data={FIELD: token, "paper": "a4-65"})
        assert printed.headers["content-type"] == "application/pdf"
        text = pypdfium2.PdfDocument(io.BytesIO(printed.content))[0].get_textpage().get_text_range()
        assert all(code in text for code in codes)
        more = client.post("/rigs/labels", data={FIELD: token, "paper": "a4-65"})
        assert "Every rig that is ready has its label" in more.text


def test_labels_that_were_broken_off_are_owed_on_the_bench_and_the_tray(served: Served) -> None:
    codes = tied(served, 2)
    owed = f"{served.desk.box.folder}/{LABELS_OWED}"
    Path(owed).write_text("1\n", encoding="ascii")  # as a kill after the tying leaves it
    with served.client() as client:
        for address in ("/", "/rigs"):
            said = client.get(address).text
            told = said.partition("No label was printed for ")[2].partition("</section>")[0]
            assert all(code in told for code in codes)
            assert "Print 2 labels: the PDF" in told
        sent = {FIELD: form_token(said), "code": " ".join(codes)}
        printed = client.post("/labels/print", data=sent)
        assert printed.headers["content-type"] == "application/pdf"
        for address in ("/", "/rigs"):
            assert "No label was printed" not in client.get(address).text
    assert not Path(owed).exists()


def test_a_code_that_is_not_known_is_said_on_its_page(served: Served) -> None:
    tied(served, 1)
    with served.client() as client:
        missing = client.get("/rigs/ZZZZ")
        assert missing.status_code == 400
        assert "ZZZZ" in missing.text
        assert client.get("/rigs/A01T/drawing.svg").headers["content-type"] == "image/svg+xml"


def test_those_that_are_there_already_are_added(served: Served) -> None:
    with served.client() as client:
        sent = {FIELD: form_token(client.get("/rigs/add").text), "recipe": "pole-canal-shot"}
        refused = client.post("/rigs/add", data=sent | {"count": "none", "plumbed": "5 ft"})
        assert refused.status_code == 400
        assert "is no count" in refused.text
        assert 'value="5 ft"' in refused.text
        client.post("/rigs/add", data=sent | {"count": "2", "plumbed": "5 ft", "over": "2 in"})
        more = sent | {"count": "1", "choose-depth": "1.2 m", "usual-depth": "1.2 m"}
        client.post("/recipes/pole-canal-shot/add", data=more | {"choose-plumbed": "1.4 m"})
        tray, one = client.get("/rigs").text, client.get("/rigs/A03P").text
    assert tray.count("in the tray before") == 3
    assert "depth 5 ft 2 in, plumbed 5 ft, 2 in over depth" in tray
    assert "depth 1.4 m" in one
    assert "tied before the box knew it" in one
