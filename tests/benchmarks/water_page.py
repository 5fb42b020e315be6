"""How quick the page for the water is with the processor slowed four times: opened, tapped, after 300 taps.

``python -m tests.benchmarks.water_page`` prints milliseconds, as the page's own clock has them, and
the ratio of the 300th tap to the first ones.
"""

import statistics
import tempfile
from pathlib import Path

from tacklebox.desk import Desk, bank
from tests.desk.water_box import DAY, make_water_box
from tests.web.conftest import chromium
from tests.web.test_water_page import PHONE

SLOWED, TAPS = 4, 300
# A tap: until the page has answered, and until it is kept; what it took, in ms.
TAP = """async id => {
  const kept = document.getElementById("kept"), before = kept.dataset.tap, begun = performance.now();
  document.getElementById(id).click();
  const answered = performance.now() - begun;
  while (kept.dataset.tap === before) await new Promise(done => setTimeout(done, 0));
  return [answered, performance.now() - begun];
}"""
OPENED = """() => performance.getEntriesByType('navigation')[0].domComplete"""


def main() -> None:
    """Print what each takes."""
    with tempfile.TemporaryDirectory() as folder, chromium() as browser:
        file = Path(folder) / "bank.html"
        desk = Desk(make_water_box(Path(folder) / "box"), today=lambda: DAY)
        bank.page(desk, "club", file)
        context = browser.new_context(viewport=PHONE, offline=True)  # type: ignore[arg-type]
        page = context.new_page()
        context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": SLOWED})
        page.goto(file.as_uri())
        page.get_by_role("button", name="Fish", exact=True).wait_for()
        print(f"opened: {page.evaluate(OPENED):.0f} ms, {file.stat().st_size / 1000:.0f} kB")
        taken = [page.evaluate(TAP, "fish" if n % 10 == 0 else "again") for n in range(TAPS)]
        first, last = taken[:20], taken[-20:]
        for name, some in (("the first 20 taps", first), (f"the last 20 of {TAPS}", last)):
            answered, kept = (statistics.median(one[n] for one in some) for n in (0, 1))
            worst = max(one[0] for one in some)
            print(
                f"{name}: answered in {answered:.1f} ms (at most {worst:.1f}), kept in {kept:.1f} ms"
            )
        slower = statistics.median(t[1] for t in last) / statistics.median(t[1] for t in first)
        print(f"the last to the first: {slower:.2f}")
        context.close()
        desk.close()


if __name__ == "__main__":
    main()
