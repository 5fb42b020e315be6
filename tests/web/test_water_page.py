"""The page for the water in a browser: from a file, without a network, killed once it says kept."""

import os
import signal
import subprocess
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from tacklebox.desk import Desk, adding, bank
from tests.desk.water_box import DAY, make_water_box
from tests.long.length import WHOLE, so_many
from tests.web.conftest import ARGUMENTS, CHROMIUM

if TYPE_CHECKING:
    from playwright.sync_api import Browser, BrowserContext, Page

PHONE = {"width": 360, "height": 740}
BUTTONS = "button, input, textarea, summary"
TOO_LOW = f"""() => [...document.querySelectorAll('{BUTTONS}')]
   .filter(e => e.offsetParent && e.getBoundingClientRect().height < 56).map(e => e.outerHTML)"""
OPEN_ALL = "() => document.querySelectorAll('details').forEach(e => e.open = true)"
NOON = f"{DAY}T12:00:00"


@dataclass
class Water:
    """The page's file, and the box that it was made from."""

    file: Path
    desk: Desk

    @property
    def address(self) -> str:
        return self.file.as_uri()


@pytest.fixture(scope="module")
def water(tmp_path_factory: pytest.TempPathFactory) -> Water:
    folder = tmp_path_factory.mktemp("water")
    desk = Desk(make_water_box(folder / "box"), today=lambda: DAY)
    adding.add(desk, "pole 4×14")
    bank.page(desk, "club", folder / "bank.html")
    return Water(folder / "bank.html", desk)


@pytest.fixture
def context(browser: "Browser") -> "Iterator[BrowserContext]":
    made = browser.new_context(viewport=PHONE, offline=True)  # type: ignore[arg-type]
    yield made
    made.close()


def opened(context: "BrowserContext", water: Water, *, at: str = NOON) -> "Page":
    page = context.new_page()
    page.clock.install(time=at)
    page.goto(water.address)
    page.get_by_role("button", name="Fish", exact=True).wait_for()
    return page


def kept(page: "Page", words: str) -> None:
    """Wait until the page says that the tap is kept."""
    page.locator("#kept", has_text=words).and_(page.locator("#kept", has_text="✓ Kept")).wait_for()


def tap(page: "Page", name: str, words: str) -> None:
    page.get_by_role("button", name=name, exact=True).click()
    kept(page, words)


def record(page: "Page") -> str:
    return page.locator("#record").input_value()


def test_taps_add_up_and_their_record_fills_the_debrief(
    context: "BrowserContext", water: Water
) -> None:
    page = opened(context, water)
    tap(page, "Fish", "fish 1")
    tap(page, "roach", "fish 1 is roach")
    tap(page, "2 oz", "weighs 2 oz")
    tap(page, "Same again", "fish 2, roach")
    tap(page, "Fish", "fish 3")
    page.get_by_label("Another weight").fill("1-4")
    tap(page, "Keep the weight", "1 lb 4 oz")
    assert page.locator("#total").inner_text() == "3 fish, 1 lb 8 oz (680 g)"
    assert "silvers 1" in page.locator("#nets").inner_text()
    tap(page, "Same again", "fish 4")
    tap(page, "Take back", "taken back")
    page.locator("summary", has_text="Lost, worn out").click()
    tap(page, "A02R lost", "A02R lost")
    page.locator("#lose button", has_text="20 to 0.08 mm").first.click()
    kept(page, "lost")
    page.locator("summary", has_text="The day").click()
    page.get_by_label("Peg").fill("14")
    page.get_by_label("Section").fill("B")
    kept(page, "peg 14")
    found = bank.read_record(water.desk, "club", record(page))
    assert (found.faults, found.clock, found.remarks) == ((), "", ())
    assert sum(one.fish for one in found.nets) == 3
    # by hand: 2 oz + 2 oz + 20 oz are 24 × 28.349523125 g (NIST SP 811, appendix B)
    assert sum(one.weighs_g for one in found.nets) == pytest.approx(680.39, abs=0.15)
    assert (found.answers.lost, found.answers.back) == (("A02R",), ("A01T",))
    assert list(found.answers.tackle_lost.values()) == ["1"]
    assert found.answers.peg == "14"


def test_a_float_that_is_put_on_is_a_tap(context: "BrowserContext", water: Water) -> None:
    page = opened(context, water)
    page.locator("summary", has_text="Change, note").click()
    assert page.locator("#carried-which").inner_text() == "Float put on"
    tap(page, "pole 4×14", "A01T: float pole 4×14")
    found = bank.read_record(water.desk, "club", record(page))
    assert (found.faults, found.remarks) == ((), ())
    assert found.answers.changed == {"A01T": {"carries": "pole 4×14"}}


OFTEN = ("roach", "ruffe", "1 oz", "1 lb", "Cast", "Fed", "Take back", "Same again", "Fish")


def in_reach(page: "Page") -> dict[str, object]:
    """Where the buttons of the commonest next taps are; none has to be scrolled to."""
    size = page.viewport_size
    assert size is not None
    where: dict[str, object] = {}
    for name in OFTEN:
        box = page.get_by_role("button", name=name, exact=True).bounding_box()
        assert box is not None
        assert 0 < box["y"] < box["y"] + box["height"] <= size["height"], name
        assert box["height"] >= 56, name
        where[name] = box
    return where


def test_what_is_tapped_most_is_in_reach_without_scrolling(
    context: "BrowserContext", water: Water
) -> None:
    page = opened(context, water)
    page.set_viewport_size({"width": 360, "height": 640})
    tap(page, "Fish", "fish 1")
    before = in_reach(page)
    tap(page, "roach", "fish 1 is roach")
    tap(page, "2 oz", "weighs 2 oz")
    assert in_reach(page) == before
    page.set_viewport_size({"width": 640, "height": 360})
    in_reach(page)
    tap(page, "Cast", "cast")
    assert page.locator("#next").is_hidden()
    assert "Float settled in" in page.locator("#due").inner_text()
    tap(page, "2 lb", "weighs 2 lb")  # later, in the page


def test_a_clock_that_is_put_on_the_way_is_found_at_home(
    context: "BrowserContext", water: Water
) -> None:
    page = opened(context, water)
    tap(page, "Fish", "fish 1")
    page.clock.fast_forward("10:00")
    page.clock.set_system_time(f"{DAY}T11:10:00")
    tap(page, "Fish", "fish 2")
    (asked,) = bank.read_record(water.desk, "club", record(page)).clock_breaks
    assert asked.choices == ("before -1 h", "from +1 h", "as it is")


@pytest.mark.skipif(not WHOLE, reason="a long run: TACKLEBOX_LONG=1")
def test_taps_are_kept_in_the_order_in_which_they_came(
    context: "BrowserContext", water: Water
) -> None:
    """However long one takes to be kept: what is said of a fish is said of the one tapped before it."""
    page = opened(context, water)
    page.evaluate(
        "() => { for (const id of ['fish', 'fish']) document.getElementById(id).click(); }"
    )
    kept(page, "fish 2")
    ids = ("fish", "next-species", "next-weights")
    page.evaluate(
        """ids => ids.forEach(id => {
        const at = document.getElementById(id); (at.querySelector('button') || at).click(); })""",
        ids,
    )
    kept(page, "fish 3 weighs 1 oz")
    fish = [line for line in record(page).splitlines() if "| fish" in line]
    assert ["roach" in line and "28.3 g" in line for line in fish] == [False, False, True]
    other = opened(context, water)  # another tab of the same file
    tap(other, "Fish", "fish 4")
    page.evaluate("() => window.dispatchEvent(new Event('focus'))")
    page.locator("#total", has_text="4 fish").wait_for()
    tap(page, "Fish", "fish 5")


def test_a_net_is_told_before_its_limit(context: "BrowserContext", water: Water) -> None:
    page = opened(context, water)
    tap(page, "Fish", "fish 1")
    tap(page, "bream", "fish 1 is bream")
    page.get_by_label("Another weight").fill("15 lb")
    tap(page, "Keep the weight", "15 lb")
    warning = page.locator("#net-warning")
    assert warning.is_hidden()
    tap(page, "Same again", "fish 2")
    assert "OVER THE LIMIT: silvers 1" in warning.inner_text()
    page.get_by_label("Another weight").fill("2 lb")
    tap(page, "Keep the weight", "2 lb")
    assert "Near the limit: silvers 1" in warning.inner_text()
    tap(page, "New net: silvers 2", "silvers net 2")
    tap(page, "Fish", "fish 3")
    tap(page, "roach", "fish 3 is roach")
    assert "silvers 2" in page.locator("#nets").inner_text()


@pytest.mark.skipif(not WHOLE, reason="a long run: TACKLEBOX_LONG=1")
def test_the_clock_says_what_is_due(context: "BrowserContext", water: Water) -> None:
    page = opened(context, water)
    assert page.locator("#left").inner_text() in ("3 h 00 min left", "2 h 59 min left")
    tap(page, "Cast", "cast")
    assert "settled in" in page.locator("#times").inner_text()
    page.clock.fast_forward("01:00")
    page.locator("#times", has_text="else strike").wait_for()
    tap(page, "Fed", "fed")
    page.clock.fast_forward("30:00")
    page.locator("#times", has_text="FEED NOW").wait_for()
    page.clock.fast_forward("02:30:00")
    page.locator("#left", has_text="All out").wait_for()


@pytest.mark.skipif(not WHOLE, reason="a long run: TACKLEBOX_LONG=1")
def test_what_is_no_weight_of_a_fish_is_told_and_not_kept(
    context: "BrowserContext", water: Water
) -> None:
    page = opened(context, water)
    tap(page, "Fish", "fish 1")
    before = record(page)
    for said in ("-2 lb", "0", "heavy", "2-17", "900 lb", ""):
        page.get_by_label("Another weight").fill(said)
        page.get_by_role("button", name="Keep the weight").click()
        assert "is no weight" in page.locator("#weight-fault").inner_text()
    assert record(page) == before


def test_it_is_read_in_the_sun_and_tapped_with_wet_fingers(
    browser: "Browser", water: Water
) -> None:
    from axe_playwright_python.sync_playwright import Axe

    context = browser.new_context(viewport=PHONE, offline=True, bypass_csp=True)  # type: ignore[arg-type]
    page = opened(context, water)
    tap(page, "Fish", "fish 1")
    page.evaluate(OPEN_ALL)
    assert page.evaluate(TOO_LOW) == []
    assert page.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]
    rules = ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa", "best-practice"]
    found = Axe().run(page, options={"runOnly": rules, "resultTypes": ["violations"]})
    assert found.violations_count == 0, found.generate_report()
    contrast = {"runOnly": ["color-contrast-enhanced"], "resultTypes": ["violations"]}
    assert Axe().run(page, options=contrast).violations_count == 0  # 7 to 1, WCAG 2.2, 1.4.6
    context.close()


def test_without_scripts_or_a_store_it_says_so_and_is_read_all_the_same(
    browser: "Browser", water: Water
) -> None:
    still = browser.new_context(viewport=PHONE, offline=True, java_script_enabled=False)  # type: ignore[arg-type]
    page = still.new_page()
    page.goto(water.address)
    assert "does not run here" in page.locator("#dead").inner_text()
    assert page.get_by_role("button", name="Fish", exact=True).count() == 0
    page.locator("summary", has_text="What to change when").click()
    assert page.locator("h3", has_text="Float tows").is_visible()
    still.close()
    storeless = browser.new_context(viewport=PHONE, offline=True)  # type: ignore[arg-type]
    storeless.add_init_script("IDBFactory.prototype.open = () => { throw new Error('no store') }")
    page = storeless.new_page()
    page.goto(water.address)
    page.locator("#dead", has_text="keeps nothing").wait_for()
    assert page.get_by_role("button", name="Fish", exact=True).count() == 0
    storeless.close()


def test_a_tap_that_is_not_kept_is_told_loudly(context: "BrowserContext", water: Water) -> None:
    context.add_init_script("IDBObjectStore.prototype.add = () => { throw new Error('full') }")
    page = opened(context, water)
    page.get_by_role("button", name="Fish", exact=True).click()
    page.locator("#kept", has_text="NOT kept").wait_for()
    assert "fish" not in record(page).partition("rigs")[2]


@contextmanager
def own_browser(
    browser: "Browser", folder: Path
) -> "Iterator[tuple[Page, subprocess.Popen[bytes]]]":
    """A browser with a profile of its own, as a process that can be killed."""
    assert CHROMIUM is not None
    port = folder / "DevToolsActivePort"
    port.unlink(missing_ok=True)
    args = [*ARGUMENTS, "--headless=new", "--remote-debugging-port=0"]
    process = subprocess.Popen(
        [CHROMIUM, *args, f"--user-data-dir={folder}", "about:blank"],
        stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, start_new_session=True,
    )  # fmt: skip
    try:
        while not (port.is_file() and port.read_text().count("\n")):
            assert process.poll() is None
            time.sleep(0.02)
        where = f"http://127.0.0.1:{port.read_text().splitlines()[0]}"
        yield browser.browser_type.connect_over_cdp(where).contexts[0].pages[0], process
    finally:
        kill(process)


def kill(process: "subprocess.Popen[bytes]") -> None:
    """The browser and all its processes, at once."""
    if process.poll() is None:
        os.killpg(process.pid, signal.SIGKILL)
    process.wait()


def test_what_is_shown_as_kept_outlives_a_kill_at_that_moment(
    browser: "Browser", water: Water, tmp_path: Path
) -> None:
    """Nothing is lost and nothing there twice, kill after kill."""
    taps = so_many(40, 2)
    for number in range(1, taps + 1):
        with own_browser(browser, tmp_path / "profile") as (page, process):
            page.goto(water.address)
            page.get_by_role("button", name="Fish", exact=True).wait_for()
            assert record(page).count("| fish") == number - 1
            tap(page, "Fish", f"fish {number}")
            kill(process)
    with own_browser(browser, tmp_path / "profile") as (page, _):
        page.goto(water.address)
        page.get_by_role("button", name="Fish", exact=True).wait_for()
        assert record(page).count("| fish") == taps
