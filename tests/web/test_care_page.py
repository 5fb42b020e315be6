"""Care on its page: what is set, copies made and put back, an export read in again; and what is refused."""

import io
import zipfile
from pathlib import Path
from random import Random

import httpx
import pytest

from tacklebox.desk import adding, care, copies, settings, stock
from tacklebox.errors import AskedWronglyError
from tacklebox.web import unpacking
from tacklebox.web.entry import FIELD, KEY
from tests.cli.runs import run
from tests.web.conftest import Served, form_token, serving


def sent(client: httpx.Client, path: str, **fields: str) -> httpx.Response:
    return client.post(path, data={FIELD: form_token(client.get("/care").text), **fields})


def test_a_folder_is_set_copied_to_and_put_back(served: Served, tmp_path: Path) -> None:
    stick = tmp_path / "stick"
    stick.mkdir()
    adding.add(served.desk, "hook 18 barbless spade pack 10")
    with served.client() as client:
        wrong = sent(client, "/care/settings", copies=str(tmp_path / "none"), paper="")
        assert wrong.status_code == 400
        assert "is no folder" in wrong.text
        chosen = sent(client, "/care/settings", sound_from="", doubtful_from="none", units="metric")
        assert 'value="metric" selected' in chosen.text
        assert "Set." in sent(client, "/care/settings", copies=str(stick), paper="a4-65").text
        stale = {"was-copies": "", "was-paper": "", "copies": "", "paper": "", "sound_from": "95"}
        sent(client, "/care/settings", **stale)  # a page from before: what it did not change stays
        now = settings.settings(served.desk)
        assert (now.copies, now.paper, now.sound_from) == (str(stick), "a4-65", "95")
        key = {KEY: "pressed-twice"}
        assert "Copied." in sent(client, "/care/copy", **key).text
        assert "Copied." in sent(client, "/care/copy", **key).text  # one copy, as is seen below
        stock.take(served.desk, "1", "4")
        (copy,) = copies.to_put_back(served.desk)
        refused = sent(client, "/care/restore", copy=str(copy.path))
        assert refused.status_code == 400
        assert "the box holds what the copy does not" in refused.text
        assert "not there any more" in sent(client, "/care/restore", copy="/etc/passwd").text
        done = sent(client, "/care/restore", copy=str(copy.path), agree="1")
        assert "The copy is put back" in done.text
        assert stock.show(served.desk, "1").item.on_hand.value == 10
        assert "The last copy to" in client.get("/").text


def test_pages_and_commands_tell_in_the_units_that_are_set(served: Served) -> None:
    adding.add(served.desk, "nylon 0.14 mm 4 lb 100 m")
    stock.take(served.desk, "1", "10 m")
    with served.client() as client:
        assert "90 m" in client.get("/stock").text
        assert "Set." in sent(client, "/care/settings", units="imperial").text
        assert '<option value="imperial" selected>' in client.get("/care").text
        page = client.get("/stock").text
        assert "98.4 yd" in page
        assert "nylon 0.14 mm" in page
        assert "4 lb" in page
        box = served.desk.box.folder
        assert "98.4 yd" in run("stock", "show", "1", box=box).stdout
        assert "units told first  metric" in run("settings", "--units", "kg", box=box).stdout
        assert "90 m" in client.get("/stock").text
        wrong = sent(client, "/care/settings", units="stones")
        assert wrong.status_code == 400


def test_an_export_is_read_into_an_empty_box(served: Served, tmp_path: Path) -> None:
    adding.add(served.desk, "hook 18 barbless spade pack 10")
    with served.client() as client:
        packed = client.get("/care/export.zip").content
        assert "Read an export in" not in client.get("/care").text
    with serving(tmp_path / "other") as other, other.client() as client:
        token = form_token(client.get("/care").text)
        for data, fault in (
            (b"", "cannot be unpacked"),
            (_zip({"evil.txt": b""}), "no export has"),
        ):
            answer = client.post(
                "/care/import", data={FIELD: token}, files={"file": ("e.zip", data)}
            )
            assert answer.status_code == 400
            assert answer.text.count(fault) == 1  # beside its field, and not again
        done = client.post("/care/import", data={FIELD: token}, files={"file": ("e.zip", packed)})
        assert "read in" in done.text
        assert care.audit(other.desk).in_order
        assert [row.words for row in stock.listed(other.desk).items] == ["hook 18 barbless spade"]


def _zip(files: dict[str, bytes], by: int = zipfile.ZIP_DEFLATED) -> bytes:
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", by) as archive:
        for name, data in files.items():
            archive.writestr(name, data)
    return packed.getvalue()


@pytest.mark.parametrize(
    "name",
    ["../item.csv", "/item.csv", "a/../../item.csv", "recipes/../item.csv", "a/b/c.csv",
     "recipes/.hidden.toml", "a\\item.csv", "item.csv\x00.png", "matches/x.csv/y.toml"],
)  # fmt: skip
def test_no_name_leaves_the_folder(tmp_path: Path, name: str) -> None:
    folder = tmp_path / "in"
    folder.mkdir()
    with pytest.raises(AskedWronglyError):
        unpacking.unpack(_zip({name: b"x", "../../out.csv": b"x"}), folder)
    assert [p.name for p in tmp_path.rglob("*") if p.is_file()] in ([], ["item.csv"])
    assert {p.name for p in tmp_path.iterdir()} == {"in"}


def test_what_unpacks_to_too_much_is_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(unpacking, "MOST_UNPACKED", 1000)
    monkeypatch.setattr(unpacking, "MOST_FILES", 3)
    unpacking.unpack(_zip({"box.toml": b"x" * 900}), tmp_path)
    with pytest.raises(AskedWronglyError, match="more than an export"):
        unpacking.unpack(_zip({"a.csv": b"x" * 600, "b.csv": b"x" * 600}), tmp_path)
    with pytest.raises(AskedWronglyError, match="too many files"):
        unpacking.unpack(_zip({f"{n}.csv": b"" for n in "abcd"}), tmp_path)


@pytest.mark.parametrize("by", [zipfile.ZIP_DEFLATED, zipfile.ZIP_BZIP2, zipfile.ZIP_LZMA])
def test_bytes_that_came_damaged_are_refused(tmp_path: Path, by: int) -> None:
    whole, chance = (
        _zip({"item.csv": b"hook 18,10\n" * 99, "box.toml": b"version = 1"}, by),
        Random(3),
    )
    refused = 0
    for at in range(len(whole)):
        damaged = bytearray(whole)
        damaged[at] ^= chance.randrange(1, 256)
        try:
            unpacking.unpack(bytes(damaged), tmp_path)
        except AskedWronglyError:
            refused += 1
    assert refused > len(whole) / 2  # of the rest are times and notes


def test_an_export_may_have_own_files_of_every_kind(tmp_path: Path) -> None:
    from tacklebox.boxfolder import KINDS

    unpacking.unpack(_zip({f"{kind}/mine.toml": b"x" for kind in KINDS}), tmp_path)
    assert {path.parent.name for path in tmp_path.rglob("mine.toml")} == set(KINDS)
