"""A stock list from a spreadsheet, taken whole or not at all."""

import csv
from datetime import date
from io import StringIO
from pathlib import Path

import pytest

from tacklebox.errors import AskedWronglyError, ManyFaultsError
from tacklebox.stock.care.box import Box
from tacklebox.stock.care.waiting import Progress
from tacklebox.stock.csv_file import import_items
from tacklebox.stock.finding import load

DAY = date(2026, 3, 5)
CSV = """item,place,pack,price,keep,packs
hook 18 barbless,drawer 2,10,1.80,20,2
waggler 5BB insert,,,2.40,,
"""


@pytest.mark.parametrize(
    "data",
    [
        CSV.encode(),
        b"\xef\xbb\xbf" + CSV.replace("\n", "\r\n").encode(),
        CSV.replace(",", ";").replace("1.80", "1,80").encode("cp1252"),
    ],
)
def test_csv_as_spreadsheets_write_it(box: Box, tmp_path: Path, data: bytes) -> None:
    path = tmp_path / "stock.csv"
    path.write_bytes(data)
    import_items(box, path, DAY)
    with box.reading() as session:
        hook, float_ = load(session)
    assert (hook.on_hand, hook.minimum, hook.pack_price_cents) == (20, 20, 180)
    assert (float_.name, float_.on_hand) == ("waggler 5BB insert", 1)


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize("separator", [";", ",", "\t"])
@pytest.mark.parametrize(
    "encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-be", "utf-16-le", "cp1252"]
)
def test_csv_in_every_spelling(
    box: Box, tmp_path: Path, encoding: str, separator: str, end: str
) -> None:
    rows = [
        ["item", "name", "place", "pack", "price"],
        ["hook 18 barbless", 'Hook "fine"; für Döbel', "Fach 2 €", "10", "1,80"],
    ]
    text = StringIO(newline="")
    csv.writer(text, delimiter=separator, lineterminator=end).writerows(rows)
    mark = "\ufeff" if encoding in ("utf-16-be", "utf-16-le") else ""
    path = tmp_path / "stock.csv"
    path.write_bytes((mark + text.getvalue()).encode(encoding))
    (hook,) = import_items(box, path, DAY).added
    assert (hook.name, hook.place) == ('Hook "fine"; für Döbel', "Fach 2 €")
    assert (hook.on_hand, hook.pack_price_cents) == (10, 180)


GERMAN = """item;name;place;pack;price;minimum;packs
nylon 0,14 mm 1,9 kg;;Schublade ä;100 m;3,49;12,5 m;2
hook 18 barbless;5%;;10;1,80;20;3
"""


@pytest.mark.parametrize("encoding", ["utf-8-sig", "cp1252", "utf-16"])
def test_csv_of_a_country_of_decimal_commas(box: Box, tmp_path: Path, encoding: str) -> None:
    path = tmp_path / "stock.csv"
    path.write_bytes(GERMAN.encode(encoding))
    nylon, hook = import_items(box, path, DAY).added
    assert (nylon.words, nylon.on_hand, nylon.minimum) == ("nylon 0.14 mm 1.9 kg", 200_000, 12_500)
    assert (nylon.pack_price_cents, nylon.place) == (349, "Schublade ä")
    assert (hook.name, hook.on_hand, hook.pack_price_cents) == ("5%", 30, 180)


@pytest.mark.parametrize("end", ["\n", "\r"])
def test_csv_of_one_column_where_commas_are_decimal(box: Box, tmp_path: Path, end: str) -> None:
    """Nothing there parts cells."""
    path = tmp_path / "stock.csv"
    rows = ["item", "nylon 0,14 mm 1,9 kg 100 m", '"hook 18; barbless pack 10"', ""]
    path.write_bytes(end.join(rows).encode())
    added = import_items(box, path, DAY).added
    assert [item.words for item in added] == ["nylon 0.14 mm 1.9 kg", "hook 18 barbless"]


def test_what_may_be_thousands_is_asked(box: Box, tmp_path: Path) -> None:
    path = tmp_path / "stock.csv"
    path.write_text("item;amount\nnylon 0,14 mm 1,9 kg 100 m;1.000 m\n")
    with pytest.raises(ManyFaultsError, match=r'"1\.000" may be 1000 or 1'):
        import_items(box, path, DAY)


def test_a_long_list_says_how_far_it_is(
    box: Box, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    said: list[str] = []
    (tmp_path / "stock.csv").write_text(CSV)
    monkeypatch.setattr(Progress, "every_s", 0.0)
    import_items(box, tmp_path / "stock.csv", DAY, notice=said.append)
    assert said == ["Row 1 of 2…", "Row 2 of 2…"]


def test_csv_with_bad_rows_saves_none_and_lists_each(box: Box, tmp_path: Path) -> None:
    path = tmp_path / "stock.csv"
    path.write_text(
        "item,pack,keep\nhook 18,10,5\nhook 99,10,\nnylon 4 lbb,100 m,\nhook 16,10,few\n"
    )
    with pytest.raises(ManyFaultsError) as error:
        import_items(box, path, DAY)
    assert [str(fault).split(":")[0] for fault in error.value.faults] == [
        "line 3",
        "line 4",
        "line 5",
    ]
    with box.reading() as session:
        assert load(session) == []


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("itm,pack\n", 'Did you mean "item"?'),
        (f"{'x' * 4000},pack\n", f'"{"x" * 60}" is no column'),
        ("name,pack\n", 'no column "item"'),
        ("", 'no column "item"'),
        ('item\n"hook', "no CSV"),
        ("item,pack\nhook 18,10,x\n", "3 cells under 2"),
    ],
)
def test_csv_that_is_no_stock_list(box: Box, tmp_path: Path, text: str, expected: str) -> None:
    path = tmp_path / "stock.csv"
    path.write_text(text)
    with pytest.raises(AskedWronglyError, match=expected):
        import_items(box, path, DAY)
