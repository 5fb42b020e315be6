"""Generated inputs: each reader gives a value or a documented error, soon, and in little memory."""

import resource
import time
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from tacklebox.datafiles import shipped_folder
from tacklebox.errors import AskedWronglyError
from tacklebox.printing.papers import parse_paper
from tacklebox.rigs.codes import ALPHABET, read_code
from tacklebox.rigs.recipe import parse_recipe
from tacklebox.stock.csvfile import _new_item, _read_rows
from tacklebox.stock.dates import read_past_date
from tacklebox.stock.ledger import read_amount, read_price_cents
from tacklebox.stock.notation import read_notation
from tacklebox.trade import quantities as q
from tests.long.length import so_many
from tests.rigs.boxes import DAY

INPUTS = so_many(100_000, 150)
LONGEST_S, MOST_GROWTH_KB = 1.0, 200_000

WORDS = (
    "nylon fluorocarbon braid hook hooks size barbless spade waggler insert pole shot AAA No tin "
    "lead feeder cage method swivel link elastic winder olivette bead pack packs card of x × mm cm "
    "m in ft kg lb oz g ml to at least most – - . , / 4 18 0.14 1/2 1e9 0 -1 99999999999 ½ 4×12 5BB"
).split()
number = st.one_of(
    st.integers(-(10**12), 10**12).map(str), st.floats().map(str), st.from_regex(r"\d{1,4}/\d{1,3}")
)
said = st.lists(st.sampled_from(WORDS) | number | st.text(max_size=6), max_size=12).map(" ".join)
glued = st.lists(st.sampled_from(WORDS) | number, max_size=6).map("".join)
texts = (
    said
    | glued
    | st.text(max_size=60)
    | st.text(min_size=1, max_size=8).map(lambda piece: piece * 200)
)


def shipped(kind: str) -> list[str]:
    return [p.read_text(encoding="utf-8") for p in sorted(shipped_folder(kind).glob("*.toml"))]


@st.composite
def spoiled(draw: st.DrawFn, files: list[str]) -> str:
    """A shipped file of which some pieces are cut out, doubled or written over."""
    text = draw(st.sampled_from(files))
    for _ in range(draw(st.integers(1, 4))):
        start = draw(st.integers(0, len(text)))
        end = start + draw(st.integers(0, 30))
        piece = draw(st.sampled_from(["", text[start:end] * 2, "[", '"', "\n", "= 1\n"]) | texts)
        text = text[:start] + piece + text[end:]
    return text


CELLS = st.sampled_from([*"item name place pack price keep packs amount".split(), "", "hook 18"])


@st.composite
def tables(draw: st.DrawFn) -> bytes:
    """Something like a CSV, or any bytes."""
    if draw(st.booleans()):
        return draw(st.binary(max_size=300))
    between = draw(st.sampled_from([",", ";", "\t"]))
    end = draw(st.sampled_from(["\n", "\r\n", "\r"]))
    rows = draw(st.lists(st.lists(CELLS | texts, max_size=8), max_size=6))
    heading = draw(st.sampled_from([["item"], ["item", "name", "pack"], ["item", "amount"]]))
    text = end.join(between.join(row) for row in [heading, *rows])
    return text.encode(draw(st.sampled_from(["utf-8", "utf-8-sig", "utf-16"])), errors="replace")


def amounts(text: str) -> None:
    for reader in (
        q.read_length_mm,
        q.read_diameter_mm,
        q.read_strain_kg,
        q.read_mass_g,
        q.read_volume_ml,
        q.read_number,
        lambda t: q.read_range(t, q.read_length_mm),
        lambda t: read_amount(t, True),
        lambda t: read_amount(t, False),
        read_price_cents,
    ):
        only_documented(reader, text)


def only_documented(reader: Callable[[str], object], text: str) -> None:
    """The reader gives a value, or says what was wrong."""
    told = "a value"
    try:
        reader(text)
    except AskedWronglyError as error:
        told = str(error)
    assert told


READERS: dict[str, tuple[Callable[[str], object], st.SearchStrategy[str]]] = {
    "notation": (read_notation, texts),
    "amounts": (amounts, texts | number),
    "recipe": (lambda text: parse_recipe(text, "mine"), spoiled(shipped("recipes")) | texts),
    "paper": (lambda text: parse_paper(text, "mine"), spoiled(shipped("labels")) | texts),
    "code": (read_code, texts | st.text(ALPHABET + "oOiIsS- ", max_size=14)),
    "date": (
        lambda text: read_past_date(text, DAY),
        texts | st.from_regex(r"[12]\d{3}-?[W\d]\d-?\d\d"),
    ),
}


def memory_kb() -> int:
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss


def in_time(reader: Callable[[str], object], text: str) -> None:
    begun = time.process_time()
    only_documented(reader, text)
    assert time.process_time() - begun < LONGEST_S


@pytest.mark.long
@pytest.mark.parametrize("name", READERS)
def test_reader_gives_only_documented_errors(name: str) -> None:
    reader, inputs = READERS[name]

    @given(inputs)
    @settings(
        max_examples=INPUTS,
        deadline=None,
        database=None,
        phases=[Phase.generate, Phase.shrink],
        suppress_health_check=list(HealthCheck),
    )
    def read(text: str) -> None:
        in_time(reader, text)

    before = memory_kb()
    read()
    assert memory_kb() - before < MOST_GROWTH_KB


@pytest.mark.long
def test_csv_gives_only_documented_errors(tmp_path: Path) -> None:
    path = tmp_path / "stock.csv"

    def items(_: str) -> None:
        for row in _read_rows(path):
            only_documented(lambda _, row=row: _new_item(row.cells), "")  # type: ignore[misc]

    @given(tables())
    @settings(
        max_examples=INPUTS,
        deadline=None,
        database=None,
        phases=[Phase.generate, Phase.shrink],
        suppress_health_check=list(HealthCheck),
    )
    def read(data: bytes) -> None:
        path.write_bytes(data)
        in_time(items, "")

    before = memory_kb()
    read()
    assert memory_kb() - before < MOST_GROWTH_KB


@pytest.mark.parametrize("name", ["../x", "/etc/passwd", "a/b", "..", "x\0", ".hidden", "a" * 999])
def test_no_name_leaves_the_folder(name: str, tmp_path: Path) -> None:
    from tacklebox.datafiles import DataFiles

    (tmp_path / "x.toml").write_text("secret")
    with pytest.raises(AskedWronglyError, match="is no recipe name"):
        DataFiles("recipes", "recipe", tmp_path / "recipes").read(name)


def test_a_long_file_is_not_read(tmp_path: Path) -> None:
    from tacklebox.datafiles import DataFiles

    (tmp_path / "mine.toml").write_text("#" * 70_000)
    with pytest.raises(AskedWronglyError, match="over 64 kB"):
        DataFiles("recipes", "recipe", tmp_path).read("mine")
