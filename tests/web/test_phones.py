"""Phones of the network: an unpaired one gets nothing, a paired one looks and debriefs; on the loopback."""

import json
import os
import re
import shutil
import stat
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

import httpx
import pytest

from tacklebox.desk import Desk, bag, care, debriefs
from tacklebox.errors import CannotBeDoneError
from tacklebox.web.app import make_app
from tacklebox.web.entry import FIELD
from tacklebox.web.phone_listener import Phones
from tacklebox.web.phones import (
    MOST_TRIES,
    PAIRING_S,
    PairedPhones,
    PhoneDoor,
)
from tacklebox.web.server import Certificate
from tests.desk.water_box import DAY, make_water_box
from tests.web.conftest import LONGEST_S, Served, form_token

if TYPE_CHECKING:
    from playwright.sync_api import Browser

HOME = "127.0.0.1"
SENDS = re.compile(r'<form[^>]*method="post"|formaction=|href="/(?:care|phones)|name="form_token"')
PATHS = ("/", "/stock", "/matches", "/matches/club", "/care", "/phones", "/state", "/enter",
         "/care/export.zip", "/static/bench.js", "/nothing")  # fmt: skip


@pytest.fixture
def phones(tmp_path: Path) -> Iterator[Phones]:
    desk = Desk(make_water_box(tmp_path / "box"), today=lambda: DAY, threads=8)
    made = Phones(desk, partial(make_app, desk), tmp_path / "state" / "phones.json")
    made.begin(HOME)
    yield made
    made.stop()
    desk.close()


def door_of(phones: Phones) -> PhoneDoor:
    assert phones.door is not None
    return phones.door


@contextmanager
def paired(phones: Phones, name: str = "his") -> Iterator[httpx.Client]:
    """A phone that scanned the code."""
    door = door_of(phones)
    secret = door.new_pairing().partition("secret=")[2]
    with httpx.Client(timeout=LONGEST_S, base_url=door.origin, follow_redirects=True) as client:
        client.post("/pair", data={"secret": secret, "name": name}).raise_for_status()
        yield client


def test_an_unpaired_phone_gets_nothing_but_the_way_to_pair_it(phones: Phones) -> None:
    with httpx.Client(timeout=LONGEST_S, base_url=door_of(phones).origin) as client:
        for path in PATHS:
            for method in ("GET", "POST", "PUT", "DELETE", "HEAD", "OPTIONS"):
                answer = client.request(method, path)
                assert answer.status_code == 403, (method, path)
                assert "club" not in answer.text.lower()
        assert "Pair this phone" in client.get("/pair").text


def test_a_paired_phone_looks_at_all_but_care_and_phones(phones: Phones) -> None:
    with paired(phones) as client:
        for path in (
            "/",
            "/stock",
            "/recipes",
            "/rigs",
            "/matches/club",
            "/matches/club/pack",
            "/season",
        ):
            assert client.get(path).status_code == 200, path
        page = client.get("/stock").text
        assert 'href="/care"' not in page  # no way is shown that is refused
        assert "From a phone you can look" in page
        for path in ("/", "/stock", "/stock/1", "/rigs", "/rigs/A01T", "/wallet", "/reels", "/matches/club",
                     "/recipes/pole-canal-shot", "/recipes/_new", "/matches/_new"):  # fmt: skip
            page = client.get(path).text
            assert not SENDS.search(page), path  # nothing that would be refused, not even hidden
            assert "<main" in page
        assert "It was changed" not in client.get("/rigs/A01T").text
        assert 'action="/matches/club/pack"' in client.get("/matches/club/pack").text
        for path in ("/care", "/care/export.zip", "/phones", "/phones/code.svg"):
            assert client.get(path).status_code == 403, path


def test_it_ticks_the_pack_list_fills_a_debrief_and_changes_nothing_else(phones: Phones) -> None:
    with paired(phones) as client:
        sent = {FIELD: form_token(client.get("/matches/club/debrief").text)}
        for path in (
            "/stock/1/take",
            "/matches/club/tie",
            "/care/undo",
            "/rigs/A01T/strip",
            "/phones/close",
        ):
            assert client.post(path, data=sent | {"amount": "1"}).status_code == 403, path
        assert client.post("/matches/club/debrief", data={"peg": "1"}).status_code == 403
        ticked = client.post("/matches/club/pack", data=sent | {"in-rig A01T": "1"})
        assert ticked.status_code == 200
        assert bag.ticked(phones.desk, "club") == {"rig A01T"}
        done = client.post("/matches/club/debrief", data=sent | {"peg": "14", "rig-A01T": "back"})
        assert "The debrief is written" in done.text
    shown = debriefs.show(phones.desk, "club")
    assert shown is not None
    assert shown.peg == "14"


def test_a_code_is_of_one_use(phones: Phones) -> None:
    door = door_of(phones)
    secret = door.new_pairing().partition("secret=")[2]
    assert len(secret) >= 22  # 128 bits in base64
    assert door.pair(secret, "first")
    assert door.pair(secret, "second") is None
    assert [one.name for one in phones.paired.listed()] == ["first"]


def test_a_key_that_may_have_been_overheard_does_not_open_the_door_with_a_certificate(
    tmp_path: Path,
) -> None:
    paired_phones = PairedPhones(tmp_path / "p.json")
    plain = PhoneDoor("x:1", paired=paired_phones)
    secured = PhoneDoor("x:2", paired=paired_phones, is_secured=True)
    keys = [
        door.pair(door.new_pairing().partition("secret=")[2], "his") for door in (plain, secured)
    ]
    assert all(keys)
    assert [plain.knows(key or "") for key in keys] == [True, True]
    assert [secured.knows(key or "") for key in keys] == [False, True]


def test_a_code_is_good_for_five_minutes(tmp_path: Path) -> None:
    now = [0.0]
    door = PhoneDoor("x:1", paired=PairedPhones(tmp_path / "p.json"), clock=lambda: now[0])
    secret = door.new_pairing().partition("secret=")[2]
    now[0] = PAIRING_S - 1
    assert door.is_pairing
    now[0] = PAIRING_S
    assert not door.is_pairing
    assert door.pair(secret, "late") is None


def test_a_code_is_good_for_five_tries(tmp_path: Path) -> None:
    door = PhoneDoor("x:1", paired=PairedPhones(tmp_path / "p.json"))
    for tries, lets_in in ((MOST_TRIES - 1, True), (MOST_TRIES, False)):
        secret = door.new_pairing().partition("secret=")[2]
        for _ in range(tries):
            assert door.pair("wrong", "thief") is None
        assert bool(door.pair(secret, "his")) is lets_in


def test_what_is_kept_is_a_hash_that_its_owner_alone_reads_and_no_box_has(
    phones: Phones, tmp_path: Path
) -> None:
    with paired(phones) as client:
        session = client.cookies["tacklebox"]
    file = tmp_path / "state" / "phones.json"
    assert stat.S_IMODE(file.stat().st_mode) == 0o600
    assert session not in file.read_text(encoding="utf-8")
    assert len(json.loads(file.read_text(encoding="utf-8"))[0]["hashed"]) == 64
    care.export(phones.desk, tmp_path / "export")
    kept = [path for path in (tmp_path / "box").rglob("*") if path.is_file()]
    for path in [*kept, *(tmp_path / "export").rglob("*.csv")]:
        assert b"phones" not in path.read_bytes().lower(), path


def test_a_phone_that_is_shut_out_gets_nothing_any_more(phones: Phones) -> None:
    with paired(phones, "hers") as hers, paired(phones, "his") as his:
        (first, _) = phones.paired.listed()
        phones.paired.shut_out(first.hashed)
        assert hers.get("/").status_code == 403
        assert his.get("/").status_code == 200


def test_it_comes_again_after_the_bench_was_closed(phones: Phones) -> None:
    with paired(phones) as client:
        phones.stop()
        door = phones.begin(HOME)
        again = httpx.get(f"{door.origin}/", timeout=LONGEST_S, cookies=dict(client.cookies))
        assert again.status_code == 200


def test_another_origin_or_host_is_refused(phones: Phones) -> None:
    with paired(phones) as client:
        for headers in (
            {"origin": "http://elsewhere.example"},
            {"host": "elsewhere.example"},
            {"sec-fetch-site": "cross-site"},
        ):
            assert client.get("/stock", headers=headers).status_code in (403, 421), headers


def test_a_file_that_is_damaged_lets_nobody_in(phones: Phones, tmp_path: Path) -> None:
    file = tmp_path / "state" / "phones.json"
    with paired(phones) as client:
        (one,) = json.loads(file.read_text(encoding="utf-8"))
        for damage in (
            "[{", "[" * 50_000, "17", "[17]", "null", '"\\ud800"', "[{}]", json.dumps([one | {"name": 7}]),
            json.dumps([one | {"hashed": None}]), json.dumps([one | {"hashed": "\ud800"}]),
        ):  # fmt: skip
            file.write_text(damage, encoding="utf-8")
            assert client.get("/").status_code == 403, damage
        file.unlink()
        os.mkfifo(file)
        assert client.get("/").status_code == 403


def test_a_half_that_a_kill_left_is_taken_away(tmp_path: Path) -> None:
    half = tmp_path / "state" / f".{'0' * 32}.half"
    half.parent.mkdir()
    half.write_text("[]")
    os.utime(half, (0, 0))
    PairedPhones(half.with_name("phones.json")).add("key", "his")
    assert [path.name for path in half.parent.iterdir()] == ["phones.json"]


@pytest.mark.skipif(shutil.which("openssl") is None, reason="there is no openssl on this machine")
def test_with_a_certificate_of_his_own_a_phone_does_all_but_care(
    browser: "Browser", phones: Phones, tmp_path: Path
) -> None:
    """A certificate made by himself, as he would say yes to on his phone; nothing goes unsecured then."""
    phones.stop()
    own = Certificate(tmp_path / "own.pem", tmp_path / "own.key")
    words = f"req -x509 -newkey rsa:2048 -nodes -days 2 -subj /CN={HOME} -addext subjectAltName=IP:{HOME}"
    subprocess.run(
        ["openssl", *words.split(), "-keyout", own.key, "-out", own.file],
        check=True,
        capture_output=True,
    )
    door = phones.begin(HOME, own)
    assert door.origin.startswith("https://")
    context = browser.new_context(viewport={"width": 360, "height": 740}, ignore_https_errors=True)
    phone = context.new_page()
    answer = phone.goto(f"{door.origin}/stock")
    assert answer is not None
    assert answer.status == 403
    phone.goto(door.new_pairing())
    assert "overheard" not in phone.locator("main").inner_text()
    phone.get_by_label("What it is called").fill("his")
    phone.get_by_role("button", name="Pair it").click()
    phone.locator("nav").wait_for()
    (cookie,) = context.cookies()
    assert (cookie["secure"], cookie["httpOnly"], cookie["sameSite"]) == (True, True, "Strict")
    phone.goto(f"{door.origin}/rigs/A02R")
    phone.locator("summary", has_text="It was changed").click()
    phone.get_by_label("Depth now, from float to hook").fill("1.1 m")
    phone.get_by_role(
        "button", name="Write it as it is now"
    ).click()  # refused without a certificate
    phone.get_by_text("A02R: depth 1.1 m").wait_for()
    answer = phone.goto(f"{door.origin}/care")
    assert answer is not None
    assert answer.status == 403
    with pytest.raises(httpx.HTTPError):
        httpx.get(f"http://{door.host}/pair")
    context.close()


def test_no_network_and_no_certificate_are_told(tmp_path: Path) -> None:
    desk = Desk(tmp_path / "box")
    made = Phones(desk, partial(make_app, desk), tmp_path / "phones.json")
    with pytest.raises(CannotBeDoneError, match="cannot be let in"):
        made.begin("203.0.113.9")
    missing = Certificate(tmp_path / "no.pem", tmp_path / "no.key")
    with pytest.raises(CannotBeDoneError, match="certificate"):
        made.begin(HOME, missing)
    assert made.door is None


def test_phones_are_let_in_paired_and_shut_out_from_the_bench(
    browser: "Browser", served: Served, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """Two browsers: the bench and the phone."""
    monkeypatch.setattr("tacklebox.web.phone_listener.network_address", lambda: HOME)
    monkeypatch.setattr("platformdirs.user_state_path", lambda _: tmp_path / "state")
    bench = browser.new_context().new_page()
    bench.goto(served.address(f"/enter?token={served.door.new_token()}"))
    bench.wait_for_url(served.address("/"))
    bench.goto(served.address("/phones"))
    bench.get_by_role("button", name="Let phones in").click()
    bench.get_by_role("button", name="Show the code").click()
    code = bench.get_by_role("img", name="The code that pairs a phone")
    code.wait_for()
    code.evaluate("code => code.decode()")  # it is whole
    import zxingcpp
    from PIL import Image

    code.screenshot(path=tmp_path / "code.png")
    (found,) = zxingcpp.read_barcodes(Image.open(tmp_path / "code.png"))
    phone = browser.new_context(viewport={"width": 360, "height": 740}).new_page()
    phone.goto(found.text)
    phone.get_by_label("What it is called").fill("his phone")
    phone.get_by_role("button", name="Pair it").click()
    phone.get_by_role("heading", name="Bench").or_(phone.locator("nav")).first.wait_for()
    bench.goto(served.address("/phones"))
    bench.get_by_role("button", name="Shut out his phone").click()
    bench.get_by_text("None.").wait_for()
    assert "not paired" in phone.goto(phone.url).text()  # type: ignore[union-attr]
    bench.get_by_role("button", name="Stop it").click()
    bench.get_by_role("button", name="Let phones in").wait_for()
    phone.context.close()
    bench.context.close()
