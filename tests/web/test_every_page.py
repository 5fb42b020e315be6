"""Every page, in a real browser: nothing axe finds, no sideways scrolling, keys alone, no scripts."""

from datetime import timedelta
from typing import TYPE_CHECKING

import pytest

from tacklebox.cli.demo import MATCH, STOCK, VENUE
from tacklebox.desk import adding, reels, rigs, stock
from tests.web.conftest import Served

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

PAGES = (
    "/",
    "/stock",
    "/stock?words=nothing-of-the-kind",
    "/stock/3",
    "/recipes",
    "/recipes/pole-canal-shot",
    "/recipes/pole-canal-shot/fall",
    "/rigs",
    "/reels",
    "/matches",
    "/matches/sunday",
    "/matches/_new",
    "/matches/sunday/edit",
    "/matches/played/debrief",
    "/venues",
    "/venues/old-canal",
    "/care",
    "/care?done=audit",
    "/no-such-page",
)


@pytest.fixture
def full(served: Served) -> Served:
    """With the demo's tackle in the box, and a match for which rigs are wanted."""
    adding.import_csv(served.desk, STOCK)
    reels.add(served.desk, ["feeder reel", "float reel"])
    reels.load(served.desk, "feeder reel", "nylon 0.22 mm 6 lb", "100 m", already=True)
    soon = served.desk.today() + timedelta(days=3)
    for name, text in (
        ("venues/old-canal.toml", VENUE),
        ("matches/sunday.toml", MATCH.format(today=soon)),
        ("matches/played.toml", MATCH.format(today=served.desk.today()).replace("Club", "Last")),
    ):
        file = served.desk.box.folder / name
        file.parent.mkdir(exist_ok=True)
        file.write_text(text, encoding="utf-8")
    return served


def inside(browser: "Browser", served: Served, **options: object) -> "Page":
    page = browser.new_context(**options).new_page()  # type: ignore[arg-type]
    page.goto(served.address(f"/enter?token={served.door.new_token()}"))
    page.wait_for_url(served.address("/"))
    return page


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing(browser: "Browser", full: Served, scheme: str) -> None:
    from axe_playwright_python.sync_playwright import Axe

    page = inside(browser, full, color_scheme=scheme, bypass_csp=True)
    for path in PAGES:
        page.goto(full.address(path))
        found = Axe().run(page, options={"runOnly": ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa"]})
        assert found.violations_count == 0, (path, found.generate_report())
    page.context.close()


@pytest.mark.parametrize("width", [360, 800, 1600])
def test_nothing_is_cut_off_or_too_small(browser: "Browser", full: Served, width: int) -> None:
    """No page scrolls sideways; what is tapped is 44 px, what is read 16 px at least."""
    page = inside(browser, full, viewport={"width": width, "height": 800})
    for path in PAGES:
        page.goto(full.address(path))
        assert page.evaluate("document.documentElement.scrollWidth") <= width, path
        small = page.evaluate(
            """() => [...document.querySelectorAll('button, .button, input:not([type=hidden]), select,'
                 + ' summary, nav a, td a, th a, li > a')]
               .filter(e => e.offsetParent && !e.closest('label')).map(e => [e.outerHTML.slice(0, 60),
                 e.getBoundingClientRect().height]).filter(([, h]) => h < 43.9)"""
        )
        assert small == [], path
        letters = page.evaluate(
            """() => Math.min(...[...document.querySelectorAll('main *')].filter(e =>
                 e.offsetParent && e.childNodes.length && [...e.childNodes].some(n => n.nodeType === 3
                 && n.data.trim())).map(e => parseFloat(getComputedStyle(e).fontSize)))"""
        )
        assert letters >= 16, path
    page.context.close()


def test_by_keys_alone(page: "Page", served: Served) -> None:
    """From the bench to an item that is in the box, without a mouse."""
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.textContent") == "To the page"
    for _ in range(30):
        page.keyboard.press("Tab")
        if "first tackle" in str(page.evaluate("document.activeElement.textContent")):
            break
    page.keyboard.press("Enter")
    page.wait_for_url("**/stock#add")
    page.get_by_label("What it is").focus()
    page.keyboard.type("hook 18 barbless spade pack 10")
    page.keyboard.press("Enter")
    page.get_by_role("heading", name="hook 18 barbless spade").wait_for()
    assert len(stock.listed(served.desk).items) == 1


def test_without_scripts_all_is_read_and_written(browser: "Browser", full: Served) -> None:
    page = inside(browser, full, java_script_enabled=False)
    page.goto(full.address("/stock"))
    page.get_by_label("Find").fill("hook 20")
    page.get_by_role("button", name="Find").click()
    assert page.locator("tbody tr").count() == 1
    page.get_by_role("link", name="hook 20").click()
    page.get_by_role("button", name="Bought").click()
    assert "Bought." in page.locator("main").inner_text()
    page.context.close()


def test_a_match_is_planned_tied_and_packed(browser: "Browser", full: Served) -> None:
    page = inside(browser, full)
    page.get_by_role("link", name="Matches").click()
    page.get_by_role("link", name="Club match").click()
    assert "3 days left" in page.locator("main").inner_text()
    page.get_by_role("button", name="Tie all").click()
    page.get_by_role("button", name="Print their labels").wait_for()
    tied = page.locator("section .code").all_inner_texts()
    assert [rig.code for rig in rigs.listed(full.desk)] == " ".join(tied).split()
    page.get_by_role("link", name="Back to the match").click()
    assert page.get_by_role("button", name="Tie all").count() == 0
    for name in ("Pack list", "Shopping list"):
        with page.expect_download() as download:
            page.get_by_role("link", name=name).click()
        assert download.value.path().read_bytes().startswith(b"%PDF")
    page.context.close()
