"""A page that is left open tells what was changed elsewhere; answers are kept until the box changes."""

import re
import threading
from typing import TYPE_CHECKING

from tacklebox.desk import Desk, adding, match_forms, matches, stock
from tacklebox.desk.match_forms import WantRow
from tacklebox.web.entry import FIELD
from tacklebox.web.kept import KeptAnswers
from tests.web.conftest import Served, form_token

if TYPE_CHECKING:
    from playwright.sync_api import Page

MARK = re.compile(r'data-(state|shows)="([^"]*)"')
LOOK = "window.dispatchEvent(new Event('focus'))"


def marks(text: str) -> dict[str, str]:
    return dict(MARK.findall(text))


def test_a_page_bears_marks_of_what_it_shows(served: Served) -> None:
    adding.add(served.desk, "hook 18 barbless spade pack 10")
    with served.client() as client:
        first, again = marks(client.get("/stock/1").text), marks(client.get("/stock/1").text)
        assert first == again
        assert client.get("/state").text == first["state"]
        adding.add(served.desk, "hook 20 barbless spade pack 10")
        other = marks(client.get("/stock/1").text)
        assert (other["state"] != first["state"], other["shows"]) == (True, first["shows"])
        stock.take(served.desk, "1", "1")
        assert marks(client.get("/stock/1").text)["shows"] != first["shows"]
        sent = {FIELD: form_token(client.get("/stock/1").text), "amount": "99"}
        answered = marks(client.post("/stock/1/take", data=sent).text)
        assert answered["shows"] == ""  # it cannot be asked for again


def test_two_tabs(page: "Page", served: Served) -> None:
    """What one of them does the other tells, and nothing that is typed there goes."""
    adding.add(served.desk, "hook 18 barbless spade pack 10")
    adding.add(served.desk, "hook 20 barbless spade pack 10")
    page.goto(served.address("/stock/1"))
    page.locator("form[action$=take]").get_by_label("How much").fill("3")
    other = page.context.new_page()
    other.goto(served.address("/stock/2"))
    other.get_by_role("button", name="Bought").click()
    other.locator(".done").wait_for()
    with page.expect_response("**/stock/1"):
        page.evaluate(LOOK)
    assert page.locator("#changed").is_hidden()  # it was of another item
    stock.take(served.desk, "1", "4")  # by a command
    page.wait_for_function(f"() => {{ {LOOK}; return !document.getElementById('changed').hidden }}")
    assert "changed since" in page.locator("#changed").inner_text()
    assert page.locator("form[action$=take]").get_by_label("How much").input_value() == "3"
    page.get_by_role("link", name="Show it as it is now").click()
    page.locator(".big", has_text="6").wait_for()


def test_a_kept_answer_is_made_once_and_anew_when_the_box_changed(served: Served) -> None:
    asked: list[str] = []
    begun, go_on = threading.Event(), threading.Event()

    def answer(_desk: Desk, words: str) -> str:
        asked.append(words)
        begun.set()
        assert go_on.wait(60)
        return words * 2

    kept = KeptAnswers(served.desk)
    assert kept.ready(answer, served.desk, "a") is None
    assert begun.wait(60)
    assert kept.ready(answer, served.desk, "a") is None
    go_on.set()
    assert kept.answer(answer, served.desk, "a") == "aa"
    assert kept.ready(answer, served.desk, "a") == "aa"
    assert asked == ["a"]
    adding.add(served.desk, "hook 18 barbless spade pack 10")
    assert kept.answer(answer, served.desk, "a") == "aa"
    assert asked == ["a", "a"]


def test_the_bench_tells_what_the_next_match_wants(served: Served) -> None:
    day = {"name": "Club", "date": "2099-12-06", "from": "10:00", "to": "15:00", "venue": "pond"}
    with served.client() as client:
        sent = {FIELD: form_token(client.get("/venues/_new").text)}
        client.post("/venues/_new", data=sent | {"name": "Pond", "water": "still water"})
        match_forms.write(served.desk, day, [WantRow("pole-canal-shot", "2")])
        assert "2 not met" in client.get("/next").text
        ready = client.get("/").text
        assert "days left" in ready
        assert "2 not met" in ready
        assert client.get("/find", params={"words": "canal shot"}).url.path.endswith("canal-shot")
        matches.start(served.desk, "first", venue="nowhere", on="2099-12-05")
        part = client.get("/next")  # the bench stays, whatever is wrong with the match
        assert part.status_code == 200
        assert "there is no venue" in part.text
        assert "<main" not in part.text
