"""A bench that is opened as an angler opens it, and the time of what is asked of it."""

import os
import re
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import NamedTuple

import httpx

from tests.benchmarks.timing import environment


class Took(NamedTuple):
    """What one answer took: ms by the wall, ms of the server's processor, bytes over the wire."""

    wall: float
    processor: float
    wire: int


@contextmanager
def opened(box: Path) -> Iterator[tuple[str, int]]:
    """The bench opened on the box: the way in, and the process."""
    command = [sys.executable, "-m", "tacklebox", "--box", str(box), "open", "--no-browser"]
    process = subprocess.Popen(
        command,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        text=True,
        env=environment(),
    )
    assert process.stdout is not None
    try:
        way_in = next(line.strip() for line in process.stdout if "http" in line)
        yield way_in, process.pid
    finally:
        process.terminate()
        process.wait()


@contextmanager
def client_at(way_in: str) -> Iterator[httpx.Client]:
    """A client that came in; names of the loopback are resolved here, as a browser does."""
    address = httpx.URL(way_in)
    host = f"{address.host}:{address.port}"
    here = f"http://127.0.0.1:{address.port}"
    with httpx.Client(base_url=here, headers={"host": host}, timeout=120) as client:
        entered = client.get("/enter", params=address.params).raise_for_status()
        # The cookie is of the bench's name, which is not the one that is asked here.
        cookie = entered.headers["set-cookie"].partition(";")[0]
        client.headers["cookie"] = cookie
        yield client


def asked(client: httpx.Client, pid: int, path: str) -> Took:
    """Ask for a page."""
    before, begun = thread_ms(pid), time.perf_counter()
    with client.stream("GET", path) as answer:
        wire = sum(len(part) for part in answer.iter_raw())
    took = (time.perf_counter() - begun) * 1000
    assert answer.status_code == 200, (path, answer.status_code)
    return Took(took, thread_ms(pid) - before, wire)


def thread_ms(pid: int) -> float:
    """The processor's ms that the threads which live have had, to the microsecond."""
    total = 0
    for task in Path(f"/proc/{pid}/task").iterdir():
        with suppress(FileNotFoundError, ProcessLookupError):  # it has ended
            total += int((task / "schedstat").read_text(encoding="ascii").split()[0])
    return total / 1e6


def processor_s(pid: int) -> float:
    """The processor's seconds that the process has had."""
    fields = Path(f"/proc/{pid}/stat").read_text(encoding="ascii").rpartition(")")[2].split()
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


def peak_mb(pid: int) -> float:
    """The most memory that the process had, in MB."""
    status = Path(f"/proc/{pid}/status").read_text(encoding="ascii")
    return int(re.findall(r"VmHWM:\s+(\d+)", status)[0]) / 1024
