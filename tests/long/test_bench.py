"""The bench as a process of its own: killed in the middle of a tie and opened again; another user of the
machine, with the port and the process list."""

import os
import re
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

import httpx
import pytest

from tacklebox.desk import Desk, adding, care, rigs, stock
from tests.benchmarks.served import client_at
from tests.long.length import WHOLE, so_many
from tests.rigs.boxes import make_box

pytestmark = pytest.mark.long
TIED_AT_ONCE = 30
FORM = re.compile(r'name="(form_token|once)" value="([^"]+)"')
NOBODY = 65534
# What another user tries: the list of processes, the port, the way in, the socket.
TRIES = """
import glob, socket, sys, urllib.request, urllib.error
port, host, home, box = sys.argv[1:]
for path in glob.glob("/proc/[0-9]*/cmdline"):
    try:
        words = open(path, "rb").read()
    except OSError:
        continue
    if b"enter?" b"token=" in words:
        print("a token in", path)
for path in ("/", "/stock", "/state", "/care/export.zip", "/enter"):
    asked = urllib.request.Request(f"http://127.0.0.1:{port}{path}", headers={"Host": host})
    try:
        print("answered", path, urllib.request.urlopen(asked).status)
    except urllib.error.HTTPError as error:
        assert error.code == 403, error.code
for pattern in (f"{home}/tacklebox-open-*", f"{home}/tacklebox-open-*/*"):
    for found in glob.glob(pattern):
        try:
            print("read", open(found).read())
        except OSError:
            pass
try:
    with socket.socket(socket.AF_UNIX) as asking:
        asking.connect(f"{box}/open.socket")
        print("told", asking.recv(1000))
except OSError:
    pass
print("tried")
"""


@contextmanager
def bench(box: Path, home: Path) -> Iterator[tuple[subprocess.Popen[str], str]]:
    """The bench opened as a program, and its way in."""
    command = [sys.executable, "-m", "tacklebox", "--box", str(box), "open", "--no-browser"]
    process = subprocess.Popen(
        command, stdout=subprocess.PIPE, text=True, env=os.environ | {"HOME": str(home)}
    )
    assert process.stdout is not None
    try:
        yield process, next(line.strip() for line in process.stdout if "http" in line)
    finally:
        with suppress(ProcessLookupError):
            process.send_signal(signal.SIGINT)
        assert process.wait(60) in (0, 130, -signal.SIGINT, -signal.SIGKILL)
        process.stdout.close()


@pytest.mark.skipif(not WHOLE, reason="a long run: TACKLEBOX_LONG=1")
def test_killed_in_the_middle_of_a_tie_and_opened_again(tmp_path: Path) -> None:
    """All of it is tied, or nothing; the next one opens as if nothing had been."""
    box = tmp_path / "box"
    make_box(box).close()
    desk = Desk(box)
    for row in stock.listed(desk).items:
        stock.buy(desk, str(row.number), packs=40 * so_many(6, 1))
    desk.close()
    both, rounds, took = set(), so_many(16, 2), 0.0
    for round_ in range(rounds):
        before = len(rigs.listed(Desk(box)))
        with bench(box, tmp_path) as (process, way_in), client_at(way_in) as client:
            text = client.get("/recipes/pole-canal-shot", params={"count": TIED_AT_ONCE}).text
            form = dict(FORM.findall(text)) | {"count": str(TIED_AT_ONCE)}

            def tie(client: httpx.Client = client, form: dict[str, str] = form) -> None:
                with suppress(httpx.HTTPError):
                    client.post("/recipes/pole-canal-shot/tie", data=form)

            begun = time.monotonic()
            tying = threading.Thread(target=tie)
            tying.start()
            if round_:
                time.sleep(took * round_ / (rounds - 1))  # at another moment each time
            else:
                tying.join()  # a whole one first, to know how long it takes
                took = 1.2 * (time.monotonic() - begun)
            process.kill()
            tying.join()
            process.wait()
        after = len(rigs.listed(Desk(box)))
        assert after - before in (0, TIED_AT_ONCE)
        both.add(after - before)
        assert care.audit(Desk(box)).in_order
        with bench(box, tmp_path) as (_, way_in), client_at(way_in) as client:
            assert client.get("/rigs").text.count('name="code-') == after
    assert both == {0, TIED_AT_ONCE}


@pytest.mark.skipif(not WHOLE, reason="a long run: TACKLEBOX_LONG=1")
@pytest.mark.skipif(os.geteuid() != 0, reason="only root can be another user")
def test_another_user_of_the_machine(tmp_path: Path) -> None:
    box = tmp_path / "box"
    adding.add(Desk(box), "hook 18 barbless spade pack 10")
    for folder in (tmp_path, *tmp_path.parents[:3]):
        folder.chmod(0o755)
    with bench(box, tmp_path) as (_, way_in):
        address = httpx.URL(way_in)
        host = f"{address.host}:{address.port}"
        tried = subprocess.run(
            ["/usr/bin/python3", "-c", TRIES, str(address.port), host, str(tmp_path), str(box)],
            user=NOBODY, group=NOBODY, capture_output=True, text=True, cwd="/", check=False,
        )  # fmt: skip
    assert (tried.returncode, tried.stdout) == (0, "tried\n"), tried.stdout + tried.stderr
