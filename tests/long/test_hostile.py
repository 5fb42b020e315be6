"""Hostile command lines, files, boxes and forms: never a traceback, never over two seconds, nothing raw."""

import asyncio
import json
import os
import shutil
import signal
import socket
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from html.parser import HTMLParser
from pathlib import Path
from random import Random
from typing import Any
from urllib.parse import quote

import httpx
import pytest

from tacklebox.desk import Desk
from tacklebox.signs import written_out
from tacklebox.web.app import make_app
from tacklebox.web.entry import FIELD, KEY, Door
from tests.cli.match_boxes import make_match_box, spring_match
from tests.cli.runs import tacklebox_here
from tests.long.hostile import LINES, WORDS, Case, cases, lay_out
from tests.long.length import so_many
from tests.rigs.boxes import SHORT_RIG

MOST_S = 2.0  # of the processor, so that no other program's work counts
HANGS_S = 60
PAPER = Path(__file__).parents[2] / "labels" / "a4-65.toml"
DAY = "2026-03-05"


@dataclass(frozen=True)
class Kept:
    """A box and files beside it, to be copied for each case; the codes of a rig and a batch."""

    folder: Path
    codes: dict[str, str]

    def copy(self, to: Path) -> tuple[Path, Path]:
        box, out = Path(shutil.copytree(self.folder / "box", to / "box")), to / "out"
        shutil.copytree(self.folder / "out", out)
        os.symlink("loop", out / "loop")
        os.mkfifo(out / "pipe")
        with socket.socket(socket.AF_UNIX) as one:
            before = Path.cwd()
            os.chdir(out)  # a socket's name is short
            try:
                one.bind("socket")
            finally:
                os.chdir(before)
        return box, out


@pytest.fixture(scope="module")
def kept(tmp_path_factory: pytest.TempPathFactory) -> Kept:
    folder = tmp_path_factory.mktemp("kept")
    box, out = make_match_box(folder / "box", hooks="30"), folder / "out"
    out.mkdir()

    def run(words: str) -> str:
        done = tacklebox_here(*words.split("|"), box=box)
        assert done.returncode == 0, (words, done)
        return done.stdout

    (box / "recipes" / "mine.toml").write_text(SHORT_RIG, encoding="utf-8")
    (box / "matches" / "been.toml").write_text(spring_match(DAY, 2), encoding="utf-8")
    (box / "labels" / "mine.toml").write_bytes(PAPER.read_bytes())
    for item in ("shot No 8", "shot No 10", "pole 4×12", "winder 13 cm"):
        run(f"stock|give|{item}|20")
    run("stock|add|elastic 4 6 m")
    (out / "stock.csv").write_text("item,name\nhook 18 pack 10,mine\n", encoding="utf-8")
    run(f"copy|{out / 'older.sqlite3'}")
    codes = {}
    for name, recipe in (("rig", "mine"), ("batch", "hooklength-fine")):
        tied = json.loads(run(f"tie|{recipe}|-n|3|--on|{DAY}|--json"))
        codes[name] = tied["codes"][0]
    run("reels|add|first")
    run("reels|load|first|2|20 m")
    run("measure|pull|2|0.6 kg")
    run(f"export|{out / 'kept'}")
    return Kept(folder, codes)


@contextmanager
def in_time(name: str) -> Iterator[None]:
    """Fails what takes too long, and what waits for ever."""

    def hangs(*_: object) -> None:
        raise TimeoutError(name)

    before = signal.signal(signal.SIGALRM, hangs)
    signal.alarm(HANGS_S)
    begun = time.process_time()
    try:
        yield
    finally:
        signal.alarm(0)
        signal.signal(signal.SIGALRM, before)
    assert time.process_time() - begun < MOST_S, name


def test_every_command_is_among_the_lines() -> None:
    from tacklebox.cli.main import COMMANDS

    assert {line.split()[0] for line in LINES} == set(COMMANDS)


@pytest.mark.long
def test_no_command_line_or_file_ends_in_a_traceback(kept: Kept, tmp_path: Path) -> None:
    """Of ordinary lines with something hostile in one place, of hostile lists, files of one's own and
    damaged boxes; what is shown has no sign that steers a terminal."""
    faults = []
    for number, case in enumerate(cases(so_many(1500, 24))):
        fault = _fault_of(case, kept, tmp_path / str(number))
        if fault:
            faults.append(f"{case.name}: {fault}")
        shutil.rmtree(tmp_path / str(number))
    assert not faults, "\n".join([f"{len(faults)} of them", *faults[:40]])


def _fault_of(case: Case, kept: Kept, folder: Path) -> str:
    box, out = kept.copy(folder)
    words = lay_out(case, box, out, kept.codes)
    try:
        with in_time(case.name):
            done = tacklebox_here(*words, box=box, cwd=out)
    except AssertionError:
        return "it takes too long"
    except Exception as error:
        return repr(error)[:200]
    if done.returncode not in (0, 1, 2):
        return f"it ends with {done.returncode}"
    if done.returncode and not (done.stderr or "Not in order" in done.stdout or done.stdout):
        return "it says nothing"
    for text in (done.stdout, done.stderr):
        if written_out(text) != text:
            return "a sign that steers a terminal"
    return ""


class _Forms(HTMLParser):
    """The forms of a page: where each goes, and its fields as they are filled in."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.found: list[tuple[str, str, dict[str, str]]] = []
        self._in = ""
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        has = {name: value or "" for name, value in attrs}
        if tag == "form":
            self.found.append((has.get("method", "get"), has.get("action", ""), {}))
        elif self.found and tag in ("input", "textarea", "select", "button") and has.get("name"):
            self.found[-1][2].setdefault(has["name"], has.get("value", ""))
        if self.found and has.get("formaction"):
            method, _, fields = self.found[-1]
            self.found.append((method, has["formaction"], fields))


PAGES = (
    "/", "/stock", "/stock/3", "/stock/rows", "/recipes", "/recipes/mine", "/recipes/pole-canal-shot",
    "/recipes/pole-canal-shot/fall", "/rigs", "/rigs/add", "/rigs/{rig}", "/wallet", "/wallet/{batch}",
    "/reels", "/matches", "/matches/_new", "/matches/open", "/matches/open/edit", "/matches/been/debrief",
    "/venues", "/venues/pond", "/care",
)  # fmt: skip
HEADERS = (
    {"cookie": "x" * 5000},
    {"content-length": "9" * 30},
    {"content-length": "-1"},
    {"content-type": "multipart/form-data"},
    {"content-type": "multipart/form-data; boundary=" + "x" * 3000},
    {"content-type": "application/x-www-form-urlencoded; charset=utf-16"},
    {"range": "bytes=-1,0-" + "9" * 3000},
    {"if-none-match": "\x9b2J"},
    {"accept-encoding": "gzip;q=" + "9" * 3000},
)


def test_no_form_path_or_header_ends_in_a_fault_of_the_program(kept: Kept, tmp_path: Path) -> None:
    """Each field of each form of each page, each word of each address, and headers."""
    box, _ = kept.copy(tmp_path)
    asyncio.run(_ask_pages(box, kept.codes, so_many(1500, 60)))


async def _ask_pages(box: Path, codes: dict[str, str], count: int) -> None:
    door = Door("127.0.0.1:8000")
    desk = Desk(box)
    pages = make_app(desk, door)

    async def app(scope: Any, receive: Any, send: Any) -> None:
        await pages(scope | {"state": {}}, receive, send)  # as the server does

    transport = httpx.ASGITransport(app, raise_app_exceptions=False)
    faults = []
    async with httpx.AsyncClient(transport=transport, base_url=door.origin) as client:
        await client.get("/enter", params={"token": door.new_token()})
        asked: list[tuple[str, str, str, dict[str, str] | bytes, dict[str, str]]] = []
        for path in PAGES:
            page = await client.get(path.format(**codes))
            assert page.status_code == 200, (path, page.text[-300:])
            forms = [form for form in _Forms(page.text).found if form[0] == "post"]
            for name, hostile in WORDS.items():
                hostile = hostile.encode("utf-8", "replace").decode()
                for _, action, fields in forms:
                    for field in fields:
                        if field not in (FIELD, KEY):
                            asked.append(
                                (
                                    f"{action} {field}: {name}",
                                    "POST",
                                    action,
                                    fields | {field: hostile},
                                    {},
                                )
                            )
                said = quote(hostile[:20_000])
                asked.append(
                    (f"{path}: {name} below it", "GET", f"{path.format(**codes)}/{said}", {}, {})
                )
                asked.append(
                    (
                        f"{path}?: {name}",
                        "GET",
                        f"{path.format(**codes)}?words={said}&done={said}",
                        {},
                        {},
                    )
                )
            for header in HEADERS:
                asked.append((f"{path}: {header}", "GET", path.format(**codes), {}, header))
                asked += [
                    (f"{action}: {header}", "POST", action, b"\xff--\r\n=&=", header)
                    for _, action, _ in forms[:2]
                ]
        for name, method, path, data, headers in Random(15).sample(asked, min(count, len(asked))):
            begun = time.process_time()
            body = (
                {"data": data}
                if isinstance(data, dict) and method == "POST"
                else {"content": data}
                if method == "POST"
                else {}
            )
            try:
                answer = await client.request(method, path, headers=headers, **body)  # type: ignore[arg-type]
            except (httpx.InvalidURL, UnicodeEncodeError):
                continue  # no browser could send it
            if answer.status_code >= 500:
                faults.append(f"{name}: {answer.status_code}")
            if time.process_time() - begun > MOST_S:
                faults.append(f"{name}: it takes too long")
            if (
                "text" in answer.headers.get("content-type", "")
                and written_out(answer.text) != answer.text
            ):
                faults.append(f"{name}: a raw sign")
    desk.close()
    assert not faults, "\n".join([f"{len(faults)} of them", *faults[:40]])
