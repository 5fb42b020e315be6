"""Generated inputs: each reader gives a value or a documented error, soon, and in little memory."""

import json
import random
import resource
import time
import tomllib
from collections.abc import Callable, Sequence
from contextlib import suppress
from functools import partial
from pathlib import Path

import pytest

from tacklebox.datafiles import shipped_folder
from tacklebox.errors import AskedWronglyError
from tacklebox.printing.labels.papers import parse_paper
from tacklebox.rigs.recipes.file import parse_recipe
from tacklebox.stock.amounts import read_amount, read_price_cents
from tacklebox.stock.codes import ALPHABET, read_code
from tacklebox.stock.csv_file import COLUMNS, MOST_FAULTS, _new_item, _read_rows
from tacklebox.stock.dates import read_past_date
from tacklebox.stock.notation import read_notation
from tacklebox.trade import quantities as q
from tests.long.length import so_many
from tests.rigs.boxes import DAY

INPUTS = so_many(100_000, 400)
LONGEST_S, MOST_GROWTH_KB = 1.0, 200_000

WORDS = (
    "nylon fluorocarbon braid hook hooks size barbless spade waggler insert pole shot AAA No tin "
    "lead feeder cage method swivel link elastic winder olivette bead pack packs card of x × mm cm "
    "m in ft kg lb oz g ml to at least most – - . , / 4 18 0.14 1/2 1e9 0 -1 99999999999 ½ 4×12 5BB"
).split()
KEYS = ("name", "for", "is", "at", "on", "of", "length", "size", "usual", "count", "there", "x")
SPOILERS = ("[", "]", '"', "\n", "= 1\n", "\0", "{", "'" * 3, "[[part]]\n", "#", "e999", "\ud7ff")


class Inputs:
    """Inputs by chance, the same for the same seed: words of the trade, any text, spoiled files."""

    def __init__(self, seed: int) -> None:
        self.dice = random.Random(seed)

    def number(self) -> str:
        """Whole, broken, huge, or no number at all."""
        dice = self.dice
        made = dice.randrange(4)
        if made == 0:
            return str(dice.randint(-(10**12), 10**12))
        if made == 1:
            return f"{dice.randint(0, 9999)}/{dice.randint(0, 999)}"
        if made == 2:
            return repr(dice.uniform(-1, 1) * 10.0 ** dice.randint(-320, 308))
        return dice.choice(
            ["inf", "-inf", "nan", "1_0", "٣", "²", "1,2,3", "..", "0x10", "9" * 400]
        )

    def any_text(self, longest: int) -> str:
        """Characters from plain to odd."""
        dice = self.dice
        end = dice.choice([0x7F, 0x7F, 0x2FF, 0xD7FF])
        return "".join(chr(dice.randint(0, end)) for _ in range(dice.randint(0, longest)))

    def text(self) -> str:
        """Something like what an angler types, or nothing like it."""
        dice = self.dice
        made = dice.randrange(10)
        if made < 7:
            pieces = []
            for _ in range(dice.randint(0, 12)):
                kind = dice.randrange(6)
                word = self.number() if kind == 0 else self.any_text(6) if kind == 1 else ""
                pieces.append(word or dice.choice(WORDS))
            return (" " if made < 5 else "").join(pieces)
        if made < 9:
            return self.any_text(60)
        return self.any_text(8) * dice.choice([50, 200, 5000])

    def spoiled(self, files: Sequence[str]) -> str:
        """A shipped file, spoiled here and there; most remain TOML."""
        text = self.dice.choice(files)
        for _ in range(self.dice.randint(1, 4)):
            text = self.cut(text) if self.dice.randrange(5) == 0 else self.said_otherwise(text)
        return text

    def cut(self, text: str) -> str:
        """A piece cut out, doubled or written over."""
        dice = self.dice
        start = dice.randint(0, len(text))
        end = start + dice.randint(0, 30)
        doubled = text[start:end] * 2
        piece = dice.choice(["", doubled, dice.choice(SPOILERS), self.text()[:400]])
        return text[:start] + piece + text[end:]

    def said_otherwise(self, text: str) -> str:
        """A line left out, doubled, put elsewhere, or with another key or value."""
        dice = self.dice
        lines = text.split("\n")
        at = dice.randrange(len(lines))
        key, equals, value = lines[at].partition(" = ")
        made = dice.randrange(5) if equals else dice.randrange(3)
        if made < 3:
            line = lines.pop(at)
            for _ in range(made):
                lines.insert(dice.randint(0, len(lines)), line)
        elif made == 3:
            lines[at] = f"{dice.choice(KEYS)}{equals}{value}"
        else:
            quoted = json.dumps(self.text()[:500].replace("\x7f", ""))
            others = [quoted, quoted, self.number(), "true", "[]", "{}", "1979-05-27", '["a", 1]']
            lines[at] = f"{key}{equals}{dice.choice(others)}"
        return "\n".join(lines)

    def code(self) -> str:
        """Characters that codes are of, and those that are mistaken for them."""
        known = ALPHABET + "oOiIsS- "
        return "".join(self.dice.choice(known) for _ in range(self.dice.randint(0, 14)))

    def date(self) -> str:
        """Nearly a date."""
        dice = self.dice
        between = dice.choice(["-", "-", "/", ".", ""])
        parts = (dice.randint(0, 9999), dice.randint(0, 13), dice.randint(0, 32))
        return between.join(f"{part:02}" for part in parts)

    def table(self) -> bytes:
        """Something like a CSV, or any bytes."""
        dice = self.dice
        if dice.randrange(3) == 0:
            return dice.randbytes(dice.randint(0, 300))
        cells = ["hook 18", "", '"', *COLUMNS]
        rows = [dice.choice([["item"], ["item", "name", "pack"], ["item", "amount", "price"]])]
        for _ in range(dice.randint(0, 6)):
            width = dice.randint(0, 8)
            rows.append([dice.choice([dice.choice(cells), self.text()]) for _ in range(width)])
        between = dice.choice(",;\t")
        text = dice.choice(["\n", "\r\n", "\r"]).join(between.join(row) for row in rows)
        coding = dice.choice(["utf-8", "utf-8-sig", "utf-16", "cp1252"])
        return text.encode(coding, errors="replace")


def shipped(kind: str) -> list[str]:
    return [p.read_text(encoding="utf-8") for p in sorted(shipped_folder(kind).glob("*.toml"))]


def test_spoiled_files_reach_the_model() -> None:
    """Else the readers of recipes and papers would be shown broken TOML alone."""
    inputs, answer = Inputs(7), []
    for _ in range(300):
        try:
            tomllib.loads(inputs.spoiled(RECIPES))
            answer.append("TOML")
        except ValueError:
            answer.append("none")
    assert 60 < answer.count("TOML") < 280


RECIPES, PAPERS = shipped("recipes"), shipped("labels")


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
    answer = "a value"
    try:
        reader(text)
    except AskedWronglyError as error:
        answer = str(error)
    assert answer


def mostly(often: Callable[[Inputs], str]) -> Callable[[Inputs], str]:
    """The inputs made for a reader, and one in five any text."""
    return lambda made: often(made) if made.dice.randrange(5) else made.text()


READERS: dict[str, tuple[Callable[[str], object], Callable[[Inputs], str]]] = {
    "notation": (read_notation, Inputs.text),
    "amounts": (amounts, mostly(Inputs.number)),
    "recipe": (lambda text: parse_recipe(text, "mine"), mostly(lambda i: i.spoiled(RECIPES))),
    "paper": (lambda text: parse_paper(text, "mine"), mostly(lambda i: i.spoiled(PAPERS))),
    "code": (read_code, mostly(Inputs.code)),
    "date": (lambda text: read_past_date(text, DAY), mostly(Inputs.date)),
}


def memory_kb() -> int:
    """The most memory that the process held since it was last asked from anew."""
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss


def from_anew() -> int:
    """What it holds now; without this, what an earlier test held would hide what a reader takes."""
    with suppress(OSError):
        Path("/proc/self/clear_refs").write_text("5")  # see proc(5)
    return memory_kb()


def in_time(read: Callable[[], object], shown: object) -> float:
    """Seconds that it took; a failure shows the input."""
    begun = time.process_time()
    try:
        read()
    except Exception as error:
        raise AssertionError(f"{error!r} for {shown!r:.2000}") from error
    took = time.process_time() - begun
    assert took < LONGEST_S, f"{took:.2f} s for {shown!r:.2000}"
    return took


@pytest.mark.long
@pytest.mark.parametrize("name", READERS)
def test_reader_gives_only_documented_errors(name: str) -> None:
    reader, make = READERS[name]
    inputs, before, longest = Inputs(7), from_anew(), 0.0
    for _ in range(INPUTS):
        text = make(inputs)
        longest = max(longest, in_time(partial(only_documented, reader, text), text))
    grown = memory_kb() - before
    assert grown < MOST_GROWTH_KB
    print(
        f"{name}: {INPUTS} inputs, longest {longest:.3f} s, memory grown by {grown / 1024:.0f} MB"
    )


@pytest.mark.long
def test_csv_gives_only_documented_errors(tmp_path: Path) -> None:
    path = tmp_path / "stock.csv"

    def items(_: str) -> None:
        for row in _read_rows(path)[: 4 * MOST_FAULTS]:  # an import stops at so many bad ones
            only_documented(lambda _, row=row: _new_item(row.cells), "")  # type: ignore[misc]

    read_notation("18s spade, 2 packets")  # the rules are read in once, and that is not timed
    inputs, before, longest = Inputs(7), from_anew(), 0.0
    for _ in range(INPUTS):
        data = inputs.table()
        path.write_bytes(data)
        longest = max(longest, in_time(partial(only_documented, items, ""), data))
    grown = memory_kb() - before
    assert grown < MOST_GROWTH_KB
    print(f"CSV: {INPUTS} inputs, longest {longest:.3f} s, memory grown by {grown / 1024:.0f} MB")


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


def test_a_link_out_of_the_folder_is_not_followed(tmp_path: Path) -> None:
    from tacklebox.datafiles import DataFiles

    own = tmp_path / "recipes"
    own.mkdir()
    (tmp_path / "secret.toml").write_text("secret")
    (own / "mine.toml").symlink_to(tmp_path / "secret.toml")
    (own / "other.toml").write_text("shared")
    (own / "same.toml").symlink_to(own / "other.toml")
    files = DataFiles("recipes", "recipe", own)
    with pytest.raises(AskedWronglyError, match=r"^mine\.toml: this is a link to a file outside"):
        files.read("mine")
    assert files.read("same") == ("same", "shared")
    own.rename(tmp_path / "moved")  # the folder itself may be a link, as in a synced box
    own.symlink_to(tmp_path / "moved")
    assert files.read("other") == ("other", "shared")


@pytest.mark.parametrize("line", ["strain", "str", "'dict['", "shot = [{str = 1}]\nx"])
def test_an_unknown_key_of_any_name_is_told(line: str) -> None:
    with pytest.raises(AskedWronglyError, match=r"is no key of a recipe"):
        parse_recipe(f'name = "x"\n{line} = "1"\n', "mine")
