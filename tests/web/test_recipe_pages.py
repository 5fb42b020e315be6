"""A recipe in a real browser: choices move drawing and verdicts; tied and labelled in three clicks."""

from typing import TYPE_CHECKING

from tacklebox.cli.demo import STOCK
from tacklebox.desk import adding, rigs
from tests.web.conftest import Served

if TYPE_CHECKING:
    from playwright.sync_api import Page


def test_choices_move_the_drawing_and_the_verdicts(page: "Page", served: Served) -> None:
    adding.import_csv(served.desk, STOCK)
    page.goto(served.address("/recipes"))
    page.get_by_role("link", name="Canal pole, shot").click()
    assert "Hooklength breaks first" in page.locator("#answer").inner_text()
    page.wait_for_load_state()  # the script that keeps up is there
    page.get_by_text("Hooklength breaks first").click()
    page.locator("img[src*='strengths']").wait_for()  # its picture, now that it is open
    page.get_by_label("Depth", exact=True).fill("1.5 m")
    page.locator("#answer svg text", has_text="150 cm").wait_for()
    page.locator("img[src*='strengths'][src*='1.5']").wait_for()  # and it stays open
    page.get_by_role("slider", name="Depth, slide").press("ArrowRight")
    page.locator("#answer svg text", has_text="155 cm").wait_for()
    assert page.get_by_label("Depth", exact=True).input_value() == "155 cm"
    page.get_by_label("With a hooklength").check()
    page.get_by_label("Float", exact=True).select_option("4×14")
    page.locator("#answer svg text", has_text="4×14").wait_for()
    assert page.get_by_label("With a hooklength").is_checked()  # what he ticked stays
    page.get_by_role("link", name="How it falls").click()
    page.locator("#played").wait_for()
    page.go_back()
    page.locator("#answer svg text", has_text="155 cm").wait_for()  # as his choices stand
    page.get_by_label("Depth", exact=True).fill("deep")
    fault = page.locator(".field.wrong", has=page.get_by_label("Depth", exact=True)).locator(
        ".fault"
    )
    fault.wait_for()  # beside its field
    assert "deep" in fault.inner_text()
    page.get_by_label("Depth", exact=True).fill("1.5 m")
    fault.wait_for(state="detached")
    page.locator("#answer svg text", has_text="150 cm").wait_for()


def test_tied_and_labelled_in_three_clicks(page: "Page", served: Served) -> None:
    adding.import_csv(served.desk, STOCK)
    page.goto(served.address("/recipes/pole-canal-shot?count=2"))
    page.get_by_role("button", name="Tie 2").click()
    codes = page.locator(".done .code").inner_text().split()
    assert codes == [rig.code for rig in rigs.listed(served.desk)]
    with page.expect_download() as download:
        page.get_by_role("button", name="Print their labels").click()
    assert download.value.suggested_filename == f"labels-{codes[0]}.pdf"
    assert all(rig.labelled_on for rig in rigs.listed(served.desk))


def test_what_fails_is_tied_only_for_a_reason(page: "Page", served: Served) -> None:
    """Strong hooklength line on a weaker rig line: the reason is kept with the rig."""
    for words in (
        "nylon 0.16 mm 5.5 lb 50 m", "nylon 0.12 mm 2 lb 50 m", "hook 20 barbless spade pack 10",
        "pole 4×12", "shot No 8 tin pack 20", "shot No 10 tin pack 20", "winder 13 cm 18 mm",
        "elastic 4 6 m", "connector pack 4", "nylon 0.08 mm 2.5 lb 50 m",
    ):  # fmt: skip
        adding.add(served.desk, words, as_printed=True)
    page.goto(served.address("/recipes/pole-canal-shot"))
    assert "FAILS" in page.locator("#answer").inner_text()
    page.get_by_role("button", name="Tie 1").click()
    assert rigs.listed(served.desk) == ()
    page.get_by_label("Tie it all the same, because").fill("only for bleak")
    page.get_by_role("button", name="Tie 1").click()
    page.locator(".done").wait_for()
    assert [rig.tied_because for rig in rigs.listed(served.desk)] == ["only for bleak"]


def test_the_water_that_it_is_for_may_ask_that_weights_come_free(served: Served) -> None:
    adding.add(served.desk, "nylon 0.20 mm 3.6 kg 100 m")
    file = served.desk.box.folder / "venues" / "strict.toml"
    file.parent.mkdir(exist_ok=True)
    rules = "[rules]\nfeeders_run_free = true\n"
    file.write_text(f'name = "Strict pond"\nwater = "still water"\n{rules}', encoding="utf-8")
    with served.client() as client:
        anywhere = client.get("/recipes/feeder-fixed-paternoster").text
        there = client.get("/recipes/feeder-fixed-paternoster?venue=strict").text
    assert '<option value="strict">Strict pond</option>' in anywhere
    assert '<option value="strict" selected>Strict pond</option>' in there
    assert '<input type="hidden" name="venue" value="strict">' in there
    assert "✗ FAILS" in there
    assert "✗ FAILS" not in anywhere


def test_a_verdict_opens_to_its_picture_with_a_table_behind_it(served: Served) -> None:
    adding.import_csv(served.desk, STOCK)
    with served.client() as client:
        text = client.get("/recipes/waggler-made-up?choose-depth=1.8m").text
        for what in ("strengths", "breaks", "tip"):
            address = f"/recipes/waggler-made-up/verdict/{what}.svg?choose-depth=1.8m"
            assert f'src="{address}"' in text
            drawn = client.get(address)
            assert (drawn.status_code, drawn.headers["content-type"]) == (200, "image/svg+xml")
        assert "The strengths as a table" in text
        assert "6. line below the float" in text
        assert client.get("/recipes/waggler-made-up/verdict/strength.svg").status_code == 400
        feeder = client.get("/recipes/feeder-running-paternoster").text
        assert "verdict/breaks.svg" in feeder
        assert "verdict/tip.svg" not in feeder
