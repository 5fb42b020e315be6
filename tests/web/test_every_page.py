"""Every page, in a real browser: nothing axe finds, no sideways scrolling, keys alone, no scripts."""

import shutil
from collections.abc import Iterator
from datetime import timedelta
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from tacklebox.cli.demo import MATCH, STOCK, VENUE, WANTS
from tacklebox.desk import Desk, adding, match_forms, reels, rigs, stock, venue_forms
from tests.long.length import WHOLE
from tests.web.conftest import Served, enter, serving

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
    "/recipes/feeder-running-paternoster/edit",
    "/recipes/pole-canal-shot/text",
    "/rigs",
    "/rigs/add",
    "/wallet",
    "/reels",
    "/matches",
    "/matches/sunday?wait=1",
    "/matches/_new",
    "/matches/sunday/edit",
    "/matches/played/debrief",
    "/venues",
    "/season",
    "/phones",
    "/venues/the-old-canal",
    "/find?words=hook",
    "/labels?wait=1",
    "/labels?kind=all&paper=a4-65&skip=5&pick=spoiled&wait=1",
    "/labels/papers",
    "/matches/sunday/pack",
    "/matches/sunday/shopping",
    "/care",
    "/care?done=audit",
    "/no-such-page",
)


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A box with the demo's tackle, and a match for which rigs are wanted."""
    desk = Desk(tmp_path_factory.mktemp("made") / "box")
    adding.import_csv(desk, STOCK)
    reels.add(desk, ["feeder reel", "float reel"])
    reels.load(desk, "feeder reel", "nylon 0.22 mm 6 lb", "100 m", already=True)
    venue = venue_forms.write(desk, VENUE)
    wants = [match_forms.WantRow(*want) for want in WANTS]
    for name, day in (("Sunday", desk.today() + timedelta(days=3)), ("Played", desk.today())):
        kept = {**MATCH, "name": name, "date": day.isoformat(), "venue": venue}
        match_forms.write(desk, kept, wants)
    desk.close()
    return desk.box.folder


@pytest.fixture
def full(made: Path, tmp_path: Path) -> Iterator[Served]:
    """A copy of it, served."""
    with serving(Path(shutil.copytree(made, tmp_path / "box"))) as pages:
        yield pages


# What is tapped and lower than a fingertip.
TOO_LOW = """() => [...document.querySelectorAll('button, .button, input:not([type=hidden]), select,'
     + ' summary, nav a, td a, th a, li > a')]
   .filter(e => e.offsetParent && !e.closest('label')).map(e => [e.outerHTML.slice(0, 60),
     e.getBoundingClientRect().height]).filter(([, h]) => h < 43.9)"""
SMALLEST_LETTERS = """() => {
  const scale = e => {  // a drawing's letters are as large as it is drawn
    const drawn = e.ownerSVGElement && !e.closest('.sheet') && e.getScreenCTM();
    return drawn ? Math.hypot(drawn.a, drawn.b) : 1;
  };
  return Math.min(...[...document.querySelectorAll('main *')].filter(e =>
     (e.offsetParent || e.ownerSVGElement && e.localName === 'text') && [...e.childNodes].some(n =>
     n.nodeType === 3 && n.data.trim())).map(e => scale(e) * parseFloat(getComputedStyle(e).fontSize)));
}"""
# Names of more than one thing, and labels of nothing that is filled in.
ASTRAY = """() => {
  const ids = [...document.querySelectorAll('[id]')].map(e => e.id);
  const fields = [...document.querySelectorAll('label[for]')].filter(e => !e.control);
  return [...ids.filter((id, at) => ids.indexOf(id) !== at), ...fields.map(e => e.htmlFor)];
}"""
# What is drawn anew when a phone is turned round is drawn by then.
TURNED = "new Promise(drawn => requestAnimationFrame(() => requestAnimationFrame(drawn)))"
LIGHT = {"runOnly": ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa"], "resultTypes": ["violations"]}
# In the dark nothing but colours is other.
DARK = {
    "runOnly": {"type": "rule", "values": ["color-contrast", "link-in-text-block"]},
    "resultTypes": ["violations"],
}
SCHEMES = {"light": LIGHT, "dark": DARK}
WIDTHS = (360, 800, 1600) if WHOLE else (360, 1600)
SHORT_FORM = (("light",), (), ("light",), ("dark",), ())  # axe on three pages of five


# Shows the page of an address in the document that is there, where axe is warm by then.
SHOW = """async (where) => {
  const text = await (await fetch(where)).text();
  history.replaceState(null, "", where);
  document.open();
  document.write(text);
  document.close();
  if (document.readyState !== "complete")
    await new Promise((done) => window.addEventListener("load", done, { once: true }));
  for (const style of document.querySelectorAll("link[rel=stylesheet]"))
    if (!style.sheet) await new Promise((done) => style.addEventListener("load", done));
}"""


def test_every_page_is_for_everyone(browser: "Browser", full: Served) -> None:
    """axe finds nothing in either colour scheme; no page scrolls sideways; what is tapped is 44 px,
    what is read 16 px at least."""
    from axe_playwright_python.sync_playwright import Axe

    axe = Axe()
    page = enter(browser.new_context(bypass_csp=True).new_page(), full)
    page.evaluate(axe.axe_script)
    for number, path in enumerate(PAGES):
        page.evaluate(SHOW, path)
        assert page.evaluate(ASTRAY) == [], path
        for width in WIDTHS:
            page.set_viewport_size({"width": width, "height": 800})
            page.evaluate(TURNED)
            assert page.evaluate("document.documentElement.scrollWidth") <= width, (path, width)
            assert page.evaluate(TOO_LOW) == [], (path, width)
            assert page.evaluate(SMALLEST_LETTERS) >= 16, (path, width)
        for scheme in SCHEMES if WHOLE else SHORT_FORM[number % len(SHORT_FORM)]:
            options = SCHEMES[scheme]
            page.emulate_media(color_scheme=scheme)  # type: ignore[arg-type]
            found = page.evaluate("options => axe.run(options).then(f => f.violations)", options)
            assert found == [], (path, scheme)
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
    page = enter(browser.new_context(java_script_enabled=False).new_page(), full)
    page.goto(full.address("/stock"))
    page.get_by_label("Find").fill("hook 20")
    page.get_by_role("button", name="Find").click()
    assert page.locator("tbody tr").count() == 1
    page.get_by_role("link", name="hook 20").click()
    page.get_by_role("button", name="Bought").click()
    assert "Bought." in page.locator("main").inner_text()
    page.context.close()


def test_a_match_is_planned_tied_and_packed(tab: "Page", full: Served) -> None:
    page = enter(tab, full)
    page.get_by_role("link", name="Matches").click()
    page.get_by_role("link", name="Sunday").click()
    page.locator("main", has_text="3 days left").wait_for()  # the plan comes when it is made
    page.get_by_role("button", name="Tie all").click()
    page.get_by_role("button", name="Print their labels").wait_for()
    tied = page.locator("section .code").all_inner_texts()
    shown = " ".join(tied).split()
    assert {rig.code for rig in rigs.listed(full.desk)} <= set(shown)
    assert len(shown) == len(set(shown))
    page.get_by_role("link", name="Back to the match").click()
    assert page.get_by_role("button", name="Tie all").count() == 0
    for name in ("Pack list", "Shopping list"):
        with page.expect_download() as download:
            page.get_by_role("link", name=name).click()
        assert download.value.path().read_bytes().startswith(b"%PDF")
