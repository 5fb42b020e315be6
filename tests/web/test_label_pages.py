"""Labels on their page: the sheets as they print, places said by clicks, a printer put right."""

import io
import re

import pypdfium2
import pytest

from tacklebox.desk import adding, label_sheets, labels, papers, rigs
from tacklebox.desk.labels import OnPaper
from tacklebox.web.entry import FIELD
from tests.web.conftest import Served, form_token

TEXTS = re.compile(r'<text transform="matrix\(1 0 0 -1 ([\d.]+) ([\d.]+)\)"[^>]*>([^<]+)</text>')
GROUP = re.compile(r'<g transform="matrix\(([^)]+)\)"[^>]*>|</g>|' + TEXTS.pattern)
ON_PAPER = OnPaper("a4-65", "3", (5,))


@pytest.fixture
def codes(served: Served) -> list[str]:
    """Two rigs and a drawer with hooks."""
    adding.add(served.desk, "hook 18 barbless spade pack 10")
    rigs.add(served.desk, {"pole-canal-shot": "1", "waggler-made-up": "2"}, {})
    return [rig.code for rig in rigs.listed(served.desk)]


def words_of_svg(svg: str) -> dict[str, tuple[float, float]]:
    """The runs of type on a drawn sheet, and where each begins, in points from its lower left corner."""
    found: dict[str, tuple[float, float]] = {}
    at: list[tuple[float, ...]] = []
    for one in GROUP.finditer(svg):
        if one[1] is not None:
            at.append(tuple(map(float, one[1].split())))
        elif one[4] is None:
            at.pop()
        else:
            x, y = float(one[2]), float(one[3])
            for a, b, c, d, e, f in reversed(at[1:]):  # the first turns the page over
                x, y = a * x + c * y + e, b * x + d * y + f
            found[one[4]] = (x, y)
    return found


def test_a_sheet_on_the_screen_is_the_sheet_on_paper(served: Served, codes: list[str]) -> None:
    """Each run of type that is drawn begins where it does in the PDF, to a quarter of a millimetre."""
    shown = label_sheets.rig_sheets(served.desk, ON_PAPER, codes)
    (sheet,) = shown.sheets
    assert [(p.number, p.code) for p in sheet.places if p.code] == list(
        zip((3, 4, 6), codes, strict=True)
    )
    assert [p.number for p in sheet.places if p.is_spoiled] == [5]
    printed = io.BytesIO()
    labels.print_rigs(served.desk, printed, ON_PAPER, codes)
    page = pypdfium2.PdfDocument(printed)[0].get_textpage()
    drawn = words_of_svg(sheet.svg)
    for code in codes:
        index, _ = page.search(code).get_next()
        left, bottom, _, _ = page.get_charbox(index, loose=True)
        x, y = drawn[code]
        assert abs(left - x) < 0.7, code
        assert 0 <= y - bottom < 4, code  # its baseline stands above the lower end of its letters
    assert len(drawn) > 10


def test_what_found_no_room_is_marked(served: Served, codes: list[str]) -> None:
    shown = label_sheets.rig_sheets(served.desk, ON_PAPER, codes)
    printed = labels.print_rigs(served.desk, io.BytesIO(), ON_PAPER, codes)
    lacking = {p.code for p in shown.sheets[0].places if p.lacks}
    assert lacking == {code for one in printed.not_on_label for code in one.codes} != set()
    with served.client() as client:
        text = client.get(
            "/labels", params={"paper": "a4-65", "code": " ".join(codes), "wait": "1"}
        ).text
    assert text.count('class="lacks"') == len(lacking)


def test_places_are_said_by_clicks_and_what_is_shown_is_printed(
    served: Served, codes: list[str]
) -> None:
    with served.client() as client:
        text = client.get("/labels", params={"paper": "a4-65", "wait": "1"}).text
        links = re.findall(r'<a href="(/labels\?[^"]+)" aria-label="(place \d+)', text)
        assert len(links) == 65
        seventh = next(link for link, place in links if place == "place 7")
        text = client.get(seventh.replace("&amp;", "&") + "&wait=1").text
        assert f'aria-label="place 7: {codes[0]}' in text
        spoil = re.search(r'href="(/labels\?[^"]*pick=spoiled[^"]*)"', text)
        assert spoil
        text = client.get(spoil[1].replace("&amp;", "&") + "&wait=1").text
        eighth = re.search(r'<a href="(/labels\?[^"]+)" aria-label="place 8:', text)
        assert eighth
        where = eighth[1].replace("&amp;", "&") + "&wait=1"
        text = client.get(where).text
        assert 'aria-label="place 8, spoiled' in text
        assert f'aria-label="place 9: {codes[1]}' in text
        image = re.search(r'<image href="([^"]+)"', text)
        assert image
        svg = client.get(image[1].replace("&amp;", "&"))
        assert svg.headers["content-type"].startswith("image/svg+xml")
        assert codes[0] in svg.text
        sent = {FIELD: form_token(text), "paper": "a4-65", "start": "7", "skip": "8"}
        printed = client.post("/labels/print", data=sent | {"code": " ".join(codes)})
        assert printed.content.startswith(b"%PDF")
        assert "waits for its label" in client.get("/labels?wait=1").text
        wrong = client.get(
            "/labels", params={"paper": "a4-65", "start": "66", "code": codes[0], "wait": "1"}
        )
        assert wrong.status_code == 400
        assert "place 66 is not on the paper" in wrong.text
    assert {p.paper: p.next_free for p in papers.listed(served.desk).papers}["a4-65"] == 11


def test_a_drawer_gets_its_label(served: Served, codes: list[str]) -> None:
    with served.client() as client:
        text = client.get("/labels", params={"item": "1", "wait": "1"}).text
        assert "place 1: no. 1" in text
        sent = {FIELD: form_token(text), "item": "1"}
        assert client.post("/labels/print", data=sent).content.startswith(b"%PDF")
        assert "no. 1" in client.get("/labels", params={"kind": "all", "wait": "1"}).text
    assert len(codes) == 3


def test_a_printer_is_put_right(served: Served) -> None:
    with served.client() as client:
        text = client.get("/labels/papers").text
        assert client.get("/labels/papers/a4-65/test.pdf").content.startswith(b"%PDF")
        sent = {FIELD: form_token(text), "paper": "a4-65", "left": "21 mm"}
        wrong = client.post("/labels/papers", data=sent | {"top": "50 cm"})
        assert wrong.status_code == 400
        assert 'value="21 mm"' in wrong.text
        assert "Kept" in client.post("/labels/papers", data=sent).text
    assert "21 mm" in (served.desk.box.labels / "a4-65.toml").read_text("utf-8")
