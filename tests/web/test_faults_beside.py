"""Every fault stands beside its field, and what was typed stays in it."""

import re

import pytest

from tacklebox.cli.demo import STOCK
from tacklebox.desk import adding, reels, rigs, stock
from tests.web.conftest import Served, form_token

NONSENSE = "?!"
POLE = "/recipes/pole-canal-shot"
FALL = "/recipes/waggler-insert-bulk/fall"


@pytest.fixture
def filled(served: Served) -> Served:
    adding.import_csv(served.desk, STOCK)
    reels.add(served.desk, ["float reel"])
    rigs.add(served.desk, {"pole-canal-shot": "1"}, {})
    return served


def fault_beside(text: str, name: str) -> str:
    """The fault that stands in the field of that name or id, with what is typed there; "" for none."""
    fields = re.findall(r'<p class="field[^"]*">(?:(?!</p>).)*</p>', text, re.DOTALL)
    for one in fields:
        if re.search(rf'\b(?:name|id)="{re.escape(name)}"', one) and f'value="{NONSENSE}"' in one:
            said = re.search(r'<span class="fault"[^>]*>✗ ([^<]*)</span>', one)
            return said[1] if said else ""
    return ""


ASKED = (
    *((POLE, f"choose-{name}") for name in ("depth", "plumbed", "over")),
    (POLE, "count"),
    *((FALL, n) for n in ("choose-depth", "bait", "sinks", "fished", "wind", "away", "seconds")),
    *(("/labels", name) for name in ("code", "start", "skip")),
)
# By the address: the fields that hold nonsense, one after the other, and what else is sent.
WRITTEN: tuple[tuple[str, tuple[str, ...], dict[str, str]], ...] = (
    ("/stock/3/edit", ("pack", "price", "minimum"), {}),
    ("/rigs/add", ("on", "plumbed", "count"), {"recipe": "pole-canal-shot", "count": "1"}),
    ("/rigs/labels", ("start",), {"paper": "a4-65", "code-A01T": "1"}),
    (f"{POLE}/tie", ("tied",), {}),
    ("/reels/age", ("age-line on a reel",), {}),
)


def test_every_fault_stands_beside_its_field_with_what_was_typed(filled: Served) -> None:
    with filled.client() as client:
        for address, name in ASKED:
            asked = {"paper": "a4-65", "wait": "1", name: NONSENSE}
            answer = client.get(address, params=asked)
            assert answer.status_code == 400, (address, name)
            said = fault_beside(answer.text, name)
            assert said, (address, name)
            assert answer.text.count(said) == 1, (address, name)
        token = {"form_token": form_token(client.get("/stock").text)}
        for address, names, more in WRITTEN:
            for name in names:
                answer = client.post(address, data=token | more | {name: NONSENSE})
                assert answer.status_code == 400, (address, name)
                assert fault_beside(answer.text, name), (address, name)


# By the address: all its fields that hold nonsense at once.
TOGETHER = (
    ("/care/settings", ("copies", "sound_from", "doubtful_from")),
    ("/stock", ("words", "price")),
    ("/stock/3/edit", ("pack", "price", "minimum")),
    ("/stock/3/buy", ("packs", "price")),
    ("/stock/2/pull", ("reading", "knot")),
    ("/labels/papers", ("left", "top", "across", "down")),
)


def test_several_faults_of_a_form_stand_each_beside_its_field(filled: Served) -> None:
    with filled.client() as client:
        token = {"form_token": form_token(client.get("/stock").text), "paper": "a4-65"}
        for address, names in TOGETHER:
            answer = client.post(address, data=token | dict.fromkeys(names, NONSENSE))
            assert answer.status_code == 400, address
            said = [fault_beside(answer.text, name) for name in names]
            assert all(said), (address, said)
            assert answer.text.count("✗ ") == len(names) + 1  # with what all are of, at the head


def test_what_was_emptied_stays_empty_where_another_field_is_wrong(filled: Served) -> None:
    stock.edit(filled.desk, "3", place="drawer 9")
    with filled.client() as client:
        sent = {"form_token": form_token(client.get("/stock").text), "place": "", "price": NONSENSE}
        answer = client.post("/stock/3/edit", data=sent | {"was-place": "drawer 9"})
    assert 'name="place" type="text" value=""' in answer.text
