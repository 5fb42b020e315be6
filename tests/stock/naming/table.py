"""The table of phrases, read; and what its figures are in SI, apart from the tool's own factors."""

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

import pytest

from tacklebox.errors import AskedWronglyError
from tacklebox.stock.naming.described import Described, Figure
from tacklebox.stock.tables import UNMARKED

TABLES = [
    Path(__file__).with_name(name)
    for name in ("phrases.txt", "how_much.txt", "beside.txt", "clauses.txt", "either.txt")
]
# Factors to mm, g and kg: NIST SP 811, appendix B.
MM = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4, "ft": 304.8, "yd": 914.4, "thou": 0.0254}
G = {"g": 1.0, "lb": 453.59237, "oz": 28.349523125, "dram": 28.349523125 / 16, "mg": 0.001}
KG = {"kg": 1.0, "g": 0.001, "lb": 0.45359237, "oz": 0.028349523125}
MEASURED = {
    **dict.fromkeys(("diameter", "length", "width", "tip diameter", "tip length", "pack"), MM),
    "mass": G,
    "strain": KG,
}
FIRST_WORDS = {
    "hooks to nylon": "hooklength",
    "shot": "weight",
    "olivette": "weight",
    "styl": "weight",
    "bomb": "feeder",
}
FORMS = ("shot", "olivette", "styl")


@dataclass(frozen=True)
class Phrase:
    """One line of the table."""

    section: str
    said: str
    expected: str

    def figures(self) -> dict[str, str]:
        """The figures that are expected, as words; assumed ones in brackets."""
        first, *rest = (part.strip() for part in self.expected.split(";"))
        found = {"kind": FIRST_WORDS.get(first, first)}
        if first in FORMS:
            found["form"] = first
        for part in rest:
            bare = part.strip("()")
            key = next((k for k in ("tip diameter", "tip length") if bare.startswith(k)), None)
            key = key or bare.split(" ")[0]
            value = bare.removeprefix(key).strip()
            found[key] = f"({value})" if part.startswith("(") else value
        for derived in ("carries", "weighs"):
            found.pop(derived, None)
        return found


def figures_of(made: Described) -> dict[str, str]:
    """What was read, in the words of the table."""
    found = {"kind": str(made.kind)}
    every = {**made.figures, **({"pack": made.pack} if made.pack else {})}
    for key, figure in every.items():
        found[key] = f"({figure.words})" if figure.because else figure.words
    if made.packs is not None:
        found["packs"] = str(made.packs)
    if made.count is not None:
        found["count"] = str(made.count)
    if made.left is not None:
        found["left"] = made.left.words
    if made.price_cents is not None:
        found["price"] = f"{made.price_cents / 100:.2f}"
    if made.note:
        found["note"] = made.note
    return found


def in_si(kind: str, key: str, figure: Figure) -> None:
    """The value agrees with the words, by factors that are not the tool's."""
    units = MEASURED.get(key)
    if units is None or kind == "elastic":
        return
    if figure.words == UNMARKED:
        assert (kind, key) == ("feeder", "mass")
        return
    total, words = 0.0, figure.words.split()
    number: list[str] = []
    for word in words:
        if word in units:
            total += float(sum(Fraction(part) for part in number)) * units[word]
            number = []
        else:
            number.append(word)
    assert not number
    assert figure.value == pytest.approx(total)


def _read() -> list[Phrase]:
    phrases, section = [], ""
    for line in (line for one in TABLES for line in one.read_text(encoding="utf-8").splitlines()):
        if line.startswith("["):
            section = line.strip("[]")
        elif " -> " in line and not line.startswith("#"):
            said, expected = line.split(" -> ", 1)
            phrases.append(Phrase(section, said.strip(), expected.strip()))
    return phrases


PHRASES = _read()
# The phrases are a thousand: a test of each would take as long to be told of as to run.
SECTIONS = list(dict.fromkeys(phrase.section for phrase in PHRASES))


def faults_in(section: str, check: Callable[[Phrase], None]) -> dict[str, str]:
    """The phrases of a section that the check does not hold for, and why."""
    faults = {}
    for phrase in PHRASES:
        if phrase.section == section:
            try:
                check(phrase)
            except (AssertionError, AskedWronglyError, pytest.fail.Exception) as fault:
                faults[phrase.said] = str(fault)
    return faults
