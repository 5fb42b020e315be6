"""A whole day as a new user has it: planned in the pages, tapped on a phone whose browser is killed twice,
debriefed from its record, and the season's page against arithmetic by hand."""

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from tacklebox.desk import Desk, care, debriefs, rigs, season, stock, venue_forms
from tests.long.length import WHOLE
from tests.rigs.boxes import make_box
from tests.web.conftest import Served, serving
from tests.web.test_water_page import PHONE, kept, kill, own_browser, record, tap

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

EVERY = timedelta(minutes=7, seconds=30)  # forty taps in five hours, from five past ten on
KILLED_AFTER = (13, 30)


@pytest.fixture
def bench(tmp_path: Path) -> Iterator[Served]:
    """A box with a venue and what two rigs and four hooklengths are tied from."""
    folder = tmp_path / "box"
    make_box(folder).engine.dispose()
    desk = Desk(folder)
    venue_forms.write(desk, {"name": "Canal", "water": "canal", "keepnet.carp_per_net": "17 lb"})
    for item in stock.listed(desk).items:
        stock.buy(desk, item.name, packs=2)
    desk.close()
    with serving(folder) as served:
        yield served


def plan_and_take_along(page: "Page", served: Served, file: Path) -> None:
    page.goto(served.address("/matches/_new"))
    day = {"What it is called": "Club", "Day": str(served.desk.today()), "From": "10:00", "To": "15:00",
           "Loose feed each time": "10"}  # fmt: skip
    for label, said in day.items():
        page.get_by_label(label, exact=True).fill(said)
    page.get_by_label("Venue", exact=True).select_option("canal")
    wants = (("pole-canal-shot", "2"), ("hooklength-fine", "4"))
    for number, (recipe, count) in enumerate(wants, 1):
        if number > 1:
            page.get_by_role("button", name="Another").click()
        row = page.locator("fieldset.want").nth(number - 1)
        row.get_by_label("Recipe").select_option(recipe)
        row.get_by_label("How many").fill(count)
    page.get_by_role("button", name="Save the match").click()
    page.get_by_role("button", name="Tie all").click()
    page.get_by_text("A01T").first.wait_for()
    page.goto(served.address("/matches/club/pack"))
    for code in ("A01T", "A02R"):
        page.get_by_role("checkbox", name=code).check()
    page.get_by_role("button", name="Keep the ticks").click()
    page.goto(served.address("/matches/club?wait=1"))
    with page.expect_download() as coming:
        page.get_by_role("link", name="Page for the phone").click()
    coming.value.save_as(file)


@contextmanager
def phone(browser: "Browser", profile: Path, file: Path, at: datetime) -> "Iterator[Page]":
    """The file on a phone without a network; its browser is killed in the end."""
    with own_browser(browser, profile) as (page, process):
        page.set_viewport_size(PHONE)  # type: ignore[arg-type]
        page.context.set_offline(True)
        page.clock.set_fixed_time(at)
        page.goto(file.as_uri())
        page.get_by_role("button", name="Fish", exact=True).wait_for()
        for words in ("Lost, worn out", "Change, note", "The day"):
            page.locator("summary", has_text=words).click()
        page.evaluate("document.getElementById('more-fish').open = true")
        yield page
        kill(process)


def tap_forty_times(browser: "Browser", profile: Path, file: Path, day: datetime) -> str:
    """21 roach of 4 oz, then the depth is changed, then 8 F1s of 2 lb; a ninth is taken back."""

    def said(label: str, words: str, button: str) -> "list[tuple[str, str, str]]":
        return [(label, words, button)]

    taps = [
        "Fish", "roach", "4 oz", *["Same again"] * 20,
        *said("Depth now, from float to hook", "1.1 m", "Keep the depth"),
        "Fish", "F1", "2 lb", *["Same again"] * 8, "Take back",
        "A02R lost", *said("Peg", "14", ""), *said("Note", "far shelf", "Keep the note"),
        *said("Bait", "pinkie", ""),
    ]  # fmt: skip
    assert len(taps) == 40
    number, text = 0, ""
    while number < len(taps):
        with phone(browser, profile, file, day + number * EVERY) as page:
            assert record(page).rstrip().endswith(f"end | {number}")
            while number < len(taps):
                page.clock.set_fixed_time(day + number * EVERY)
                what = taps[number]
                if isinstance(what, str):
                    before = page.locator("#kept").get_attribute("data-tap")
                    page.get_by_role("button", name=what, exact=True).click()
                    page.wait_for_function(
                        "before => document.getElementById('kept').dataset.tap !== before"
                        " && document.getElementById('kept').textContent.startsWith('✓')",
                        arg=before,
                    )
                else:
                    label, words, button = what
                    page.get_by_label(label, exact=True).fill(words)
                    if button:
                        tap(page, button, words)
                    else:
                        page.get_by_label(label, exact=True).blur()
                        kept(page, words)
                number += 1
                if number in KILLED_AFTER:
                    break  # at once, as soon as it was shown as kept
            text = record(page)
    return text


@pytest.mark.long
@pytest.mark.skipif(not WHOLE, reason="a long run: TACKLEBOX_LONG=1")
def test_a_day_from_the_plan_to_the_season(
    browser: "Browser", bench: Served, tmp_path: Path
) -> None:
    file = tmp_path / "club.html"
    page = browser.new_context(viewport={"width": 1280, "height": 900}).new_page()
    page.goto(bench.address(f"/enter?token={bench.door.new_token()}"))
    page.wait_for_url(bench.address("/"))
    plan_and_take_along(page, bench, file)
    assert file.stat().st_size < 400_000
    ten = datetime.combine(bench.desk.today(), datetime.min.time()) + timedelta(hours=10, minutes=5)
    text = tap_forty_times(browser, tmp_path / "profile", file, ten)
    assert text.count("| fish") == 21 + 8
    assert text.count("taken back | ") == 1

    rigs.add(bench.desk, {"stick-float": "1"}, {})
    (unwanted,) = (rig.code for rig in debriefs.form(bench.desk, "club").others)
    page.goto(bench.address("/matches/club/debrief"))
    page.locator("summary", has_text="The record of the phone").click()
    page.get_by_label("Paste what the page for the water copied").fill(text)
    page.get_by_role("button", name="Fill in the form").click()
    nets = page.locator("dl.facts").inner_text()
    assert "21 fish" in nets
    assert "8 fish" in nets
    page.locator("summary", has_text="Tick those that came along").click()
    page.get_by_role("checkbox", name=unwanted, exact=True).check()
    page.get_by_role("group", name=unwanted, exact=True).get_by_label("came back").check()
    page.get_by_label("Weighed in").fill("21-4")
    page.get_by_label("Place", exact=True).fill("2")
    page.get_by_role("button", name="Write the debrief").click()
    page.get_by_text("The debrief is written").wait_for()
    states = {rig.code: rig.state for rig in rigs.listed(bench.desk, every=True)}
    assert (states["A01T"], states["A02R"]) == ("changed", "lost")
    written = debriefs.show(bench.desk, "club")
    assert written is not None
    assert unwanted in written.back
    assert care.audit(bench.desk).in_order

    # By hand: 21 × 4 oz + 8 × 2 lb are 84 oz + 256 oz = 340 oz = 21 lb 4 oz, 340 × 28.3495 g = 9.64 kg; the
    # depth was changed at the 24th tap, 23 × 7.5 min = 172.5 min after the first, and the last tap came
    # 16 × 7.5 min = 120 min later.
    page.goto(bench.address("/season?by=bait"))
    words = page.locator("main").inner_text()
    assert "pinkie" in words
    assert "21 lb 4 oz (9.64 kg)" in words
    (change,) = season.season(bench.desk).changes
    assert (change.before, change.before_min, change.after, change.after_min) == (21, 172.5, 8, 120)
    assert change.words == "depth 1.1 m"
    assert "21 in 172 min" in words
    assert "8 in 120 min" in words
    (row,) = season.season(bench.desk, by="bait").rows
    assert (row.matches, row.fish, row.mean_place) == (1, 29, 2)
    page.context.close()
