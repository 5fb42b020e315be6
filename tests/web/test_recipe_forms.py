"""A recipe made on its form: rows by buttons, faults beside their fields, nothing typed lost, as text too."""

import re
from html import unescape
from typing import TYPE_CHECKING

from tacklebox.cli.demo import STOCK
from tacklebox.desk import adding, recipes, rigs
from tacklebox.web.app import HERE
from tacklebox.web.showing import _drawn
from tests.web.conftest import Served

if TYPE_CHECKING:
    from playwright.sync_api import Page

EDIT = "/recipes/pole-canal-shot/edit"
FIELD = re.compile(r'<input(?: type="hidden")?(?: id="[^"]*")? name="([^"]+)" value="([^"]*)"')
PICKED = re.compile(r'<select [^>]*name="([^"]+)".*?</select>', re.DOTALL)


def filled(text: str) -> dict[str, str]:
    """What the form of a page sends when nothing is touched."""
    sent = {name: unescape(value) for name, value in FIELD.findall(text)}
    for select in PICKED.finditer(text):
        chosen = re.search(r'<option(?: value="([^"]*)")? selected>([^<]*)', select[0])
        sent[select[1]] = unescape(chosen[1] or "" if chosen and chosen[1] is not None else "")
    ticks = re.findall(r'type="checkbox"[^>]* name="([^"]+)" value="1" checked', text)
    return sent | dict.fromkeys(ticks, "1")


def test_rows_change_by_buttons_and_nothing_typed_is_lost(served: Served) -> None:
    with served.client() as client:
        page = client.get(EDIT)
        sent = filled(page.text)
        assert sent["part 3.top"] == "double overhand loop"
        assert sent["part 1.in_place"] == "1"
        assert "as its file" not in page.text
        typed = sent | {"part 3.diameter": "0.11 <mm>", "move": "up shot 2"}
        moved = filled(client.post("/recipes/_new", data=typed).text)
        assert (moved["shot 1.place"], moved["shot 2.place"]) == ("droppers", "bulk")
        assert (moved["shot 1.was"], moved["part 3.diameter"]) == ("1", "0.11 <mm>")
        moved = filled(client.post("/recipes/_new", data=sent | {"move": "add branch"}).text)
        assert moved["branch 1.part 1.is"] == "feeder"
        gone = filled(client.post("/recipes/_new", data=sent | {"move": "out shot 1"}).text)
        assert "shot 2.place" not in gone
        back = filled(client.post("/recipes/_new", data=gone | {"back": "shot 1"}).text)
        assert {k: v for k, v in back.items() if k in sent} == {
            k: v for k, v in sent.items() if k not in ("move",)
        } | {k: back[k] for k in ("once", "form_token")}
        swivel = client.post("/recipes/_new", data=sent | {"part 2.is": "line", "look": "1"}).text
        assert 'name="part 2.bottom"' in swivel
    assert not list(served.desk.box.recipes.glob("*.toml"))


def test_a_fault_stands_beside_its_field_and_is_put_right(served: Served) -> None:
    with served.client() as client:
        sent = filled(client.get(EDIT).text) | {"save": "1", "name": "Far bank"}
        refused = client.post("/recipes/_new", data=sent | {"part 3.diameter": "thin"})
        assert refused.status_code == 400
        beside = refused.text.partition('id="part-3-diameter-fault">')[2].partition("<")[0]
        assert beside.startswith("✗ &#34;thin&#34; is no diameter.")
        assert filled(refused.text)["part 3.diameter"] == "thin"
        made = client.post("/recipes/_new", data=sent)
        assert made.url.path == "/recipes/far-bank"
        assert "kept as a recipe of your own" in made.text
        mine = filled(client.get("/recipes/far-bank/edit").text) | {"save": "1", "for": "bleak"}
        client.post("/recipes/far-bank/edit", data=mine)
        stale = client.post("/recipes/far-bank/edit", data=mine | {"for": "gudgeon"})
        assert "changed elsewhere" in stale.text
        assert filled(stale.text)["for"] == "gudgeon"
    assert recipes.show(served.desk, "far-bank").purpose == "bleak"


def test_the_text_shows_its_faults_at_their_lines(served: Served) -> None:
    address = "/recipes/pole-canal-shot/text"
    with served.client() as client:
        page = client.get(address)
        text = unescape(page.text.partition("<textarea")[2].partition(">\n")[2].partition("<")[0])
        assert text.startswith("# A light rig")
        sent = filled(page.text) | {"text": text.replace('"0.10 to 0.12 mm"', '"thin"')}
        refused = client.post(address, data=sent)
        number = text[: text.index("diameter")].count("\n") + 1
        assert f"{number}&ensp;diameter" in refused.text
        made = client.post(address, data=sent | {"text": text})
        assert made.url.path == "/recipes/canal-pole-shot-my-own"
        file = served.desk.box.recipes / "canal-pole-shot-my-own.toml"
        assert file.read_text(encoding="utf-8") == text
        file.write_text(text.replace("[winder]", "[winder"), encoding="utf-8")
        assert "Put canal-pole-shot-my-own right" in client.get("/recipes").text
        mended = client.get("/recipes/canal-pole-shot-my-own/edit")
        assert "What is to put right" in mended.text
        address = "/recipes/canal-pole-shot-my-own/text"
        sent = filled(mended.text) | {"text": text}
        file.unlink()  # by another program, while he mends it
        kept = client.post(address, data=sent)
        assert "there is no recipe" in kept.text
        assert "# A light rig" in kept.text
        client.post(address, data=filled(kept.text) | {"text": text})
        assert file.read_text(encoding="utf-8") == text
    assert recipes.listed(served.desk).faulty == ()


def test_a_recipe_made_in_the_editor_is_checked_and_tied(page: "Page", served: Served) -> None:
    adding.import_csv(served.desk, STOCK)
    page.goto(served.address("/recipes"))
    page.get_by_role("link", name="Canal pole, shot").click()
    page.get_by_role("link", name="Make it your own").click()
    page.get_by_label("Name on the label").fill("Far bank")
    page.locator("#part-3 summary").click()
    page.get_by_label("Diameter").fill("thin")
    page.locator("#part-3-diameter-fault", has_text="is no diameter").wait_for()
    page.get_by_label("Diameter").fill("0.12 mm")
    page.locator("#answer h2", has_text="Sound").wait_for()
    page.evaluate(
        "window.asked = []; const wait = setTimeout;"
        "window.setTimeout = (f, ms, ...more) => (asked.push(ms), wait(f, ms, ...more))"
    )
    page.get_by_role("button", name="Move droppers up").click()
    page.locator("#shot-1 strong", has_text="droppers").wait_for()
    assert 2000 not in page.evaluate("asked")  # nothing is sent that the page waits for
    assert page.evaluate("document.activeElement.closest('li').id") == "shot-1"
    page.locator("#choose-1 summary").drag_to(page.locator("#choose-2 summary"))
    page.locator("#choose-2 strong", has_text="depth").wait_for()
    page.get_by_role("button", name="Save the recipe").first.click()
    page.get_by_role("heading", name="Far bank").wait_for()
    page.get_by_role("button", name="Tie 1").click()
    page.locator(".done").wait_for()
    (tied,) = rigs.listed(served.desk)
    assert tied.made.name == "Far bank"


def test_a_drawing_in_a_page_has_no_styles_and_its_words_are_escaped() -> None:
    drawn = str(
        _drawn('<?xml?><svg width="3" viewBox="0 0 3 3"><g style="fill: #fff"/></svg>', '"<x>')
    )
    assert drawn == (
        '<svg role="img" aria-label="&#34;&lt;x&gt;" viewBox="0 0 3 3"><g fill="#fff"/></svg>'
    )


def test_the_scripts_are_small() -> None:
    assert sum(file.stat().st_size for file in (HERE / "static").glob("*.js")) <= 20_000


def test_a_verdict_opens_to_its_picture_before_the_recipe_is_saved(served: Served) -> None:
    """Of what was looked at, also where it is no file yet; one that is forgotten says so."""
    with served.client() as client:
        page = client.get("/recipes/pole-canal-shot/edit").text
        drawn = [unescape(one) for one in re.findall(r'src="(/recipes/_form/verdict/[^"]*)"', page)]
        assert drawn
        for address in drawn:
            assert "<svg" in client.get(address).text
        gone = client.get("/recipes/_form/verdict/step.svg", params={"form": "none"})
    assert gone.status_code == 404
