"""The pages of a box of 2,000 items, 100,000 movements and 500 rigs.

Run with ``python -m tests.benchmarks.pages``. The bench is opened as an angler opens it, in a process of
its own. Each page is asked for a hundred times, warm; times are from request to answer, by the loopback.
Then twenty clients ask for fifty things each, one in five a purchase, and the ledger is summed up
afterwards. No pass or fail: it prints tables, with the load of the machine while it measured.
"""

import os
import re
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from datetime import date, timedelta
from pathlib import Path

import httpx

from tacklebox.boxfolder import DATABASE_NAME
from tacklebox.desk import Desk, care, match_forms, rigs, stock
from tacklebox.matches.files.venue import write_starting_venue
from tests.benchmarks.big_box import make_big_box
from tests.benchmarks.scale import fill
from tests.benchmarks.timing import environment, once

ITEMS, MOVEMENTS, ROUNDS, CLIENTS, EACH = 2000, 100_000, 100, 20, 50
RIGS = {
    "pole-canal-shot": 99, "waggler-insert-bulk": 99, "feeder-running-paternoster": 99,
    "stick-float": 99, "pole-deep-olivette": 99, "waggler-spread": 5,
}  # fmt: skip
WANTS = ("pole-canal-shot", 100), ("hooklength-fine", 10), ("waggler-insert-bulk", 3)
PAGES = (
    "/", "/stock", "/stock?words=hook", "/stock/rows?words=nylon", "/stock?every=1", "/stock/1",
    "/recipes", "/recipes/pole-canal-shot", "/recipes/pole-canal-shot/answer",
    "/recipes/pole-canal-shot/edit", "/rigs",
    "/rigs/A01T", "/wallet", "/reels", "/matches", "/matches/club", "/matches/club/edit",
    "/matches/last/debrief", "/labels", "/season", "/venues", "/venues/pond", "/care",
)  # fmt: skip
FORM = re.compile(r'name="(form_token|once)" value="([^"]+)"')


def make(folder: Path) -> Path:
    """The box, with a match to come and one that has been."""
    box = make_big_box(folder / "box", ITEMS)
    box.close()
    fill(box.folder / DATABASE_NAME, MOVEMENTS)
    desk = Desk(box.folder)
    for recipe, count in RIGS.items():
        rigs.add(desk, {recipe: str(count)}, {})
    write_starting_venue(box.folder / "venues", "pond")
    today = date.today()
    for name, day, hours in (
        ("Club", today + timedelta(days=3), ("10:00", "15:00")),
        ("Last", today, ("00:00", "00:01")),
    ):
        said = {"name": name, "date": str(day), "from": hours[0], "to": hours[1], "venue": "pond"}
        match_forms.write(desk, said, [match_forms.WantRow(r, str(n)) for r, n in WANTS])
    desk.close()
    return box.folder


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


def time_pages(client: httpx.Client, pid: int) -> None:
    """Print for each page the median, the 99th of a hundred, the processor's time for one, and its size.

    The processor's time is the server's own, whatever else the machine does.
    """
    print(f"{'page':36}{'first':>9}{'median':>9}{'99th':>9}{'processor':>11}{'wire':>10}")
    for path in PAGES:
        took, wire, before = [], 0, 0.0
        for round_ in range(ROUNDS + 1):
            before = processor_s(pid) if round_ == 1 else before
            begun = time.perf_counter()
            with client.stream("GET", path) as answer:
                wire = sum(len(part) for part in answer.iter_raw())
            took.append((time.perf_counter() - begun) * 1000)
            assert answer.status_code == 200, (path, answer.status_code)
        one = (processor_s(pid) - before) * 1000 / ROUNDS
        first, *warm = took
        warm.sort()
        print(
            f"{path:36}{first:6.0f} ms{statistics.median(warm):6.0f} ms{warm[98]:6.0f} ms"
            f"{one:8.1f} ms{wire / 1000:7.1f} kB",
            flush=True,
        )


def crowd(client: httpx.Client, box: Path) -> None:
    """Twenty clients at once; then the sum of the ledger against what was bought."""
    desk = Desk(box)
    before = stock.show(desk, "1").item.on_hand.value
    packet = stock.show(desk, "1").item.packet.value

    def busy(number: int) -> int:
        bought = 0
        with httpx.Client(base_url=client.base_url, headers=client.headers, timeout=120) as own:
            for n in range(EACH):
                if n % 5:
                    answer = own.get(PAGES[(number + n) % len(PAGES)])
                else:
                    fields = dict(FORM.findall(own.get("/stock/1").text))
                    answer = own.post("/stock/1/buy", data=fields | {"packs": "1", "price": ""})
                    bought += 1
                assert answer.status_code in (200, 303), (answer.url, answer.status_code)
        return bought

    begun = time.perf_counter()
    with ThreadPoolExecutor(CLIENTS) as pool:
        bought = sum(pool.map(busy, range(CLIENTS)))
    took = time.perf_counter() - begun
    after = stock.show(desk, "1").item.on_hand.value
    assert after - before == bought * packet, (before, after, bought)
    assert care.audit(desk).in_order
    print(f"{CLIENTS} clients × {EACH}: no error in {took:.0f} s, {bought} bought, ledger exact")


def processor_s(pid: int) -> float:
    """The processor's seconds that the process has had."""
    fields = Path(f"/proc/{pid}/stat").read_text(encoding="ascii").rpartition(")")[2].split()
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


def peak_mb(pid: int) -> float:
    """The most memory that the process had, in MB."""
    status = Path(f"/proc/{pid}/status").read_text(encoding="ascii")
    return int(re.findall(r"VmHWM:\s+(\d+)", status)[0]) / 1024


def time_opening(box: Path) -> None:
    """From ``tacklebox open`` to the first page, against importing what serves it."""
    import_all = [sys.executable, "-c", "import fastapi, sqlmodel, uvicorn"]
    ours: list[tuple[float, float]] = []
    theirs: list[tuple[float, float]] = []
    for _ in range(9):
        ran = once(import_all)
        theirs.append((ran.seconds, ran.processor))
        begun = time.perf_counter()
        with opened(box) as (way_in, pid), client_at(way_in) as client:
            client.get("/").raise_for_status()
            ours.append((time.perf_counter() - begun, processor_s(pid)))
    for clock, words in enumerate(("by the wall", "by the processor")):
        mine, reference = (statistics.median(ran[clock] for ran in runs) for runs in (ours, theirs))
        print(
            f"{words}: open to first page {mine * 1000:.0f} ms, import fastapi, sqlmodel, uvicorn "
            f"{reference * 1000:.0f} ms: {mine / reference:.2f} (at most 1.5)"
        )


def main() -> None:
    """Print the tables."""
    print(f"load {os.getloadavg()[0]:.1f} on {os.cpu_count()} cores")
    with tempfile.TemporaryDirectory() as name:
        box = make(Path(name)) if len(sys.argv) < 2 else Path(sys.argv[1])
        time_opening(box)
        with opened(box) as (way_in, pid), client_at(way_in) as client:
            time_pages(client, pid)
            print(f"memory so far {peak_mb(pid):.0f} MB")
            crowd(client, box)
            print(f"memory at most {peak_mb(pid):.0f} MB (at most 250)")
    print(f"load {os.getloadavg()[0]:.1f}")


if __name__ == "__main__":
    main()
