"""How a rig falls, in the browser: figures and still pictures, and played with scripts."""

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from tacklebox.desk import measuring, settling
from tacklebox.desk.playing import EVERY_S, played
from tacklebox.web.entry import FIELD
from tests.long.length import WHOLE
from tests.rigs.boxes import make_box
from tests.web.conftest import Served, form_token

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
        answer = client.get(f"{FALL}.json", params={"band": "1"}).json()
    fell = settling.settle(served.desk, asked).patterns[0]
    first = answer["patterns"][0]
    second = round(3 / EVERY_S)
    assert answer["unproven"].endswith("water")
    assert fell.bait_at[3].deep_cm.tight is not None
    assert abs(first["stills"][second]["z_mm"][-1] - 10 * fell.bait_at[3].deep_cm.tight) <= 0.5
    assert len(first["shot"]) == 3
    assert played(served.desk, asked, band=False).patterns[0].slack == ()


@pytest.mark.skipif(not WHOLE, reason="a long run: TACKLEBOX_LONG=1")
def test_a_bite_and_the_tow_are_told_where_they_are_asked_for(served: Served) -> None:
    """On the page as the desk answers them; the bite's curve with the stills."""
    make_box(served.desk.box.folder).engine.dispose()
    asked = settling.FallQuestion("pole-canal-shot")
    windy = replace(asked, fishing=settling.Fishing(wind="2 m/s"))
    with served.client() as client:
        bitten = client.get(FALL, params={"bite_at": "60 cm"}).text
        stills = client.get(f"{FALL}.json", params={"bite_at": "60 cm"}).json()
        towed = client.get(FALL, params={"wind": "2 m/s"}).text
        wrong = client.get(f"{FALL}.json", params={"bite_at": "soon"})
    held = settling.bite(served.desk, asked, "60 cm")
    assert f"shows {held.seen_after_s.tight:.1f} to" in bitten
    assert [(at["seconds"], at["tip_mm"]) for at in stills["bite"]] == [
        (at.seconds, round(at.shows_mm, 1)) for at in held.tip
    ]
    goes_on = settling.tow(served.desk, windy).per_minute_m
    assert f"then the bait goes on by {goes_on.tight:.1f} to" in towed
    assert wrong.status_code == 400


def test_a_feeders_hooklength_swings_down_on_its_page(served: Served) -> None:
    make_box(served.desk.box.folder).engine.dispose()
    asked = settling.FallQuestion("feeder-window")
    with served.client() as client:
        text = client.get("/recipes/feeder-window/fall", params={"feeder_in": "3 m"}).text
    after = settling.swing(served.desk, asked, "3 m").bait_after_s.tight
    assert f"lies {after:.0f}" in text
    assert 'id="bite_at"' not in text


def test_a_timing_is_kept_from_the_page(served: Served) -> None:
    make_box(served.desk.box.folder).engine.dispose()
    with served.client() as client:
        sent = {FIELD: form_token(client.get(FALL).text), "bait": "maggot", "reading": "1 m 24 s"}
        kept = client.post(FALL, data=sent)
        assert "Your timing is kept" in kept.text
        assert "maggot 4.17 cm/s (own measurement)" in kept.text
        sent |= {FIELD: form_token(kept.text), "reading": "soon"}
        wrong = client.post(FALL, data=sent)
        assert wrong.status_code == 400
        assert "no timing over a depth" in wrong.text
    assert len(measuring.readings_of(served.desk, "maggot").readings) == 1


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
    assert "dead depth" in page.locator("#answer").inner_text()
    page.locator("#bite_at").fill("60 cm")
    page.locator("#fished").fill("over 2 in")
    page.locator("#played").click(position={"x": 1, "y": 1})
    page.locator("#answer", has_text="2 in over depth").wait_for()
    assert page.locator("#tip-shown text", has_text="bite").count() == 1
    assert "bite_at=60+cm" in page.url
    page.locator("#bait").fill("bread")
    page.locator("#bait").blur()
    page.locator("#fault", has_text="how fast").wait_for()
    assert page.locator("#answer").is_hidden()


def test_the_script_is_small() -> None:
    assert (STATIC / "fall.js").stat().st_size <= 10_000
