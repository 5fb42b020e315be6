"""Stock in its rows and by lists: bought, counted, lost in the row; words as they are read; a list looked
through before it is taken; nothing written over."""

from pathlib import Path
from typing import TYPE_CHECKING

import httpx
import pytest

from tacklebox.desk import adding, looking_through, stock, using
from tacklebox.web.entry import FIELD
from tests.web.conftest import Served, form_token

if TYPE_CHECKING:
    from playwright.sync_api import Page

GOOD = b"item,amount,place\nhook 18 barbless spade,20,drawer 2\nnylon 0.14 mm 4 lb,50 m,drawer 1\n"
BAD = GOOD + b"hokk 99,1,\n"


def sent(client: httpx.Client, path: str, **fields: str) -> httpx.Response:
    return client.post(path, data={FIELD: form_token(client.get("/stock").text), **fields})


def test_a_row_is_bought_counted_lost_and_the_list_stays_as_it_was(served: Served) -> None:
    adding.add(served.desk, "hook 18 barbless spade pack 10", adding.NewStock(place="drawer 2"))
    adding.add(served.desk, "no 8 shot")
    back = "/stock?words=hook&place=drawer+2"
    with served.client() as client:
        assert 'name="back" value="/stock?words=hook' in client.get(back).text
        for what, amount, now in (
            ("buy", "", 20),
            ("buy", "2", 40),
            ("count", "23", 23),
            ("take", "3", 20),
        ):
            answer = sent(client, f"/stock/1/{what}", amount=amount, back=back)
            assert f"hook 18 barbless spade: {now} now" in answer.text, what
            assert answer.url.params["place"] == "drawer 2"
        wrong = sent(client, "/stock/1/take", amount="99", back=back)
        assert wrong.status_code == 400
        assert 'value="99"' in wrong.text
        assert (
            f'value="{back.replace("&", "&amp;")}"' in wrong.text
        )  # mended, he is in his list again
        unread = sent(client, "/stock/1/buy", amount="2 boxes", back=back)
        assert 'value="2 boxes"' in unread.text
        assert (
            "shot No 8 tin: low now"
            in sent(client, "/stock/2/level", level="low", back="/stock?").text
        )
        short = client.get("/stock?short=1").text
        assert ('id="item-1"' in short, 'id="item-2"' in short) == (False, True)
        away = sent(client, "/stock/1/buy", back="//evil.example/stock?")
        assert away.url.path == "/stock/1"
        assert "shot No 8" not in client.get("/stock/rows", params={"place": "drawer 2"}).text
    assert stock.places(served.desk) == ("drawer 2",)


def test_forbidden_lead_that_is_bought_is_told_once_where_he_comes_to(served: Served) -> None:
    adding.add(served.desk, "shot AAA lead pack 20")
    with served.client() as client:
        for back in ("", "/stock?words=shot"):
            text = sent(client, "/stock/1/buy", amount="2", back=back).text
            assert text.count("0.8 g: in England and Wales lead may be used only") == 1
            assert text.count("may not be supplied in Great Britain") == 1
    assert stock.show(served.desk, "1").item.on_hand.value == 100


def test_words_are_read_while_they_are_typed(page: "Page", served: Served) -> None:
    read = looking_through.read_as("nylon 0.14 4lb")
    assert (read.words, [one.figure for one in read.assumed]) == ("nylon 0.14 mm 4 lb", ["pack"])
    page.goto(served.address("/stock"))
    page.get_by_label("What it is").press_sequentially("nylon 0.14 4lb")
    page.locator("#reading", has_text="nylon 0.14 mm 4 lb; packet assumed, 100 m").wait_for()
    page.get_by_label("What it is").fill("3AA waggler")
    page.locator("#reading", has_text="read in several ways").wait_for()
    assert stock.listed(served.desk).items == ()


def test_a_list_is_looked_through_before_it_is_taken(served: Served) -> None:
    with served.client() as client:

        def send(data: bytes) -> httpx.Response:
            token = form_token(client.get("/stock").text)
            sent = client.post("/stock/list", data={FIELD: token}, files={"file": ("l.csv", data)})
            return client.get(f"{sent.url}?wait=1")

        bad = send(BAD)
        assert "1 of 3 rows cannot be read" in bad.text
        assert "hokk" in bad.text
        assert "Put all of it in" not in bad.text
        assert "is no column" in send(b"teapot,amount\n1,2\n").text
        assert "No list was sent" in send(b"").text
        good = send(GOOD)
        assert stock.listed(served.desk).items == ()
        assert "2 rows, all of them read" in good.text
        where = good.text.partition('action="/stock/list/')[2].partition('"')[0]
        done = client.post(f"/stock/list/{where}", data={FIELD: form_token(good.text)})
        assert "2 items are in the box" in done.text
        again = client.post(f"/stock/list/{where}", data={FIELD: form_token(good.text)})
        assert "Choose it again" in again.text
        unlikely = send(b"item\nnylon 0.15 mm 45 lb 50 m\n")
        assert "look it through again" in unlikely.text
        as_printed = client.get(unlikely.url.copy_set_param("as_printed", "1"))
        assert "1 row, all of them read" in as_printed.text
        client.post(unlikely.url, data={FIELD: form_token(as_printed.text), "as_printed": "1"})
    assert [row.place for row in stock.listed(served.desk).items] == ["drawer 2", "drawer 1", ""]


def test_a_row_that_is_wrong_is_shown_however_long_the_list(
    served: Served, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(looking_through, "MOST_ROWS", 3)
    file = tmp_path / "list.csv"
    file.write_text("item\n" + "".join(f"hook {n} spade\n" for n in (10, 12, 14, 16, 18, 99)))
    found = looking_through.look_through(served.desk, file)
    assert [(row.line, bool(row.fault)) for row in found.rows] == [
        (2, False), (3, False), (7, True),
    ]  # fmt: skip
    assert found.count == 6


def test_a_list_is_dropped_on_the_page(page: "Page", served: Served) -> None:
    page.goto(served.address("/stock"))
    page.evaluate(
        """text => { const kept = new DataTransfer();
        kept.items.add(new File([text], 'stock.csv', {type: 'text/csv'}));
        document.body.dispatchEvent(new DragEvent('drop', {bubbles: true, dataTransfer: kept})); }""",
        GOOD.decode(),
    )
    page.get_by_role("button", name="Put all of it in").click()
    page.locator(".done", has_text="2 items are in the box").wait_for()


def test_an_item_s_page_has_its_plot_its_recipes_and_its_readings(served: Served) -> None:
    adding.add(served.desk, "nylon 0.12 mm 3.5 lb 50 m")
    serves = using.recipes_for(served.desk, "1")
    assert "pole-canal-shot" in {one.recipe for one in serves}
    with served.client() as client:
        assert "Canal pole, shot" in client.get("/stock/1").text
        assert 'aria-label="nylon 0.12 mm 3.5 lb: on hand"' in client.get("/stock/1").text
        text = sent(client, "/stock/1/pull", reading="1.55 kg").text
        assert "Printed: nylon 0.12 mm 3.5 lb" in text
        assert "Taken now" in text
        assert "counts no longer" in sent(client, "/stock/1/withdraw", number="1").text
        adding.add(served.desk, "waggler straight 5BB")
        weighed = sent(client, "/stock/2/weigh", reading="2.4 g").text
        assert "1 weighed 2.4 g" in weighed
        assert "one weighs 2.4 g" in weighed
        assert "one weighs 2.4 g" in sent(client, "/stock/2/bucket", reading="1.9 g").text


def test_what_another_changed_is_never_written_over(served: Served) -> None:
    adding.add(served.desk, "hook 18 barbless spade pack 10", adding.NewStock(place="drawer 2"))
    shown = {"was-place": "drawer 2", "was-name": "hook 18 barbless spade", "was-price": ""}
    form = shown | {"name": "hook 18 barbless spade", "price": "1.80"}
    with served.client() as client:
        stock.edit(served.desk, "1", place="seat box")
        sent(client, "/stock/1/edit", **form, place="drawer 2")  # he left the place as it was shown
        row = stock.show(served.desk, "1")
        assert (row.item.place, row.packet_price) == ("seat box", "1.80")
        wrong = sent(client, "/stock/1/edit", **shown, place="drawer 3")
        assert wrong.status_code == 400
        assert "it is &#34;seat box&#34; now" in wrong.text
        assert 'value="drawer 3"' in wrong.text
    assert stock.show(served.desk, "1").item.place == "seat box"
