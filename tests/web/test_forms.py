"""Forms: each bears a key, and one that is sent twice is one action."""

import re
from pathlib import Path

import httpx
import pytest

from tacklebox.desk import adding, care, stock
from tacklebox.errors import CannotBeDoneError
from tacklebox.web import showing
from tests.web.conftest import Served

TEMPLATES = Path(showing.__file__).with_name("templates")
FORM = re.compile(r'<form method="post" action="([^"]+)".*?</form>', re.DOTALL)
HIDDEN = re.compile(r'<input type="hidden" name="([^"]+)" value="([^"]*)">')


def hidden_of(client: httpx.Client, page: str, action: str) -> dict[str, str]:
    """What a form of a page sends without being filled in."""
    forms = {found[1]: found[0] for found in FORM.finditer(client.get(page).text)}
    return dict(HIDDEN.findall(forms[action]))


def test_every_form_that_writes_bears_a_key() -> None:
    forms = [
        form[0] for file in TEMPLATES.glob("*.html") for form in FORM.finditer(file.read_text())
    ]
    assert len(forms) > 10
    bears = ("{{ token() }}", "{{ once }}")  # the rows of a list share theirs
    without = [form for form in forms if not any(key in form for key in bears)]
    # A phone that is not paired yet has no session; its code is of one use.
    assert [form for form in without if 'action="/pair"' not in form] == []


def test_a_form_sent_twice_is_one_action(served: Served) -> None:
    adding.add(served.desk, "hook 18 barbless spade pack 10")
    with served.client() as client:
        form = hidden_of(client, "/stock/1", "/stock/1/buy")
        first = client.post("/stock/1/buy", data=form | {"packs": "2", "price": ""})
        again = client.post("/stock/1/buy", data=form | {"packs": "2", "price": ""})
        assert first.url.path == "/stock/1"
        assert (again.status_code, "This was done already: buy" in again.text) == (200, True)
        assert stock.show(served.desk, "1").item.on_hand.value == 30
        client.post("/stock/1/buy", data=form | {"packs": "3", "price": ""})  # he went back
        fresh = hidden_of(client, "/stock/1", "/stock/1/buy")
        client.post("/stock/1/buy", data=fresh | {"packs": "2", "price": ""})
    assert fresh != form
    assert stock.show(served.desk, "1").item.on_hand.value == 80


def test_a_form_that_was_refused_may_be_sent_again(served: Served) -> None:
    adding.add(served.desk, "hook 18 barbless spade pack 10")
    with served.client() as client:
        form = hidden_of(client, "/stock/1", "/stock/1/take") | {"why": "lost", "reason": ""}
        refused = client.post("/stock/1/take", data=form | {"amount": "11"})
        assert refused.status_code == 400
        # The way back shows it again, and the browser need not ask whether to send it once more.
        assert refused.headers["cache-control"] == "private, no-cache"
        assert client.get("/stock/1").headers["cache-control"] == "no-store"
        stock.buy(served.desk, "1")
        client.post("/stock/1/take", data=form | {"amount": "11"})
    assert stock.show(served.desk, "1").item.on_hand.value == 9


def test_undo_takes_the_action_that_was_shown(served: Served) -> None:
    adding.add(served.desk, "hook 18 barbless spade pack 10")
    with served.client() as client:
        form = hidden_of(client, "/", "/care/undo")
        stock.buy(served.desk, "1")
        refused = client.post("/care/undo", data=form)
        assert refused.status_code == 409
        last = care.last_done(served.desk)
        assert last is not None
        assert last.what.startswith("buy")
        assert client.post("/care/undo", data=hidden_of(client, "/", "/care/undo")).is_success
    assert stock.show(served.desk, "1").item.on_hand.value == 10


def test_a_fault_that_stands_beside_no_field_is_told_all_the_same(
    served: Served, monkeypatch: pytest.MonkeyPatch
) -> None:
    def busy(*_: object, **__: object) -> None:
        raise CannotBeDoneError("the box is in use <elsewhere>.")

    adding.add(served.desk, "hook 18 barbless spade pack 10")
    monkeypatch.setattr(stock, "buy", busy)
    with served.client() as client:
        form = hidden_of(client, "/stock/1", "/stock/1/buy")
        told = client.post("/stock/1/buy", data=form | {"packs": "2", "price": ""})
        assert told.status_code == 400
        assert told.text.count("✗ the box is in use &lt;elsewhere&gt;.") == 1
        wrong = client.post(
            "/stock", data=hidden_of(client, "/stock", "/stock#add") | {"words": "hook 99 pack 10"}
        )
        assert wrong.text.count("✗") == 1  # beside its field, and not again
        assert '<a href="/stock">Back' in re.sub(
            r' class="[^"]*"', "", client.get("/stock/99").text
        )


def test_a_file_that_is_written_twice_is_one_file(served: Served) -> None:
    with served.client() as client:
        form = hidden_of(client, "/venues/_new", "/venues/_new") | {"name": "The pond"}
        form |= {"water": "canal"}
        answers = [client.post("/venues/_new", data=form) for _ in range(2)]
    assert [one.url.path for one in answers] == ["/venues", "/venues"]
    assert [path.stem for path in (served.desk.box.folder / "venues").glob("*.toml")] == [
        "the-pond"
    ]


def test_what_was_done_is_told_as_done_though_it_cannot_be_done_again(served: Served) -> None:
    """The last of it was taken: the same form once more is no fault of stock."""
    adding.add(served.desk, "hook 18 barbless spade pack 10")
    with served.client() as client:
        form = hidden_of(client, "/stock/1", "/stock/1/take") | {"why": "lost", "amount": "10"}
        client.post("/stock/1/take", data=form)
        again = client.post("/stock/1/take", data=form)
    assert "This was done already" in again.text
    assert "Nothing was done twice" in again.text


def test_an_address_with_words_for_a_number_is_told_on_a_page(served: Served) -> None:
    with served.client() as client:
        answer = client.get("/stock/hooks")
    assert answer.status_code == 404
    assert "There is no such page" in answer.text
