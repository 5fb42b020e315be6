"""Stock by mouse and keys, in a real browser."""

from typing import TYPE_CHECKING

from tests.web.conftest import Served

if TYPE_CHECKING:
    from playwright.sync_api import Page


def put_in(page: "Page", served: Served, words: str, **more: str) -> None:
    page.goto(served.address("/stock"))
    page.get_by_label("What it is").fill(words)
    for label, text in more.items():
        page.get_by_label(label.replace("_", " ").capitalize()).fill(text)
    page.get_by_role("button", name="Put it in").click()


def test_an_item_is_put_in_bought_taken_and_undone(page: "Page", served: Served) -> None:
    put_in(page, served, "hook 18 barbless spade pack 10", Place="drawer 2", Minimum="20")
    page.get_by_role("heading", name="hook 18 barbless spade").wait_for()
    assert "10 short" in page.locator(".big").inner_text()
    page.get_by_label("Packets").fill("2")
    page.get_by_role("button", name="Bought").click()
    assert page.locator(".big").inner_text() == "30"
    page.locator("form[action$=take]").get_by_label("How much").fill("3")
    page.get_by_role("button", name="Take out").click()
    assert page.locator(".big").inner_text() == "27"
    page.goto(served.address("/"))
    page.get_by_role("button", name="Undo it").click()
    assert "now 30" in page.locator("main").inner_text()


def test_a_fault_stands_beside_its_field_and_nothing_typed_is_lost(
    page: "Page", served: Served
) -> None:
    put_in(page, served, "hook 99 pack 10", Place="drawer 2")
    field = page.get_by_label("What it is")
    assert field.input_value() == "hook 99 pack 10"
    assert field.get_attribute("aria-invalid") == "true"
    described = page.locator(f"#{field.get_attribute('aria-describedby')}")
    assert "hook size" in described.inner_text()
    assert page.get_by_label("Place").input_value() == "drawer 2"


def test_the_list_narrows_while_he_types(page: "Page", served: Served) -> None:
    put_in(page, served, "hook 18 barbless spade pack 10")
    put_in(page, served, "hook 20 barbless spade pack 10")
    page.goto(served.address("/stock"))
    assert page.locator("tbody tr").count() == 2
    page.get_by_label("Find").press_sequentially("20")
    page.locator("text=1 item").wait_for()
    assert page.locator("tbody th").all_inner_texts() == ["hook 20 barbless spade"]
    page.get_by_role("link", name="hook 20").click()
    page.get_by_role("heading", name="hook 20").wait_for()
    page.go_back()  # to the list as he narrowed it
    assert page.locator("tbody tr").count() == 1
