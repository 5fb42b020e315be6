"""The whole job of an evening before a match in the pages alone, by mouse and by keys alone: once in the box
that README's first command leaves, once from an empty one."""

import json
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from tacklebox.cli.main import main
from tacklebox.desk import bag, care, rigs
from tests.long.length import WHOLE
from tests.web.conftest import Served, serving
from tests.web.hands import Hands, Keys, Mouse

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

pytestmark = [
    pytest.mark.long,
    pytest.mark.skipif(not WHOLE, reason="a long run: TACKLEBOX_LONG=1"),
]
BY = pytest.mark.parametrize("by", [Mouse, Keys])
MATCH = "Winter league 1"
# As he says it; what is not certain is asked.
BOUGHT = (
    "nylon 0.12 mm 3.5 lb 50 m", "nylon 0.08 mm 1.5 lb 50 m", "hook 20 barbless spade packet of 10",
    "pole float 4x12", "no 8 shot tin 150", "no 10 shot tin 150", "elastic 4 6 m",
    "connectors pack 4", "winder 13 cm pack 4",
)  # fmt: skip
FAR = 40  # more Tabs than that nobody presses


def opened(browser: "Browser", served: Served) -> "Page":
    """The bench as it stands after the starter was clicked."""
    page = browser.new_context(viewport={"width": 1200, "height": 900}).new_page()
    page.goto(served.address(f"/enter?token={served.door.new_token()}"))
    page.wait_for_url(served.address("/"))
    return page


def at(page: "Page", heading: str) -> None:
    page.get_by_role("heading", name=heading).first.wait_for()


def plan_a_match(page: "Page", hands: Hands, poles: str, hooklengths: str) -> None:
    """A match of tomorrow with two wants, to its plan."""
    at(page, "A new match")
    hands.fill("What it is called", MATCH)
    hands.fill("Day", "tomorrow")
    hands.choose("Recipe", "Canal pole, shot")
    hands.fill("How many", poles)
    hands.press("Another")
    expect(page.locator("#want-2-recipe")).to_be_focused()  # so that keys go on from there
    hands.choose("Recipe", "Fine hooklength")
    hands.fill("How many", hooklengths)
    hands.press("Save the match")
    at(page, "To buy")
    assert "tomorrow" in page.locator("main").inner_text()


def tie_and_print(page: "Page", hands: Hands) -> None:
    hands.press("Tie all")
    at(page, f"Tied for {MATCH}")
    with page.expect_download() as download:
        hands.press("Print their labels")
    assert download.value.path().read_bytes().startswith(b"%PDF")
    hands.press("Back to the match")
    at(page, "To buy")


@BY
def test_the_evening_in_the_demo_box(
    browser: "Browser", tmp_path: Path, by: type[Mouse] | type[Keys]
) -> None:
    assert main(["demo", "--into", str(tmp_path / "demo")]) == 0
    with serving(tmp_path / "demo" / "box") as served:
        page = opened(browser, served)
        hands: Hands = by(page)
        hands.press("A new match")
        at(page, "A new match")  # begun with what the last one wanted
        hands.fill("What it is called", MATCH)
        hands.fill("Day", "tomorrow")
        hands.press("Save the match")
        at(page, "To buy")
        hands.press("What to buy")
        at(page, "To buy for")
        left = page.get_by_role("button", name="Bought").count()
        assert left
        for n in range(left, 0, -1):
            hands.press("Bought")
            expect(page.get_by_role("button", name="Bought")).to_have_count(n - 1)
        hands.press("Back to the plan")
        at(page, "To buy")
        tie_and_print(page, hands)
        hands.press("What to pack")
        at(page, MATCH)
        taken = [rig.code for rig in rigs.listed(served.desk) if rig.state == "ready"][:2]
        hands.tick(taken[0])
        expect(page.locator("#kept")).to_have_text("✓ Kept as you tick.")
        hands.press("Keep the ticks")
        page.locator(".done").wait_for()
        hands.press("Back to the plan")
        at(page, "To buy")
        for name, kind in (("Page for the phone", ".html"), ("Card for the pocket", ".pdf")):
            with page.expect_download() as download:
                hands.press(name)
            assert download.value.suggested_filename.endswith(kind)
        hands.press("Bench")
        page.get_by_text("All that it wants is ready.").wait_for()
        assert bag.ticked(served.desk, "winter-league-1") == {f"rig {taken[0]}"}
        assert care.audit(served.desk).in_order
        assert hands.furthest <= FAR
        print(json.dumps({"by": by.__name__, "strokes": hands.strokes, "tabs": hands.furthest}))
        page.context.close()


@BY
def test_the_evening_from_an_empty_box(
    browser: "Browser", tmp_path: Path, by: type[Mouse] | type[Keys]
) -> None:
    with serving(tmp_path / "box") as served:
        page = opened(browser, served)
        hands: Hands = by(page)
        hands.press("Put the first tackle in")
        page.wait_for_url("**/stock#add")
        for n, words in enumerate(BOUGHT, 1):
            hands.fill("What it is", words)
            hands.press("Put it in")
            added = page.get_by_text("It is in the box.")
            asked = page.locator(".asked")
            added.or_(asked).first.wait_for()
            if asked.count():
                hands.tick(asked.locator("label").first.inner_text().strip())
                hands.press("Put it in")
            added.wait_for()
            if n < len(BOUGHT):
                hands.press("Put the next one in")
                expect(page.locator("#words")).to_be_focused()
        hands.press("Matches")
        at(page, "Matches")
        hands.press("Venues and their rules")
        at(page, "Venues")
        hands.press("A new venue")
        at(page, "A new venue")
        hands.fill("What it is called", "The old canal")
        hands.choose("Water", "canal")
        hands.press("Save the venue")
        page.get_by_text("Saved.").wait_for()
        hands.press("Matches")
        at(page, "Matches")
        hands.press("A new match")
        plan_a_match(page, hands, "1", "4")
        tie_and_print(page, hands)
        ready = [rig for rig in rigs.listed(served.desk) if rig.state == "ready"]
        assert len(ready) == 1
        assert all(rig.labelled_on for rig in ready)
        assert care.audit(served.desk).in_order
        assert hands.furthest <= FAR
        print(json.dumps({"by": by.__name__, "strokes": hands.strokes, "tabs": hands.furthest}))
        page.context.close()
