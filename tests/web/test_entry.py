"""Nobody else comes in: the door, the cookie, the address, other origins, forms of other pages."""

import httpx
import pytest

from tacklebox.web.entry import COOKIE, FIELD
from tests.web.conftest import LONGEST_S, Served, form_token

PAGES = ("/", "/stock", "/care", "/care/export.zip", "/stock/rows", "/static/narrow.js")


def test_without_the_cookie_there_is_nothing_to_see(served: Served) -> None:
    with httpx.Client(timeout=LONGEST_S, base_url=served.door.origin) as stranger:
        for path in PAGES:
            answer = stranger.get(path)
            assert answer.status_code == 403, path
            assert "Run `tacklebox open`" in answer.text


def test_a_token_opens_the_door_once(served: Served) -> None:
    token = served.door.new_token()
    with httpx.Client(timeout=LONGEST_S, base_url=served.door.origin) as first:
        entered = first.get("/enter", params={"token": token})
        cookie = entered.headers["set-cookie"]
        assert "HttpOnly" in cookie
        assert "SameSite=strict" in cookie
        assert 'content="0; url=/"' in entered.text  # it goes on by itself
        assert first.get("/").status_code == 200
    with httpx.Client(timeout=LONGEST_S, base_url=served.door.origin) as second:
        assert second.get("/enter", params={"token": token}).status_code == 403
        assert second.get("/enter", params={"token": "guess"}).status_code == 403
        assert second.get("/").status_code == 403


@pytest.mark.parametrize(
    ("headers", "status"),
    [
        ({"host": "evil.example"}, 421),
        ({"host": "127.0.0.1"}, 421),
        ({"origin": "http://evil.example"}, 403),
        ({"origin": "null"}, 403),
        ({"origin": "http://127.0.0.1:1"}, 403),
        ({"sec-fetch-site": "cross-site"}, 403),
        ({"sec-fetch-site": "same-site"}, 403),
    ],
)
def test_another_address_or_origin_gets_nothing(
    served: Served, headers: dict[str, str], status: int
) -> None:
    with served.client() as client:
        assert client.get("/stock", headers=headers).status_code == status
        assert client.post("/stock", headers=headers).status_code == status


def test_a_form_without_our_token_writes_nothing(served: Served) -> None:
    with served.client() as client:
        for token in ("", "0" * 64):
            sent = client.post("/stock", data={"words": "hook 18 pack 10", FIELD: token})
            assert sent.status_code == 403
        assert "0 items" in client.get("/stock").text
        good = form_token(client.get("/stock").text)
        assert client.post("/stock", data={"words": "hook 18 pack 10", FIELD: good}).is_success
        assert "1 item" in client.get("/stock").text


def test_a_form_token_is_of_one_session(served: Served) -> None:
    with served.client() as one, served.client() as other:
        assert one.cookies[COOKIE] != other.cookies[COOKIE]
        token = form_token(one.get("/stock").text)
        sent = other.post("/stock", data={"words": "hook 18 pack 10", FIELD: token})
        assert sent.status_code == 403


def test_every_answer_allows_nothing_from_elsewhere(served: Served) -> None:
    with served.client() as client:
        for path in (*PAGES, "/no-such-page", "/docs", "/openapi.json"):
            answer = client.get(path)
            policy = answer.headers["content-security-policy"]
            assert policy.startswith("default-src 'none'"), path
            assert "unsafe" not in policy
            assert answer.headers["x-content-type-options"] == "nosniff"
        assert client.get("/docs").status_code == 404
        assert client.get("/openapi.json").status_code == 404


def test_too_much_is_refused(served: Served, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("tacklebox.web.guard.MOST_BYTES", 1000)
    with served.client() as client:
        token = form_token(client.get("/stock").text)
        long = {FIELD: token, "words": "hook 18 pack 10" + " " * 1000}
        assert client.post("/stock", data=long).status_code == 413  # by its length as declared
        parts = (b"x" * 600 for _ in range(3))  # sent in pieces, of a length that is not declared
        kind = {"content-type": "application/x-www-form-urlencoded"}
        assert client.post("/stock", content=parts, headers=kind).status_code == 413
