"""What is not sure is asked in the form, what was assumed is told, a wrong item is put right."""

import httpx
import pytest

from tacklebox.desk import adding, stock
from tacklebox.web.entry import FIELD
from tests.web.conftest import Served, form_token


def sent(client: httpx.Client, path: str, **fields: str) -> httpx.Response:
    """A form sent as the page of it would."""
    return client.post(path, data={FIELD: form_token(client.get("/stock").text), **fields})


def test_a_question_has_its_readings_and_nothing_typed_is_lost(served: Served) -> None:
    with served.client() as client:
        asked = sent(client, "/stock", words="3AA waggler", place="float tube")
        assert 'type="radio" name="answer0" value="waggler 3AAA straight"' in asked.text
        assert 'value="3AA waggler"' in asked.text
        assert 'value="float tube"' in asked.text
        assert stock.listed(served.desk).items == ()
        said = {"words": "3AA waggler", "asked": "3AA waggler", "place": "float tube"}
        taken = sent(client, "/stock", **said, answer0="waggler 3AB straight")
        assert "It is in the box." in taken.text
        (row,) = stock.listed(served.desk).items
        assert (row.words, row.place) == ("waggler 3AB straight", "float tube")
        again = sent(client, "/stock", **said, answer0="waggler 3AB straight")
        assert 'name="answer0" value="waggler 3AB straight"' in again.text
        assert 'type="radio" name="answer1" value="same"' in again.text
        more = sent(client, "/stock", **said, answer0="waggler 3AB straight", answer1="same")
        assert "there is more of it now" in more.text


def test_other_words_are_asked_anew(served: Served) -> None:
    with served.client() as client:
        said = {"words": "2AA waggler", "asked": "3AA waggler", "answer0": "waggler 3AB straight"}
        assert 'value="waggler 2AAA straight"' in sent(client, "/stock", **said).text


def test_what_was_assumed_is_told_on_the_item_s_page(served: Served) -> None:
    with served.client() as client:
        assert "nylon; a spool of 100 m." in sent(client, "/stock", words="0.14 line").text
        assert "20 mm wide." in sent(client, "/stock", words="winder 18 cm").text
        tub = sent(client, "/stock", words="no 8 shot")
        assert "a tub that is not counted" in tub.text
        assert "taken as usual" not in client.get("/stock/1?assumed=figures,;words").text


@pytest.mark.parametrize("level", ["low", "out", "plenty"])
def test_a_level_is_set_by_a_button(served: Served, level: str) -> None:
    adding.add(served.desk, "no 8 shot")
    with served.client() as client:
        page = sent(client, "/stock/1/level", level=level)
        assert f'<dd class="big">{level}</dd>' in page.text
        assert (level in client.get("/").text) is (level != "plenty")
        assert "is no level" in sent(client, "/stock/1/level", level="half").text
        adding.add(served.desk, "swivel size 12")
        assert "count it no longer" in sent(client, "/stock/2/level", level=level).text
        page = sent(client, "/stock/2/level", level=level, not_counted="1")
        assert f'<dd class="big">{level}</dd>' in page.text


def test_an_item_is_put_right_asked_about_and_retired(served: Served) -> None:
    adding.add(served.desk, "waggler 4BB")
    with served.client() as client:
        asked = sent(client, "/stock/1/reword", words="3AA waggler")
        assert 'type="radio" name="answer0" value="waggler 3AAA straight"' in asked.text
        said = {"words": "3AA waggler", "asked": "3AA waggler", "answer0": "waggler 3AAA straight"}
        assert "It is put right." in sent(client, "/stock/1/reword", **said).text
        assert "is a float, no hook" in sent(client, "/stock/1/reword", words="hook 18").text
        anew = sent(client, "/stock/1/reword", words="hook 18", anew="1")
        assert anew.url.path == "/stock/2"
        assert "It is retired." in client.get("/stock/1").text
        assert "waggler 3AAA" in client.get("/stock?retired=1").text
        assert "waggler 3AAA" not in client.get("/stock").text
        assert "It is in use again." in sent(client, "/stock/1/unretire").text
        assert "It is retired" in sent(client, "/stock/1/retire").text
