"""How a rig falls, in the browser: figures and still pictures, and played with scripts."""

from pathlib import Path
from typing import TYPE_CHECKING

from tacklebox.desk import settling
from tacklebox.desk.playing import EVERY_S, played
from tests.rigs.boxes import make_box
from tests.web.conftest import Served

if TYPE_CHECKING:
    from playwright.sync_api import Page

FALL = "/recipes/pole-canal-shot/fall"
STATIC = Path(settling.__file__).parents[1] / "web" / "static"


def test_figures_and_pictures_without_scripts(served: Served) -> None:
    make_box(served.desk.box.folder).engine.dispose()
    by = (
        settling.settle(served.desk, settling.FallQuestion("pole-canal-shot"))
        .patterns[0]
        .settled_by_s
    )
    with served.client() as client:
        client.timeout = 60  # a fall is much to compute on a busy machine
        text = client.get(FALL).text
        assert f'<span id="by">{by}</span> s, else strike' in text
        assert "never compared with a rig in water" in text
        drawn = client.get(f"{FALL}.svg", params={"beside": "strung out"})
        assert drawn.headers["content-type"].startswith("image/svg+xml")
        assert "strung out" in drawn.text
        assert "Beside it: strung out" in client.get(FALL, params={"beside": "strung out"}).text
        wrong = client.get(FALL, params={"bait": "bread"})
        assert wrong.status_code == 400
        assert "how fast" in wrong.text
        assert 'value="bread"' in wrong.text
        assert client.get(f"{FALL}.json", params={"bait": "bread"}).status_code == 400


def test_stills_are_those_of_the_model(served: Served) -> None:
    make_box(served.desk.box.folder).engine.dispose()
    asked = settling.FallQuestion("pole-canal-shot")
    with served.client() as client:
        client.timeout = 60  # a fall is much to compute on a busy machine
        answer = client.get(f"{FALL}.json", params={"band": "1"}).json()
    fell = settling.settle(served.desk, asked).patterns[0]
    first = answer["patterns"][0]
    second = round(3 / EVERY_S)
    assert answer["unproven"].endswith("water")
    assert fell.bait_at[3].deep_cm.tight is not None
    assert abs(first["stills"][second]["z_mm"][-1] - 10 * fell.bait_at[3].deep_cm.tight) <= 0.5
    assert len(first["shot"]) == 3
    assert played(served.desk, asked, band=False).patterns[0].slack == ()


def test_it_is_played_with_a_slider(page: "Page", served: Served) -> None:
    make_box(served.desk.box.folder).engine.dispose()
    page.goto(served.address(f"{FALL}?beside=strung+out"))
    page.locator("#section svg").wait_for()
    page.locator("#section [stroke-dasharray]").nth(1).wait_for(state="attached")
    page.locator("#second").fill("20")
    assert page.locator("#now").inner_text() == "5.0"
    assert (
        page.locator("#section circle").count() == 4 + 5
    )  # three places of shot and the bait; four
    page.get_by_role("button", name="Play").click()
    page.get_by_role("button", name="Stop").click()
    assert float(page.locator("#now").inner_text()) >= 5.0


def test_the_script_is_small() -> None:
    assert (STATIC / "fall.js").stat().st_size <= 10_000
