"""The pages of a box of 2,000 items, 100,000 movements and 500 rigs.

Run with ``python -m tests.benchmarks.pages``. The bench is opened as an angler opens it, in a process of
its own. Each page is asked for a hundred times, warm; times are from request to answer, by the loopback.
Then twenty clients ask for fifty things each, one in five a purchase, and the ledger is summed up
afterwards. No pass or fail: it prints tables, with the load of the machine while it measured.
"""

import os
import re
import statistics
import sys
import tempfile
import time
from concurrent.futures import ThreadPoolExecutor
from datetime import date, timedelta
from pathlib import Path

import httpx

from tacklebox.boxfolder import DATABASE_NAME
from tacklebox.desk import Desk, care, match_forms, rigs, stock
from tacklebox.matches.files.venue import write_starting_venue
from tests.benchmarks.big_box import make_big_box
from tests.benchmarks.choices import time_choices
from tests.benchmarks.scale import fill
from tests.benchmarks.served import asked, client_at, opened, peak_mb, processor_s
from tests.benchmarks.timing import once

ITEMS, MOVEMENTS, ROUNDS, CLIENTS, EACH = 2000, 100_000, 100, 20, 50
RIGS = {
    "pole-canal-shot": 99, "waggler-insert-bulk": 99, "feeder-running-paternoster": 99,
    "stick-float": 99, "pole-deep-olivette": 99, "waggler-spread": 5,
}  # fmt: skip
WANTS = ("pole-canal-shot", 100), ("hooklength-fine", 10), ("waggler-insert-bulk", 3)
PAGES = (
    "/", "/next", "/find?words=hook", "/state", "/stock", "/stock?words=hook",
    "/stock/rows?words=nylon", "/stock?every=1", "/stock?short=1", "/stock/1",
    "/stock/reading?words=nylon+0.14+mm,+4+lb,+100+m", "/recipes", "/recipes/_new",
    "/recipes/pole-canal-shot", "/recipes/pole-canal-shot/answer", "/recipes/pole-canal-shot/edit",
    "/recipes/pole-canal-shot/text", "/recipes/pole-canal-shot/fall",
    "/recipes/feeder-running-paternoster/fall", "/rigs", "/rigs/add", "/rigs/A01T", "/wallet",
    "/wallet/add", "/reels", "/matches", "/matches/_new", "/matches/club", "/matches/club/edit",
    "/matches/club/pack", "/matches/club/shopping", "/matches/last/debrief", "/labels",
    "/labels?kind=all&paper=a4-65&skip=5&pick=spoiled", "/labels/papers", "/season",
    "/season?by=rig", "/venues", "/venues/pond", "/phones", "/care",
)  # fmt: skip
DRAWN = (  # beside pages: drawings, and what is printed or taken away as a file
    "/recipes/pole-canal-shot/glance.svg", "/recipes/pole-canal-shot/verdict/strengths.svg",
    "/recipes/pole-canal-shot/verdict/breaks.svg", "/recipes/pole-canal-shot/verdict/bulk.svg",
    "/recipes/pole-canal-shot/verdict/hook-knot.svg", "/recipes/pole-canal-shot/fall.svg",
    "/recipes/pole-canal-shot/fall.json", "/rigs/A01T/drawing.svg", "/rigs/A01T/glance.svg",
    "/labels/sheet.svg", "/labels/papers/a4-65/test.pdf", "/matches/club/pack.pdf",
    "/matches/club/sheets.pdf", "/matches/club/shopping.pdf", "/matches/club/bank.html",
    "/matches/club/card.pdf", "/season/matches.csv",
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


def time_pages(client: httpx.Client, pid: int) -> None:
    """Print for each page the first time, the median and the 99th of a hundred and its size."""
    for paths, rounds, head in ((PAGES, ROUNDS, "page"), (DRAWN, 20, "drawn, printed, packed")):
        print(f"\n{head:44}{'by the wall':>24}{'by the processor':>26}{'wire':>12}")
        print(f"{'':44}{'first':>8}{'median':>8}{'99th':>8}{'median':>17}{'99th':>9}")
        for path in paths:
            first, *warm = (asked(client, pid, path) for _ in range(rounds + 1))
            wall, processor = (sorted(getattr(t, c) for t in warm) for c in ("wall", "processor"))
            last = int(rounds * 0.99) - 1
            print(
                f"{path[:43]:44}{first.wall:5.0f} ms{statistics.median(wall):5.0f} ms{wall[last]:5.0f} ms"
                f"{statistics.median(processor):14.1f} ms{processor[last]:6.1f} ms"
                f"{warm[-1].wire / 1000:9.1f} kB",
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
            time_choices(client, pid, box)
            print(f"memory so far {peak_mb(pid):.0f} MB")
            crowd(client, box)
            print(f"memory at most {peak_mb(pid):.0f} MB (at most 250)")
    print(f"load {os.getloadavg()[0]:.1f}")


if __name__ == "__main__":
    main()
